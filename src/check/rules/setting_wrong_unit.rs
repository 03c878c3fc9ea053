//! A value in a unit that its setting is not measured in.
//! Never converts between what cannot be converted.

use crate::check::Rule;
use crate::check::then::{self, How, Then};
use crate::check::uses::{uses, value_in};
use crate::finding::{Code, Finding, Severity, Span};
use crate::gym::Gym;
use crate::library::{Quantity, Setting};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("setting-wrong-unit"),
    severity: Severity::Error,
    what: "A rung, a session or a fault gives a setting in the wrong unit.",
    why: "A lean in centimetres is no lean.",
    example: r#"
rungs:
  - {movement: strap-row, lean: 30 cm}
"#,
    next: "Write it in the setting's unit.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let used = uses(gym).into_iter().flat_map(|one| {
        one.settings.iter().filter_map(move |(name, value)| {
            let setting = one.movement.setting(name.as_str())?;
            let wrong = value_in(value.value, setting.unit).is_none();
            wrong.then(|| finding(name.as_str(), setting, value.span))
        })
    });
    let in_faults = then::all(gym).into_iter().filter_map(|found| {
        let Then::Setting(name, How::To(text)) = &found.then else { return None };
        let setting = found.movement.setting(name)?;
        let wrong = Quantity::read(text, setting.unit).is_err();
        wrong.then(|| finding(name, setting, gym.library.sources.part(found.span, text)))
    });
    used.chain(in_faults).collect()
}

fn finding(name: &str, setting: &Setting, span: Span) -> Finding {
    let unit = setting.unit;
    let help = match unit.accepted().contains(',') {
        true => format!("write it in one of: {}", unit.accepted()),
        false => format!("write it in {}", unit.accepted()),
    };
    RULE.finding(format!("`{name}` is measured in {}", unit.symbol()), span)
        .also(setting.span, "measured here")
        .help(help)
}
