//! A week of a cycle with fewer pulling sets than pushing sets.
//! Never counts a warm-up.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::plan::facts;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pulling-below-pushing"),
    severity: Severity::Advice,
    what: "Over a week of a cycle the sets of patterns that push are more than the sets of \
           patterns that pull, without warm-ups and stretches.",
    why: "Shoulders like at least as many pulls as pushes (common practice, no source); plans \
          for home miss it because pulling needs something to pull on.",
    example: r#"
- {week: 2, kind: build, sessions: [push, push]}
"#,
    next: "Add sets of a row or a pull to a session of the week.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let found = facts::weeks_that_pull_less(gym).into_iter().map(|less| {
        let week = &less.balance;
        let headline = format!(
            "week {} of `{}` has {} pulling sets and {} pushing sets",
            week.week, less.cycle, week.pulling, week.pushing
        );
        RULE.finding(headline, less.span)
            .help("add sets of a row or a pull to a session of the week")
    });
    found.collect()
}
