//! Slips of the pen in YAML: from what the parser stumbled over to what was probably meant.
//! Never parses and never mends; it looks at the lines about the place and says one next step.

use crate::library::keys;

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
}

impl Slip {
    fn new(at: usize, words: &str, headline: String, help: impl Into<String>) -> Slip {
        Slip { at, length: words.len(), headline, help: help.into() }
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
    let bracket = || bracket(&lines, number, yaml);
    if message.contains("unclosed bracket") || message.contains("only valid inside a block") {
        return bracket();
    }
    let found = quote_of_another_line(yaml, at).or_else(|| no_space_after_dash(line));
    let found = found.or_else(|| key_without_colon(line)).or_else(|| indented(line, above));
    if message.contains("mapping values are not allowed") {
        return found.or_else(|| Some(two_colons(line, at)));
    }
    found.or_else(|| goes_on(line, above)).or_else(bracket)
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
    let end = words.find([' ', ':', '=', '{', '[']).unwrap_or(words.len());
    let (key, rest) = words.split_at(end);
    let after = rest.trim_start();
    let value = after.trim_start_matches([':', '=']).trim_start();
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
        return Some(Slip::new(at, key, headline, right(value)));
    }
    // `lean {unit: deg}`: whatever the key is called, a bracket cannot follow it without a colon.
    let opens = rest.starts_with(' ') && after.starts_with(['{', '[']);
    let lacks = !rest.starts_with(':') && (known || opens) && !key.is_empty();
    lacks.then(|| {
        let wrong = if after.starts_with('=') { "an equals sign" } else { "no colon" };
        Slip::new(at, key, format!("{wrong} stands after `{key}`"), right(value))
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
        Slip::new(at, "-", headline, format!("write `- {}`", short(rest.trim_end())))
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
        return Some(Slip::new(at, "-", headline, help));
    }
    let (key, _) = line.key_and_value()?;
    let (other, value) = above.key_and_value()?;
    let inside = above.words().1 - above.start;
    (!value.is_empty() && mine > theirs && mine != inside && !line.is_item()).then(|| {
        let headline = format!("`{key}` is indented, and `{other}` above it has its value already");
        Slip::new(at, key, headline, format!("start it in the same column as `{other}`"))
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
    let help = match line.key_and_value() {
        Some((key, value)) if !value.contains('"') && !value.starts_with(['{', '[']) => {
            format!("put quotes round the whole text: `{key}: \"{value}\"`")
        }
        Some((key, value)) if !value.contains('\'') && !value.starts_with(['{', '[']) => {
            format!("put quotes round the whole text: `{key}: '{value}'`")
        }
        _ => "put quotes round the text that holds `: `".to_string(),
    };
    Slip::new(at, ":", headline, help)
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
    Some(Slip { at, length: sign.len_utf8(), headline, help })
}

/// The quoted texts of a YAML text: where each opens and the byte after it closes, if it does.
fn quoted(yaml: &str) -> Vec<(usize, Option<usize>)> {
    let bytes = yaml.as_bytes();
    let (mut found, mut at) = (Vec::new(), 0);
    let mut may_open = true;
    while at < bytes.len() {
        match bytes[at] {
            quote @ (b'"' | b'\'') if may_open => {
                let end = closing(bytes, at, quote);
                found.push((at, end));
                at = end.unwrap_or(bytes.len());
                may_open = false;
                continue;
            }
            b'#' if at == 0 || bytes[at - 1].is_ascii_whitespace() => {
                at = yaml[at..].find('\n').map_or(bytes.len(), |end| at + end);
                continue;
            }
            // A text begins at the start of a line and after these.
            b'\n' | b'[' | b'{' | b',' => may_open = true,
            b':' | b'-' if bytes.get(at + 1).is_none_or(u8::is_ascii_whitespace) => may_open = true,
            byte if !byte.is_ascii_whitespace() => may_open = false,
            _ => {}
        }
        at += 1;
    }
    found
}

fn closing(bytes: &[u8], open: usize, quote: u8) -> Option<usize> {
    let mut at = open + 1;
    while at < bytes.len() {
        match bytes[at] {
            b'\\' if quote == b'"' => at += 1,
            b'\'' if quote == b'\'' && bytes.get(at + 1) == Some(&b'\'') => at += 1,
            byte if byte == quote => return Some(at + 1),
            _ => {}
        }
        at += 1;
    }
    None
}

/// A quote that swallows the lines after it: said where it opens, not where it happens to end.
fn quote_of_another_line(yaml: &str, at: usize) -> Option<Slip> {
    let (open, end) = quoted(yaml).into_iter().rfind(|(open, end)| {
        *open <= at && yaml[*open..end.unwrap_or(yaml.len())].contains('\n')
    })?;
    // Long texts are folded over lines on purpose; what follows them is then no key.
    let headline = match end {
        Some(_) => "the quote that opens here is not closed in its line",
        None => "this quote is never closed",
    };
    let sign = &yaml[open..=open];
    let help = format!("close it with `{sign}` at the end of the text");
    Some(Slip::new(open, sign, headline.to_string(), help))
}

fn quote(yaml: &str, at: usize) -> Option<Slip> {
    if let Some(slip) = quote_of_another_line(yaml, at) {
        return Some(slip);
    }
    let here = quoted(yaml).into_iter().rfind(|(open, _)| *open <= at);
    let (_, end) = here?;
    let end = end?;
    let rest = yaml[end..].lines().next().unwrap_or("").trim();
    let first = rest.split(' ').next().unwrap_or(rest);
    let skipped = yaml[end..].len() - yaml[end..].trim_start().len();
    let headline = "words stand after the quote that ends the text".to_string();
    let help = "put quotes round the whole text, or round none of it";
    Some(Slip::new(end + skipped, first, headline, help))
}

/// The last bracket above or in a line that is never closed, or that a comment hides the end of.
fn bracket(lines: &[Line<'_>], number: usize, yaml: &str) -> Option<Slip> {
    let quoted = quoted(yaml);
    let in_quotes = |at: usize| {
        quoted.iter().any(|(open, end)| (*open..end.unwrap_or(yaml.len())).contains(&at))
    };
    let mut open: Vec<(usize, char)> = Vec::new();
    let mut comment = None;
    for line in &lines[..=number] {
        for (offset, sign) in line.text.char_indices() {
            let at = line.start + offset;
            if in_quotes(at) {
                continue;
            }
            let starts_text =
                offset == 0 || line.text[..offset].ends_with([' ', '\t', '[', '{', ',']);
            match sign {
                '#' if line.text[..offset].ends_with([' ', '\t']) => {
                    comment = (!open.is_empty()).then_some(at).or(comment);
                    break;
                }
                '{' | '[' if starts_text || !open.is_empty() => open.push((at, sign)),
                '}' | ']' => drop(open.pop()),
                _ => {}
            }
        }
    }
    let (at, sign) = open.pop()?;
    if let Some(comment) = comment.filter(|comment| *comment > at) {
        let headline = "` #` starts a remark, which hides the bracket that closes here".to_string();
        return Some(Slip::new(
            comment,
            "#",
            headline,
            "put quotes round the text that holds ` #`",
        ));
    }
    let close = if sign == '{' { '}' } else { ']' };
    let headline = "a bracket is never closed: it opens here".to_string();
    Some(Slip::new(at, "{", headline, format!("close it with `{close}`")))
}
