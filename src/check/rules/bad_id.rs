//! An id that is not lower-case words and hyphens.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::BAD_ID,
    severity: Severity::Error,
    what: "An id is not lower-case words joined by hyphens.",
    why: "Ids become addresses; spaces, capitals and accents break on some computers.",
    example: r#"
content/movements/squat/Goblet Squat.md
"#,
    next: "Rename it as the finding says, and every line that names it.",
    run: None,
};
