//! Part of the body is inside a piece of kit.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-through-kit"),
    severity: Severity::Error,
    what: "Part of the body is inside a piece of kit.",
    why: "Nobody can copy it.",
    example: r#"
figure: {start: {near: {foot: box 40}, far: {foot: "floor, 5 ahead of near foot"}}}
"#,
    next: "Move the contact nearer the edge, change the height, or bend the limb away.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::ThroughKit, gym)),
};
