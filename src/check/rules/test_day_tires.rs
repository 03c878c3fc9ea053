//! Something on a test day that tires what a later block tests.
//! Never judges what comes after the test.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::plan::{facts, pace};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("test-day-tires"),
    severity: Severity::Warning,
    what: "Before a test the session works the test's own prime movers with more than a few \
           repetitions. A test is a single set (`sets: 1`) of a ladder, in a session of a week of \
           test or retest.",
    why: "The result says how tired people were, and the retest cannot be compared.",
    example: r#"
- {name: Warm-up, format: rounds, rounds: 2, items: [{movement: strap-row, dose: {reps: 12}}]}
- {name: Row test, format: timed-sets, window: 8 min, items: [{ladder: row, dose: 1 x 1-20}]}
"#,
    next: "Ask for a few repetitions only, choose what works other muscles, or put it after the \
           test.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let found = facts::that_tire_a_test(gym).into_iter().map(|tires| {
        let muscles: Vec<&str> = tires.muscles.iter().map(|muscle| muscle.as_str()).collect();
        let headline =
            format!("{} tires what the ladder `{}` is tested with", tires.said, tires.ladder);
        RULE.finding(headline, tires.span)
            .label(format!("works {}", muscles.join(", ")))
            .also(tires.test, "the test")
            .help(format!(
                "ask for {} repetitions at most, choose what works other muscles, or put it after \
                 the test",
                pace::WAKING_REPS
            ))
    });
    found.collect()
}
