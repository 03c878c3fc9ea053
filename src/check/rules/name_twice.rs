//! Two movements with one name.
//! Never compares names across kinds of entry.

use crate::check::Rule;
use crate::finding::{Code, Finding, Placed, Severity};
use crate::gym::Gym;
use crate::library::MovementId;
use std::collections::BTreeMap;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("name-twice"),
    severity: Severity::Advice,
    what: "Two movements share a name or another name.",
    why: "Someone who says it in class could mean either.",
    example: r#"
strap-row.md: aliases: [body row]
bar-row.md:   aliases: [body row]
"#,
    next: "Rename one, or take the other name out of one of the two.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let mut first_by: BTreeMap<String, (&MovementId, &Placed<String>)> = BTreeMap::new();
    let mut findings = Vec::new();
    for movement in gym.library.movements.values() {
        for name in std::iter::once(&movement.name).chain(&movement.aliases) {
            let Some((id, first)) = first_by.get(&name.to_lowercase()) else {
                first_by.insert(name.to_lowercase(), (&movement.id, name));
                continue;
            };
            if **id != movement.id {
                findings.push(twice(name, id, first));
            }
        }
    }
    findings
}

fn twice(name: &Placed<String>, id: &MovementId, first: &Placed<String>) -> Finding {
    RULE.finding(format!("`{}` is also a name of `{id}`", name.value), name.span)
        .label("again here")
        .also(first.span, "first here")
        .help("keep the name for one of the two")
}
