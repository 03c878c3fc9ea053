//! Weeks of a cycle that do not count up from 1.
//! Never renumbers them.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("week-out-of-order"),
    severity: Severity::Error,
    what: "The weeks of a cycle do not count up from 1.",
    why: "Nobody knows which week it is.",
    example: r#"
weeks:
  - {week: 1, kind: test, sessions: [test-day]}
  - {week: 3, kind: build, sessions: [tuesday]}
"#,
    next: "Number the weeks 1, 2, 3 and so on, in order.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let weeks = gym.library.cycles.values().flat_map(|cycle| (1..).zip(&cycle.weeks));
    weeks
        .filter(|(expected, week)| week.week != *expected)
        .map(|(expected, week)| {
            let headline = format!("week {} stands where week {expected} belongs", week.week);
            RULE.finding(headline, week.span).help("number the weeks 1, 2, 3 and so on, in order")
        })
        .collect()
}
