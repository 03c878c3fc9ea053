//! A movement without a prime mover.
//! Never guesses which muscles work.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("no-prime-mover"),
    severity: Severity::Warning,
    what: "A movement names no prime mover.",
    why: "A swap must do the same work, and nobody can say which work this is.",
    example: r#"
muscles: {assist: [grip]}
"#,
    next: "Add `muscles: {prime: [...]}`, the hardest working first.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.movements.values().filter(|movement| movement.muscles.prime.is_empty());
    bare.map(|movement| {
        RULE.finding(format!("`{}` has no prime mover", movement.id), movement.name.span)
            .help("add `muscles: {prime: [...]}`, the hardest working first")
    })
    .collect()
}
