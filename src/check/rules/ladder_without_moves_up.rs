//! A ladder that does not say when to move up.
//! Never chooses for the coach.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("ladder-without-moves-up"),
    severity: Severity::Warning,
    what: "A ladder does not say when to move up.",
    why: "Two coaches would move the same person up on different days.",
    example: r#"
name: Row        (and no `moves-up`)
"#,
    next: "Add `moves-up: ...`, counted on repetitions to the standard.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.ladders.values().filter(|ladder| ladder.moves_up.is_none());
    bare.map(|ladder| {
        let headline = format!("the ladder `{}` does not say when to move up", ladder.id);
        RULE.finding(headline, ladder.name.span)
            .help("add `moves-up: ...`, counted on repetitions to the standard")
    })
    .collect()
}
