//! Kit that says nothing about checking it before use.
//! Never asks for a check of what stands anywhere, such as a wall.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::KitKind;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("kit-without-check"),
    severity: Severity::Advice,
    what: "A piece of kit does not say what to check before use.",
    why: "At home nobody else looks at the chair or the anchor first.",
    example: r#"
chair: {name: Chair, kind: home}
"#,
    next: "Add `check: ...`, one sentence.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let kit = gym.library.words.kit.values();
    let bare = kit.filter(|item| item.kind != KitKind::Anywhere && item.check.is_none());
    bare.map(|item| {
        let headline = format!("`{}` does not say what to check before use", item.id.value);
        RULE.finding(headline, item.id.span).help("add `check: ...`, one sentence")
    })
    .collect()
}
