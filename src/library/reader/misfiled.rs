//! Misfiled: a roster, a handed result or a member's book that lies among the library's files.
//! Never quotes a word of it: a finding of a library goes to screens and code hosts, and names no member.

use super::codes;
use super::fields::Reading;
use crate::finding::{FileId, Span};

/// What members have and entries of a library do not, at any depth below the first.
const OF_MEMBERS: [&str; 5] = ["limits", "results", "cautions", "rungs", "done"];

/// Keys at the start of a line that make a file a ladder, a session, a cycle or the club, however broken.
const OF_ENTRIES: [&str; 11] = [
    "name", "goal", "rungs", "test", "dose", "blocks", "focus", "weeks", "days", "hall", "pattern",
];

/// Whether the file at `parts` below the library looks like one that speaks of members.
pub fn speaks_of_members(parts: &[String], text: &str) -> bool {
    let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
    let name = parts.last().copied().unwrap_or_default();
    let stem = name.split('.').next().unwrap_or(name).to_lowercase();
    let by_name = stem == "roster" && parts.first() != Some(&"movements");
    by_name
        || match parts[..] {
            [_] if name.ends_with(".md") => false,
            ["movements", ..] => has_member(text),
            // Words have names, and may speak of limits; a rung or a result is a member's all the same.
            ["words", ..] => {
                let of_members = ["rungs", "results"].iter().any(|key| has_key(text, key));
                of_members || !has_name(text) && has_member(text) || text.lines().any(is_handed)
            }
            _ => has_member(text) || text.lines().any(is_handed) || has_only_names(text),
        }
}

/// Nothing but names with something below each, as in `wren: {kit: [straps]}`.
fn has_only_names(text: &str) -> bool {
    let starts = |line: &&str| line.starts_with(|c: char| c.is_alphanumeric() || "\"'".contains(c));
    let mut names = text.lines().filter(starts).peekable();
    let is_name = |line: &str| {
        let Some((name, rest)) = line.split_once(':') else { return false };
        let (name, rest) = (name.trim_matches(['"', '\'']), rest.trim());
        !OF_ENTRIES.contains(&name) && (rest.is_empty() || rest.starts_with(['{', '#']))
    };
    let has_within = text.lines().any(|line| line.starts_with([' ', '\t', '-']));
    let is_people = has_key(text, "kit") || !has_within;
    is_people && names.peek().is_some() && names.all(is_name)
}

/// Whether something in it is called: a nickname is a key alone.
fn has_name(text: &str) -> bool {
    text.lines().any(|line| {
        let start = line.trim_start().trim_start_matches("- ");
        start.starts_with("name:") || line.contains("{name:") || line.contains(", name:")
    })
}

/// A line under a nickname: `  limits: {impact: 1}`, or the same within braces.
fn has_member(text: &str) -> bool {
    let front = text.split("\n---").next().unwrap_or(text);
    OF_MEMBERS.iter().any(|key| has_key(front, key))
}

/// Whether `key` stands with a map or a list behind it, anywhere but where the file's own keys stand: a
/// file may be indented as a whole.
fn has_key(text: &str, key: &str) -> bool {
    let plain = || text.lines().map(|line| line.split('#').next().unwrap_or(line));
    let depth = |line: &str| line.len() - line.trim_start().len();
    let own = plain().find(|line| !line.trim().is_empty() && line.trim() != "---").map_or(0, depth);
    plain().any(|line| line.match_indices(key).any(|(at, _)| is_key(line, (at, key), own)))
}

/// Whether the word `key` at byte `at` of a line is such a key; the file's own stand at `own`.
fn is_key(line: &str, (at, key): (usize, &str), own: usize) -> bool {
    let (before, after) = (&line[..at], &line[at + key.len()..]);
    let before = before.trim_end_matches(['"', '\'']);
    let after = after.trim_start_matches(['"', '\'']).trim_start();
    let holds_more = after.strip_prefix(':').is_some_and(|value| {
        let value = value.trim();
        value.is_empty() || value.starts_with(['{', '['])
    });
    let is_within = before.len() > own && before.trim_end().is_empty();
    let opened = before.matches('{').count() > before.matches('}').count();
    let is_in_braces = opened && before.trim_end().ends_with(['{', ',']);
    holds_more && (is_within || is_in_braces)
}

/// A line as a member hands it over: `wren push-up rung 4 12 reps 2026-11-25`.
fn is_handed(line: &str) -> bool {
    let words: Vec<&str> = line.split_whitespace().collect();
    let is_number = |word: &str| word.bytes().all(|b| b.is_ascii_digit());
    words.windows(3).any(|three| {
        three[0].eq_ignore_ascii_case("rung") && is_number(three[1]) && is_number(three[2])
    })
}

/// Says that such a file was not read.
pub fn report(file: FileId, reading: &mut Reading) {
    let headline = "this file speaks of members and was not read".to_string();
    let help = "move it out of the library: a roster stands beside the library's folder, and what is \
                found in a library may be shown to everyone";
    reading.error(codes::ROSTER_IN_LIBRARY, headline, Span::whole(file), help);
}
