//! A fault of the catalogue that no movement has.
//! Never asks which movement should have it.

use crate::check::Rule;
use crate::check::{mentions, unknown};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("fault-unused"),
    severity: Severity::Advice,
    what: "A fault in words/faults.yaml is in no movement.",
    why: "A coach who types what they see finds the fault and not one movement that has it.",
    example: r#"
hips-sag: {name: Hips sag}        (and no movement says `fault: hips-sag`)
"#,
    next: "Name it in the movements that show it, or remove it.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    if unknown::use_is_unknown(library) {
        return Vec::new();
    }
    let named: BTreeSet<_> = mentions::faults(library).into_iter().map(|id| &id.value).collect();
    let unused = library.words.faults.values().filter(|fault| !named.contains(&fault.id.value));
    unused
        .map(|fault| {
            let headline = format!("no movement has the fault `{}`", fault.id.value);
            RULE.finding(headline, fault.id.span)
                .help("name it in the movements that show it, or remove it")
        })
        .collect()
}
