//! A movement that is named and not there.
//! Never looks at a fault's `then`; `then-names-nothing` does.

use crate::check::Rule;
use crate::check::{mentions, unknown::Known};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("unknown-movement"),
    severity: Severity::Error,
    what: "A ladder, a link or a session names a movement that is not there.",
    why: "Someone in class would be sent to a page that does not exist.",
    example: r#"
rungs:
  - {movement: strap-rwo, lean: 30 deg}
"#,
    next: "Correct the spelling, or write the movement.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let known = Known::files(&gym.library, "movement", "movements");
    let words = gym.library.movements.values().flat_map(|movement| {
        let names = std::iter::once(&movement.name).chain(&movement.aliases);
        names.map(|name| (movement.id.as_str(), name.value.as_str()))
    });
    known.also(words).missing(&RULE, mentions::movements(&gym.library))
}
