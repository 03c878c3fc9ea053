//! Every setting of every movement over its whole range: people use heights that no ladder names.
//! Never solves again what the rule has looked at: usual settings and rungs are the rule's.

use super::starter;
use rayon::prelude::*;
use rungbook::gym::{pose_person, posed, witness};
use rungbook::library::{Movement, Quantity, SettingName, TraitId};

/// Values of a setting that are looked at, ends included.
const VALUES: i64 = 9;

/// What the pose shows beyond the entry at one value of one setting, the others as usual.
fn beyond(movement: &Movement, name: &SettingName, value: Quantity) -> Vec<String> {
    let at = [(name.as_str(), value)];
    let figure = posed(movement, &at, &pose_person()).and_then(|posed| posed.figure);
    let seen = figure.map(|figure| witness::seen(&figure)).unwrap_or_default();
    let id = |seen: &witness::Seen| TraitId(seen.shows.to_string());
    let overruled = |id: &TraitId| movement.trait_of(id).is_some_and(|of| of.because.is_some());
    seen.iter()
        .filter(|seen| movement.level_at(&id(seen), &at) < seen.level && !overruled(&id(seen)))
        .map(|s| format!("{} {name} {value}: {} {}: {}", movement.id, s.shows, s.level, s.words))
        .collect()
}

#[test]
fn no_value_of_a_setting_shows_more_than_the_entry_says() {
    let movements: Vec<&Movement> = starter().library.movements.values().collect();
    let over = |movement: &&Movement| {
        let mut found = Vec::new();
        for (name, setting) in &movement.settings {
            let (from, to) = (setting.from.micro, setting.to.micro);
            for step in 0..VALUES {
                let micro = from + (to - from) * step / (VALUES - 1);
                let value = Quantity { unit: setting.unit, micro };
                found.extend(beyond(movement, &name.value, value));
            }
        }
        found
    };
    let found: Vec<String> = movements.par_iter().flat_map_iter(over).collect();
    assert!(found.is_empty(), "{}\n{}", found.len(), found.join("\n"));
}
