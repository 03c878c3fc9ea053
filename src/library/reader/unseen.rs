//! Signs that nobody sees: control characters, signs that turn the direction of a line, numbers that
//! Unicode gives to no letter. Never takes one away: the coach is shown where it stands.

use super::codes;
use super::fields::Reading;
use super::node::{Kind, Node};
use crate::finding::{Finding, Severity, Span};

/// Whether a sign has no place in a text for people. Such signs break a picture or a calendar, or
/// show another order of words than the one that is read.
pub fn is_unseen(c: char) -> bool {
    let is_control = c.is_control() && !matches!(c, '\n' | '\r' | '\t');
    // Line and paragraph separators, and embeddings, overrides and isolates (Unicode Standard Annex 9).
    let turns = matches!(c, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let is_no_letter = matches!(c, '\u{fdd0}'..='\u{fdef}') || u32::from(c) & 0xfffe == 0xfffe;
    is_control || turns || is_no_letter
}

/// Reports every value and key below `node` that holds such a sign, once each.
pub fn report(node: &Node, reading: &mut Reading) {
    match &node.kind {
        Kind::Empty => {}
        Kind::Scalar(text) => one(text, node.span, reading),
        Kind::List(items) => items.iter().for_each(|item| report(item, reading)),
        Kind::Map(entries) => {
            for (key, value) in entries {
                one(&key.value, key.span, reading);
                report(value, reading);
            }
        }
    }
}

/// Reports the first such sign of a Markdown body that starts at byte `start` of its file.
pub fn report_in_body(body: &str, file: Span, start: usize, reading: &mut Reading) {
    if let Some((at, c)) = body.char_indices().find(|(_, c)| is_unseen(*c)) {
        let at = start + at;
        found(c, Span::new(file.file, at, at + c.len_utf8()), reading);
    }
}

fn one(text: &str, span: Span, reading: &mut Reading) {
    if let Some(c) = text.chars().find(|c| is_unseen(*c)) {
        found(c, span, reading);
    }
}

fn found(c: char, span: Span, reading: &mut Reading) {
    let headline = format!("a sign that nobody sees stands in this text: U+{:04X}", u32::from(c));
    reading.findings.push(
        Finding::new(codes::UNSEEN_SIGN, Severity::Error, headline, span)
            .help("delete it, or type the text anew: it often comes with what is copied"),
    );
}
