//! A muscle that is named and not there.
//! Never judges which muscles work.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-muscle"),
    severity: Severity::Error,
    what: "A movement or a pattern names a muscle that words/muscles.yaml does not have.",
    why: "Swaps compare prime movers by these names; a misspelt one matches nothing.",
    example: r#"
muscles: {prime: [latts, biceps]}
"#,
    next: "Correct the spelling, or write the muscle in words/muscles.yaml.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let words = &gym.library.words;
    let known = Known::words(&gym.library, "muscle", "words/muscles.yaml", &words.muscles);
    let said = words.muscles.values().flat_map(|muscle| {
        let names = std::iter::once(&muscle.name).chain(&muscle.plain).chain(&muscle.also_said);
        names.map(|name| (muscle.id.as_str(), name.as_str()))
    });
    known.also(said).missing(&RULE, mentions::muscles(&gym.library))
}
