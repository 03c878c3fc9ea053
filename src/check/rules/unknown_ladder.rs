//! A ladder that is named and not there.
//! Never looks inside ladders.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-ladder"),
    severity: Severity::Error,
    what: "A session or a cycle names a ladder that is not there.",
    why: "Each member would do their own rung of nothing.",
    example: r#"
items:
  - {ladder: rows, dose: 3 x 6-10}
"#,
    next: "Correct the spelling, or write the ladder.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let known = Known::files(&gym.library, "ladder", "ladders");
    let names = gym.library.ladders.values();
    let names = names.map(|one| (one.id.as_str(), one.name.value.as_str()));
    known.also(names).missing(&RULE, mentions::ladders(&gym.library))
}
