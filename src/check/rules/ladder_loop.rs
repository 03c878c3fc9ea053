//! A rung that is both above and below another.
//! Never says which ladder is wrong.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::ladder::{RungKey, Step};
use crate::library::Rung;
use std::collections::BTreeSet;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("ladder-loop"),
    severity: Severity::Error,
    what: "A rung is both above and below another, by one ladder and another.",
    why: "Whoever follows the ladders goes in a circle, and one of the two is not harder at \
          all.",
    example: r#"
row.yaml:   - {movement: towel-row}
            - {movement: strap-row, lean: 30 deg}
pull.yaml:  - {movement: strap-row, lean: 30 deg}
            - {movement: towel-row}
"#,
    next: "Keep one of the two lines.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let loops = gym.ladders.loops();
    loops.iter().filter_map(|steps| circle(steps, gym)).collect()
}

/// Words one loop: the first step leads up from a rung, the last one leads back up to it.
fn circle(steps: &[&Step], gym: &Gym) -> Option<Finding> {
    let ladders: BTreeSet<_> = steps.iter().map(|step| &step.place.ladder).collect();
    if ladders.len() < 2 {
        return None; // One ladder has the same rung twice, and `same-rung-twice` says so.
    }
    let (first, last) = (steps.first()?, steps.last()?);
    let (below, above) = (written(first, 1, gym)?, written(last, 0, gym)?);
    let (rung, other) = (gym.ladders.key(first.from), gym.ladders.key(first.to));
    let by_way_of: Vec<String> =
        steps[1..].iter().skip(1).map(|step| name(gym.ladders.key(step.from))).collect();
    let label = match by_way_of.as_slice() {
        [] => "above it here".to_string(),
        ways => format!("above it here, by way of {}", ways.join(", ")),
    };
    let headline = format!("{} is both above and below {}", name(rung), name(other));
    Some(
        RULE.finding(headline, above.movement.span)
            .label(label)
            .also(below.movement.span, "below it here")
            .help("keep one of the two lines"),
    )
}

/// The rung that a step leads to, or the one `down` lines below it on the same ladder.
fn written<'g>(step: &Step, down: usize, gym: &'g Gym) -> Option<&'g Rung> {
    let ladder = gym.library.ladders.get(&step.place.ladder)?;
    ladder.rungs.get(step.place.at.checked_sub(down)?)
}

fn name(rung: &RungKey) -> String {
    format!("`{rung}`")
}
