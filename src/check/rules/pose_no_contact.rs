//! Nothing touches anything in a pose.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-no-contact"),
    severity: Severity::Error,
    what: "Nothing touches anything in a pose.",
    why: "A figure that floats can be neither weighed nor copied.",
    example: r#"
figure: {start: {trunk: 0, knee: 5}}
"#,
    next: "Say what rests where, such as `feet: floor`.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::NoContact, gym)),
};
