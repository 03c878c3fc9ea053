//! A rung without a value for a height or a lean of its movement.
//! Never asks for a weight or a pause: those the person owns.

use crate::check::Rule;
use crate::finding::{Code, Finding, Severity};
use crate::gym::Gym;
use crate::library::{Movement, Rung, Unit};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("setting-missing"),
    severity: Severity::Warning,
    what: "A rung gives no value for a height or lean of its movement.",
    why: "\"Incline\" alone is not a rung: hands on 60 cm and on 30 cm are two different things \
          to do.",
    example: r#"
rungs:
  - {movement: strap-row}
"#,
    next: "Add the value to the rung.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let library = &gym.library;
    let rungs = library.ladders.values().flat_map(|ladder| &ladder.rungs);
    let found = rungs.filter_map(|rung| Some((rung, library.movements.get(&rung.movement.value)?)));
    found.flat_map(|(rung, movement)| missing(rung, movement)).collect()
}

fn missing(rung: &Rung, movement: &Movement) -> Vec<Finding> {
    let wanted = movement.settings.iter().filter(|(_, setting)| {
        matches!(setting.unit, Unit::Centimetre | Unit::Metre | Unit::Degree)
    });
    let given = |name: &str| rung.settings.iter().any(|(given, _)| given.as_str() == name);
    wanted
        .filter(|(name, _)| !given(name.as_str()))
        .map(|(name, setting)| {
            let headline =
                format!("this rung of `{}` does not say its `{}`", movement.id, name.value);
            let help = format!("add `{}: ...`, {} to {}", name.value, setting.from, setting.to);
            RULE.finding(headline, rung.movement.span).help(help)
        })
        .collect()
}
