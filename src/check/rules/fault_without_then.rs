//! A fault that does not say what to do when the cue fails.
//! Never chooses for the coach.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("fault-without-then"),
    severity: Severity::Advice,
    what: "A fault does not say what to do when the cue does not mend it.",
    why: "The cue fails, the set goes on, and the fault becomes a habit.",
    example: r#"
faults:
  - {see: Shoulders shrug, cause: Too much lean, say: Long neck}
"#,
    next: "Add `then: rung below`, `then: stop`, a setting such as `then: lean less`, or a \
           movement.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let faults = gym.library.movements.values().flat_map(|movement| &movement.faults);
    let bare = faults.filter(|fault| fault.then.is_none());
    bare.map(|fault| {
        RULE.finding("this fault does not say what to do when the cue fails", fault.see.span)
            .help("add `then: rung below`, `then: stop`, a setting such as `then: lean less`")
    })
    .collect()
}
