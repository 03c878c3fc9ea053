//! A fault whose `then` makes the movement ask more.
//! Never says that it must not: a weight may be too small to feel.

use crate::check::Rule;
use crate::check::then::{self, How, Then};
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::Harder;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("then-asks-more"),
    severity: Severity::Advice,
    what: "A fault's `then` changes a setting the way that asks more of the body.",
    why: "A fault that a cue does not mend calls for less, most of the time.",
    example: r#"
settings: {lean: {unit: deg, from: 15, to: 75, harder: more}}
faults:
  - {see: Hips sag, say: One board, then: lean more}
"#,
    next: "Turn it round, or say in `harder` which way the setting asks more.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let all = then::all(gym).into_iter();
    let findings = all.filter_map(|found| {
        let Then::Setting(name, how) = &found.then else { return None };
        let asks_more = matches!(
            (found.movement.setting(name)?.harder?, how),
            (Harder::More, How::More) | (Harder::Less, How::Less)
        );
        let headline = format!("`{}` asks more of someone who shows a fault", found.words);
        asks_more.then(|| {
            RULE.finding(headline, found.span).help("turn it round, or name the rung below")
        })
    });
    findings.collect()
}
