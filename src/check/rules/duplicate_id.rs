//! Two entries with one id.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::DUPLICATE_ID,
    severity: Severity::Error,
    what: "Two entries have the same id.",
    why: "A line that names it could mean either.",
    example: r#"
content/movements/squat/squat.md
content/movements/mobility/squat.md
"#,
    next: "Rename one of the two.",
    run: None,
};
