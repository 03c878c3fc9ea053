//! A movement without a source.
//! Never judges what a source says.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("no-sources"),
    severity: Severity::Warning,
    what: "A movement names no source.",
    why: "A member or a new coach may ask who says so.",
    example: r#"
sources: []
"#,
    next: "Add `sources: [...]`; `common-practice` where that is all there is.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let bare = gym.library.movements.values().filter(|movement| movement.sources.is_empty());
    bare.map(|movement| {
        RULE.finding(format!("`{}` has no source", movement.id), movement.name.span)
            .help("add `sources: [...]`: who says so?")
    })
    .collect()
}
