//! A trait to change, without how.
//! Never invents a change.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("change-without-how"),
    severity: Severity::Warning,
    what: "A caution says to change a movement and not how.",
    why: "\"Change it\" is no help at the wall with a sore wrist.",
    example: r#"
change: [{trait: loaded-wrist-extension, from: 1}]
"#,
    next: "Add `how: ...`, or move the trait to `leave-out`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let changes = gym.library.words.cautions.values().flat_map(|caution| &caution.change);
    let bare = changes.filter(|change| change.how.is_none());
    bare.map(|change| {
        let headline = format!("how to change `{}` is not said", change.about.value);
        RULE.finding(headline, change.about.span).help("add `how: ...`, or move it to `leave-out`")
    })
    .collect()
}
