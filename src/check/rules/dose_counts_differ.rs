//! A dose that counts something else than its movement.
//! Never converts one into the other.

use crate::check::Rule;
use crate::check::uses::{Use, under_ladder_dose, uses};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::Counts;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("dose-counts-differ"),
    severity: Severity::Warning,
    what: "A dose counts something else than its movement does.",
    why: "Twenty seconds and twenty repetitions are not the same set, and the clock cannot \
          tell them apart.",
    example: r#"
- {movement: plank, dose: {sets: 3, reps: 10}}        (a plank counts seconds)
"#,
    next: "Write the dose in what the movement counts, or correct `counts` in the movement.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let own = uses(gym).into_iter().filter_map(|one| {
        difference(&one, format!("write it in {}", example(one.movement.counts)))
    });
    let ladders = under_ladder_dose(gym).into_iter().filter_map(|one| {
        let wanted = example(one.movement.counts);
        difference(&one, format!("give this rung a dose of its own, in {wanted}"))
    });
    own.chain(ladders).collect()
}

fn difference(one: &Use<'_>, help: String) -> Option<Finding> {
    let amount = one.dose?.amount.as_ref()?;
    let (dose, movement) = (amount.value.counts(), one.movement.counts.word());
    if dose == movement {
        return None;
    }
    let headline = format!("this dose is in {dose}, and `{}` counts {movement}", one.movement.id);
    let counts = format!("counts {movement}");
    Some(RULE.finding(headline, amount.span).also(one.named, counts).help(help))
}

fn example(counts: Counts) -> &'static str {
    match counts {
        Counts::Reps => "repetitions, such as `3 x 8`",
        Counts::Seconds => "seconds, such as `3 x 20 s`",
        Counts::Metres => "metres, such as `3 x 20 m`",
        Counts::Contacts => "contacts, such as `{sets: 3, contacts: 10}`",
    }
}
