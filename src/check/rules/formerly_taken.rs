//! An id that an entry had before and that another has now, or had too.
//! Never asks who had it first.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity, Span};
use crate::gym::Gym;
use std::collections::BTreeMap;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("formerly-taken"),
    severity: Severity::Error,
    what: "An id under `formerly` is that of another entry, now or before.",
    why: "An old link would lead to one of the two, and nobody could say to which.",
    example: r#"
formerly: [towel-row]        # and there is a movement towel-row
"#,
    next: "Take it away under `formerly`, or give the other entry another id.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let mut first_at: BTreeMap<(&str, &str), Span> = BTreeMap::new();
    let mut findings = Vec::new();
    for former in &gym.library.formerly {
        let (kind, was) = (former.of.word(), former.was.value.as_str());
        let finding = |headline: String| {
            let help = "take it away here, or give the other entry another id";
            RULE.finding(headline, former.was.span).help(help)
        };
        if former.of.all(&gym.library).iter().any(|(id, _)| *id == was) {
            findings.push(finding(format!("there is a {kind} `{was}` now")));
        } else if let Some(first) = first_at.insert((kind, was), former.was.span) {
            let headline = format!("two entries had the id `{was}` before");
            findings.push(finding(headline).also(first, "first here"));
        }
    }
    findings
}
