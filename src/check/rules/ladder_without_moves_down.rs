//! A ladder that does not say when to step down.
//! Never chooses for the coach.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("ladder-without-moves-down"),
    severity: Severity::Advice,
    what: "A ladder does not say when to step down.",
    why: "People stay on a rung that is too much for them today.",
    example: r#"
name: Row        (and no `moves-down`)
"#,
    next: "Add `moves-down: ...`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.ladders.values().filter(|ladder| ladder.moves_down.is_none());
    bare.map(|ladder| {
        let headline = format!("the ladder `{}` does not say when to step down", ladder.id);
        RULE.finding(headline, ladder.name.span).help(
            "add `moves-down: ...`, such as two form breaks, pain, or the target missed twice",
        )
    })
    .collect()
}
