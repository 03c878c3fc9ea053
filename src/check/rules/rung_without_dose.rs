//! A rung with no dose, its own or its ladder's.
//! Never prescribes one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{Ladder, Rung};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("rung-without-dose"),
    severity: Severity::Warning,
    what: "A rung has no dose, and its ladder has none either.",
    why: "A member at home knows what to do and not how much.",
    example: r#"
name: Row        (and no `dose`)
"#,
    next: "Add `dose: {sets: ..., reps: ..., rest: ...}` to the ladder, or to the rung.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let ladders = gym.library.ladders.values().filter(|ladder| ladder.dose.is_none());
    ladders.flat_map(bare).collect()
}

/// One finding for a ladder without any dose, else one for each rung that lacks its own.
fn bare(ladder: &Ladder) -> Vec<Finding> {
    let bare: Vec<&Rung> = ladder.rungs.iter().filter(|rung| rung.dose.is_none()).collect();
    if !bare.is_empty() && bare.len() == ladder.rungs.len() {
        let headline =
            format!("the ladder `{}` has no dose, and neither have its rungs", ladder.id);
        let help = "add `dose: {sets: ..., reps: ..., rest: ...}` to the ladder";
        return vec![RULE.finding(headline, ladder.name.span).help(help)];
    }
    bare.iter()
        .map(|rung| {
            let headline = "this rung has no dose, and its ladder has none";
            let help = "add `dose: {sets: ..., reps: ..., rest: ...}` to the rung or to the ladder";
            RULE.finding(headline, rung.movement.span).help(help)
        })
        .collect()
}
