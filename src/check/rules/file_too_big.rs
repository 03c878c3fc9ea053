//! A file over a megabyte.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::FILE_TOO_BIG,
    severity: Severity::Error,
    what: "A file is over 1 MB and was not read.",
    why: "An entry is a page or two; a file this big is something else that slipped in.",
    example: r#"
content/words/kit.yaml, 5 MB
"#,
    next: "Move what is not an entry out of the library folder.",
    run: None,
};
