//! A movement without a fault.
//! Never invents one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("no-fault"),
    severity: Severity::Warning,
    what: "A movement has no fault to look for.",
    why: "A new coach would not know what to watch.",
    example: r#"
faults: []
"#,
    next: "Add `faults: [{see: ..., cause: ..., say: ..., then: ...}]`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.movements.values().filter(|movement| movement.faults.is_empty());
    bare.map(|movement| {
        RULE.finding(format!("`{}` has no fault to look for", movement.id), movement.name.span)
            .help("add `faults: [{see: ..., cause: ..., say: ..., then: ...}]`")
    })
    .collect()
}
