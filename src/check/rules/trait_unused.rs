//! A trait that no movement has.
//! Never asks which movement should have it.

use crate::check::Rule;
use crate::check::{mentions, unknown};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("trait-unused"),
    severity: Severity::Advice,
    what: "A trait in words/traits.yaml is in no movement.",
    why: "Someone who taps it to avoid it would see no change, and may think that every \
          movement is safe.",
    example: r#"
head-below-heart: {name: Head below heart}        (and no movement says so)
"#,
    next: "Add it to the movements that have it, or remove it.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    if unknown::use_is_unknown(library) {
        return Vec::new();
    }
    let had: BTreeSet<_> = mentions::traits_had(library).into_iter().map(|id| &id.value).collect();
    let unused = library.words.traits.values().filter(|one| !had.contains(&one.id.value));
    unused
        .map(|one| {
            let headline = format!("no movement has the trait `{}`", one.id.value);
            RULE.finding(headline, one.id.span)
                .help("add it to the movements that have it, or remove it")
        })
        .collect()
}
