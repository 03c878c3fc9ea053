//! A joint bends, or a side moves, the wrong way round.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-mirrored"),
    severity: Severity::Error,
    what: "A joint bends, or a side moves, the wrong way round.",
    why: "A knee that bends forwards is seen at once, and the page is not trusted again.",
    example: r#"
figure: {start: {feet: floor, knee: -60, trunk: 30}}
"#,
    next: "Mend the sign, or exchange `near` and `far`.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::Mirrored, gym)),
};
