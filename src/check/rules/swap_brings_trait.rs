//! A link that leads to a trait the first movement had none of, without a word about it.
//! Never guesses whether a reader knows; the swap room looks for the trait's own words.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::swap::{self, Through};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("swap-brings-trait"),
    severity: Severity::Warning,
    what: "A link leads to a movement with a lot of a trait that the first had none of, and nobody says so.",
    why: "Whoever takes the swap may meet what they wanted to avoid: a swap can bring in what the first choice spared.",
    example: r#"
beside: [{to: floor-press, because: sore wrists}]    # and floor-press is done on the back
"#,
    next: "Say it in the link's words or in the caution of the movement it leads to.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    swap::unsaid_traits(gym)
        .into_iter()
        .map(|unsaid| {
            let names: Vec<String> =
                unsaid.traits.iter().map(|(id, _)| format!("`{id}`")).collect();
            let headline = format!(
                "going from `{}` to `{}` brings in {}, and nobody says so",
                unsaid.from,
                unsaid.to,
                names.join(" and "),
            );
            let place = match unsaid.through {
                Through::Beside => "in `because`",
                Through::Then => "after a comma in `then`",
                Through::Step(..) => "in the rung's `because`",
            };
            let help = format!("say it {place}, or in the caution of `{}`", unsaid.to);
            RULE.finding(headline, unsaid.span).help(help)
        })
        .collect()
}
