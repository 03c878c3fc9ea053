//! Reworded: one value of an entry's YAML replaced, added or taken away in its text.
//! Never touches another byte, and gives nothing back where the new text would say anything else than
//! the old one with that change; reads and writes no file.

use super::reader::front_matter;
use super::reader::node::{self, Kind, Node};
use crate::finding::{FileId, Placed};
use std::ops::Range;

/// Why a text was left as it is, in a sentence with its next step.
pub type Left = &'static str;

const UNREAD: Left =
    "The entry cannot be read as it stands: mend what `rungbook check` says of it first.";
const BY_HAND: Left = "The file is laid out in a way in which this cannot be written without touching \
                       more: write this word by hand, or run `rungbook tidy` first.";
const TOO_LONG: Left = "That is too long for a pose: write at most 200 letters in one line.";

/// The longest value that is written, letters.
const LONGEST: usize = 200;

/// The text of a movement's file with `value`, a text, at a way of keys below its front matter; with none
/// the last key of the way is taken away. A number in a way is a place in a list, from 0.
///
/// # Errors
/// Why nothing was changed.
pub fn reworded(text: &str, way: &[&str], value: Option<&str>) -> Result<String, Left> {
    if value
        .is_some_and(|words| words.chars().count() > LONGEST || words.contains(char::is_control))
    {
        return Err(TOO_LONG);
    }
    set(text, way, value.map(in_yaml).as_deref())
}

/// The text with a whole key of the front matter besides, in lines of its own.
///
/// # Errors
/// Why nothing was changed; also where that key stands there already.
pub fn with_lines(text: &str, lines: &str) -> Result<String, Left> {
    let (yaml, _) = front_matter(text).ok_or(UNREAD)?;
    let end = base(text) + yaml.len();
    let ends = if yaml.contains("\r\n") { "\r\n" } else { "\n" };
    let new = format!("{}{}{}", &text[..end], lines.replace('\n', ends), &text[end..]);
    let (old, fresh) = (plain(&tree(text)?), plain(&tree(&new)?));
    let added = plain(&node::parse(lines, FileId::default(), 0).map_err(|_| BY_HAND)?);
    match (old, added, fresh) {
        (Plain::Map(mut old), Plain::Map(added), fresh)
            if !added.iter().any(|(key, _)| old.iter().any(|(own, _)| own == key)) =>
        {
            old.extend(added);
            (Plain::Map(old) == fresh).then_some(new).ok_or(BY_HAND)
        }
        _ => Err(BY_HAND),
    }
}

/// A text as one value of YAML: bare where that is the same everywhere, else in quotes.
pub fn in_yaml(words: &str) -> String {
    let bare = |c: char| c.is_alphanumeric() || " -+./%".contains(c);
    let first = |c: char| c.is_alphanumeric() || c == '-';
    let reserved = ["true", "false", "null", "yes", "no", "on", "off", "-"];
    let is_bare = words.starts_with(first)
        && words.chars().all(bare)
        && !words.starts_with("- ")
        && !words.ends_with(' ')
        && !reserved.contains(&words.to_lowercase().as_str());
    match is_bare {
        true => words.to_string(),
        false => format!("\"{}\"", words.replace('\\', "\\\\").replace('"', "\\\"")),
    }
}

fn base(text: &str) -> usize {
    text.len() - text.trim_start_matches('\u{feff}').len()
}

/// The front matter of a movement's file; its places are those of the file.
///
/// # Errors
/// It cannot be read.
pub fn tree(text: &str) -> Result<Node, Left> {
    let (yaml, _) = front_matter(text).ok_or(UNREAD)?;
    node::parse(yaml, FileId::default(), base(text)).map_err(|_| UNREAD)
}

