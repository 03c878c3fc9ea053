//! The same rung twice on one ladder.
//! Never compares ladders with each other.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity, Span};
use crate::gym::Gym;
use crate::ladder::RungKey;
use crate::library::Ladder;
use std::collections::BTreeMap;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("same-rung-twice"),
    severity: Severity::Error,
    what: "A ladder has the same rung twice: the same movement at the same settings.",
    why: "One cannot step up from a rung to itself.",
    example: r#"
rungs:
  - {movement: strap-row, lean: 30 deg}
  - {movement: strap-row, lean: 30 deg}
"#,
    next: "Remove one of the two, or change its setting.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    gym.library.ladders.values().flat_map(again).collect()
}

fn again(ladder: &Ladder) -> Vec<Finding> {
    let mut first_at: BTreeMap<RungKey, Span> = BTreeMap::new();
    let mut findings = Vec::new();
    for rung in &ladder.rungs {
        let (key, span) = (RungKey::of(rung), rung.movement.span);
        let Some(first) = first_at.get(&key) else {
            first_at.insert(key, span);
            continue;
        };
        findings.push(
            RULE.finding(format!("`{key}` is on this ladder twice"), span)
                .label("again here")
                .also(*first, "first here")
                .help("remove one of the two, or change its setting"),
        );
    }
    findings
}
