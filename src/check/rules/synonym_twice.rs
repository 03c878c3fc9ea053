//! A word in two groups of words that mean the same.
//! Never merges the groups.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity, Span};
use crate::gym::Gym;
use std::collections::BTreeMap;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("synonym-twice"),
    severity: Severity::Advice,
    what: "A word stands twice in words/synonyms.yaml.",
    why: "Searching for it brings up one group and leaves out the other.",
    example: r#"
same:
  - [row, rowing]
  - [pull, row]
"#,
    next: "Put the two groups together, or keep the word in one.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let mut first_at: BTreeMap<String, Span> = BTreeMap::new();
    let mut findings = Vec::new();
    for word in gym.library.words.same.iter().flatten() {
        let Some(first) = first_at.get(&word.to_lowercase()) else {
            first_at.insert(word.to_lowercase(), word.span);
            continue;
        };
        findings.push(
            RULE.finding(format!("`{}` stands twice among the synonyms", word.value), word.span)
                .label("again here")
                .also(*first, "first here")
                .help("put the two groups together, or keep the word in one"),
        );
    }
    findings
}
