//! Where a new result goes in a roster's text: comments, order and layout of the rest stay.
//! Never touches a file, and never guesses: where a result cannot go, it says so.

use super::reader::node::{Kind, Node};
use super::{MemberResult, Nickname};
use crate::finding::Placed;
use std::ops::Range;

/// The first lines of a new roster.
pub const HEADER: &str = "# Who is in class, by nickname: kit, limits, own rungs, results.\n\
    # This file is yours alone: it never reaches the site. Keep it out of any shared folder.\n";

/// Why a result cannot be put in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoPlace {
    /// Whose entry is written in a way that gives no place for a new line.
    pub name: Nickname,
}

/// A change of a text: what stands at `cut` gives way to `lines`.
struct Edit {
    cut: Range<usize>,
    lines: String,
}

/// The roster's `text`, whose tree is `root`, with more results, each of the member named with it.
///
/// # Errors
/// When a member's entry is written in one line, or is no list of results.
pub fn with_results(
    text: &str,
    root: Option<&Node>,
    new: &[(Nickname, MemberResult)],
) -> Result<String, NoPlace> {
    let members = match root.map(|root| &root.kind) {
        Some(Kind::Map(members)) => members.as_slice(),
        _ => &[],
    };
    let mut edits = Vec::new();
    let mut newcomers = String::new();
    for (name, items) in by_member(new) {
        let wanted = name.as_str().to_lowercase();
        match members.iter().find(|(key, _)| key.to_lowercase() == wanted) {
            Some(entry) => {
                let made = in_entry(text, entry, &items);
                edits.extend(made.ok_or_else(|| NoPlace { name: name.clone() })?);
            }
            None => newcomers += &new_member(name, &items),
        }
    }
    let start = if root.is_none() && text.trim().is_empty() { HEADER } else { text };
    let mut text = edited(start, edits);
    if !newcomers.is_empty() && !text.ends_with('\n') {
        text.push('\n');
    }
    Ok(text + &newcomers)
}

/// Everyone in the order in which they come first, with the lines of all their results.
fn by_member(new: &[(Nickname, MemberResult)]) -> Vec<(&Nickname, Vec<String>)> {
    let mut members: Vec<(&Nickname, Vec<String>)> = Vec::new();
    for (name, result) in new {
        let item = format!("- {}\n", result.as_yaml());
        match members.iter_mut().find(|(known, _)| *known == name) {
            Some((_, items)) => items.push(item),
            None => members.push((name, vec![item])),
        }
    }
    members
}

/// Where a member's new results go; nothing where their entry gives no place.
fn in_entry(
    text: &str,
    (key, node): &(Placed<String>, Node),
    items: &[String],
) -> Option<Vec<Edit>> {
    let indent = column(text, key.span.start) + 2;
    match &node.kind {
        Kind::Empty => {
            let lines = format!("{}results:\n{}", spaces(indent), indented(items, indent + 2));
            Some(vec![after_line(text, key.span.end, lines)])
        }
        Kind::Map(entries) if is_block(text, node) => {
            match entries.iter().find(|(k, _)| k.value == "results") {
                Some((key, list)) => with_items(text, key.span.start, list, items),
                None => {
                    let indent =
                        entries.first().map_or(indent, |(key, _)| column(text, key.span.start));
                    let lines =
                        format!("{}results:\n{}", spaces(indent), indented(items, indent + 2));
                    let last = entries.last().map_or(key.span.end, |(key, _)| key.span.start);
                    Some(vec![insert(text, block_end(text, last, indent), lines)])
                }
            }
        }
        _ => None,
    }
}

fn new_member(name: &Nickname, items: &[String]) -> String {
    format!("\n{name}:\n  results:\n{}", indented(items, 4))
}

fn indented(items: &[String], indent: usize) -> String {
    items.iter().map(|item| spaces(indent) + item).collect()
}

/// More items at the end of a list of results; nothing where the list is written in one line.
fn with_items(text: &str, key: u32, list: &Node, items: &[String]) -> Option<Vec<Edit>> {
    let indent = column(text, key) + 2;
    match &list.kind {
        Kind::Empty => Some(vec![after_line(text, key, indented(items, indent))]),
        Kind::List(known) => match known.last() {
            None => {
                // Nothing stands between the brackets.
                let start = list.span.start as usize;
                let end = start + text.get(start..)?.find(']')? + 1;
                let cut = text.get(..start)?.trim_end().len()..end;
                let lines = after_line(text, u32::try_from(end).ok()?, indented(items, indent));
                Some(vec![Edit { cut, lines: String::new() }, lines])
            }
            Some(last) => {
                let start = line_start(text, last.span.start);
                let written = text.get(start..)?;
                // Between brackets no item starts its line with a dash.
                let dash = start
                    + written.find(|c| c != ' ').filter(|at| written[*at..].starts_with('-'))?;
                let column = dash - start;
                let end = block_end(text, last.span.start, column + 1);
                Some(vec![insert(text, end, indented(items, column))])
            }
        },
        _ => None,
    }
}

/// The text with every change made. No two of them touch: each stands in an entry of its own.
fn edited(text: &str, mut edits: Vec<Edit>) -> String {
    edits.sort_by_key(|edit| (edit.cut.start, edit.cut.end));
    let mut changed = String::with_capacity(text.len());
    let mut at = 0;
    for Edit { cut, lines } in edits {
        changed += text.get(at..cut.start).unwrap_or_default();
        changed += &lines;
        at = cut.end;
    }
    changed + text.get(at..).unwrap_or_default()
}

/// False for a map between brackets.
fn is_block(text: &str, node: &Node) -> bool {
    let start = node.span.start as usize;
    !text.get(start..).is_some_and(|rest| rest.starts_with('{'))
}

fn line_start(text: &str, at: u32) -> usize {
    let at = (at as usize).min(text.len());
    text.get(..at).and_then(|before| before.rfind('\n')).map_or(0, |end| end + 1)
}

fn column(text: &str, at: u32) -> usize {
    at as usize - line_start(text, at)
}

fn spaces(number: usize) -> String {
    " ".repeat(number)
}

/// The end of what starts in the line of `at` and stands at `indent` or further right. Blank lines
/// and comments after it are left to what follows.
fn block_end(text: &str, at: u32, indent: usize) -> usize {
    let start = line_start(text, at);
    let mut end = start;
    let mut here = start;
    for (nth, line) in text.get(start..).unwrap_or_default().split_inclusive('\n').enumerate() {
        let body = line.trim_start_matches(' ');
        let blank = body.trim().is_empty() || body.starts_with('#');
        if nth > 0 && !blank && line.len() - body.len() < indent {
            break;
        }
        here += line.len();
        if !blank {
            end = here;
        }
    }
    end
}

fn after_line(text: &str, at: u32, lines: String) -> Edit {
    let at = at as usize;
    let end = text.get(at..).and_then(|rest| rest.find('\n')).map_or(text.len(), |n| at + n + 1);
    insert(text, end, lines)
}

fn insert(text: &str, at: usize, lines: String) -> Edit {
    let before = text.get(..at).unwrap_or_default();
    let gap = if before.is_empty() || before.ends_with('\n') { "" } else { "\n" };
    Edit { cut: at..at, lines: format!("{gap}{lines}") }
}
