//! A warm-up that does not move a joint which the work uses.
//! Never says how a joint should be warmed.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::plan::facts;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("joint-left-cold"),
    severity: Severity::Warning,
    what: "The warm-up, a first block with `warm` in its name, moves no muscle of a joint that the \
           work of the session uses hard.",
    why: "The first set of the work becomes the warm-up of that joint, at full demand.",
    example: r#"
- {name: Warm-up, format: rounds, rounds: 2, items: [{movement: ankle-rock}]}
- {name: Rows, format: timed-sets, window: 12 min, items: [{ladder: row}]}
"#,
    next: "Add a movement to the warm-up that moves the joint, well below its work.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let found = facts::cold_joints(gym).into_iter().map(|cold| {
        let joints: Vec<String> = cold.joints.iter().map(ToString::to_string).collect();
        let (last, others) = joints.split_last().map_or(("", &[][..]), |(l, o)| (l.as_str(), o));
        let joints = match others.is_empty() {
            true => last.to_string(),
            false => format!("{} and {last}", others.join(", ")),
        };
        let headline = format!("the warm-up does not move the {joints}, which the work uses hard");
        RULE.finding(headline, cold.span)
            .help("add a movement to the warm-up that moves the joint, well below its work")
    });
    found.collect()
}
