//! A session whose blocks may take longer than it lasts.
//! Never drops a block.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::plan::{clock, facts};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("session-too-long"),
    severity: Severity::Warning,
    what: "The blocks of a session, with the time to clear away and rig between them, may take \
           longer than its `length`.",
    why: "The last block is the one that gets cut, and it is often the cool-down.",
    example: r#"
length: 20 min
blocks:
  - {name: Rows, format: timed-sets, window: 25 min, items: [...]}
"#,
    next: "Shorten a window, drop a round, or make the session longer.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let found = facts::too_long(gym).into_iter().map(|long| {
        let headline = format!(
            "the session `{}` may take longer than its {}",
            long.session,
            clock(long.length)
        );
        RULE.finding(headline, long.span)
            .label(format!("with the changes between blocks {}", long.total))
            .help("shorten a window, drop a round, or make the session longer")
    });
    found.collect()
}
