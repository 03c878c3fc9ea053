//! A fault without the cue that mends it.
//! Never writes one.

use crate::check::{Rule, mentions};
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
    let bare = mentions::whole_faults(&gym.library).filter(|fault| fault.say.is_none());
    let known = gym.library.words.faults.values().filter(|fault| fault.general.say.is_none());
    let places = bare.map(|fault| fault.see.span).chain(known.map(|fault| fault.id.span));
    places
        .map(|span| {
            RULE.finding("this fault has no cue", span).help("add `say: ...`, six words or fewer")
        })
        .collect()
}
