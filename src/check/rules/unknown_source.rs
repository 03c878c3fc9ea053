//! A source that is named and not there.
//! Never asks whether the source says so.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-source"),
    severity: Severity::Error,
    what: "An entry names a source that words/sources.yaml does not have.",
    why: "A claim must lead to where it comes from.",
    example: r#"
sources: [comon-practice]
"#,
    next: "Correct the spelling, or write the source in words/sources.yaml.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let words = &gym.library.words;
    let known = Known::words(&gym.library, "source", "words/sources.yaml", &words.sources);
    known.missing(&RULE, mentions::sources(&gym.library))
}
