//! Kit that is named and not there.
//! Never asks whether the hall has enough of it.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-kit"),
    severity: Severity::Error,
    what: "A movement or the hall names kit that words/kit.yaml does not have.",
    why: "A swap for a member without it could not be found, and its check before use would be \
          missing.",
    example: r#"
kit: [straps, matt]
"#,
    next: "Correct the spelling, or write the kit in words/kit.yaml.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let known = Known::words(&gym.library, "kit", "words/kit.yaml", &gym.library.words.kit);
    let words = gym.library.words.kit.values().flat_map(|kit| {
        let names = std::iter::once(&kit.name).chain(&kit.aliases);
        names.map(|name| (kit.id.as_str(), name.as_str()))
    });
    known.also(words).missing(&RULE, mentions::kit(&gym.library))
}
