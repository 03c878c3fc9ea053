//! A rung asks less than the one below it.
//! Never where the model cannot say: helped, held and landing rungs have no number.

use crate::check::Rule;
use crate::check::steps::steps_where;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("step-backwards"),
    severity: Severity::Warning,
    what: "A rung asks less than the one below it.",
    why: "Whoever steps up is given less to do, and nobody can tell why they do not get stronger.",
    example: r#"
rungs:
  - {movement: push-up}
  - {movement: incline-push-up, hands: 60 cm, changes: share, because: A table}
"#,
    next: "Exchange the two rungs, or mend the pose that the numbers come from.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let words =
        ("asks less", "exchange the two rungs, or mend the pose that the numbers come from");
    steps_where(gym, &RULE, words, |_, lower, upper| {
        lower.value - upper.value > lower.apart(&upper)
    })
}
