//! A step that does not say what it changes, or why that asks more.
//! Never guesses the variable.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("step-unnamed"),
    severity: Severity::Warning,
    what: "A step does not say what it changes, or why that asks more.",
    why: "A coach who knows what a step changes can change just that.",
    example: r#"
rungs:
  - {movement: strap-row, lean: 30 deg}
  - {movement: strap-row, lean: 45 deg}
"#,
    next: "Add `changes: ...` and `because: ...` to the upper rung.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let upper = gym.library.ladders.values().flat_map(|ladder| ladder.rungs.iter().skip(1));
    let findings = upper.filter_map(|rung| {
        let (headline, help) = match (&rung.changes, &rung.because) {
            (Some(_), Some(_)) => return None,
            (None, _) => (
                "the step to this rung does not say what it changes",
                "add `changes: ...`, one of weight, share, lever, range, base, limbs and so on",
            ),
            (Some(_), None) => (
                "the step to this rung does not say why it asks more",
                "add `because: ...`, half a sentence",
            ),
        };
        Some(RULE.finding(headline, rung.movement.span).help(help))
    });
    findings.collect()
}
