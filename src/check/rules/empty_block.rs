//! A session without blocks, or a block without items.
//! Never fills it.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("empty-block"),
    severity: Severity::Warning,
    what: "A session has no blocks, or a block has nothing in it.",
    why: "The clock would run and nobody would move.",
    example: r#"
- name: Strength
  format: rounds
"#,
    next: "Add what is done, or remove the block.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let sessions = gym.library.sessions.values();
    let no_blocks = sessions.clone().filter(|session| session.blocks.is_empty()).map(|session| {
        RULE.finding(format!("the session `{}` has no blocks", session.id), session.name.span)
            .help("add `blocks: ...`, or remove the session")
    });
    let blocks = sessions.flat_map(|session| &session.blocks);
    let no_items = blocks.filter(|block| block.items.is_empty()).map(|block| {
        RULE.finding(format!("the block `{}` has nothing in it", block.name.value), block.name.span)
            .help("add `items: ...`, or remove the block")
    });
    no_blocks.chain(no_items).collect()
}
