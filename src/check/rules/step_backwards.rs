//! A rung asks less than the one below it.
//! Never where the model cannot say: helped, held and landing rungs have no number.

use crate::check::Rule;
use crate::check::steps::{MeasuredStep, all_steps, steps_where};
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

/// A step that changes something else (a slow lowering, one hand) may ask less of what the axis shows,
/// but hardly less than this part of it. Common practice, no source.
const LEAST_PART: f64 = 0.5;

fn run(gym: &Gym) -> Vec<Finding> {
    let words =
        ("asks less", "exchange the two rungs, or mend the pose that the numbers come from");
    let (shown, other): (Vec<_>, Vec<_>) =
        all_steps(gym).into_iter().partition(MeasuredStep::is_on_axis);
    let mut found = steps_where(&shown, &RULE, words, |_, lower, upper| {
        lower.value - upper.value > lower.apart(&upper)
    });
    found.extend(steps_where(&other, &RULE, words, |_, lower, upper| {
        LEAST_PART * lower.value - upper.value > lower.apart(&upper)
    }));
    found
}
