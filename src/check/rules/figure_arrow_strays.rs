//! The arrow of a figure stands far from what moves.
//! Figures that walk on have an arrow of their own, which is not judged.

use crate::check::{Rule, poses};
use crate::figure::doubts;
use crate::finding::{Code, Severity};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("figure-arrow-strays"),
    severity: Severity::Warning,
    what: "The arrow is drawn more than the length of a hand from the part that it follows.",
    why: "An arrow beside another limb says that the other limb moves.",
    example: r#"
figure: {start: {feet: floor, knee: 3, trunk: 2, arms: sides}, end: {seat: box 45, trunk: 34, arms: forward}, arrow: far knee}
"#,
    next: "Say what the arrow follows, or choose another view.",
    run: Some(|gym| poses::doubts(&RULE, doubts::stray_arrow, gym)),
};
