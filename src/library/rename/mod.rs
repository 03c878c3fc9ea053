//! Rename: another id for an entry, in every text that names it. The entry keeps the old one under
//! `formerly`, so that links from outside still lead to it.
//! Pure: takes texts and returns texts; never touches a word that names something else.

mod links;

use super::keys::{ROSTER, kind_of_file};
use super::named::{Named, mentions};
use super::reader::front_matter;
use super::reader::node::{self, Kind, Most, Node};
use crate::finding::{FileId, Placed, Span};

/// Another id for an entry.
#[derive(Debug, Clone, Copy)]
pub struct Rename<'r> {
    pub of: Named,
    pub old: &'r str,
    pub new: &'r str,
}

/// A file that a rename changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The parts of its path below the library.
    pub from: Vec<String>,
    /// The same afterwards.
    pub to: Vec<String>,
    /// Its text afterwards.
    pub text: String,
    /// How many places in it name the entry.
    pub places: usize,
}

/// A file that cannot be read, so that nobody can say what it names.
#[derive(Debug)]
pub struct Unread(pub String);

/// A stretch of a text and what stands there afterwards.
pub(super) type Splice = (usize, usize, String);

impl Rename<'_> {
    /// Every file of a library that changes, of `files` by the parts of their paths and their texts.
    ///
    /// # Errors
    /// A file that cannot be read.
    pub fn edits<'t>(
        &self,
        files: impl Iterator<Item = (&'t [String], &'t str)>,
    ) -> Result<Vec<Edit>, Unread> {
        let mut edits = Vec::new();
        for (parts, text) in files {
            edits.extend(self.edit(parts, text)?);
        }
        Ok(edits)
    }

    fn edit(&self, parts: &[String], text: &str) -> Result<Option<Edit>, Unread> {
        let path = parts.join("/");
        let Some(kind) = kind_of_file(&path) else { return Ok(None) };
        let base = text.len() - text.trim_start_matches('\u{feff}').len();
        let (yaml, body) = match kind.name == "movement" {
            true => front_matter(text).ok_or(Unread(path.clone()))?,
            false => (&text[base..], text.len()),
        };
        let tree = node::parse(yaml, FileId::default(), base).map_err(|_| Unread(path.clone()))?;
        let spans = mentions(&tree, &kind.shape, (self.of, self.old));
        let mut splices: Vec<Splice> = spans.iter().map(|span| self.at(text, *span)).collect();
        splices.extend(links::splices(self, text, body));
        let places = splices.len();
        let to = self.path(parts);
        let entry = match &tree.kind {
            _ if self.of.has_file() => (to != parts).then_some(&tree),
            Kind::Map(entries) if path == self.of.words_file() => {
                entries.iter().find(|(id, _)| id.value == self.old).map(|(id, entry)| {
                    splices.push(self.at(text, id.span));
                    entry
                })
            }
            _ => None,
        };
        if let Some(entry) = entry {
            splices.extend(self.own_id(text, entry));
            splices.extend(self.of.has_page().then(|| self.keep(text, entry)).flatten());
        }
        if splices.is_empty() && to == parts {
            return Ok(None);
        }
        Ok(Some(Edit { from: parts.to_vec(), to, text: spliced(text, splices), places }))
    }

    /// The same in the text of a roster; nothing where it names no such entry.
    ///
    /// # Errors
    /// A roster that cannot be read.
    pub fn in_roster(&self, text: &str) -> Result<Option<Edit>, Unread> {
        let base = text.len() - text.trim_start_matches('\u{feff}').len();
        let tree = node::parse_at_most(Most::Roster, &text[base..], FileId::default(), base)
            .map_err(|_| Unread("roster".to_string()))?;
        let spans = mentions(&tree, &ROSTER.shape, (self.of, self.old));
        let splices: Vec<Splice> = spans.iter().map(|span| self.at(text, *span)).collect();
        let places = splices.len();
        let (from, to) = (Vec::new(), Vec::new());
        Ok((places > 0).then(|| Edit { from, to, text: spliced(text, splices), places }))
    }

    /// The id within the words of a place, which may have quotes round them or more words behind.
    fn at(&self, text: &str, span: Span) -> Splice {
        let start = span.start as usize;
        let words = text.get(start..span.end as usize).unwrap_or("");
        let start = start + words.find(self.old).unwrap_or(0);
        (start, start + self.old.len(), self.new.to_string())
    }

    /// The path of the entry's own file afterwards; any other stays.
    fn path(&self, parts: &[String]) -> Vec<String> {
        let mut to = parts.to_vec();
        let ending = if self.of == Named::Movement { "md" } else { "yaml" };
        let own = format!("{}.{ending}", self.old);
        let is_own = self.of.has_file() && parts.first().is_some_and(|f| f == self.of.folder());
        if let Some(name) = to.last_mut().filter(|name| is_own && **name == own) {
            *name = format!("{}.{ending}", self.new);
        }
        to
    }

    /// `id:` of a movement, which is compared with the file's name.
    fn own_id(&self, text: &str, entry: &Node) -> Option<Splice> {
        let (_, value) = key(entry, "id").filter(|_| self.of == Named::Movement)?;
        let says = matches!(&value.kind, Kind::Scalar(id) if id.trim() == self.old);
        says.then(|| self.at(text, value.span))
    }

    /// The old id under `formerly`; the new one is no longer a former one.
    fn keep(&self, text: &str, entry: &Node) -> Option<Splice> {
        let line = format!("formerly: [{}]", self.old);
        if let Some((name, value)) = key(entry, "formerly") {
            let mut former = ids(value);
            former.retain(|id| id != self.new && id != self.old);
            former.push(self.old.to_string());
            let end = value.end_in(text).max(name.span.end as usize + 1);
            let written = format!(": [{}]", former.join(", "));
            return Some((name.span.end as usize, end, written));
        }
        let Kind::Map(entries) = &entry.kind else { return None };
        if entry.in_braces {
            let start = entry.span.start as usize + 1;
            return Some((start, start, format!("{line}, ")));
        }
        let (first, value) = entries.first()?;
        let (first, after) = (first.span.start as usize, value.span.end as usize);
        let start = text[..first].rfind('\n').map_or(0, |end| end + 1);
        let indent = " ".repeat(first - start);
        let end = if text.contains("\r\n") { "\r\n" } else { "\n" };
        // Below the name, where that is one line; its remark stays with it.
        if matches!(value.kind, Kind::Scalar(_)) && !text.get(first..after)?.contains('\n') {
            let after = after + text[after..].find(['\r', '\n']).unwrap_or(text.len() - after);
            return Some((after, after, format!("{end}{indent}{line}")));
        }
        Some((first, first, format!("{line}{end}{indent}")))
    }
}

pub(super) fn key<'n>(entry: &'n Node, name: &str) -> Option<&'n (Placed<String>, Node)> {
    match &entry.kind {
        Kind::Map(entries) => entries.iter().find(|(key, _)| key.value == name),
        _ => None,
    }
}

fn ids(node: &Node) -> Vec<String> {
    match &node.kind {
        Kind::List(items) => items.iter().flat_map(ids).collect(),
        Kind::Scalar(text) => vec![text.trim().to_string()],
        _ => Vec::new(),
    }
}

/// A text with other words at some places.
pub(super) fn spliced(text: &str, mut splices: Vec<Splice>) -> String {
    splices.sort();
    splices.dedup();
    let mut fresh = String::with_capacity(text.len() + 64);
    let mut at = 0;
    for (start, end, words) in splices.into_iter().filter(|(start, end, _)| start <= end) {
        if start < at || end > text.len() {
            continue;
        }
        fresh.push_str(&text[at..start]);
        fresh.push_str(&words);
        at = end;
    }
    fresh.push_str(&text[at..]);
    fresh
}
