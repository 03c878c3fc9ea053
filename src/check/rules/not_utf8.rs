//! Bytes that are not UTF-8.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::NOT_UTF8,
    severity: Severity::Error,
    what: "A file is not UTF-8 text.",
    why: "Letters outside plain English would come out as nonsense on the page.",
    example: r#"
name: Z<one byte of an older encoding>rich press
"#,
    next: "Save the file as UTF-8 in your editor.",
    run: None,
};
