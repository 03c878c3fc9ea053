//! A setting stands where another unit is wanted.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-wrong-unit"),
    severity: Severity::Error,
    what: "A setting stands where another unit is wanted.",
    why: "An angle in the place of a height gives a picture of something else.",
    example: r#"
figure: {start: {hands: box lean, toes: floor}}
"#,
    next: "Name a setting of the wanted unit, or multiply by a number that turns one into the other.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::WrongUnit, gym)),
};
