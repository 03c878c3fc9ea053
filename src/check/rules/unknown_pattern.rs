//! A pattern that is named and not there.
//! Never asks whether the folder agrees; `pattern-not-folder` does.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-pattern"),
    severity: Severity::Error,
    what: "A movement, a ladder, a session or a pattern names a pattern that \
           words/patterns.yaml does not have.",
    why: "Balance and swaps reckon by pattern; this entry would count for none.",
    example: r#"
pattern: pull-horizontl
"#,
    next: "Correct the spelling, or write the pattern in words/patterns.yaml.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let words = &gym.library.words;
    let known = Known::words(&gym.library, "pattern", "words/patterns.yaml", &words.patterns);
    known.missing(&RULE, mentions::patterns(&gym.library))
}
