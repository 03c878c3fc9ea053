//! A solved pose leaves a joint on the end of its range, and nothing in it asks for that.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-joint-at-limit"),
    severity: Severity::Warning,
    what: "A pose leaves a joint on the end of its range though nothing in it asks for that.",
    why: "A joint on its stop means that something else in the pose does not fit: a bar too low, a \
          foot too near. The figure shows a position that few bodies reach.",
    example: r#"
figure: {start: {hands: bar 225, elbow: 0, balance: hands}, end: {chin: over bar 16, balance: hands}}
"#,
    next: "Say the angle you want, and ease what bends the joint so far.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::JointAtLimit, gym)),
};
