//! A movement in repetitions that does not say how long one takes.
//! Never assumes a pace.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::Counts;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("no-pace"),
    severity: Severity::Advice,
    what: "A movement counted in repetitions or contacts has no pace.",
    why: "A session's clock cannot tell how long a set takes.",
    example: r#"
counts: reps        (and no `pace`)
"#,
    next: "Add `pace: 3 s`, the seconds that one repetition takes.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    let bare = movements
        .filter(|m| matches!(m.counts, Counts::Reps | Counts::Contacts) && m.pace.is_none());
    bare.map(|movement| {
        RULE.finding(format!("`{}` does not say its pace", movement.id), movement.name.span)
            .help("add `pace: 3 s`, the seconds that one repetition takes")
    })
    .collect()
}
