//! A change that no movement allows.
//! Never asks which movement should.

use crate::check::Rule;
use crate::check::{mentions, unknown};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("change-unused"),
    severity: Severity::Advice,
    what: "A change in words/changes.yaml is in no movement.",
    why: "Nobody is offered it: a change answers only where an entry allows it.",
    example: r#"
fists: {name: on fists}        (and no movement says `changes: [fists]`)
"#,
    next: "Add it to the movements that allow it, or remove it.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    if unknown::use_is_unknown(library) {
        return Vec::new();
    }
    let used: BTreeSet<_> = mentions::changes(library).into_iter().map(|id| &id.value).collect();
    let unused = library.words.changes.values().filter(|one| !used.contains(&one.id.value));
    unused
        .map(|one| {
            let headline = format!("no movement allows the change `{}`", one.id.value);
            RULE.finding(headline, one.id.span)
                .help("add it to the movements that allow it, or remove it")
        })
        .collect()
}
