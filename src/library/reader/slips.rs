//! Slips of the pen in YAML: from what the parser stumbled over to what was probably meant.
//! Never parses and never changes a text; it looks at the lines about the place, says one next step and,
//! where only one correction can be meant, which.

mod quotes;

use crate::library::keys;
use quotes::{bracket, quote, quote_of_another_line};

/// A slip: where it was made, what it is, what to do.
#[derive(Debug, PartialEq, Eq)]
pub struct Slip {
    /// The byte at which the slip was made.
    pub at: usize,
    /// How many bytes to point at.
    pub length: usize,
    /// What it is.
    pub headline: String,
    /// One next step.
    pub help: String,
    /// Where only one correction can be meant: from which byte, to which, by what.
    pub mend: Option<(usize, usize, String)>,
}

impl Slip {
    fn new(at: usize, words: &str, headline: String, help: impl Into<String>) -> Slip {
        Slip { at, length: words.len(), headline, help: help.into(), mend: None }
    }

    /// With its correction: `words` in the place of what stands from `from` to `to`.
    fn mended(self, from: usize, to: usize, words: impl Into<String>) -> Slip {
        Slip { mend: Some((from, to, words.into())), ..self }
    }
}

/// A line of the text.
#[derive(Clone, Copy)]
struct Line<'y> {
    /// Its first byte.
    start: usize,
    /// It without its end.
    text: &'y str,
}

impl<'y> Line<'y> {
    fn indent(self) -> usize {
        self.text.len() - self.text.trim_start().len()
    }

    /// What stands in it, without a dash in front, and from which byte on.
    fn words(self) -> (&'y str, usize) {
        let trimmed = self.text.trim_start();
        let bare = trimmed.strip_prefix("- ").map_or(trimmed, str::trim_start);
        (bare.trim_end(), self.start + self.text.len() - bare.len())
    }

    fn is_item(self) -> bool {
        self.text.trim_start().starts_with('-')
    }

    /// The key of `key: value` and the value.
    fn key_and_value(self) -> Option<(&'y str, &'y str)> {
        let (words, _) = self.words();
        let (key, value) = words.split_once(':')?;
        let plain = !key.is_empty() && !key.contains([' ', '"', '\'', '{', '[']);
        (plain && (value.is_empty() || value.starts_with(' '))).then_some((key, value.trim()))
    }
}

/// The slip behind a parser's complaint at a byte, where one can be made out.
pub fn slip(yaml: &str, at: usize, message: &str) -> Option<Slip> {
    let lines = lines(yaml);
    let number = lines.iter().rposition(|line| line.start <= at)?;
    let (above, line) = (above(&lines, number), lines[number]);
    let quote = || quote(yaml, at);
    if message.contains("unclosed quote") || message.contains("trailing content") {
        return quote();
    }
    if message.contains("unexpected character") {
        return bad_start(line, at);
    }
    if message.contains("misplaced bracket") {
        return too_many(line, at);
    }
    let starts_badly = ["sequence entries are not allowed", "block scalar"];
    if starts_badly.iter().any(|words| message.contains(words)) {
        return bad_start(line, at);
    }
    if message.contains("did not find expected ',' or") {
        return no_comma(line, at).or_else(|| bracket(&lines, number, yaml));
    }
    let bracket = || bracket(&lines, number, yaml);
    if message.contains("unclosed bracket") || message.contains("only valid inside a block") {
        return bracket();
    }
    let found = left_behind(&lines, number).or_else(|| bullet(yaml, at));
    let found = found.or_else(|| quote_of_another_line(yaml, at));
    let found = found.or_else(|| no_space_after_dash(line));
    let found = found.or_else(|| key_without_colon(line)).or_else(|| indented(line, above));
    if message.contains("mapping values are not allowed") {
        let above = above.and_then(|above| glued_above(above).or_else(|| key_alone(above, line)));
        return found.or(above).or_else(|| Some(two_colons(line, at)));
    }
    let out = || out_of_line(line, above, message);
    found.or_else(|| goes_on(line, above)).or_else(out).or_else(bracket)
}

