//! An angle in a pose is further than the joint goes.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-joint-limit"),
    severity: Severity::Error,
    what: "An angle in a pose is further than the joint goes.",
    why: "A figure that bends further than people do teaches the wrong thing.",
    example: r#"
figure: {end: {elbow: 200}}
"#,
    next: "Write an angle within the range that the finding names.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::JointLimit, gym)),
};
