//! A setting that the movement has not.
//! Never looks at its value.

use crate::check::Rule;
use crate::check::then::{self, Then};
use crate::check::uses::uses;
use crate::finding::{Code, Finding, Severity, Span, near};
use crate::gym::Gym;
use crate::library::Movement;

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("setting-unknown"),
    severity: Severity::Error,
    what: "A rung, a session or a fault uses a setting that the movement has not.",
    why: "Nobody knows what to adjust.",
    example: r#"
rungs:
  - {movement: strap-row, leen: 30 deg}
"#,
    next: "Correct the spelling, or add the setting to the movement.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let used = uses(gym).into_iter().flat_map(|one| {
        let names = one.settings.iter().map(|(name, _)| name);
        names.filter_map(move |name| unknown(one.movement, name.as_str(), name.span))
    });
    let in_faults = then::all(gym).into_iter().filter_map(|found| match &found.then {
        Then::Setting(name, _) => {
            unknown(found.movement, name, gym.library.sources.part(found.span, name))
        }
        _ => None,
    });
    used.chain(in_faults).collect()
}

fn unknown(movement: &Movement, name: &str, span: Span) -> Option<Finding> {
    if movement.setting(name).is_some() {
        return None;
    }
    let names: Vec<&str> = movement.settings.iter().map(|(name, _)| name.as_str()).collect();
    let help = match (near(name, names.iter().copied()), names.as_slice()) {
        (Some(meant), _) => format!("did you mean `{meant}`?"),
        (None, []) => format!("`{}` has no settings; remove it, or add one there", movement.id),
        (None, names) => format!("`{}` has: {}", movement.id, names.join(", ")),
    };
    Some(RULE.finding(format!("`{}` has no setting `{name}`", movement.id), span).help(help))
}
