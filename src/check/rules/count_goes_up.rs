//! A count that is to go down and goes up.
//! Never turns it round: which of the two numbers is wrong is for the coach to say.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{Block, Format};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("count-goes-up"),
    severity: Severity::Warning,
    what: "A block with the format `descending` ends on a higher count than it starts on.",
    why: "Such a block gets easier as people tire; the clock would count it the other way.",
    example: r#"
- {name: Finish, format: descending, from: 2, to: 6, items: [...]}
"#,
    next: "Change the two numbers over, or take `rounds` as the format.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let blocks = gym.library.sessions.values().flat_map(|session| &session.blocks);
    blocks.filter_map(fault).collect()
}

fn fault(block: &Block) -> Option<Finding> {
    let format = block.format.as_ref().filter(|format| format.value == Format::Descending)?;
    let (from, to) = (block.from?, block.to?);
    (from <= to).then(|| {
        let headline = format!("this count goes from {from} to {to}, which is not down");
        let help = match from < to {
            true => format!("write `from: {to}, to: {from}`, or take the format `rounds`"),
            false => "start on a higher count, or take the format `rounds`".to_string(),
        };
        RULE.finding(headline, format.span).help(help)
    })
}
