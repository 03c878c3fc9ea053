//! A ladder with one rung or none.
//! Never adds rungs.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("one-rung-ladder"),
    severity: Severity::Warning,
    what: "A ladder has one rung, or none.",
    why: "There is nowhere to go, up or down.",
    example: r#"
rungs:
  - {movement: strap-row, lean: 30 deg}
"#,
    next: "Add the rungs below and above it, or remove the ladder.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let short = gym.library.ladders.values().filter(|ladder| ladder.rungs.len() < 2);
    short
        .map(|ladder| {
            let count = if ladder.rungs.is_empty() { "no rungs" } else { "one rung" };
            RULE.finding(format!("the ladder `{}` has {count}", ladder.id), ladder.name.span)
                .help("add the rungs below and above, or remove the ladder")
        })
        .collect()
}
