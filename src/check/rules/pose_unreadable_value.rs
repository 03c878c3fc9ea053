//! A value in a pose cannot be read, or is missing.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-unreadable-value"),
    severity: Severity::Error,
    what: "A value in a pose cannot be read, or is missing.",
    why: "Without it the figure has nothing to stand on.",
    example: r#"
figure: {start: {hands: box, toes: floor}}
"#,
    next: "Write a number, or the name of one of the movement's settings.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::UnreadableValue, gym)),
};
