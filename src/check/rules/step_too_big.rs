//! A step asks far more than the rung below it.
//! Never where the model cannot say: helped, held and landing rungs have no number.

use crate::check::Rule;
use crate::check::steps::measured_steps;
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
    measured_steps(gym)
        .iter()
        .filter_map(|step| {
            let (lower, upper) = step.numbers()?;
            (upper.value - lower.value > step.axis.too_much()).then(|| {
                RULE.finding(step.against(lower, upper), step.upper.0.movement.span)
                    .label("a big step")
                    .also(step.lower.0.movement.span, "the rung below")
                    .help("put a rung between the two")
            })
        })
        .collect()
}
