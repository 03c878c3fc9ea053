//! A rung with no dose, its own or its ladder's.
//! Never prescribes one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

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
    let ladders = gym.library.ladders.values();
    let bare = ladders.filter_map(|ladder| {
        let rung = ladder.rungs.iter().find(|rung| rung.dose.is_none())?;
        ladder.dose.is_none().then_some((ladder, rung))
    });
    bare.map(|(ladder, rung)| {
        let headline =
            format!("`{}` has no dose on the ladder `{}`", rung.movement.value, ladder.id);
        RULE.finding(headline, rung.movement.span)
            .help("add `dose: {sets: ..., reps: ..., rest: ...}` to the ladder, or to the rung")
    })
    .collect()
}
