//! Two rungs ask the same.
//! Never where the model cannot say: helped, held and landing rungs have no number.

use crate::check::Rule;
use crate::check::steps::{measured_steps, steps_where};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("rungs-alike"),
    severity: Severity::Advice,
    what: "Two rungs ask the same.",
    why: "A step that changes nothing is a rung too many, or one whose difference nobody has written.",
    example: r#"
rungs:
  - {movement: strap-row, lean: 45 deg}
  - {movement: strap-row, lean: 46 deg, changes: share, because: More of you hangs}
"#,
    next: "Move the two apart, or name what else the step changes.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let words = ("the same demand", "move the two apart, or name what else the step changes");
    steps_where(&measured_steps(gym), &RULE, words, |axis, lower, upper| {
        (upper.value - lower.value).abs() < axis.too_little()
    })
}
