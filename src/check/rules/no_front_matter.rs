//! A movement without its front matter.
//! Found while reading; never by a function here.

use crate::check::Rule;
use crate::finding::Severity;
use crate::library::reader::codes;

/// The rule.
pub const RULE: Rule = Rule {
    code: codes::NO_FRONT_MATTER,
    severity: Severity::Error,
    what: "A movement has no keys between two lines `---`.",
    why: "Without its keys a movement has no pattern, no cues and no caution, so no page can \
          show it.",
    example: r#"
name: Squat
pattern: squat
"#,
    next: "Start the file with a line `---`, then the keys, then a line `---`, then the text.",
    run: None,
};
