//! A list where one value belongs, and the like.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::WRONG_SHAPE,
    severity: Severity::Error,
    what: "A value has the wrong shape: a list where one text belongs, and the like.",
    why: "It cannot be understood, so it is left out.",
    example: r#"
cues: Elbows to back pockets
"#,
    next: "Write the shape that the finding names.",
    run: None,
};
