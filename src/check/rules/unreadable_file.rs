//! A file that the disk would not give.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::UNREADABLE_FILE,
    severity: Severity::Error,
    what: "A file or a link could not be read.",
    why: "What is in it is missing from every page, and nobody would notice.",
    example: r#"
content/movements/squat/squat.md -> a file that is no longer there
"#,
    next: "Check that the file is there and that you may read it; put a file in the place of a link \
           that leads nowhere or out of the library, and remove what is no file.",
    run: None,
};
