//! A key that must be there.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::MISSING_KEY,
    severity: Severity::Error,
    what: "A key that an entry cannot do without is missing.",
    why: "Without it nobody can say what the line is about.",
    example: r#"
cues:
  - {when: pulling}
"#,
    next: "Add the key.",
    run: None,
};
