//! A pose uses a word that no pose knows.
//! Never solves it; the room `mechanics` does.

use crate::check::{Rule, poses};
use crate::finding::{Code, Severity};
use crate::mechanics::node::PoseCode;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("pose-unknown-word"),
    severity: Severity::Error,
    what: "A pose uses a word that no pose knows.",
    why: "A word that is not understood is left out of the picture and of every number.",
    example: r#"
figure: {start: {hands: flor, toes: floor}}
"#,
    next: "Write the near spelling that the finding names.",
    run: Some(|gym| poses::problems(&RULE, PoseCode::UnknownWord, gym)),
};
