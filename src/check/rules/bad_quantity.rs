//! A quantity that cannot be read.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::BAD_QUANTITY,
    severity: Severity::Error,
    what: "A number, a unit or a dose cannot be read.",
    why: "A height without a unit is a guess, and a guess is no rung.",
    example: r#"
- {movement: strap-row, lean: 45}
"#,
    next: "Write a number and its unit, such as `45 deg`, `60 cm` or `90 s`.",
    run: None,
};
