//! More of something than is read.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::TOO_MUCH,
    severity: Severity::Error,
    what: "A list, a text or a folder holds more than is read.",
    why: "A slip of the pen must not keep a machine busy for minutes, nor a phone; what is beyond the \
           end is left out, and everything else is read.",
    example: r#"
rungs: [...]   # 700 of them; 300 are read
"#,
    next: "Split it into several, or say it in fewer words.",
    run: None,
};
