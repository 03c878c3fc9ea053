//! A change that is named and not there.
//! Never asks whether it fits the movement.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-change"),
    severity: Severity::Error,
    what: "A movement names a change that words/changes.yaml does not have.",
    why: "A misspelt change helps nobody: whoever needs it is told to leave the movement out.",
    example: r#"
changes: [fitss]
"#,
    next: "Correct the spelling, or write the change in words/changes.yaml.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let changes = &gym.library.words.changes;
    let known = Known::words(&gym.library, "change", "words/changes.yaml", changes);
    known.missing(&RULE, mentions::changes(&gym.library))
}
