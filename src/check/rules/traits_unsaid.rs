//! A movement that does not say what in it can hurt someone.
//! Never assumes that what is not said is harmless.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("traits-unsaid"),
    severity: Severity::Error,
    what: "A movement has no `traits`.",
    why: "Traits decide who is offered a movement. What an entry does not say cannot be left out \
          for somebody whom it may hurt.",
    example: r#"
kit: [straps]
pace: 3 s                 (and nowhere `traits:`)
"#,
    next: "Write its traits and how much of each, 1 some or 2 a lot; `traits: {}` where there is none.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    let unsaid = movements.filter(|movement| movement.traits.is_none() && !movement.traits_unread);
    unsaid
        .map(|movement| {
            let headline = format!("`{}` does not say what in it can hurt someone", movement.id);
            RULE.finding(headline, movement.name.span)
                .help("add `traits: {...}` with 1 for some and 2 for a lot; `traits: {}` for none")
        })
        .collect()
}
