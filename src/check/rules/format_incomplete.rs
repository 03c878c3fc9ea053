//! A block whose format lacks a number it needs.
//! Never assumes one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{Block, Format};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("format-incomplete"),
    severity: Severity::Warning,
    what: "A block's format lacks a number that it needs: a window, rounds, work, rest or a \
           cap.",
    why: "The clock cannot start without it, and work against the clock without a cap goes on \
          too long.",
    example: r#"
- name: Finish
  format: for-time
  items: [...]
"#,
    next: "Add the key that the finding names.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let blocks = gym.library.sessions.values().flat_map(|session| &session.blocks);
    let with_format = blocks.filter_map(|block| Some((block, block.format.as_ref()?)));
    with_format
        .flat_map(|(block, format)| {
            let missing = needs(block, format.value).into_iter().filter(|(_, there)| !there);
            missing.map(move |(key, _)| {
                let headline = format!("the format `{}` needs `{key}`", format.value.word());
                RULE.finding(headline, format.span).help(format!("add `{key}: ...` to the block"))
            })
        })
        .collect()
}

/// The keys that a format needs, and whether the block has them.
fn needs(block: &Block, format: Format) -> Vec<(&'static str, bool)> {
    let window = ("window", block.window.is_some());
    match format {
        Format::Rounds => vec![("rounds", block.rounds.is_some())],
        Format::TimedSets | Format::MostRounds | Format::EveryMinute => vec![window],
        Format::Intervals => vec![("work", block.work.is_some()), ("rest", block.rest.is_some())],
        Format::Descending => vec![("from", block.from.is_some()), ("to", block.to.is_some())],
        Format::ForTime => vec![("cap", block.cap.is_some())],
        Format::Holds => Vec::new(),
    }
}
