//! One muscle written twice in a movement.
//! Never says which mention is right.

use crate::check::Rule;
use crate::finding::{Code, Finding, Placed, Severity};
use crate::gym::Gym;
use crate::library::MuscleId;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("muscle-twice"),
    severity: Severity::Warning,
    what: "A movement names a muscle twice.",
    why: "It cannot be a prime mover and a helper, nor count double.",
    example: r#"
muscles: {prime: [lats, biceps], assist: [biceps]}
"#,
    next: "Keep it once.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = gym.library.movements.values();
    movements
        .flat_map(|movement| {
            let muscles = &movement.muscles;
            let all: Vec<&Placed<MuscleId>> = muscles.prime.iter().chain(&muscles.assist).collect();
            again(&all)
        })
        .collect()
}

fn again(muscles: &[&Placed<MuscleId>]) -> Vec<Finding> {
    let earlier = |at: usize| muscles[..at].iter().find(|one| one.value == muscles[at].value);
    let twice = (0..muscles.len()).filter_map(|at| Some((muscles[at], earlier(at)?)));
    twice
        .map(|(muscle, first)| {
            RULE.finding(format!("the muscle `{}` stands here twice", muscle.value), muscle.span)
                .label("again here")
                .also(first.span, "first here")
                .help("keep it once")
        })
        .collect()
}