fn set(text: &str, way: &[&str], raw: Option<&str>) -> Result<String, Left> {
    let root = tree(text)?;
    let (range, words) = match raw {
        Some(raw) => placed(text, &root, way, raw)?,
        None => match taken(text, &root, way)? {
            Some(range) => (range, String::new()),
            // What is not there need not go.
            None => return Ok(text.to_string()),
        },
    };
    let new = format!("{}{words}{}", &text[..range.start], &text[range.end..]);
    let mut wanted = plain(&root);
    wanted.set(way, raw.map(scalar).transpose()?).ok_or(BY_HAND)?;
    (plain(&tree(&new)?) == wanted).then_some(new).ok_or(BY_HAND)
}

fn child<'n>(node: &'n Node, key: &str) -> Option<&'n Node> {
    match &node.kind {
        Kind::Map(entries) => {
            entries.iter().find(|(own, _)| own.value == key).map(|(_, node)| node)
        }
        Kind::List(items) => items.get(key.parse::<usize>().ok()?),
        _ => None,
    }
}

/// Which bytes give way to which words, so that `raw` stands at the end of the way.
fn placed(
    text: &str,
    root: &Node,
    way: &[&str],
    raw: &str,
) -> Result<(Range<usize>, String), Left> {
    let mut node = root;
    for (depth, key) in way.iter().enumerate() {
        match child(node, key) {
            Some(next) if matches!(next.kind, Kind::Empty) => {
                let rest = inside(&way[depth + 1..], raw);
                return emptied(text, node, key, &rest);
            }
            Some(next) => node = next,
            None => return added(text, node, (key, &inside(&way[depth + 1..], raw)), depth == 0),
        }
    }
    match node.kind {
        Kind::Scalar(_) => Ok((node.span.start as usize..node.span.end as usize, raw.to_string())),
        _ => Err(BY_HAND),
    }
}

/// `near: {knee: 4}` for what is missing of a way, without its first key.
fn inside(rest: &[&str], raw: &str) -> String {
    rest.iter().rev().fold(raw.to_string(), |words, key| format!("{{{key}: {words}}}"))
}

/// A key with nothing behind it gets its value.
fn emptied(text: &str, map: &Node, key: &str, words: &str) -> Result<(Range<usize>, String), Left> {
    let Kind::Map(entries) = &map.kind else { return Err(BY_HAND) };
    let (own, _) = entries.iter().find(|(own, _)| own.value == key).ok_or(BY_HAND)?;
    let end = own.span.end as usize;
    let colon = end + text[end..].find(':').ok_or(BY_HAND)? + 1;
    Ok((colon..colon, format!(" {words}")))
}

/// A key more in a map: behind the last one, in its way of laying out.
fn added(
    text: &str,
    map: &Node,
    (key, words): (&str, &str),
    is_root: bool,
) -> Result<(Range<usize>, String), Left> {
    let Kind::Map(entries) = &map.kind else { return Err(BY_HAND) };
    if map.is_in_brackets(text) {
        return Ok(match entries.last() {
            Some((_, value)) if !matches!(value.kind, Kind::Empty) => {
                let end = value.end_in(text);
                (end..end, format!(", {key}: {words}"))
            }
            Some(_) => return Err(BY_HAND),
            None => {
                let open = map.span.start as usize + 1;
                (open..open, format!("{key}: {words}"))
            }
        });
    }
    let ends = if text.contains("\r\n") { "\r\n" } else { "\n" };
    if is_root {
        let end = base(text) + front_matter(text).ok_or(UNREAD)?.0.len();
        return Ok((end..end, format!("{key}: {words}{ends}")));
    }
    let ((first, _), (_, last)) = entries.first().zip(entries.last()).ok_or(BY_HAND)?;
    let start = first.span.start as usize;
    let line = text[..start].rfind('\n').map_or(0, |at| at + 1);
    let indent = " ".repeat(text[line..start].chars().count());
    let end = last.end_in(text);
    let end = end + text[end..].find(['\r', '\n']).unwrap_or(text.len() - end);
    Ok((end..end, format!("{ends}{indent}{key}: {words}")))
}