fn lines(yaml: &str) -> Vec<Line<'_>> {
    let mut start = 0;
    let line = |whole: &'_ str| {
        let line = (start, whole.len());
        start += whole.len();
        line
    };
    let spans: Vec<(usize, usize)> = yaml.split_inclusive('\n').map(line).collect();
    let text = |(start, length): (usize, usize)| Line {
        start,
        text: yaml[start..start + length].trim_end_matches(['\n', '\r']),
    };
    spans.into_iter().map(text).collect()
}

/// The nearest line above in which something stands.
fn above<'y>(lines: &[Line<'y>], number: usize) -> Option<Line<'y>> {
    let written = |line: &&Line<'_>| {
        let text = line.text.trim();
        !text.is_empty() && !text.starts_with('#') && text != "---"
    };
    lines[..number].iter().rev().find(written).copied()
}

/// Whether a word is a key, at the start of a line one of a whole file.
fn is_key(word: &str, indent: usize) -> bool {
    // What stands at the start of a line in `words/` is an id.
    let whole = |kind: &keys::FileKind| match kind.shape {
        keys::Shape::Map(table) => Some(table),
        _ => None,
    };
    match indent {
        0 => keys::FILE_KINDS.iter().filter_map(whole).any(|table| table.key(word).is_some()),
        _ => keys::tables().iter().any(|table| table.key(word).is_some()),
    }
}

/// `standard Arms straight`, `standard:Arms straight`, `pace = 3 s`.
fn key_without_colon(line: Line<'_>) -> Option<Slip> {
    let (words, at) = line.words();
    let end = words.find([' ', ':', ';', '=', '{', '[']).unwrap_or(words.len());
    let (key, rest) = words.split_at(end);
    let after = rest.trim_start();
    let value = after.trim_start_matches([':', ';', '=']).trim_start();
    let known = is_key(key, line.indent());
    let right = |value: &str| match value {
        "" => format!("write `{key}:`"),
        value => format!("write `{key}: {}`", short(value)),
    };
    if rest.starts_with(':')
        && !rest.starts_with(": ")
        && rest.len() > 1
        && !rest.starts_with("://")
    {
        let headline = format!("no space stands after `{key}:`");
        let colon = at + key.len() + 1;
        return Some(Slip::new(at, key, headline, right(value)).mended(colon, colon, " "));
    }
    // `lean {unit: deg}`: whatever the key is called, a bracket cannot follow it without a colon.
    let opens = rest.starts_with(' ') && after.starts_with(['{', '[']);
    let lacks = !rest.starts_with(':') && (known || opens) && !key.is_empty();
    lacks.then(|| {
        let wrong = match after.chars().next() {
            Some('=') => "an equals sign",
            Some(';') => "a semicolon",
            _ => "no colon",
        };
        let from = at + key.len();
        let to = from + rest.len() - value.len();
        let colon = if value.is_empty() { ":" } else { ": " };
        let slip = Slip::new(at, key, format!("{wrong} stands after `{key}`"), right(value));
        slip.mended(from, to, colon)
    })
}

/// Signs that a word processor puts before the items of a list.
const BULLETS: [&str; 5] = ["* ", "• ", "– ", "— ", "+ "];

/// An item that begins with another sign than a dash; a text in stars.
pub fn bullet(yaml: &str, at: usize) -> Option<Slip> {
    let lines = lines(yaml);
    let here = lines.iter().rposition(|line| line.start <= at)?;
    // Such an item may be taken for more of the text above it, and only the next line be refused.
    for number in [Some(here), here.checked_sub(1)].into_iter().flatten() {
        let line = lines[number];
        let text = line.text.trim_start();
        let first = line.start + line.indent();
        if let Some(sign) = BULLETS.into_iter().find(|sign| text.starts_with(*sign)) {
            let sign = sign.trim();
            let headline = format!("an item of a list starts with a dash, not with `{sign}`");
            let help = format!("write `- {}`", short(text[sign.len()..].trim()));
            let slip = Slip::new(first, sign, headline, help);
            return Some(slip.mended(first, first + sign.len(), "-"));
        }
    }
    let rest = lines[here].text.get(at.checked_sub(lines[here].start)?..)?.trim_end();
    let is_text =
        rest.starts_with('*') && (rest.contains(' ') || rest.len() > 2 && rest.ends_with('*'));
    is_text.then(|| bad_start(lines[here], at))?
}

