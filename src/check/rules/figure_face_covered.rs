//! A hand, a weight or a bar is drawn across the face.
//! From behind there is no face to hide.

use crate::check::{Rule, poses};
use crate::figure::doubts;
use crate::finding::{Code, Severity};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("figure-face-covered"),
    severity: Severity::Warning,
    what: "A figure has a hand, a weight or a bar across its face.",
    why: "Who sees the face sees which way the body looks and whether the neck is long. A bar across it reads as a bar through it.",
    example: r#"
figure: {view: front, start: {hands: "bar 225, 30 apart", chin: over bar, balance: hands}}
"#,
    next: "Choose another view, or move the hands.",
    run: Some(|gym| poses::doubts(&RULE, doubts::across_the_face, gym)),
};
