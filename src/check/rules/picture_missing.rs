//! A movement with no picture and no reason for having none.
//! Never draws one.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("picture-missing"),
    severity: Severity::Advice,
    what: "A movement has neither a figure nor a reason for having none.",
    why: "A picture is understood in a second, by anyone.",
    example: r#"
name: Strap row        (and neither `figure` nor `no-figure`)
"#,
    next: "Add `figure: ...`, or `no-figure: ...` with the reason.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    let bare =
        movements.filter(|movement| movement.figure.is_none() && movement.no_figure.is_none());
    bare.map(|movement| {
        RULE.finding(format!("`{}` has no picture", movement.id), movement.name.span)
            .help("add `figure: ...`, or `no-figure: ...` with the reason")
    })
    .collect()
}
