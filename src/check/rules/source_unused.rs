//! A source that no entry names.
//! Never asks whether it should be named.

use crate::check::Rule;
use crate::check::{mentions, unknown};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("source-unused"),
    severity: Severity::Advice,
    what: "A source in words/sources.yaml is named by no entry.",
    why: "It gives weight to nothing, and may be a claim that lost its source.",
    example: r#"
some-paper-2015: {title: "...", read: abstract}
"#,
    next: "Name it where it is used, or remove it.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    if unknown::use_is_unknown(library) {
        return Vec::new();
    }
    let named: BTreeSet<_> = mentions::sources(library).into_iter().map(|id| &id.value).collect();
    let unused = library.words.sources.values().filter(|source| !named.contains(&source.id.value));
    unused
        .map(|source| {
            let headline = format!("no entry names the source `{}`", source.id.value);
            RULE.finding(headline, source.id.span)
                .help("name it where its fact is used, or remove it")
        })
        .collect()
}
