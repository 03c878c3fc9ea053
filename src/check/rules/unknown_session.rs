//! A session that is named and not there.
//! Never looks inside sessions.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-session"),
    severity: Severity::Error,
    what: "A cycle names a session that is not there.",
    why: "A training day would be empty.",
    example: r#"
weeks:
  - {week: 1, kind: test, sessions: [tuesday-tset]}
"#,
    next: "Correct the spelling, or write the session.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let known = Known::files(&gym.library, "session", "sessions");
    let names = gym.library.sessions.values();
    let names = names.map(|one| (one.id.as_str(), one.name.value.as_str()));
    known.also(names).missing(&RULE, mentions::sessions(&gym.library))
}
