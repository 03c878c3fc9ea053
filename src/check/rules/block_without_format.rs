//! A block that does not say how it is run.
//! Never assumes rounds.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("block-without-format"),
    severity: Severity::Warning,
    what: "A block of a session has no format.",
    why: "Nobody knows whether it runs by rounds, by the clock or by the set.",
    example: r#"
- name: Strength
  items: [{ladder: row, dose: 3 x 6-10}]
"#,
    next: "Add `format: ...`, one of rounds, timed-sets, most-rounds, every-minute, intervals, \
           descending, for-time, holds.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let blocks = gym.library.sessions.values().flat_map(|session| &session.blocks);
    let bare = blocks.filter(|block| block.format.is_none());
    bare.map(|block| {
        RULE.finding(format!("the block `{}` has no format", block.name.value), block.name.span)
            .help("add `format: ...`, such as `rounds`, `timed-sets` or `every-minute`")
    })
    .collect()
}