/// `name:Strap row` above a line that is refused because of it.
fn glued_above(above: Line<'_>) -> Option<Slip> {
    let slip = key_without_colon(above)?;
    slip.headline.starts_with("no space").then_some(slip)
}

/// A word alone, with keys below it that are further in.
fn key_alone(above: Line<'_>, line: Line<'_>) -> Option<Slip> {
    let (word, at) = above.words();
    let plain = word.chars().all(|c| c.is_ascii_alphanumeric() || c == '-');
    (plain && !word.is_empty() && above.indent() < line.indent()).then(|| {
        let headline = format!("no colon stands after `{word}`");
        let slip = Slip::new(at, word, headline, format!("write `{word}:`"));
        slip.mended(at + word.len(), at + word.len(), ":")
    })
}

/// A bracket that nothing opened.
fn too_many(line: Line<'_>, at: usize) -> Option<Slip> {
    let sign = line.text.get(at.checked_sub(line.start)?..)?.chars().next()?;
    let headline = format!("one `{sign}` too many stands here");
    let slip =
        Slip::new(at, &line.text[at - line.start..][..sign.len_utf8()], headline, "take it away");
    Some(slip.mended(at, at + sign.len_utf8(), ""))
}

/// `{say: Elbows back when: pulling}`: the colon of a key before which a comma is missing.
fn no_comma(line: Line<'_>, at: usize) -> Option<Slip> {
    let before = line.text.get(..at.checked_sub(line.start)?)?;
    let key = before.rsplit([' ', ',', '{']).next().filter(|key| !key.is_empty())?;
    line.text.get(at - line.start..)?.starts_with(':').then_some(())?;
    let headline = format!("no comma stands before `{key}`, or a text with `: ` has no quotes");
    let help = format!("write `, {key}: ...`, or put quotes round the whole text");
    Some(Slip::new(at - key.len(), key, headline, help))
}

/// A key that starts neither where its neighbours do nor further in.
fn out_of_line(line: Line<'_>, above: Option<Line<'_>>, message: &str) -> Option<Slip> {
    let (above, (key, _)) = (above?, line.key_and_value()?);
    let (other, _) = above.key_and_value()?;
    let inside = above.words().1 - above.start;
    let is_refused = message.contains("did not find expected") && line.indent() < inside;
    (is_refused && !line.is_item() && line.indent() > 0).then(|| {
        let at = line.start + line.indent();
        let headline = format!("`{key}` does not start where `{other}` above it does");
        let slip =
            Slip::new(at, key, headline, format!("start it in the same column as `{other}`"));
        slip.mended(line.start, at, " ".repeat(inside))
    })
}

/// The first words of a long value, so that the next step is one line.
fn short(value: &str) -> String {
    if value.chars().count() <= 40 {
        return value.to_string();
    }
    let words: Vec<&str> = value.split(' ').take(4).collect();
    format!("{} ...", words.join(" "))
}

fn no_space_after_dash(line: Line<'_>) -> Option<Slip> {
    let text = line.text.trim_start();
    let rest = text.strip_prefix('-')?;
    let glued = rest.starts_with(|c: char| c.is_alphabetic() || matches!(c, '{' | '[' | '"'));
    let at = line.start + line.indent();
    glued.then(|| {
        let headline = "no space stands after the dash".to_string();
        let slip = Slip::new(at, "-", headline, format!("write `- {}`", short(rest.trim_end())));
        slip.mended(at + 1, at + 1, " ")
    })
}

