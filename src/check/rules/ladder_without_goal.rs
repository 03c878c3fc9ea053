//! A ladder without a goal.
//! Never invents one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("ladder-without-goal"),
    severity: Severity::Warning,
    what: "A ladder has no goal.",
    why: "Nobody knows what the rungs lead to.",
    example: r#"
name: Row        (and no `goal`)
"#,
    next: "Add `goal: ...`, what its top rung shows.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.ladders.values().filter(|ladder| ladder.goal.is_none());
    bare.map(|ladder| {
        RULE.finding(format!("the ladder `{}` has no goal", ladder.id), ladder.name.span)
            .help("add `goal: ...`, what its top rung shows")
    })
    .collect()
}
