//! A rung whose movement has another pattern than its ladder.
//! Never says that it must not.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("rung-of-other-pattern"),
    severity: Severity::Advice,
    what: "A rung's movement has another pattern than its ladder.",
    why: "A ladder keeps the pattern and the positions alike, so that one skill grows.",
    example: r#"
pattern: pull-horizontal
rungs:
  - {movement: dead-hang}
"#,
    next: "Take the rung to another ladder, or correct the ladder's pattern.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    let ladders = library.ladders.values().filter_map(|l| Some((l, l.pattern.as_ref()?)));
    let rungs =
        ladders.flat_map(|(ladder, pattern)| ladder.rungs.iter().map(move |r| (r, pattern)));
    rungs
        .filter_map(|(rung, pattern)| {
            let movement = library.movements.get(&rung.movement.value)?;
            let other = &movement.pattern.value;
            let headline =
                format!("`{}` is a `{other}` rung on a `{}` ladder", movement.id, pattern.value);
            (*other != pattern.value).then(|| {
                RULE.finding(headline, rung.movement.span)
                    .also(pattern.span, "the ladder's pattern")
                    .help("take it to another ladder, or correct the pattern")
            })
        })
        .collect()
}
