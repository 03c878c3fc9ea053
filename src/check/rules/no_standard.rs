//! A movement without its standard.
//! Never writes one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("no-standard"),
    severity: Severity::Warning,
    what: "A movement has no standard.",
    why: "Without what counts as a repetition, a test and its retest are not the same test.",
    example: r#"
name: Strap row        (and no `standard`)
"#,
    next: "Add `standard: ...`, what counts as one repetition.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.movements.values().filter(|movement| movement.standard.is_none());
    bare.map(|movement| {
        RULE.finding(format!("`{}` has no standard", movement.id), movement.name.span)
            .help("add `standard: ...`, what counts as one repetition")
    })
    .collect()
}
