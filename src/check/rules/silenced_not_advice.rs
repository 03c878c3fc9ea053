//! An error or a warning that the club tries to switch off.
//! Never obeys it.

use crate::check::Rule;
use crate::check::rules;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("silenced-not-advice"),
    severity: Severity::Warning,
    what: "`club.yaml` switches off an error or a warning.",
    why: "Errors and warnings can mislead or hurt someone; only advice is a matter of taste.",
    example: r#"
findings: {off: [{code: no-caution-line, because: we say it in class}]}
"#,
    next: "Remove the line and mend what the finding points at.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let rule_of = |code: &str| rules().iter().find(|rule| rule.code.0 == code);
    let off = gym.library.club.silenced.iter().map(|off| &off.code);
    off.filter_map(|code| Some((code, rule_of(&code.value)?)))
        .filter(|(_, rule)| rule.severity != Severity::Advice)
        .map(|(code, rule)| {
            let headline =
                format!("`{}` is {} and cannot be switched off", rule.code, with_article(rule));
            RULE.finding(headline, code.span).help("remove this line and mend what it finds")
        })
        .collect()
}

fn with_article(rule: &Rule) -> &'static str {
    match rule.severity {
        Severity::Error => "an error",
        _ => "a warning",
    }
}
