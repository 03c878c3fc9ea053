//! A trait that is named and not there.
//! Never asks whether the level is right.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-trait"),
    severity: Severity::Error,
    what: "A movement or a caution names a trait that words/traits.yaml does not have.",
    why: "A misspelt trait protects nobody: the movement would be offered to someone who must \
          avoid it.",
    example: r#"
traits: {strong-gripp: 1}
"#,
    next: "Correct the spelling, or write the trait in words/traits.yaml.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let known = Known::words(&gym.library, "trait", "words/traits.yaml", &gym.library.words.traits);
    let words = gym.library.words.traits.values().flat_map(|one| {
        let names = std::iter::once(&one.name).chain(&one.plain).chain(&one.also_said);
        names.map(|name| (one.id.as_str(), name.as_str()))
    });
    known.also(words).missing(&RULE, mentions::traits(&gym.library))
}
