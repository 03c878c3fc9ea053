//! A key written twice.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::DUPLICATE_KEY,
    severity: Severity::Error,
    what: "A key is written twice in one entry.",
    why: "Only one of the two can count, and the other looks as if it did.",
    example: r#"
pace: 3 s
pace: 4 s
"#,
    next: "Keep one of the two.",
    run: None,
};
