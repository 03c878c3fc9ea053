//! Where a new result goes in a roster's text: comments, order and layout of the rest stay.
//! Never touches a file, and never guesses: where a result cannot go, it says so.

use super::reader::node::{Kind, Node};
use super::{MemberResult, Nickname};

/// The first lines of a new roster.
pub const HEADER: &str = "# Who is in class, by nickname: kit, limits, own rungs, results.\n\
    # This file is yours alone: it never reaches the site. Keep it out of any shared folder.\n";

/// Why a result cannot be put in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoPlace {
    /// Whose entry is written in a way that gives no place for a new line.
    pub name: Nickname,
}

/// The roster's `text`, whose tree is `root`, with one more result of `name`.
///
/// # Errors
/// When the member's entry is written in one line, or is no list of results.
pub fn with_result(
    text: &str,
    root: Option<&Node>,
    (name, result): (&Nickname, &MemberResult),
) -> Result<String, NoPlace> {
    let no_place = || NoPlace { name: name.clone() };
    let item = format!("- {}\n", result.as_yaml());
    let Some(root) = root else {
        let start = if text.trim().is_empty() { HEADER } else { text };
        return Ok(new_member(start, name, &item));
    };
    let Kind::Map(members) = &root.kind else { return Err(no_place()) };
    let wanted = name.as_str().to_lowercase();
    let Some((key, node)) = members.iter().find(|(key, _)| key.to_lowercase() == wanted) else {
        return Ok(new_member(text, name, &item));
    };
    let indent = column(text, key.span.start) + 2;
    match &node.kind {
        Kind::Empty => {
            let lines = format!("{}results:\n{}{item}", spaces(indent), spaces(indent + 2));
            Ok(after_line(text, key.span.end, &lines))
        }
        Kind::Map(entries) if is_block(text, node) => match entries
            .iter()
            .find(|(k, _)| k.value == "results")
        {
            Some((key, list)) => with_item(text, key.span.start, list, &item).ok_or_else(no_place),
            None => {
                let indent =
                    entries.first().map_or(indent, |(key, _)| column(text, key.span.start));
                let lines = format!("{}results:\n{}{item}", spaces(indent), spaces(indent + 2));
                let last = entries.last().map_or(key.span.end, |(key, _)| key.span.start);
                Ok(insert(text, block_end(text, last, indent), &lines))
            }
        },
        _ => Err(no_place()),
    }
}

fn new_member(text: &str, name: &Nickname, item: &str) -> String {
    let gap = if text.ends_with('\n') { "" } else { "\n" };
    format!("{text}{gap}\n{name}:\n  results:\n    {item}")
}

/// One more item at the end of a list of results; nothing where the list is written in one line.
fn with_item(text: &str, key: u32, list: &Node, item: &str) -> Option<String> {
    let indent = column(text, key) + 2;
    let line = format!("{}{item}", spaces(indent));
    match &list.kind {
        Kind::Empty => Some(after_line(text, key, &line)),
        Kind::List(items) => match items.last() {
            None => {
                // Nothing stands between the brackets.
                let start = list.span.start as usize;
                let end = start + text.get(start..)?.find(']')? + 1;
                let cut = format!("{}{}", text.get(..start)?.trim_end(), text.get(end..)?);
                Some(after_line(&cut, key, &line))
            }
            Some(last) => {
                let start = line_start(text, last.span.start);
                let written = text.get(start..)?;
                // Between brackets no item starts its line with a dash.
                let dash = start
                    + written.find(|c| c != ' ').filter(|at| written[*at..].starts_with('-'))?;
                let column = dash - start;
                let line = format!("{}{item}", spaces(column));
                Some(insert(text, block_end(text, last.span.start, column + 1), &line))
            }
        },
        _ => None,
    }
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

fn after_line(text: &str, at: u32, lines: &str) -> String {
    let at = at as usize;
    let end = text.get(at..).and_then(|rest| rest.find('\n')).map_or(text.len(), |n| at + n + 1);
    insert(text, end, lines)
}

fn insert(text: &str, at: usize, lines: &str) -> String {
    let (before, after) = text.split_at(at);
    let gap = if before.is_empty() || before.ends_with('\n') { "" } else { "\n" };
    format!("{before}{gap}{lines}{after}")
}
