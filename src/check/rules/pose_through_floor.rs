//! Part of the body is below the floor.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-through-floor"),
    severity: Severity::Error,
    what: "Part of the body is below the floor.",
    why: "Nobody can copy it.",
    example: r#"
figure: {start: {feet: floor, hips: 0, trunk: 20}}
"#,
    next: "Bend the limb more, lift the hips, or say that it rests on the floor.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::ThroughFloor, gym)),
};
