//! A fault without its likely cause.
//! Never guesses one.

use crate::check::{Rule, mentions};
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
    let bare = mentions::whole_faults(&gym.library).filter(|fault| fault.cause.is_none());
    let known = gym.library.words.faults.values().filter(|fault| fault.general.causes.is_empty());
    let known = known.map(|fault| (fault.id.span, "add `causes: [...]`"));
    let bare = bare.map(|fault| (fault.see.span, "add `cause: ...`"));
    bare.chain(known)
        .map(|(span, help)| RULE.finding("this fault has no likely cause", span).help(help))
        .collect()
}
