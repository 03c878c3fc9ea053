//! A file where nothing is written.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::EMPTY_FILE,
    severity: Severity::Error,
    what: "Nothing is written in a file.",
    why: "Its name promises an entry that no page can show.",
    example: r#"
content/ladders/row.yaml, with nothing in it
"#,
    next: "Write the entry, or remove the file.",
    run: None,
};
