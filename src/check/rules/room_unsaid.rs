//! A movement that does not say the room and the noise it needs.
//! Never measures a hall.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("room-unsaid"),
    severity: Severity::Advice,
    what: "A movement does not say its room or its noise.",
    why: "At home, over a neighbour or under a low ceiling, nobody can tell whether it fits.",
    example: r#"
room: {length: 2 m}
"#,
    next: "Add `room: {length: 2 m, width: 1 m, noise: quiet}`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    let bare = movements
        .filter(|m| m.room.length.is_none() || m.room.width.is_none() || m.room.noise.is_none());
    bare.map(|movement| {
        let headline = format!("`{}` does not say its room and its noise", movement.id);
        RULE.finding(headline, movement.name.span)
            .help("add `room: {length: 2 m, width: 1 m, noise: quiet}`")
    })
    .collect()
}
