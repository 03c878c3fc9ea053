//! A figure hides an arm that does something of its own.
//! Two arms that do the same are never told: the reader sees one and knows the other.

use crate::check::{Rule, poses};
use crate::figure::hidden;
use crate::finding::{Code, Severity};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("figure-arm-hidden"),
    severity: Severity::Warning,
    what: "One arm does something else than the other, and the body hides it from the reader.",
    why: "A member copies the picture. Nobody knows what to do with an arm that is not in it.",
    example: r#"
figure: {holds: "dumbbell 8, near hand", start: {feet: floor, knee: 3, trunk: 0, near: {arms: overhead}, far: {arms: on hips}}}
"#,
    next: "Choose a view that shows both arms, such as `wide corner`.",
    run: Some(|gym| poses::doubts(&RULE, hidden::hidden_arms, gym)),
};
