//! Done: what a member did in one class, as one line of their entry.
//! Never a rung by its number alone: a ladder may be rewritten, so it stands in the board's words.

use super::SessionId;
use crate::finding::{Placed, Span};
use std::fmt::Write;

/// What a member did in one class.
#[derive(Debug, Clone)]
pub struct Done {
    /// The day as written; whether there is such a day is for checks to say.
    pub day: Placed<String>,
    /// The session.
    pub session: Placed<SessionId>,
    /// By the name of each line that asks for an own rung, what they did there.
    pub did: Vec<(String, String)>,
    /// Names of lines for which nothing fitted them.
    pub left_out: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

impl Done {
    /// Whether it is of that session on that day.
    pub fn is_of(&self, session: &SessionId, day: &str) -> bool {
        self.session.value == *session && self.day.value == day
    }

    /// The line as the roster's file has it.
    pub fn as_yaml(&self) -> String {
        let mut text = format!("{{day: {}, session: {}", self.day.value, self.session.value);
        if !self.did.is_empty() {
            let did: Vec<String> = self
                .did
                .iter()
                .map(|(line, what)| format!("{}: {}", quoted(line), quoted(what)))
                .collect();
            // Writing to a String cannot fail.
            let _ = write!(text, ", did: {{{}}}", did.join(", "));
        }
        if !self.left_out.is_empty() {
            let lines: Vec<String> = self.left_out.iter().map(|line| quoted(line)).collect();
            let _ = write!(text, ", left-out: [{}]", lines.join(", "));
        }
        text + "}"
    }
}

/// A text between quotation marks, in one line.
fn quoted(text: &str) -> String {
    let plain: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    format!("\"{}\"", plain.replace('\\', "\\\\").replace('"', "\\\""))
}
