//! A text that is `...`, as a new entry has it until somebody writes it.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::STILL_TO_WRITE,
    severity: Severity::Warning,
    what: "A text is still `...`.",
    why: "Whoever opens the page reads three dots.",
    example: r#"
standard: "..."
"#,
    next: "Write it in the place of `...`, or take the key away.",
    run: None,
};
