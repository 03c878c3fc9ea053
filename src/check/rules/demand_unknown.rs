//! A step that claims a number, with no pose on one side to take it from.
//! Never where no pose could tell: helped, held and landing rungs are left alone.

use crate::check::Rule;
use crate::check::steps::measured_steps;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::gym::scale::Unknown;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("demand-unknown"),
    severity: Severity::Advice,
    what: "A step says that it changes the share, lever, range or weight, and a rung has no pose to show it.",
    why: "A step that is not measured is an opinion, and the ladder cannot be drawn to scale.",
    example: r#"
rungs:
  - {movement: strap-row, lean: 30 deg}
  - {movement: towel-row, changes: share, because: More to pull}   (a movement without a pose)
"#,
    next: "Give the movement a pose.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    for step in measured_steps(gym) {
        // A ladder of which nothing is drawn says so on its page; one gap in a drawn one is advice.
        let poseless = |known: &Result<_, Unknown>| matches!(known, Err(Unknown::NoPose));
        let one = poseless(&step.lower.1) != poseless(&step.upper.1);
        let rung = if poseless(&step.lower.1) { step.lower.0 } else { step.upper.0 };
        let written = |f: &Finding| f.place.span == rung.movement.span;
        if one && !findings.iter().any(written) {
            let headline = format!("nobody can see how much `{}` asks", rung.movement.value);
            findings.push(
                RULE.finding(headline, rung.movement.span)
                    .label("no pose")
                    .help("give the movement a pose, under `figure`"),
            );
        }
    }
    findings
}
