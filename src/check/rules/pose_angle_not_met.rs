//! An angle in a pose is one that the rest of the pose does not allow.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-angle-not-met"),
    severity: Severity::Error,
    what: "An angle in a pose is one that the rest of the pose does not allow.",
    why: "The picture shows something other than what was written.",
    example: r#"
figure: {start: {feet: floor, knee: 0, hip: 0, trunk: 60}}
"#,
    next: "Leave the angle out, or give up what holds it.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::AngleNotMet, gym)),
};
