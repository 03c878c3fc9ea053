//! A figure would fall over.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-off-balance"),
    severity: Severity::Error,
    what: "A figure would fall over.",
    why: "A member who copies it falls too.",
    example: r#"
figure: {start: {feet: floor, knee: 5, trunk: 75, shin: 5}}
"#,
    next: "Add `balance: feet`, lean the other way, or write `balance: free` for a pose in full swing.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::OffBalance, gym)),
};
