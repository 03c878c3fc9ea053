//! A caution without a source.
//! Never judges what the source says.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("caution-unsourced"),
    severity: Severity::Warning,
    what: "A caution names no source.",
    why: "It tells people what to leave out; they may ask who says so.",
    example: r#"
sore-wrist: {name: Sore wrist, change: [...]}
"#,
    next: "Add `sources: [...]`; `common-practice` where that is all there is.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let cautions = gym.library.words.cautions.values();
    let bare = cautions.filter(|caution| caution.sources.is_empty());
    bare.map(|caution| {
        let headline = format!("the caution `{}` has no source", caution.id.value);
        RULE.finding(headline, caution.id.span).help("add `sources: [...]`: who says so?")
    })
    .collect()
}
