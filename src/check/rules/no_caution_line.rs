//! A movement without its caution line.
//! Never writes one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("no-caution-line"),
    severity: Severity::Warning,
    what: "A movement has no caution line.",
    why: "It is the one thing that a member at home reads before moving.",
    example: r#"
name: Strap row        (and no `caution`)
"#,
    next: "Add `caution: ...`, one line that is said before anyone moves.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.movements.values().filter(|movement| movement.caution.is_none());
    bare.map(|movement| {
        RULE.finding(format!("`{}` has no caution line", movement.id), movement.name.span)
            .help("add `caution: ...`, one line that is said before anyone moves")
    })
    .collect()
}
