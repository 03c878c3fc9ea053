//! A key that means nothing where it stands.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::UNKNOWN_KEY,
    severity: Severity::Error,
    what: "A key is not one that is read here.",
    why: "A misspelt key is a lost fact: `causion` would leave a movement without its caution.",
    example: r#"
name: Squat
causion: Clear the floor behind you.
"#,
    next: "Correct the spelling, or remove the line.",
    run: None,
};
