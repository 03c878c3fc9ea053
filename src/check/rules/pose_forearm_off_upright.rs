//! A pose lays a bent arm's forearm down though weight is on the hand.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-forearm-off-upright"),
    severity: Severity::Warning,
    what: "A pose lays a bent arm's forearm 30 degrees or more off upright with weight on the hand.",
    why: "Who pushes or rows keeps the forearm upright under or over the weight: leaning by 30 \
          degrees, the elbow holds half of what a forearm flat on the floor would ask. The figure \
          reads as a rest on the forearms, and the bend of the wrist worked out from it is wrong.",
    example: r#"
figure: {start: {hands: "floor, 30 apart", toes: floor, body: straight, elbow: 0}, end: {body: straight, chest: 9}}
"#,
    next: "Set the hands wider or nearer the hips, or say `forearm: vertical`.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::ForearmOffUpright, gym)),
};
