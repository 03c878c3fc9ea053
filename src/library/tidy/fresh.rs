//! Fresh: the text of a new entry, like another one of its kind. What holds for both is taken over; what
//! is particular is left to its author: `...` where a text belongs, a remark where more is to be said.
//! Never takes over traits, cues, faults or a pose as they stand: those say what is true of one entry.

use super::parts::{self, Many, Part, Value};
use super::words::in_block;
use super::{Untidy, laid};
use crate::finding::FileId;
use crate::library::keys::{FileKind, Key, Shape, Table, kind_of_file};
use crate::library::named::Named;
use crate::library::reader::front_matter;
use crate::library::reader::node;

/// A new entry.
#[derive(Debug)]
pub struct Fresh<'f> {
    pub of: Named,
    pub id: &'f str,
    pub name: &'f str,
    /// The pattern of a movement or a ladder, where it is said.
    pub pattern: Option<&'f str>,
    /// The entry that it is like: its id, and the text of the file that holds it.
    pub like: Option<(&'f str, &'f str)>,
}

/// What is done with a key.
enum Do {
    /// Taken over.
    Copy,
    /// Left to be written.
    Write(&'static str),
    /// Shown as a remark.
    Show,
}

/// The headings under which a movement is told to people.
const BODY: &str = "## Set-up\n\n...\n\n## How to teach it\n\n...\n\n## What to look for\n\n...\n";

impl Fresh<'_> {
    /// The text: a whole file, or the entry that is put at the end of its file of words.
    ///
    /// # Errors
    /// The entry that it is like cannot be read.
    pub fn text(&self) -> Result<String, Untidy> {
        let kind = kind(self.of).ok_or(Untidy::Odd)?;
        let table = table(kind).ok_or(Untidy::Odd)?;
        let model = match self.like {
            Some((id, text)) => Some(keys_of(text, kind, (self.of, id))?),
            None => None,
        };
        let lines: String = table.keys.iter().map(|key| self.line(key, model.as_deref())).collect();
        Ok(match self.of {
            Named::Movement => format!("---\n{lines}---\n{BODY}"),
            _ if self.of.has_file() => lines,
            _ => {
                let set_in = |line: &str| match line.is_empty() {
                    true => "\n".to_string(),
                    false => format!("  {line}\n"),
                };
                let lines: String = lines.lines().map(set_in).collect();
                format!("{}:\n{lines}", self.id)
            }
        })
    }

    fn line(&self, key: &Key, model: Option<&[(String, String)]>) -> String {
        let found = model.and_then(|keys| keys.iter().find(|(name, _)| name == key.name));
        let copied = found.map(|(_, lines)| lines.as_str());
        let is_name = key.name == if self.of == Named::Source { "title" } else { "name" };
        if is_name {
            return format!("{}: {}\n", key.name, in_block(self.name));
        }
        if let ("pattern", Some(pattern)) = (key.name, self.pattern) {
            return format!("pattern: {pattern}\n");
        }
        // What is of the other one alone.
        if ["aliases", "also-said", "formerly", "id", "no-figure", "starts"].contains(&key.name) {
            return String::new();
        }
        match (what_to_do(self.of, key.name), copied) {
            (Do::Copy, Some(lines)) => lines.to_string(),
            (Do::Write(text), _) => text.to_string(),
            (Do::Show, Some(lines)) => as_remark(lines, self.like.map_or("", |(id, _)| id), key),
            (Do::Copy, None) if model.is_none() => {
                format!("# {}: {}\n", key.name, key.example)
            }
            (Do::Show, None) if key.name == "traits" => {
                format!("# traits: {}  # {}\n", key.example, key.what)
            }
            _ => String::new(),
        }
    }
}

/// The lines of a key as remarks, with what is to be done about it.
fn as_remark(lines: &str, like: &str, key: &Key) -> String {
    let head = match key.name {
        "traits" => format!("# What of these can hurt someone here? As {like} has them:\n"),
        _ => format!("# As {like} has it:\n"),
    };
    head + &lines.lines().map(|line| format!("# {line}\n")).collect::<String>()
}

