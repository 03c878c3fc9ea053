//! Two key poses of a movement are the same.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-nothing-moves"),
    severity: Severity::Error,
    what: "Two key poses of a movement are the same.",
    why: "Two pictures of one position hide what moves.",
    example: r#"
figure: {start: {feet: floor, knee: 5}, end: {knee: 6}}
"#,
    next: "Say what changes, or leave the second out: a hold needs only a `start`.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::NothingMoves, gym)),
};
