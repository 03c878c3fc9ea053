//! Options of a line that leave somebody with nothing to do.
//! Never loosens a limit to find something.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::plan::facts;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("nothing-left"),
    severity: Severity::Advice,
    what: "Every option of a line, or every rung of its ladder, has the same trait, and so has \
           everything that could stand for one of them.",
    why: "Whoever avoids that trait stands and watches.",
    example: r#"
- options:                         (all three lie on the back)
    - {movement: bridge}
    - {movement: marching-bridge}
    - {movement: single-leg-bridge}
"#,
    next: "Exchange one option for a movement without the trait, or link one with `beside`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let traits = &gym.library.words.traits;
    let found = facts::nothing_left(gym).into_iter().map(|none| {
        let name = traits.get(&none.limit).map_or(none.limit.as_str(), |word| &word.name);
        let headline = format!("whoever avoids {} has nothing to do here", name.to_lowercase());
        RULE.finding(headline, none.span)
            .help("exchange one option for a movement without the trait, or link one with `beside`")
    });
    found.collect()
}
