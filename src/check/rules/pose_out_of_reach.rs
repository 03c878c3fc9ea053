//! A contact or a height in a pose is out of the body's reach.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-out-of-reach"),
    severity: Severity::Error,
    what: "A contact or a height in a pose is out of the body's reach.",
    why: "The picture would show hands that hold nothing.",
    example: r#"
figure: {start: {hands: bar 300, feet: floor, elbow: 0}}
"#,
    next: "Bring the surface nearer, change its height, or let the body bend more.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::OutOfReach, gym)),
};
