//! A test or retest less than two days after hard work.
//! Never moves a day.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::plan::{facts, pace};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("test-too-soon"),
    severity: Severity::Warning,
    what: "By the days of its cycle, a test comes less than 48 hours after a session that works \
           hard.",
    why: "Tired people test lower, and the gain looks smaller or larger than it is.",
    example: r#"
days: [monday, tuesday]
weeks:
  - {week: 1, kind: test, sessions: [legs, test-day]}
"#,
    next: "Name the test's session first in its week, or leave a free day before it.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let found = facts::tests_too_soon(gym).into_iter().map(|soon| {
        let headline = format!(
            "the test of `{}` comes {} hours after the session `{}`, not {}",
            soon.cycle,
            soon.hours,
            soon.after,
            pace::FRESH_H
        );
        RULE.finding(headline, soon.span)
            .help("name the test's session first in its week, or leave a free day before it")
    });
    found.collect()
}
