//! A setting that does not say which way asks more.
//! Never guesses it from the unit.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("setting-without-harder"),
    severity: Severity::Warning,
    what: "A setting does not say which way asks more of the body.",
    why: "Rungs cannot be checked, nor a step down named, without it.",
    example: r#"
settings: {hands: {unit: cm, from: 30, to: 105}}
"#,
    next: "Add `harder: more` where a larger number asks more, `harder: less` where a smaller \
           one does.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let settings = gym.library.movements.values().flat_map(|movement| &movement.settings);
    let bare = settings.filter(|(_, setting)| setting.harder.is_none());
    bare.map(|(name, _)| {
        RULE.finding(format!("`{}` does not say which way asks more", name.value), name.span).help(
            "add `harder: more` if a larger number asks more, `harder: less` if a smaller one does",
        )
    })
    .collect()
}
