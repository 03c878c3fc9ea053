//! Uses: every rung and every item of a session that has someone do a movement.
//! Never judges the setting or the dose; rules do.

use super::mentions;
use crate::finding::{Placed, Span};
use crate::gym::Gym;
use crate::library::{Dose, ItemWork, Movement, MovementId, Quantity, SettingName, Unit};

/// A movement at settings, and a dose where the line has one of its own.
pub struct Use<'l> {
    /// What is done.
    pub movement: &'l Movement,
    /// Where it is named.
    pub named: Span,
    /// At which settings.
    pub settings: &'l [(Placed<SettingName>, Placed<Quantity>)],
    /// How much.
    pub dose: Option<&'l Dose>,
}

/// Every rung and every item whose movement exists.
pub fn uses(gym: &Gym) -> Vec<Use<'_>> {
    let library = &gym.library;
    let find = |id: &MovementId| library.movements.get(id);
    let rungs = library.ladders.values().flat_map(|ladder| &ladder.rungs).filter_map(|rung| {
        Some(Use {
            movement: find(&rung.movement.value)?,
            named: rung.movement.span,
            settings: &rung.settings,
            dose: rung.dose.as_ref(),
        })
    });
    let items = mentions::items(library).into_iter().filter_map(|item| match &item.work {
        ItemWork::Movement(movement, settings) => Some(Use {
            movement: find(&movement.value)?,
            named: movement.span,
            settings,
            dose: item.dose.as_ref(),
        }),
        _ => None,
    });
    rungs.chain(items).collect()
}

/// The uses that a ladder's own dose speaks for: its rungs without a dose of their own, with that
/// dose.
pub fn under_ladder_dose(gym: &Gym) -> Vec<Use<'_>> {
    let library = &gym.library;
    let ladders = library.ladders.values().filter_map(|l| Some((l, l.dose.as_ref()?)));
    let rungs = ladders.flat_map(|(ladder, dose)| {
        let bare = ladder.rungs.iter().filter(|rung| rung.dose.is_none());
        bare.map(move |rung| (rung, dose))
    });
    rungs
        .filter_map(|(rung, dose)| {
            Some(Use {
                movement: library.movements.get(&rung.movement.value)?,
                named: rung.movement.span,
                settings: &rung.settings,
                dose: Some(dose),
            })
        })
        .collect()
}

/// A value in the unit of its setting; nothing when it measures something else. A rung does not
/// know its movement when it is read, so that every length on it is in centimetres.
pub fn value_in(value: Quantity, unit: Unit) -> Option<Quantity> {
    match (value.unit, unit) {
        (Unit::Centimetre, Unit::Metre) => Some(Quantity { unit, micro: value.micro / 100 }),
        (from, to) => (from == to).then_some(value),
    }
}
