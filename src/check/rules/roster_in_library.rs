//! A roster, a handed result or a member's book among the library's files.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::ROSTER_IN_LIBRARY,
    severity: Severity::Error,
    what: "A file in the library speaks of members: a roster, a result, a book.",
    why: "What is found in a library is shown to everyone who works on it, and may be published; \
           such a file is not read, and no word of it is shown.",
    example: r#"
content/ladders/roster.yaml
"#,
    next: "Move it out of the library's folder. The roster stands beside that folder.",
    run: None,
};
