//! A rung asks less than the one below it.
//! Never where the model cannot say: helped, held and landing rungs have no number.

use crate::check::Rule;
use crate::check::steps::measured_steps;
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
    measured_steps(gym)
        .iter()
        .filter_map(|step| {
            let (lower, upper) = step.numbers()?;
            let band = lower.band.max(upper.band);
            (lower.value - upper.value > band).then(|| {
                RULE.finding(step.against(lower, upper), step.upper.0.movement.span)
                    .label("asks less")
                    .also(step.lower.0.movement.span, "the rung below")
                    .help("exchange the two rungs, or mend the pose that the numbers come from")
            })
        })
        .collect()
}