/// The bytes that go with a key; nothing where it is not there.
fn taken(text: &str, root: &Node, way: &[&str]) -> Result<Option<Range<usize>>, Left> {
    let Some((key, before)) = way.split_last() else { return Ok(None) };
    let map = before.iter().try_fold(root, |node, key| child(node, key));
    let Some(Kind::Map(entries)) = map.map(|map| &map.kind) else { return Ok(None) };
    let Some(at) = entries.iter().position(|(own, _)| own.value == *key) else { return Ok(None) };
    let start = |entry: &(Placed<String>, Node)| entry.0.span.start as usize;
    let in_brackets = map.is_some_and(|map| map.is_in_brackets(text));
    let own = start(&entries[at])..end_of(text, &entries[at]);
    let range = match (in_brackets, at.checked_sub(1), entries.get(at + 1)) {
        (true, _, Some(next)) => own.start..start(next),
        (true, Some(before), None) => end_of(text, &entries[before])..own.end,
        (true, None, None) => own,
        (false, ..) => return whole_line(text, own, entries.len()).map(Some),
    };
    // A remark that stands among it is a coach's.
    if text[range.clone()].contains('#') { Err(BY_HAND) } else { Ok(Some(range)) }
}

fn end_of(text: &str, (key, value): &(Placed<String>, Node)) -> usize {
    match value.kind {
        Kind::Empty => key.span.end as usize,
        _ => value.end_in(text),
    }
}

/// The lines of a key in a block; one with a remark beside it, or the only one, stays.
fn whole_line(text: &str, own: Range<usize>, keys: usize) -> Result<Range<usize>, Left> {
    let line = text[..own.start].rfind('\n').map_or(0, |at| at + 1);
    let end = own.end + text[own.end..].find('\n').map_or(text.len() - own.end, |at| at + 1);
    let beside = text[line..own.start].trim().is_empty() && text[own.end..end].trim().is_empty();
    match keys > 1 && beside && !text[own.clone()].contains('#') {
        true => Ok(line..end),
        false => Err(BY_HAND),
    }
}

/// What a text says, without its places.
#[derive(Debug, Clone, PartialEq)]
enum Plain {
    Empty,
    Words(String),
    List(Vec<Plain>),
    Map(Vec<(String, Plain)>),
}

fn plain(node: &Node) -> Plain {
    match &node.kind {
        Kind::Empty => Plain::Empty,
        Kind::Scalar(words) => Plain::Words(words.clone()),
        Kind::List(items) => Plain::List(items.iter().map(plain).collect()),
        Kind::Map(entries) => Plain::Map(
            entries.iter().map(|(key, value)| (key.value.clone(), plain(value))).collect(),
        ),
    }
}

fn scalar(raw: &str) -> Result<Plain, Left> {
    let line = format!("a: {raw}");
    let node = node::parse(&line, FileId::default(), 0).map_err(|_| BY_HAND)?;
    child(&node, "a").map(plain).ok_or(BY_HAND)
}

impl Plain {
    /// Says `value` at the end of a way, or nothing any more; nothing where the way leads nowhere.
    fn set(&mut self, way: &[&str], value: Option<Plain>) -> Option<()> {
        let (key, rest) = way.split_first()?;
        if let Plain::List(items) = self {
            return items.get_mut(key.parse::<usize>().ok()?)?.set(rest, value);
        }
        if matches!(self, Plain::Empty) {
            *self = Plain::Map(Vec::new());
        }
        let Plain::Map(entries) = self else { return None };
        let at = entries.iter().position(|(own, _)| own == key);
        match (at, rest.is_empty(), value) {
            (Some(at), true, Some(value)) => entries[at].1 = value,
            (Some(at), true, None) => drop(entries.remove(at)),
            (None, _, None) => {}
            (Some(at), false, value) => entries[at].1.set(rest, value)?,
            (None, true, Some(value)) => entries.push(((*key).to_string(), value)),
            (None, false, value) => {
                let mut inner = Plain::Map(Vec::new());
                inner.set(rest, value)?;
                entries.push(((*key).to_string(), inner));
            }
        }
        Some(())
    }
}
