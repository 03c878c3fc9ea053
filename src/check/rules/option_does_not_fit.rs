//! A line of a block that does not fit its time, on some rung or by some option.
//! Never cuts it; the plan's arithmetic says how long it takes.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::plan::facts;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("option-does-not-fit"),
    severity: Severity::Warning,
    what: "A line of a block takes longer, on some rung or by some option, than its window, work \
           or cap; a side at a time takes twice as long.",
    why: "Some of the class would still be in the middle of a set when everybody else moves on.",
    example: r#"
format: every-minute
items:
  - {movement: one-arm-row, dose: {reps: 10, per-side: true}}     (60 s of every minute)
"#,
    next: "Ask for fewer repetitions or sets, or give it more time.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let found = facts::that_do_not_fit(gym).into_iter().map(|late| {
        let others = match late.ways - 1 {
            0 => String::new(),
            1 => ", and one other way".to_string(),
            n => format!(", and {n} other ways"),
        };
        RULE.finding(format!("{} does not fit{others}", late.said), late.span)
            .label(late.why)
            .help("ask for fewer repetitions or sets, or give it more time")
    });
    found.collect()
}
