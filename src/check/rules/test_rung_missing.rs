//! A test on a rung that the ladder has not.
//! Never picks another rung.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("test-rung-missing"),
    severity: Severity::Error,
    what: "A ladder's test names a rung that the ladder has not.",
    why: "Nobody can be tested, and nobody placed.",
    example: r#"
test: {rung: 9, count: Repetitions in one set, stop: Two faulty repetitions running}
"#,
    next: "Name a rung by its number; the first is 1.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let tests = gym.library.ladders.values().filter_map(|l| Some((l, l.test.as_ref()?)));
    tests
        .filter_map(|(ladder, test)| {
            let (rung, rungs) = (test.rung.value, ladder.rungs.len());
            if rung >= 1 && rung as usize <= rungs {
                return None;
            }
            let headline = format!("the ladder `{}` has no rung {rung}", ladder.id);
            let help = match rungs {
                0 => "write its rungs first".to_string(),
                _ => format!("name one of its rungs, 1 to {rungs}"),
            };
            Some(RULE.finding(headline, test.rung.span).help(help))
        })
        .collect()
}
