//! A file that nothing reads.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::STRAY_FILE,
    severity: Severity::Warning,
    what: "A file stands where nothing reads it.",
    why: "A misspelt folder loses an entry without a word.",
    example: r#"
content/movement/squat/squat.md        (the folder is `movements`)
"#,
    next: "Move it to the folder where such entries are read, or out of the library.",
    run: None,
};
