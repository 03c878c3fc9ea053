//! A caution that does not say when to ask a clinician.
//! Never gives medical advice.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("caution-without-clinician"),
    severity: Severity::Warning,
    what: "A caution does not say when to ask a clinician.",
    why: "Medical questions go to a clinician, and the page must say when.",
    example: r#"
sore-wrist: {name: Sore wrist, change: [...], says: ...}
"#,
    next: "Add `clinician: ...`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let cautions = gym.library.words.cautions.values();
    let bare = cautions.filter(|caution| caution.clinician.is_none());
    bare.map(|caution| {
        let headline =
            format!("the caution `{}` does not say when to ask a clinician", caution.id.value);
        RULE.finding(headline, caution.id.span).help("add `clinician: ...`")
    })
    .collect()
}
