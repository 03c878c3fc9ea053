//! A value outside the range of its setting.
//! Never widens the range.

use crate::check::Rule;
use crate::check::then::{self, How, Then};
use crate::check::uses::{uses, value_in};
use crate::finding::{Code, Finding, Severity, Span};
use crate::gym::Gym;
use crate::library::{Movement, Quantity, Setting};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("setting-outside-range"),
    severity: Severity::Error,
    what: "A rung, a session or a fault uses a value outside the setting's range.",
    why: "Either the range or the value is wrong, and one of them may be unsafe.",
    example: r#"
rungs:
  - {movement: strap-row, lean: 85 deg}
"#,
    next: "Move the value into the range, or widen the range in the movement.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let used = uses(gym).into_iter().flat_map(|one| {
        one.settings.iter().filter_map(move |(name, value)| {
            let setting = one.movement.setting(name.as_str())?;
            let inside = value_in(value.value, setting.unit)?;
            outside(one.movement, setting, inside, value.span)
        })
    });
    let in_faults = then::all(gym).into_iter().filter_map(|found| {
        let Then::Setting(name, How::To(text)) = &found.then else { return None };
        let setting = found.movement.setting(name)?;
        let value = Quantity::read(text, setting.unit).ok()?;
        outside(found.movement, setting, value, gym.library.sources.part(found.span, text))
    });
    used.chain(in_faults).collect()
}

fn outside(movement: &Movement, set: &Setting, value: Quantity, span: Span) -> Option<Finding> {
    if value >= set.from && value <= set.to {
        return None;
    }
    let headline =
        format!("{value} is outside the range of `{}`, {} to {}", movement.id, set.from, set.to);
    Some(
        RULE.finding(headline, span)
            .also(set.span, "its range")
            .help("move the value into the range, or widen the range"),
    )
}
