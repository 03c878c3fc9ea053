//! A caution that leaves nothing out and changes nothing.
//! Never guesses which traits it should name.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("caution-without-traits"),
    severity: Severity::Warning,
    what: "A caution neither leaves out nor changes any trait, and does not say what stays.",
    why: "Someone who names this situation would be offered every movement unchanged. Where that is \
          right, as with diabetes without complications, `keeps` says so.",
    example: r#"
sore-wrist: {name: Sore wrist, says: Go gently.}
"#,
    next: "Add the traits under `leave-out` or `change`, or say under `keeps` that all of it stays.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let cautions = gym.library.words.cautions.values();
    let idle = cautions
        .filter(|caution| caution.keeps.is_none() && caution.precautions().next().is_none());
    idle.map(|caution| {
        let headline = format!("the caution `{}` protects from nothing", caution.id.value);
        RULE.finding(headline, caution.id.span)
            .help("add traits under `leave-out` or `change`, or say under `keeps` that all stays")
    })
    .collect()
}
