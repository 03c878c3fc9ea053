//! YAML as a tree whose every value knows its place in the file.
//! Never interprets: keys and types are the business of the entry readers.

use super::{codes, slips};
use crate::finding::{FileId, Finding, Placed, Severity, Span};
use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_yaml::Spanned;
use std::fmt;

/// A YAML value and its place.
#[derive(Debug, Clone)]
pub struct Node {
    /// The words it covers; for a block list or map only where it starts.
    pub span: Span,
    /// What it is.
    pub kind: Kind,
    /// Whether it is a map in braces, in which a comma ends a text.
    pub in_braces: bool,
}

/// What a YAML value is.
#[derive(Debug, Clone)]
pub enum Kind {
    /// Nothing written.
    Empty,
    /// A text, number or word, as written.
    Scalar(String),
    /// A list.
    List(Vec<Node>),
    /// Keys and values in the order written; a key written twice stands twice.
    Map(Vec<(Placed<String>, Node)>),
}

impl Node {
    /// Whether it is a map or a list in brackets of `text`, which is the file that it stands in.
    pub fn is_in_brackets(&self, text: &str) -> bool {
        let many = matches!(self.kind, Kind::List(_) | Kind::Map(_));
        let rest = text.get(self.span.start as usize..).unwrap_or("");
        many && rest.starts_with(['{', '['])
    }

    /// One past its last byte in `text`, which is the file that it stands in: its span ends where a map
    /// or a list begins.
    pub fn end_in(&self, text: &str) -> usize {
        let last = |ends: Option<usize>| ends.unwrap_or(0).max(self.span.end as usize);
        let inside = match &self.kind {
            Kind::List(items) => last(items.iter().map(|item| item.end_in(text)).max()),
            Kind::Map(entries) => {
                let end = |(key, value): &(Placed<String>, Node)| match value.kind {
                    Kind::Empty => key.span.end as usize,
                    _ => value.end_in(text),
                };
                last(entries.iter().map(end).max())
            }
            _ => return self.span.end as usize,
        };
        if !self.is_in_brackets(text) {
            return inside;
        }
        let mut at = inside;
        while let Some(sign) = text.get(at..).and_then(|rest| rest.chars().next()) {
            match sign {
                ']' | '}' => return at + 1,
                '#' => at += text[at..].find('\n').unwrap_or(text.len() - at),
                _ => at += sign.len_utf8(),
            }
        }
        inside
    }
}

impl Kind {
    /// What it is, for a finding.
    pub fn noun(&self) -> &'static str {
        match self {
            Kind::Empty => "nothing",
            Kind::Scalar(_) => "one value",
            Kind::List(_) => "a list",
            Kind::Map(_) => "keys and values",
        }
    }
}

/// How many values a file may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Most {
    /// A hundred times the longest entry.
    Entry = 20_000,
    /// Some 36,000 results: twenty years of thirty people.
    Roster = 400_000,
}

/// Parses the entry `yaml`, which stands in `file` from byte `base` on.
pub fn parse(yaml: &str, file: FileId, base: usize) -> Result<Node, Box<Finding>> {
    parse_at_most(Most::Entry, yaml, file, base)
}

/// Parses `yaml`, which stands in `file` from byte `base` on, where it has no more values than `most`.
pub fn parse_at_most(
    most: Most,
    yaml: &str,
    file: FileId,
    base: usize,
) -> Result<Node, Box<Finding>> {
    // 24 levels is four times the deepest entry. An event is a value, or the end of a list or map.
    // Aliases are refused: an alias bomb is a kilobyte that unfolds to gigabytes.
    let options = serde_yaml::options! {
        strict_booleans: true,
        with_snippet: false,
        duplicate_keys: serde_yaml::options::DuplicateKeyPolicy::PassThrough,
        merge_keys: serde_yaml::options::MergeKeyPolicy::AsOrdinary,
        budget: serde_yaml::budget! {
            max_nodes: most as usize,
            max_events: most as usize * 2 + 100,
            max_depth: 24,
            max_aliases: 0,
        },
    };
    serde_yaml::from_str_with_options::<Spanned<Raw>>(yaml, options)
        .map(|raw| Placing { yaml, file, base }.node(raw))
        .map_err(|error| Box::new(syntax_finding(&error, most, &Placing { yaml, file, base })))
}

