//! A step asks far more than the rung below it.
//! Never where the model cannot say: helped, held and landing rungs have no number.

use crate::check::Rule;
use crate::check::steps::{measured_steps, steps_where};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("step-too-big"),
    severity: Severity::Advice,
    what: "A step asks far more than the rung below it.",
    why: "Whoever masters the lower rung meets a wall at the upper one.",
    example: r#"
rungs:
  - {movement: strap-row, lean: 15 deg}
  - {movement: strap-row, lean: 75 deg, changes: share, because: More of you hangs}
"#,
    next: "Put a rung between the two.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let words = ("a big step", "put a rung between the two");
    // Surely too big: by more than the doubts of the two numbers leave open.
    steps_where(&measured_steps(gym), &RULE, words, |axis, lower, upper| {
        upper.value - lower.value - lower.apart(&upper) > axis.too_much()
    })
}
