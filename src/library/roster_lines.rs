//! Where a new result or class, and what a rung was, goes in a roster's text: comments, order and layout of the rest stay.
//! Never touches a file, and never guesses: where a line cannot go, it says so.

use super::reader::node::{Kind, Node};
use super::{MemberResult, Nickname, OwnRung, Roster, RungWas};
use crate::finding::Placed;
use std::ops::Range;

/// The first lines of a new roster.
pub const HEADER: &str = "# Who is in class, by nickname: kit, limits, own rungs, results.\n\
    # This file is yours alone: it never reaches the site. Keep it out of any shared folder.\n";

/// Why a line cannot be put in or taken out.
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

/// The roster's `text`, whose tree is `root`, with more items in the list `key` of members, each of the
/// member named with it.
///
/// # Errors
/// When a member's entry is written in one line, or has no such list.
pub fn with_items(
    text: &str,
    root: Option<&Node>,
    (key, new): (&str, &[(Nickname, String)]),
) -> Result<String, NoPlace> {
    let members = members_of(root);
    let mut edits = Vec::new();
    let mut newcomers = String::new();
    for (name, items) in by_member(new) {
        let wanted = name.as_str().to_lowercase();
        match members.iter().find(|(key, _)| key.to_lowercase() == wanted) {
            Some(entry) => {
                let made = in_entry(text, entry, (key, &items));
                edits.extend(made.ok_or_else(|| NoPlace { name: name.clone() })?);
            }
            None => newcomers += &new_member(name, (key, &items)),
        }
    }
    let start = if root.is_none() && text.trim().is_empty() { HEADER } else { text };
    let mut text = edited(start, edits);
    if !newcomers.is_empty() && !text.ends_with('\n') {
        text.push('\n');
    }
    Ok(text + &newcomers)
}

/// The roster's text without the items that start there in the list `key` of the member called so.
///
/// # Errors
/// When one of them does not stand on lines of its own.
pub fn without_items(
    text: &str,
    root: Option<&Node>,
    (key, gone): (&str, &[(Nickname, u32)]),
) -> Result<String, NoPlace> {
    let mut edits = Vec::new();
    for (name, node) in members_of(root) {
        let starts: Vec<u32> = gone
            .iter()
            .filter(|(other, _)| other.as_str() == name.value)
            .map(|(_, at)| *at)
            .collect();
        let Kind::Map(entries) = &node.kind else { continue };
        let list = entries.iter().find(|(known, _)| known.value == key);
        let Some((head, Node { kind: Kind::List(items), .. })) = list else { continue };
        let all = items.iter().all(|item| starts.contains(&item.span.start));
        let cuts: Option<Vec<Range<usize>>> =
            starts.iter().map(|start| lines_of(text, *start)).collect();
        let mut cuts = cuts.ok_or_else(|| NoPlace { name: Nickname(name.value.clone()) })?;
        let head = line_start(text, head.span.start);
        // The key goes with its last item, where nothing else stands on its line or below it.
        if let Some(first) = cuts.first_mut().filter(|_| all)
            && text.get(head..first.start).is_some_and(|line| line.trim() == format!("{key}:"))
        {
            first.start = head;
        }
        edits.extend(cuts.into_iter().map(|cut| Edit { cut, lines: String::new() }));
    }
    Ok(edited(text, edits))
}

fn members_of(root: Option<&Node>) -> &[(Placed<String>, Node)] {
    match root.map(|root| &root.kind) {
        Some(Kind::Map(members)) => members,
        _ => &[],
    }
}

/// The lines of the item that starts at `at`; nothing where its line has no dash.
fn lines_of(text: &str, at: u32) -> Option<Range<usize>> {
    let start = line_start(text, at);
    let dash = start + text.get(start..)?.find(|c| c != ' ')?;
    let own = text.get(dash..)?.starts_with('-');
    own.then(|| start..block_end(text, at, dash - start + 1))
}

/// The roster's text with what each rung was beside its number. `now` reads the text as it stands,
/// `kept` says the same of the same members and has what is to be written.
pub fn with_rungs_kept(text: &str, now: &Roster, kept: &Roster) -> String {
    let members = || now.members.iter().zip(&kept.members);
    let rungs = members().flat_map(|(now, kept)| now.rungs.iter().zip(&kept.rungs));
    let rungs = rungs.filter(|((_, now), _)| now.was.is_none());
    let rungs = rungs.filter_map(|((_, now), (_, kept))| rung_kept(text, now, kept));
    let results = members().flat_map(|(now, kept)| now.results.iter().zip(&kept.results));
    let results = results.filter(|(now, _)| now.was.is_none());
    let results = results.filter_map(|(now, kept)| result_kept(text, now, kept));
    edited(text, rungs.chain(results).collect())
}

