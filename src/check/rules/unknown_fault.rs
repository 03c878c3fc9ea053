//! A fault that is named and not there.
//! Never judges whether the movement has it.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-fault"),
    severity: Severity::Error,
    what: "A movement names a fault that words/faults.yaml does not have.",
    why: "What is left to the catalogue would be missing: no cue, no cause, nothing to do then.",
    example: r#"
faults:
  - {fault: hip-sag}
"#,
    next: "Correct the spelling, or write the fault in words/faults.yaml, or say it here with `see`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let words = &gym.library.words;
    let known = Known::words(&gym.library, "fault", "words/faults.yaml", &words.faults);
    known.missing(&RULE, mentions::faults(&gym.library))
}
