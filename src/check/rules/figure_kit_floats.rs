//! A figure shows kit that nothing holds.
//! Things that stand on the floor never float: scenery puts them there.

use crate::check::{Rule, poses};
use crate::figure::doubts;
use crate::finding::{Code, Severity};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("figure-kit-floats"),
    severity: Severity::Warning,
    what: "A weight hangs between hands that do not meet, a stick beside the hand, or a hand past the end of a bar.",
    why: "A member copies the picture. What floats in it is held wrongly in the hall.",
    example: r#"
figure: {holds: "kettlebell 12, both hands", start: {feet: floor, knee: 3, trunk: 0, arms: wide}}
"#,
    next: "Bring the hands to what they hold.",
    run: Some(|gym| poses::doubts(&RULE, doubts::floating, gym)),
};
