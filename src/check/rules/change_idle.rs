//! A change that lessens nothing the movement has.
//! Never asks whether the change is wise; only whether anybody could be offered it.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::Movement;
use crate::swap::{Change, changes_of};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("change-idle"),
    severity: Severity::Warning,
    what: "A movement names a change that lessens none of its traits.",
    why: "Nobody is ever offered it: either the change leaves as much as was there, or the \
          movement's traits lack what it takes out.",
    example: r#"
traits: {kneeling: 1}
changes: [fists]          (and `fists` lessens loaded-wrist-extension)
"#,
    next: "Add the trait to the movement, say what the change leaves here, or take it away.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    movements.flat_map(|movement| idle(gym, movement)).collect()
}

fn idle(gym: &Gym, movement: &Movement) -> Vec<Finding> {
    let lessens = |change: &Change<'_>| {
        change.leaves().iter().any(|(id, left)| movement.most_of(&id.value) > *left)
            || change.eases().iter().any(|id| movement.most_of(&id.value) > 0)
    };
    let changes = changes_of(gym, movement);
    let idle = changes.iter().filter(|change| !lessens(change));
    idle.filter_map(|change| {
        let place = movement.changes.iter().find(|own| own.id.value == *change.id())?;
        let headline = format!("`{}` lessens nothing that `{}` has", change.id(), movement.id);
        let help = "add the trait that it lessens, or take the change away";
        Some(RULE.finding(headline, place.id.span).help(help))
    })
    .collect()
}
