//! A straight limb points at the reader of a figure.
//! It judges straight limbs only: a bent one shows by its parts.

use crate::check::{Rule, poses};
use crate::figure::doubts;
use crate::finding::{Code, Severity};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("figure-limb-foreshortened"),
    severity: Severity::Warning,
    what: "A straight arm or leg of a figure is drawn at less than half its length.",
    why: "A limb that points at the reader looks like a stump: a stranger cannot tell where it goes. From its side it is seen whole.",
    example: r#"
figure: {view: front, start: {feet: floor, knee: 3, trunk: 0, arms: forward}}
"#,
    next: "Choose a view from which the limb is seen from its side.",
    run: Some(|gym| poses::doubts(&RULE, doubts::foreshortened, gym)),
};
