//! A change that takes away a setting which the movement does not have.
//! Never asks whether the change is wise; only whether what it takes is there.

use crate::check::Rule;
use crate::finding::{Code, Finding, Placed, Severity, did_you_mean};
use crate::gym::Gym;
use crate::library::{ChangeOf, Movement, SettingName, TraitChange};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("taken-setting-unknown"),
    severity: Severity::Warning,
    what: "A change takes away a setting that no movement with it has.",
    why: "The setting goes on being said beside the change: \"12 kg, without a weight\".",
    example: r#"
without-weight: {name: without a weight, takes: [wieght]}
"#,
    next: "Correct the spelling, or take the setting out of `takes`.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let movements = &gym.library.movements;
    let here = movements.values().flat_map(|movement| {
        let own = movement.changes.iter();
        own.flat_map(|own| own.takes.iter().flatten())
            .filter(|name| movement.setting(name.value.as_str()).is_none())
            .map(|name| unknown(name, &format!("`{}` has no", movement.id), &[movement]))
    });
    let general = gym.library.words.changes.values().flat_map(|change| {
        let with: Vec<&Movement> = movements.values().filter(|one| allows(one, change)).collect();
        let lost = change.takes.iter().filter(|name| !with.is_empty() && !has(&with, name));
        let lost: Vec<Finding> = lost
            .map(|name| {
                unknown(name, &format!("no movement with `{}` has a", change.id.value), &with)
            })
            .collect();
        lost
    });
    here.chain(general).collect()
}

/// Whether a movement allows the change with its general `takes`.
fn allows(movement: &Movement, change: &TraitChange) -> bool {
    let own = |own: &ChangeOf| own.id.value == change.id.value && own.takes.is_none();
    movement.changes.iter().any(own)
}

fn has(movements: &[&Movement], name: &Placed<SettingName>) -> bool {
    movements.iter().any(|movement| movement.setting(name.value.as_str()).is_some())
}

fn unknown(name: &Placed<SettingName>, who: &str, movements: &[&Movement]) -> Finding {
    let settings = movements.iter().flat_map(|movement| &movement.settings);
    let known = settings.map(|(name, _)| name.value.as_str());
    let help = did_you_mean(name.value.as_str(), known, "take it out of `takes`");
    RULE.finding(format!("{who} setting `{}`", name.value), name.span).help(help)
}