fn what_to_do(of: Named, key: &str) -> Do {
    let copied: &[&str] = match of {
        Named::Movement => &[
            "pattern", "purpose", "counts", "sides", "plane", "muscles", "kit", "settings", "room",
            "pace", "sources",
        ],
        Named::Ladder => &["pattern", "moves-up", "moves-down", "dose", "sources"],
        Named::Session => &["focus", "length", "blocks", "sources"],
        Named::Cycle => &["focus", "days", "weeks", "sources"],
        Named::Kit => &["kind", "sources"],
        Named::Source => &["body"],
        _ => &["sources"],
    };
    if copied.contains(&key) {
        return Do::Copy;
    }
    match (of, key) {
        (Named::Movement, "standard") => Do::Write("standard: \"...\"\n"),
        (Named::Movement, "caution") => Do::Write("caution: \"...\"\n"),
        (Named::Movement, "cues") => Do::Write("cues:\n  - {say: \"...\"}\n"),
        (Named::Ladder, "goal") => Do::Write("goal: \"...\"\n"),
        (Named::Session | Named::Cycle | Named::Kit, "about") => Do::Write("about: \"...\"\n"),
        (Named::Kit, "check") => Do::Write("check: \"...\"\n"),
        (Named::Caution, "says") => Do::Write("says: \"...\"\n"),
        (Named::Caution, "clinician") => Do::Write("clinician: \"...\"\n"),
        (Named::Caution, "stop") => Do::Write("stop: [\"...\"]\n"),
        (Named::Fault, "see") => Do::Write("see: \"...\"\n"),
        (Named::Fault, "causes") => Do::Write("causes: [\"...\"]\n"),
        (Named::Fault, "say") => Do::Write("say: \"...\"\n"),
        (Named::Source, "authors") => Do::Write("authors: \"...\"\n"),
        (Named::Source, "year") => Do::Write("year: \"...\"\n"),
        (Named::Source, "supports") => Do::Write("supports: \"...\"\n"),
        _ => Do::Show,
    }
}

fn kind(of: Named) -> Option<&'static FileKind> {
    kind_of_file(&match of {
        Named::Movement => "movements/a/a.md".to_string(),
        _ if of.has_file() => format!("{}/a.yaml", of.folder()),
        _ => of.words_file(),
    })
}

fn table(kind: &FileKind) -> Option<&'static Table> {
    match &kind.shape {
        Shape::Map(table) | Shape::Each(_, Shape::Map(table)) => Some(table),
        _ => None,
    }
}

/// The keys of an entry, each with its lines as they are best laid out.
fn keys_of(
    text: &str,
    kind: &FileKind,
    (of, id): (Named, &str),
) -> Result<Vec<(String, String)>, Untidy> {
    let bare = text.trim_start_matches('\u{feff}').replace("\r\n", "\n");
    let yaml = match of {
        Named::Movement => front_matter(&bare).ok_or(Untidy::Odd)?.0,
        _ => &bare,
    };
    let tree = node::parse(yaml, FileId::default(), 0).map_err(Untidy::Unread)?;
    let (_, whole) = parts::read(yaml, &tree, &kind.shape).ok_or(Untidy::Odd)?;
    let entry = match of.has_file() {
        true => whole,
        false => within(whole, id).ok_or(Untidy::Odd)?,
    };
    let lines = |part: Part| {
        let key = part.key.clone()?;
        let alone = Part { above: Vec::new(), beside: None, ..part };
        let whole = Many { is_map: true, parts: vec![alone], after: Vec::new() };
        Some((key, laid::out(&[], &whole)))
    };
    Ok(entry.parts.into_iter().filter_map(lines).collect())
}

fn within(whole: Many, id: &str) -> Option<Many> {
    let part = whole.parts.into_iter().find(|part| part.key.as_deref() == Some(id))?;
    match part.value {
        Value::Block(many) | Value::Flow(many, _) => Some(many),
        _ => None,
    }
}
