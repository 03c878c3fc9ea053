//! A week of building with many more sets than the one before it.
//! Never counts the return from a test or a lighter week as a jump.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::plan::facts;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("weekly-sets-jump"),
    severity: Severity::Advice,
    what: "From one week of building to the next a cycle's sets grow by more than half (common \
           practice, no source).",
    why: "Sore people miss the next session, and nobody can say what did it.",
    example: r#"
- {week: 2, kind: build, sessions: [monday]}
- {week: 3, kind: build, sessions: [monday, thursday, saturday]}
"#,
    next: "Add sets over more weeks.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let found = facts::jumps_in_sets(gym).into_iter().map(|jump| {
        let headline = format!(
            "the sets of `{}` jump from about {:.0} to about {:.0} a week",
            jump.cycle, jump.before, jump.now
        );
        RULE.finding(headline, jump.span).help("add sets over more weeks")
    });
    found.collect()
}
