//! Named: the kinds of entry that others name by an id, where each stands, and every place at which a
//! text names one. Never asks whether it exists; never changes a text.

use super::Library;
use super::keys::{ITEM, Shape, Table};
use super::reader::node::{Kind, Node};
use crate::finding::{Placed, Span};

/// A kind of entry that has an id.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Named {
    Movement,
    Ladder,
    Session,
    Cycle,
    Kit,
    Caution,
    Fault,
    Change,
    Source,
}

/// An id that an entry had before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Formerly {
    /// What the entry is.
    pub of: Named,
    /// Its id now.
    pub id: String,
    /// The id before, where it is written.
    pub was: Placed<String>,
}

impl Named {
    /// Every kind, in reading order.
    pub const ALL: [Named; 9] = [
        Named::Movement,
        Named::Ladder,
        Named::Session,
        Named::Cycle,
        Named::Kit,
        Named::Caution,
        Named::Fault,
        Named::Change,
        Named::Source,
    ];

    /// What it is called, as in a key's shape.
    pub fn word(self) -> &'static str {
        match self {
            Named::Movement => "movement",
            Named::Ladder => "ladder",
            Named::Session => "session",
            Named::Cycle => "cycle",
            Named::Kit => "kit",
            Named::Caution => "caution",
            Named::Fault => "fault",
            Named::Change => "change",
            Named::Source => "source",
        }
    }

    /// The kind of a word, in the singular or as the folder has it.
    pub fn from_word(word: &str) -> Option<Named> {
        Named::ALL.into_iter().find(|kind| kind.word() == word || kind.folder() == word)
    }

    /// The folder of its files, the file of `words/` that holds it, and the word before its id in a
    /// link: `ladders`, `kit`.
    pub fn folder(self) -> &'static str {
        match self {
            Named::Movement => "movements",
            Named::Ladder => "ladders",
            Named::Session => "sessions",
            Named::Cycle => "cycles",
            Named::Kit => "kit",
            Named::Caution => "cautions",
            Named::Fault => "faults",
            Named::Change => "changes",
            Named::Source => "sources",
        }
    }

    /// Whether it stands in a file of its own.
    pub fn has_file(self) -> bool {
        matches!(self, Named::Movement | Named::Ladder | Named::Session | Named::Cycle)
    }

    /// Whether it has a page of its own, to which links outside may lead.
    pub fn has_page(self) -> bool {
        !matches!(self, Named::Change | Named::Source)
    }

    /// The file of `words/` in which it stands, where it has no file of its own.
    pub fn words_file(self) -> String {
        format!("words/{}.yaml", self.folder())
    }

    /// Every one in a library: its id and its name.
    pub fn all(self, library: &Library) -> Vec<(&str, &str)> {
        let words = &library.words;
        match self {
            Named::Movement => {
                library.movements.iter().map(|(id, it)| (id.as_str(), &*it.name.value)).collect()
            }
            Named::Ladder => {
                library.ladders.iter().map(|(id, it)| (id.as_str(), &*it.name.value)).collect()
            }
            Named::Session => {
                library.sessions.iter().map(|(id, it)| (id.as_str(), &*it.name.value)).collect()
            }
            Named::Cycle => {
                library.cycles.iter().map(|(id, it)| (id.as_str(), &*it.name.value)).collect()
            }
            Named::Kit => words.kit.iter().map(|(id, it)| (id.as_str(), &*it.name)).collect(),
            Named::Caution => {
                words.cautions.iter().map(|(id, it)| (id.as_str(), &*it.name)).collect()
            }
            Named::Fault => words.faults.iter().map(|(id, it)| (id.as_str(), &*it.name)).collect(),
            Named::Change => {
                words.changes.iter().map(|(id, it)| (id.as_str(), &*it.name)).collect()
            }
            Named::Source => words.sources.keys().map(|id| (id.as_str(), id.as_str())).collect(),
        }
    }
}

/// Every place below `node`, written as `shape`, that names the entry `id` of a kind.
pub fn mentions(node: &Node, shape: &Shape, (of, id): (Named, &str)) -> Vec<Span> {
    let mut found = Vec::new();
    gather(node, shape, (of, id), &mut found);
    found.sort();
    found.dedup();
    found
}

fn gather(node: &Node, shape: &Shape, wanted: (Named, &str), found: &mut Vec<Span>) {
    let (of, id) = wanted;
    match (&node.kind, shape) {
        (Kind::Scalar(text), Shape::Id(what)) if *what == of.word() && text.trim() == id => {
            found.push(node.span);
        }
        (_, Shape::Any(shapes)) => {
            shapes.iter().for_each(|one| gather(node, one, wanted, found));
        }
        (Kind::List(items), Shape::List(each)) => {
            items.iter().for_each(|item| gather(item, each, wanted, found));
        }
        (Kind::Map(entries), Shape::Each(what, each)) => {
            for (key, value) in entries {
                if *what == of.folder() && key.value == id {
                    found.push(key.span);
                }
                gather(value, each, wanted, found);
            }
        }
        (Kind::Map(entries), _) => {
            let Some(table) = table_of(shape) else { return };
            for (key, value) in entries {
                match table.key(&key.value) {
                    Some(known) if known.name == "then" => then(value, wanted, found),
                    Some(known) => gather(value, &known.shape, wanted, found),
                    None => {}
                }
            }
        }
        _ => {}
    }
}

/// What a fault asks for next may be a movement, before the first comma.
fn then(node: &Node, (of, id): (Named, &str), found: &mut Vec<Span>) {
    if let (Kind::Scalar(text), Named::Movement) = (&node.kind, of)
        && text.split(',').next().is_some_and(|first| first.trim() == id)
    {
        found.push(node.span);
    }
}

fn table_of(shape: &Shape) -> Option<&'static Table> {
    match shape {
        Shape::Map(table) => Some(table),
        Shape::Same(name) if *name == ITEM.name => Some(&ITEM),
        _ => None,
    }
}
