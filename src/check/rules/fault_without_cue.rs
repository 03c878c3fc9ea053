//! A fault without the cue that mends it.
//! Never writes one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("fault-without-cue"),
    severity: Severity::Warning,
    what: "A fault has nothing to say.",
    why: "The coach sees it and has no words.",
    example: r#"
faults:
  - {see: Shoulders shrug, cause: Too much lean for today}
"#,
    next: "Add `say: ...` to the fault, six words or fewer.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let faults = gym.library.movements.values().flat_map(|movement| &movement.faults);
    let bare = faults.filter(|fault| fault.say.is_none());
    bare.map(|fault| {
        RULE.finding("this fault has no cue", fault.see.span)
            .help("add `say: ...`, six words or fewer")
    })
    .collect()
}
