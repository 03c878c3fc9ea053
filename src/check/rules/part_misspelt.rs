//! A part that one change names, nearly as others spell it.
//! Never asks which parts there are: a club may name its own.

use crate::check::Rule;
use crate::finding::{Code, Finding, Placed, Severity, near};
use crate::gym::Gym;
use std::collections::BTreeMap;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("part-misspelt"),
    severity: Severity::Warning,
    what: "The part of a change is spelt nearly as that of other changes.",
    why: "Two changes of one part are never made together unless that is written; a misspelt part \
          is a part of its own, so that somebody may be told to do two things with the same hands.",
    example: r#"
fists: {name: on fists, part: hnads}
"#,
    next: "Spell it like the others.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let changes = gym.library.words.changes.values();
    let parts: Vec<&Placed<String>> = changes.filter_map(|change| change.part.as_ref()).collect();
    let mut times: BTreeMap<&str, usize> = BTreeMap::new();
    parts.iter().for_each(|part| *times.entry(&part.value).or_default() += 1);
    let count = |part: &str| times.get(part).copied().unwrap_or(0);
    let alone = parts.iter().filter(|part| count(&part.value) == 1);
    alone
        .filter_map(|part| {
            let others = times.keys().copied().filter(|other| count(other) > 1);
            let meant = near(&part.value, others)?;
            let headline = format!("`{}` is the part of this change alone", part.value);
            let help = format!("did you mean `{meant}`, as other changes write it?");
            Some(RULE.finding(headline, part.span).help(help))
        })
        .collect()
}
