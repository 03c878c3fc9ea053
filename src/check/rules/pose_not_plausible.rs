//! A pose asks for a force that nobody gives.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-not-plausible"),
    severity: Severity::Error,
    what: "A pose asks for a force that nobody gives.",
    why: "A share of body mass from such a pose would be nonsense.",
    example: r#"
figure: {start: {toes: floor, hands: "bar 80, 40 ahead of near toes", body: "straight, lean 45"}}
"#,
    next: "Move hands and feet further apart, or say what the body is balanced over.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::NotPlausible, gym)),
};
