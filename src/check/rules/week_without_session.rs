//! A week of a cycle with no session.
//! Never plans one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("week-without-session"),
    severity: Severity::Warning,
    what: "A week of a cycle names no session.",
    why: "Its training days are empty.",
    example: r#"
weeks:
  - {week: 2, kind: build}
"#,
    next: "Add `sessions: [...]` to the week.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let weeks = gym.library.cycles.values().flat_map(|cycle| &cycle.weeks);
    let bare = weeks.filter(|week| week.sessions.is_empty());
    bare.map(|week| {
        RULE.finding(format!("week {} has no session", week.week), week.span)
            .help("add `sessions: [...]` to the week")
    })
    .collect()
}
