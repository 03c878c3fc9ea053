//! Kit that a session needs and the hall does not have, or not often enough.
//! Never counts people: that takes a roster.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::plan::facts;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("hall-lacks-kit"),
    severity: Severity::Advice,
    what: "A session needs kit that `hall:` in club.yaml does not count, or more of its lines need \
           it at once than there are.",
    why: "The class finds out when it stands there.",
    example: r#"
hall:
  kit: {straps: 4}
...
items:
  - {movement: towel-row}
"#,
    next: "Count the kit in `hall:`, or choose a movement that does without it.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let found = facts::kit_lacking(gym).into_iter().map(|lacking| {
        let kit: Vec<String> = lacking.any_of.iter().map(|id| format!("`{id}`")).collect();
        let kit = kit.join(" or ");
        let headline = match lacking.too_few {
            None => format!("{} needs {kit}, which the hall does not have", lacking.said),
            Some((lines, there)) => {
                format!(
                    "{lines} lines of `{}` need {kit} at once and the hall has {there}",
                    lacking.said
                )
            }
        };
        RULE.finding(headline, lacking.span).help(
            "count the kit in `hall:` of club.yaml, or choose a movement that does without it",
        )
    });
    found.collect()
}
