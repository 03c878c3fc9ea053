//! Serving: which kit serves a rung at its height: the seat of a chair is no edge at 90 cm.
//! Never judges a box or a bench, which come in many heights, nor what somebody measured at home.

use super::rungs::RungOf;
use crate::gym::heights::SURFACES;
use crate::library::{KitId, KitNeed, Movement, Unit};

/// Settings that are the height of something under hands, feet or seat.
const HEIGHTS: [&str; 4] = ["hands", "feet", "box", "seat"];
/// A thing serves for a height within this much of its own, cm: a shoe's worth. Common practice, no
/// source.
const NEAR_CM: f64 = 2.5;

/// The needs of a rung for kit, each with only what stands as high as the rung asks. A need that
/// nothing of the entry's list serves is left without choices: it cannot be met.
pub fn needs_at(movement: &Movement, rung: &RungOf) -> Vec<KitNeed> {
    let heights = heights_of(movement, rung);
    if heights.is_empty() || rung.measured {
        return movement.kit.clone();
    }
    let serves = |id: &KitId| stands_at(id, &heights);
    let only =
        |need: &KitNeed| KitNeed(need.0.iter().filter(|id| serves(&id.value)).cloned().collect());
    movement.kit.iter().map(only).collect()
}

/// The heights that a rung asks, as given or else as usual, cm; the floor is none.
fn heights_of(movement: &Movement, rung: &RungOf) -> Vec<f64> {
    let given = rung.settings();
    let settings = movement.settings.iter().filter(|(name, setting)| {
        HEIGHTS.contains(&name.value.as_str()) && setting.unit == Unit::Centimetre
    });
    let value = settings.map(|(name, setting)| {
        let given = given.iter().find(|(known, _)| *known == name.value.as_str());
        let usual = setting.usual.as_ref().map_or(setting.from, |usual| usual.value);
        given.map_or(usual, |(_, value)| *value)
    });
    value.filter(|value| !value.is_nothing()).map(|value| value.number()).collect()
}

/// Whether a thing stands at one of these heights; of what has no common height nothing is known. A
/// chair on which somebody would need cushions is none: nobody is sent to build a seat.
fn stands_at(id: &KitId, heights: &[f64]) -> bool {
    let mut surfaces = SURFACES.iter().filter(|one| one.kit == id.as_str()).peekable();
    let near = |one: &crate::gym::heights::Surface| {
        heights.iter().any(|at| (one.from - NEAR_CM..=one.to + NEAR_CM).contains(at))
    };
    surfaces.peek().is_none() || surfaces.any(near)
}
