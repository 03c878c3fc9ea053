//! A setting whose usual value lies outside its range.
//! Never moves it.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("usual-outside-range"),
    severity: Severity::Error,
    what: "A setting's usual value lies outside its range.",
    why: "Whoever starts there starts where the movement says not to.",
    example: r#"
lean: {unit: deg, from: 15, to: 75, usual: 80}
"#,
    next: "Move `usual` between `from` and `to`, or widen the range.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let settings = gym.library.movements.values().flat_map(|movement| &movement.settings);
    let usual = settings.filter_map(|(name, set)| Some((name, set, set.usual.as_ref()?)));
    usual
        .filter(|(_, set, usual)| usual.value < set.from || usual.value > set.to)
        .map(|(name, set, usual)| {
            let headline =
                format!("the usual {} is outside {} to {}", usual.value, set.from, set.to);
            let help = format!("move `usual` into the range of `{}`, or widen it", name.value);
            RULE.finding(headline, usual.span).help(help)
        })
        .collect()
}
