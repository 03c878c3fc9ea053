//! A fault that does not say what to do when the cue fails.
//! Never chooses for the coach.

use crate::check::{Rule, mentions};
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
    let bare = mentions::whole_faults(&gym.library).filter(|fault| fault.then.is_none());
    let known = gym.library.words.faults.values().filter(|fault| fault.general.then.is_none());
    let places = bare.map(|fault| fault.see.span).chain(known.map(|fault| fault.id.span));
    places
        .map(|span| {
            RULE.finding("this fault does not say what to do when the cue fails", span)
                .help("add `then: rung below`, `then: stop`, a setting such as `then: lean less`")
        })
        .collect()
}
