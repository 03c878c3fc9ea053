//! A trait to change, without how.
//! Never invents a change.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("change-without-how"),
    severity: Severity::Warning,
    what: "A caution, or a change in words/changes.yaml, says to change a movement and not how.",
    why: "\"Change it\" is no help at the wall with a sore wrist.",
    example: r#"
change: [{trait: loaded-wrist-extension, from: 1}]
"#,
    next: "Add `how: ...`, or move the trait to `leave-out`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let changes = gym.library.words.cautions.values().flat_map(|caution| &caution.change);
    let bare = changes.filter(|change| is_blank(change.how.as_deref()));
    let cautions = bare.map(|change| {
        let headline = format!("how to change `{}` is not said", change.about.value);
        RULE.finding(headline, change.about.span).help("add `how: ...`, or move it to `leave-out`")
    });
    let changes = gym.library.words.changes.values();
    let bare = changes.filter(|change| is_blank(change.how.as_deref()));
    let general = bare.map(|change| {
        let headline = format!("how `{}` is done is not said", change.id.value);
        RULE.finding(headline, change.id.span)
            .help("add `how: ...`, as you would say it to the person")
    });
    let own = gym.library.movements.values().flat_map(|movement| &movement.changes);
    let bare = own.filter(|own| own.how.is_some() && is_blank(own.how.as_deref()));
    let entries = bare.map(|own| {
        let headline = format!("how `{}` is done here is empty", own.id.value);
        RULE.finding(headline, own.id.span).help("say it, or take `how` away for the general words")
    });
    cautions.chain(general).chain(entries).collect()
}

fn is_blank(how: Option<&str>) -> bool {
    how.is_none_or(|how| how.trim().is_empty())
}
