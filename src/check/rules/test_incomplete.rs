//! A test that does not say what counts, or when to stop.
//! Never chooses for the coach.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("test-incomplete"),
    severity: Severity::Warning,
    what: "A ladder's test does not say what is counted or when to stop.",
    why: "A test without an end is done to failure, and a count without a rule is no test.",
    example: r#"
test: {rung: 3, count: Repetitions in one set to the standard}
"#,
    next: "Add `count: ...` and `stop: ...` to the test.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let tests = gym.library.ladders.values().filter_map(|l| Some((l, l.test.as_ref()?)));
    tests
        .flat_map(|(ladder, test)| {
            let count = (
                &test.count,
                "what is counted",
                "add `count: ...`, such as repetitions to the standard",
            );
            let stop = (
                &test.stop,
                "when to stop",
                "add `stop: ...`, such as two faulty repetitions running",
            );
            let bare = [count, stop].into_iter().filter(|(said, ..)| said.is_none());
            bare.map(|(_, what, help)| {
                let headline = format!("the test of `{}` does not say {what}", ladder.id);
                RULE.finding(headline, test.rung.span).help(help)
            })
        })
        .collect()
}
