//! A movement without a cue.
//! Never writes one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("no-cue"),
    severity: Severity::Warning,
    what: "A movement has no cue.",
    why: "The coach has nothing to say when it goes wrong.",
    example: r#"
cues: []
"#,
    next: "Add `cues: [{say: ..., when: ...}]`, six words or fewer.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.movements.values().filter(|movement| movement.cues.is_empty());
    bare.map(|movement| {
        RULE.finding(format!("`{}` has no cue", movement.id), movement.name.span)
            .help("add `cues: [{say: ..., when: ...}]`, six words or fewer")
    })
    .collect()
}
