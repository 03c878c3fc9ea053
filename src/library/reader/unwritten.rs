//! What a new entry leaves for its author: texts that are `...` until somebody writes them.
//! Never judges what is written.

use super::codes;
use super::fields::Reading;
use super::node::{Kind, Node};
use crate::finding::{Finding, Severity, Span};

/// What stands where something is still to be written.
pub const TO_WRITE: &str = "...";

/// Reports what is still to be written in an entry, once: its keys below `node`, and in the body that
/// starts at byte `start` of the file.
pub fn report(node: &Node, (body, start): (&str, usize), reading: &mut Reading) {
    let mut found = Vec::new();
    gather(node, "", &mut found);
    let line = body.lines().find(|line| line.trim() == TO_WRITE);
    let line = line.map(|line| start + line.as_ptr() as usize - body.as_ptr() as usize);
    let in_body = line.map(|at| Span::new(node.span.file, at, at + TO_WRITE.len()));
    let Some(first) = found.first().map(|(_, span)| *span).or(in_body) else { return };
    let mut keys: Vec<String> = Vec::new();
    for (key, _) in &found {
        let key = format!("`{key}`");
        if !keys.contains(&key) {
            keys.push(key);
        }
    }
    keys.extend(in_body.map(|_| "the text below the keys".to_string()));
    let is = if keys.len() == 1 { "is" } else { "are" };
    let headline = format!("{} {is} still to be written", listed(&keys));
    let help = "write it in the place of `...`, or take the key away";
    let finding = Finding::new(codes::STILL_TO_WRITE, Severity::Warning, headline, first);
    reading.findings.push(finding.help(help));
}

fn gather<'n>(node: &'n Node, key: &'n str, found: &mut Vec<(&'n str, Span)>) {
    match &node.kind {
        Kind::Scalar(text) if text.trim() == TO_WRITE => found.push((key, node.span)),
        Kind::List(items) => items.iter().for_each(|item| gather(item, key, found)),
        Kind::Map(entries) => entries.iter().for_each(|(key, value)| gather(value, key, found)),
        _ => {}
    }
}

fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}