/// A value as the YAML crate hands it over, before places are absolute.
enum Raw {
    Empty,
    /// A plain number or truth value: its words are read from the file.
    Plain,
    Text(String),
    List(Vec<Spanned<Raw>>),
    Map(Vec<(Spanned<Raw>, Spanned<Raw>)>),
}

impl<'de> Deserialize<'de> for Raw {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Raw, D::Error> {
        deserializer.deserialize_any(RawVisitor)
    }
}

struct RawVisitor;

impl<'de> Visitor<'de> for RawVisitor {
    type Value = Raw;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("any YAML value")
    }
    fn visit_unit<E>(self) -> Result<Raw, E> {
        Ok(Raw::Empty)
    }
    fn visit_none<E>(self) -> Result<Raw, E> {
        Ok(Raw::Empty)
    }
    fn visit_bool<E>(self, _: bool) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }
    fn visit_i64<E>(self, _: i64) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }
    fn visit_u64<E>(self, _: u64) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }
    fn visit_i128<E>(self, _: i128) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }
    fn visit_u128<E>(self, _: u128) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }
    fn visit_f64<E>(self, _: f64) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }
    fn visit_str<E>(self, text: &str) -> Result<Raw, E> {
        Ok(Raw::Text(text.to_string()))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Raw, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element()? {
            list.push(item);
        }
        Ok(Raw::List(list))
    }
    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Raw, A::Error> {
        let mut map = Vec::new();
        while let Some(entry) = entries.next_entry()? {
            map.push(entry);
        }
        Ok(Raw::Map(map))
    }
}

/// Turns places within the YAML text into places within the file.
struct Placing<'a> {
    yaml: &'a str,
    file: FileId,
    base: usize,
}

impl Placing<'_> {
    fn node(&self, raw: Spanned<Raw>) -> Node {
        let span = self.span(&raw);
        let kind = match raw.value {
            Raw::Empty => Kind::Empty,
            Raw::Plain => Kind::Scalar(self.words(span)),
            Raw::Text(text) => Kind::Scalar(text),
            Raw::List(items) => Kind::List(items.into_iter().map(|item| self.node(item)).collect()),
            Raw::Map(entries) => Kind::Map(
                entries.into_iter().map(|(key, value)| (self.key(key), self.node(value))).collect(),
            ),
        };
        let start = span.start as usize - self.base;
        let opens = self.yaml.get(start..).is_some_and(|rest| rest.starts_with('{'));
        let in_braces = opens && matches!(kind, Kind::Map(_));
        Node { span, kind, in_braces }
    }

    fn key(&self, raw: Spanned<Raw>) -> Placed<String> {
        let span = self.span(&raw);
        match raw.value {
            Raw::Text(text) => Placed::new(text, span),
            _ => Placed::new(self.words(span), span),
        }
    }

    fn span(&self, raw: &Spanned<Raw>) -> Span {
        let span = raw.referenced.span();
        let start = span.byte_offset().unwrap_or(0) as usize;
        let end = start + span.byte_len().unwrap_or(0) as usize;
        Span::new(self.file, self.base + start, self.base + end)
    }

    fn words(&self, span: Span) -> String {
        let (start, end) = (span.start as usize - self.base, span.end as usize - self.base);
        self.yaml.get(start..end).unwrap_or("").to_string()
    }
}

fn syntax_finding(error: &serde_yaml::Error, most: Most, place: &Placing<'_>) -> Finding {
    let Placing { yaml, file, base } = *place;
    let at = error.location().map_or(0, |l| byte_at(yaml, l.line() as usize, l.column() as usize));
    let at = tab_before(yaml, at).unwrap_or(at);
    let length = yaml[at..].chars().next().map_or(0, char::len_utf8);
    let message = error.to_string();
    let message = message.rsplit_once(" at line ").map_or(message.as_str(), |(head, _)| head);
    let tab = yaml[at..].starts_with('\t').then(|| (at, at + 1, "  ".to_string()));
    let (at, length, headline, help, mend) = match in_words(yaml, at, message) {
        Some(slip) if yaml.get(slip.at..slip.at + slip.length).is_some() => {
            (slip.at, slip.length, slip.headline, slip.help, slip.mend)
        }
        // Line ends of their own kind may lead the eye astray; the parser's place stands.
        Some(slip) => (at, length, slip.headline, slip.help, None),
        None => {
            let (headline, help) = in_plain_words(message, most);
            (at, length, headline, help.to_string(), tab.filter(|_| message.contains("tab")))
        }
    };
    let span = |from: usize, to: usize| Span::new(file, base + from, base + to);
    let finding =
        Finding::new(codes::YAML_SYNTAX, Severity::Error, headline, span(at, at + length));
    let finding = finding.label("here").help(help);
    match mend {
        Some((from, to, words)) if yaml.get(from..to).is_some() => {
            finding.mend(span(from, to), words)
        }
        _ => finding,
    }
}