/// A key that stands as far out as the one that it belongs to, above keys that are further in.
fn left_behind(lines: &[Line<'_>], number: usize) -> Option<Slip> {
    let line = lines[number];
    let left = above(lines, number)?;
    let at = lines.iter().position(|one| one.start == left.start)?;
    let (owner, nothing) = above(lines, at)?.key_and_value()?;
    let (key, value) = left.key_and_value()?;
    let is_left =
        nothing.is_empty() && !value.is_empty() && above(lines, at)?.indent() == left.indent();
    (is_left && line.indent() > left.indent() && !left.is_item()).then(|| {
        let headline = format!("`{key}` stands as far out as `{owner}` above it");
        let help = format!("indent it by two spaces more, as it belongs to `{owner}`");
        Slip::new(left.start + left.indent(), key, headline, help)
    })
}

/// A key or an item that does not start where its neighbours do.
fn indented(line: Line<'_>, above: Option<Line<'_>>) -> Option<Slip> {
    let above = above?;
    let at = line.start + line.indent();
    let (mine, theirs) = (line.indent(), above.indent());
    if line.is_item() && above.is_item() && mine != theirs {
        let headline = "this item does not start where the one above it does".to_string();
        let help = format!("put its dash under the dash above, {theirs} spaces in");
        let slip = Slip::new(at, "-", headline, help);
        return Some(slip.mended(line.start, at, " ".repeat(theirs)));
    }
    let (key, _) = line.key_and_value()?;
    let (other, value) = above.key_and_value()?;
    let inside = above.words().1 - above.start;
    (!value.is_empty() && mine > theirs && mine != inside && !line.is_item()).then(|| {
        let headline = format!("`{key}` is indented, and `{other}` above it has its value already");
        let help = format!("start it in the same column as `{other}`");
        Slip::new(at, key, headline, help).mended(line.start, at, " ".repeat(inside))
    })
}

/// A text that was broken into two lines, the second as far out as the key.
fn goes_on(line: Line<'_>, above: Option<Line<'_>>) -> Option<Slip> {
    let (words, at) = line.words();
    let (key, value) = above?.key_and_value()?;
    let a_text = !value.is_empty() && !value.starts_with(['[', '{', '"', '\'', '|', '>']);
    let first = words.split(' ').next().unwrap_or(words);
    (a_text && !line.is_item() && line.key_and_value().is_none()).then(|| {
        let headline = format!("the text of `{key}` seems to go on here, as far out as its key");
        let help = "put it all on one line, or indent this line by two spaces more than the key";
        Slip::new(at, first, headline, help)
    })
}

fn two_colons(line: Line<'_>, at: usize) -> Slip {
    let headline = "a second `: ` stands in this line".to_string();
    let quoted = line.key_and_value().filter(|(_, value)| !value.starts_with(['{', '[']));
    let sign =
        quoted.and_then(|(_, value)| ['"', '\''].into_iter().find(|sign| !value.contains(*sign)));
    let help = match line.key_and_value() {
        Some((key, value)) if !value.contains('"') && !value.starts_with(['{', '[']) => {
            format!("put quotes round the whole text: `{key}: \"{value}\"`")
        }
        Some((key, value)) if !value.contains('\'') && !value.starts_with(['{', '[']) => {
            format!("put quotes round the whole text: `{key}: '{value}'`")
        }
        _ => "put quotes round the text that holds `: `".to_string(),
    };
    let slip = Slip::new(at, ":", headline, help);
    match (quoted, sign) {
        // A remark behind the text must not come into the quotes, nor a sign that quotes would change.
        (Some((_, value)), Some(sign)) if !value.contains(['#', '\\']) => {
            let end = line.start + line.text.trim_end().len();
            slip.mended(end - value.len(), end, format!("{sign}{value}{sign}"))
        }
        _ => slip,
    }
}

/// A text that starts with a sign that means something else in YAML.
fn bad_start(line: Line<'_>, at: usize) -> Option<Slip> {
    let rest = line.text.get(at.checked_sub(line.start)?..)?;
    let sign = rest.chars().next()?;
    let text = rest.trim_end();
    let headline = format!("a text cannot start with `{sign}`");
    let help = match text.contains(['"', ',', '}', ']']) {
        true => "put quotes round the whole text".to_string(),
        false => format!("put quotes round the whole text: `\"{text}\"`"),
    };
    let slip = Slip { at, length: sign.len_utf8(), headline, help, mend: None };
    let is_plain = !text.contains(['"', ',', '}', ']', '#', '\\']);
    let end = at + text.len();
    Some(if is_plain { slip.mended(at, end, format!("\"{text}\"")) } else { slip })
}
