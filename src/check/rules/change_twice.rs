//! One change written twice in a movement.
//! Never says which mention is right.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::Movement;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("change-twice"),
    severity: Severity::Warning,
    what: "A movement allows a change twice.",
    why: "Nobody can say which words and which numbers of it hold here.",
    example: r#"
changes: [fists, {use: fists, how: Make fists on a folded mat}]
"#,
    next: "Keep it once, with what is particular here.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    gym.library.movements.values().flat_map(again).collect()
}

fn again(movement: &Movement) -> Vec<Finding> {
    let changes = &movement.changes;
    let first = |at: usize| changes[..at].iter().find(|one| one.id.value == changes[at].id.value);
    let twice = (0..changes.len()).filter_map(|at| Some((&changes[at].id, &first(at)?.id)));
    twice
        .map(|(again, first)| {
            RULE.finding(format!("the change `{}` stands here twice", again.value), again.span)
                .label("again here")
                .also(first.span, "first here")
                .help("keep it once, with what is particular here")
        })
        .collect()
}
