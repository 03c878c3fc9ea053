//! Text that is not YAML.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::YAML_SYNTAX,
    severity: Severity::Error,
    what: "The keys of a file cannot be read.",
    why: "The entry is left out of the library until they can.",
    example: r#"
standard: Arms straight: then hands to ribs
"#,
    next: "Look at the word pointed at: a quote or bracket that is never closed, a second `: ` \
           in a line, a tab.",
    run: None,
};