/// The slip of the pen behind the complaint, where it is one.
fn in_words(yaml: &str, at: usize, message: &str) -> Option<slips::Slip> {
    let line = yaml[..at].rfind('\n').map_or(0, |end| end + 1);
    let half_merged = ["<<<<<<<", "=======", ">>>>>>>"].iter().any(|m| yaml[line..].starts_with(m));
    if half_merged {
        let headline = "a merge was left half done here".to_string();
        let help = "keep one side and delete the marker lines".to_string();
        return Some(slips::Slip { at, length: 1, headline, help, mend: None });
    }
    if message.contains("lias") {
        // Where an anchor stands somebody meant YAML's own repetition, not a bullet.
        let has_anchor = yaml.contains(": &") || yaml.contains("- &");
        return if has_anchor { None } else { slips::bullet(yaml, at) };
    }
    let about_lines = ["budget", "depth", "recursion", "tab", "lias", "anchor", "documents"];
    let other = about_lines.iter().any(|word| message.contains(word));
    (!other).then(|| slips::slip(yaml, at, message))?
}

/// The tab among the spaces before `at`, which the crate places one letter too far on.
fn tab_before(yaml: &str, at: usize) -> Option<usize> {
    let line = yaml[..at].rfind('\n').map_or(0, |end| end + 1);
    let indent = &yaml[line..at];
    indent.chars().all(char::is_whitespace).then(|| indent.find('\t'))?.map(|tab| line + tab)
}

/// What the YAML crate's message says where there are too many values.
const TOO_MANY: &str = "Nodes {";

/// The YAML crate's message in the coach's words, with a next step.
fn in_plain_words(message: &str, most: Most) -> (String, &'static str) {
    let quote = "put quotes round a text that holds `: ` or starts with one of @ ` % & * ! | > { [";
    if message.contains("tab") {
        return ("a tab stands where spaces belong".into(), "indent with two spaces");
    }
    if message.contains("Aliases") || message.contains("alias") || message.contains("anchor") {
        return ("anchors and aliases (`&` and `*`) are not read".into(), quote);
    }
    if message.contains(TOO_MANY) && most == Most::Roster {
        let help = "move the results of past years to a file of their own; \
                    `rungbook roster show --roster FILE` shows them";
        return ("the roster has over 400,000 values".into(), help);
    }
    if ["budget", "depth", "recursion"].iter().any(|word| message.contains(word)) {
        let help = "split the file, or look for a bracket that is never closed";
        return ("this is nested too deep or has too many values".into(), help);
    }
    if message.contains("unclosed quote") {
        return ("this quote is never closed".into(), "close it at the end of the text");
    }
    if message.contains("unclosed bracket") || message.contains("illegal placement") {
        return ("a bracket is never closed".into(), "close it with `]` or `}`");
    }
    if message.contains("mapping values are not allowed") {
        return ("a second `: ` stands in this line".into(), quote);
    }
    if message.contains("multiple YAML documents") {
        return ("a second `---` starts here".into(), "keep one document in a file");
    }
    (format!("this cannot be read as YAML: {message}"), quote)
}

/// The byte at a line and column, both from 1, columns in characters.
fn byte_at(text: &str, line: usize, column: usize) -> usize {
    let start = if line <= 1 {
        0
    } else {
        text.match_indices('\n').nth(line - 2).map_or(text.len(), |(at, _)| at + 1)
    };
    text[start..]
        .char_indices()
        .nth(column.saturating_sub(1))
        .map_or(text.len(), |(offset, _)| start + offset)
}
