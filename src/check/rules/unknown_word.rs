//! A word outside a fixed list.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::UNKNOWN_WORD,
    severity: Severity::Error,
    what: "A word is not one of those that its key takes.",
    why: "Plans and swaps reckon with these words; another one means nothing to them.",
    example: r#"
sides: both
"#,
    next: "Write one of the words that the finding lists.",
    run: None,
};
