//! A ladder without a test.
//! Never invents one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("ladder-without-test"),
    severity: Severity::Warning,
    what: "A ladder has no test.",
    why: "Nobody can say on which rung a person starts.",
    example: r#"
name: Row        (and no `test`)
"#,
    next: "Add `test: {rung: ..., count: ..., stop: ...}`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.ladders.values().filter(|ladder| ladder.test.is_none());
    bare.map(|ladder| {
        RULE.finding(format!("the ladder `{}` has no test", ladder.id), ladder.name.span)
            .help("add `test: {rung: ..., count: ..., stop: ...}`")
    })
    .collect()
}
