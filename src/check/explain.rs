//! What a rule's code means: for `rungbook explain`, and for machines that show rules.
//! Never prints; returns text.

use super::{Rule, rules};
use crate::finding::{RuleFacts, did_you_mean};

/// The explanation of a code.
///
/// # Errors
/// A sentence with the near spelling, when no rule has the code.
pub fn explain(code: &str) -> Result<String, String> {
    let code = code.trim();
    if let Some(rule) = rules().iter().find(|rule| rule.code.0 == code) {
        return Ok(page(rule));
    }
    let known = rules().iter().map(|rule| rule.code.0);
    let help = did_you_mean(code, known, "`rungbook check` prints the code of every finding");
    Err(format!("no finding is called `{code}`; {help}"))
}

/// The facts of every rule.
pub fn rule_facts() -> Vec<RuleFacts> {
    let facts = |rule: &Rule| RuleFacts {
        code: rule.code,
        short: rule.what.to_string(),
        full: format!("{} {}", rule.why, rule.next),
        severity: rule.severity,
    };
    rules().iter().map(facts).collect()
}

fn page(rule: &Rule) -> String {
    let example: String =
        rule.example.trim_matches('\n').lines().map(|line| format!("    {line}\n")).collect();
    format!(
        "{} ({})\n{}\n\nWhy: {}\n\nFor example:\n\n{example}\nNext step: {}\n",
        rule.code,
        rule.severity.word(),
        rule.what,
        rule.why,
        rule.next
    )
}