/// A rung's number, or its map without `was`, gives way to both.
fn rung_kept(text: &str, now: &OwnRung, kept: &OwnRung) -> Option<Edit> {
    let was = kept.was.as_ref()?;
    match key_before(text, now.rung.span.start, "rung") {
        Some(key) => Some(beside_rung(text, key, now.rung.span.end, was)),
        None => {
            let cut = now.rung.span.start as usize..now.rung.span.end as usize;
            Some(Edit { cut, lines: kept.as_yaml() })
        }
    }
}

fn result_kept(text: &str, now: &MemberResult, kept: &MemberResult) -> Option<Edit> {
    let key = key_before(text, now.rung.span.start, "rung")?;
    Some(beside_rung(text, key, now.rung.span.end, kept.was.as_ref()?))
}

/// Where the key of the value at `at` starts, if it is called that.
fn key_before(text: &str, at: u32, name: &str) -> Option<usize> {
    let before = text.get(..at as usize)?.trim_end_matches(' ').strip_suffix(':')?;
    let key = before.trim_end_matches(' ').strip_suffix(name)?;
    let is_whole = key.chars().next_back().is_none_or(|c| " {,\n".contains(c));
    is_whole.then_some(key.len())
}

/// `was` after the rung that ends at `end`: on a line of its own, or between the same brackets.
fn beside_rung(text: &str, key: usize, end: u32, was: &RungWas) -> Edit {
    let start = line_start(text, u32::try_from(key).unwrap_or(u32::MAX));
    let before = text.get(start..key).unwrap_or_default();
    if before.chars().all(|c| c == ' ' || c == '-') {
        let line = format!("{}{}\n", spaces(before.len()), was.as_yaml());
        return after_line(text, end, line);
    }
    let end = end as usize;
    Edit { cut: end..end, lines: format!(", {}", was.as_yaml()) }
}

/// Everyone in the order in which they come first, with the lines of all their items.
fn by_member(new: &[(Nickname, String)]) -> Vec<(&Nickname, Vec<String>)> {
    let mut members: Vec<(&Nickname, Vec<String>)> = Vec::new();
    for (name, item) in new {
        let item = format!("- {item}\n");
        match members.iter_mut().find(|(known, _)| *known == name) {
            Some((_, items)) => items.push(item),
            None => members.push((name, vec![item])),
        }
    }
    members
}

/// Where a member's new items go; nothing where their entry gives no place.
fn in_entry(
    text: &str,
    (key, node): &(Placed<String>, Node),
    (name, items): (&str, &[String]),
) -> Option<Vec<Edit>> {
    let indent = column(text, key.span.start) + 2;
    match &node.kind {
        Kind::Empty => {
            let lines = format!("{}{name}:\n{}", spaces(indent), indented(items, indent + 2));
            Some(vec![after_line(text, key.span.end, lines)])
        }
        Kind::Map(entries) if is_block(text, node) => {
            match entries.iter().find(|(k, _)| k.value == name) {
                Some((key, list)) => at_its_end(text, key.span.start, list, items),
                None => {
                    let indent =
                        entries.first().map_or(indent, |(key, _)| column(text, key.span.start));
                    let lines =
                        format!("{}{name}:\n{}", spaces(indent), indented(items, indent + 2));
                    let last = entries.last().map_or(key.span.end, |(key, _)| key.span.start);
                    Some(vec![insert(text, block_end(text, last, indent), lines)])
                }
            }
        }
        _ => None,
    }
}

fn new_member(name: &Nickname, (key, items): (&str, &[String])) -> String {
    format!("\n{name}:\n  {key}:\n{}", indented(items, 4))
}

fn indented(items: &[String], indent: usize) -> String {
    items.iter().map(|item| spaces(indent) + item).collect()
}

/// More items at the end of a list; nothing where the list is written in one line.
fn at_its_end(text: &str, key: u32, list: &Node, items: &[String]) -> Option<Vec<Edit>> {
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
