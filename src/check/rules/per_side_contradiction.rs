//! A dose per side that the movement contradicts.
//! Never says which of the two is right.

use crate::check::Rule;
use crate::check::uses::{Use, under_ladder_dose, uses};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::Sides;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("per-side-contradiction"),
    severity: Severity::Error,
    what: "A dose is for each side of a movement that works both together, or is not for one \
           that works each side in turn.",
    why: "Half the work or twice the work would be done.",
    example: r#"
- {movement: strap-row, dose: {sets: 3, reps: 8, per-side: true}}
"#,
    next: "Correct `per-side` in the dose, or `sides` in the movement.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let own = uses(gym).into_iter().filter_map(|one| contradiction(&one));
    own.chain(under_ladder_dose(gym).iter().filter_map(contradiction)).collect()
}

fn contradiction(one: &Use<'_>) -> Option<Finding> {
    let per_side = one.dose?.per_side.as_ref()?;
    let id = &one.movement.id;
    let (headline, help) = match (per_side.value, one.movement.sides) {
        (true, Sides::Together) => (
            format!("this dose is for each side, and `{id}` works both sides together"),
            "remove `per-side`, or correct `sides` in the movement",
        ),
        (false, Sides::Each) => (
            format!("this dose is not for each side, and `{id}` works one side, then the other"),
            "write `per-side: true`, or correct `sides` in the movement",
        ),
        _ => return None,
    };
    Some(RULE.finding(headline, per_side.span).also(one.named, "for this movement").help(help))
}
