//! Tidy: an entry's YAML with its keys in the order of the tables and one thing a line, so that one
//! changed cue is one changed line. Never changes what is said, drops a remark or joins lines that
//! somebody broke; reads and writes no file.

pub mod fresh;
mod laid;
mod parts;
pub mod words;

use super::keys::{FileKind, Shape};
use super::reader::front_matter;
use super::reader::node::{self, Kind, Node};
use crate::finding::{FileId, Finding};
use parts::remarks;

/// Why a text was left as it is.
#[derive(Debug)]
pub enum Untidy {
    /// It cannot be read.
    Unread(Box<Finding>),
    /// It is laid out in a way that cannot be laid out anew without losing something of it.
    Odd,
}

/// The text of a file of a kind, tidy; a movement's body is left as it is. Findings place in `file`.
///
/// # Errors
/// See [`Untidy`]; then the text stays as it is.
pub fn tidied(text: &str, kind: &FileKind, file: FileId) -> Result<String, Untidy> {
    let (bare, mark) = match text.strip_prefix('\u{feff}') {
        Some(bare) => (bare, "\u{feff}"),
        None => (text, ""),
    };
    let is_movement = kind.name == "movement";
    let (yaml, rest) = match is_movement {
        // Without front matter there is nothing to lay out; `check` says so.
        true => match front_matter(bare) {
            Some((yaml, _)) => bare.split_at(yaml.len()),
            None => return Ok(text.to_string()),
        },
        false => (bare, ""),
    };
    let ends = if yaml.contains("\r\n") { "\r\n" } else { "\n" };
    let plain = yaml.replace("\r\n", "\n");
    // Places are those of the file as it is: what cannot be read is read again as it stands.
    let place = |_| node::parse(yaml, file, mark.len()).err().map_or(Untidy::Odd, Untidy::Unread);
    let tree = node::parse(&plain, file, 0).map_err(place)?;
    if matches!(tree.kind, Kind::Empty) {
        return Ok(text.to_string());
    }
    let fresh = tidied_yaml(&plain, &tree, &kind.shape).ok_or(Untidy::Odd)?;
    says_the_same(&plain, &tree, &fresh).then_some(()).ok_or(Untidy::Odd)?;
    Ok(format!("{mark}{}{rest}", fresh.replace('\n', ends)))
}

fn tidied_yaml(yaml: &str, tree: &Node, shape: &Shape) -> Option<String> {
    let (head, whole) = parts::read(yaml, tree, shape)?;
    Some(laid::out(&head, &whole))
}

/// Whether the new text says what the old one does, and has its remarks: asked anew of the text, so that
/// no slip of ours loses a coach's words.
fn says_the_same(old: &str, tree: &Node, fresh: &str) -> bool {
    let Ok(again) = node::parse(fresh, FileId::default(), 0) else { return false };
    let sorted = |mut found: Vec<String>| {
        found.sort();
        found
    };
    same(tree, &again) && sorted(remarks(old, tree)) == sorted(remarks(fresh, &again))
}

/// Whether two values say the same, whatever the order of their keys.
fn same(one: &Node, other: &Node) -> bool {
    match (&one.kind, &other.kind) {
        (Kind::Empty, Kind::Empty) => true,
        (Kind::Scalar(one), Kind::Scalar(other)) => one == other,
        (Kind::List(one), Kind::List(other)) => {
            one.len() == other.len() && one.iter().zip(other).all(|(one, other)| same(one, other))
        }
        (Kind::Map(one), Kind::Map(other)) => {
            let in_order = |entries: &'_ [_]| {
                let mut order: Vec<usize> = (0..entries.len()).collect();
                order.sort_by_key(|at| key_at(entries, *at));
                order
            };
            let pairs = in_order(one).into_iter().zip(in_order(other));
            one.len() == other.len()
                && pairs.into_iter().all(|(a, b)| {
                    one[a].0.value == other[b].0.value && same(&one[a].1, &other[b].1)
                })
        }
        _ => false,
    }
}

fn key_at(entries: &[(crate::finding::Placed<String>, Node)], at: usize) -> String {
    entries[at].0.value.clone()
}
