//! Every pose of the starter library on bodies of five statures, and over every setting's range.
//! Never lets a movement off: a setting that some stature cannot reach is too wide a range.

use rungbook::gym::{Gym, posed};
use rungbook::library::{Library, Movement, Quantity, reader};
use rungbook::mechanics::solve::Person;
use std::path::Path;

pub const STATURES: [f64; 5] = [1.50, 1.60, 1.72, 1.85, 1.98];

fn starter() -> Library {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    reader::read(&content).expect("the starter library is there")
}

fn told(movement: &Movement, at: &[(&str, Quantity)], stature: f64) -> Vec<String> {
    let person = Person { stature, ..Person::default() };
    let Some(posed) = posed(movement, at, &person) else { return Vec::new() };
    let wanted: Vec<String> = at.iter().map(|(name, value)| format!("{name} {value}")).collect();
    let place = format!("{} {} at {stature} m", movement.id, wanted.join(", "));
    posed.problems.iter().map(|p| format!("{place}: {} {}", p.code.name(), p.sentence)).collect()
}

#[test]
fn every_movement_has_a_pose_or_says_why_not() {
    let library = starter();
    let bare: Vec<_> = library
        .movements
        .values()
        .filter(|m| m.figure.is_none() && m.no_figure.is_none())
        .map(|m| &m.id)
        .collect();
    assert!(bare.is_empty(), "{bare:?}");
    assert!(library.movements.len() > 90);
}

#[test]
fn every_pose_passes_at_every_stature_over_every_range() {
    let mut bad = Vec::new();
    for movement in starter().movements.values() {
        for stature in STATURES {
            bad.extend(told(movement, &[], stature));
            for (name, setting) in &movement.settings {
                for value in [setting.from, setting.to] {
                    bad.extend(told(movement, &[(name.value.as_str(), value)], stature));
                }
            }
        }
    }
    assert!(bad.is_empty(), "\n{}", bad.join("\n"));
}

#[test]
fn every_rung_passes_at_every_stature() {
    let gym = Gym::open(starter());
    let mut bad = Vec::new();
    let mut rungs = 0;
    for (_, key) in gym.ladders.rungs() {
        let movement = &gym.library.movements[&key.movement];
        let at: Vec<(&str, Quantity)> =
            key.settings.iter().map(|(name, value)| (name.as_str(), *value)).collect();
        rungs += 1;
        for stature in STATURES {
            bad.extend(told(movement, &at, stature));
        }
    }
    assert!(rungs > 70, "{rungs}");
    assert!(bad.is_empty(), "\n{}", bad.join("\n"));
}
