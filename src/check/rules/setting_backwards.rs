//! Two rungs of one movement in the wrong order.
//! Never compares different movements.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{Harder, Ladder, Library, Movement, MovementId, Rung};
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("setting-backwards"),
    severity: Severity::Error,
    what: "The upper of two rungs of one movement has the setting that asks less.",
    why: "Whoever steps up is given less to do.",
    example: r#"
rungs:
  - {movement: strap-row, lean: 45 deg}
  - {movement: strap-row, lean: 30 deg}
"#,
    next: "Exchange the two rungs, or correct the values.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let ladders = gym.library.ladders.values();
    ladders.flat_map(|ladder| backwards(ladder, &gym.library)).collect()
}

fn backwards(ladder: &Ladder, library: &Library) -> Vec<Finding> {
    let mut below: BTreeMap<&MovementId, &Rung> = BTreeMap::new();
    let mut findings = Vec::new();
    for rung in &ladder.rungs {
        let id = &rung.movement.value;
        if let (Some(lower), Some(movement)) = (below.get(id), library.movements.get(id)) {
            findings.extend(compare(lower, rung, movement));
        }
        below.insert(id, rung);
    }
    findings
}

/// A finding when some setting asks less on the upper rung and none asks more.
fn compare(lower: &Rung, upper: &Rung, movement: &Movement) -> Option<Finding> {
    let changes: Vec<_> = upper
        .settings
        .iter()
        .filter_map(|(name, value)| {
            let (_, before) = lower.settings.iter().find(|(n, _)| n.value == name.value)?;
            let asks = match movement.setting(name.as_str())?.harder? {
                Harder::More => value.value.cmp(&before.value),
                Harder::Less => before.value.cmp(&value.value),
            };
            Some((asks, value, before))
        })
        .collect();
    if changes.iter().any(|(asks, ..)| *asks == Ordering::Greater) {
        return None;
    }
    let (_, value, before) = changes.iter().find(|(asks, ..)| *asks == Ordering::Less)?;
    let headline =
        format!("`{}` at {} asks less than at {} below it", movement.id, value.value, before.value);
    Some(
        RULE.finding(headline, value.span)
            .label("asks less")
            .also(before.span, "the rung below")
            .help("exchange the two rungs, or correct the values"),
    )
}
