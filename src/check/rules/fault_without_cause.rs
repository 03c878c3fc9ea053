//! A fault without its likely cause.
//! Never guesses one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("fault-without-cause"),
    severity: Severity::Advice,
    what: "A fault has no likely cause.",
    why: "A cue without a cause is a guess.",
    example: r#"
faults:
  - {see: Shoulders shrug, say: Long neck}
"#,
    next: "Add `cause: ...` to the fault.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let faults = gym.library.movements.values().flat_map(|movement| &movement.faults);
    let bare = faults.filter(|fault| fault.cause.is_none());
    bare.map(|fault| {
        RULE.finding("this fault has no likely cause", fault.see.span).help("add `cause: ...`")
    })
    .collect()
}
