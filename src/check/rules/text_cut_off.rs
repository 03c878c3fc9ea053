//! A text of which everything behind ` #` is lost.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::TEXT_CUT_OFF,
    severity: Severity::Warning,
    what: "A text is followed by ` #`, from which on nothing is read.",
    why: "In YAML that starts a remark: half a sentence would be published.",
    example: r#"
standard: Hands # walk out, then back
"#,
    next: "Put quotes round the whole text; a remark goes on a line of its own.",
    run: None,
};
