//! Pulled: what a band or a pulley pulls on the hands, as a number on its own axis.
//! Never per cent of body weight: a band does not know who holds it.

use super::Gym;
use super::scale::{Axis, Reading, Unknown};
use crate::ladder::RungKey;
use crate::library::{Ladder, Rung};
use crate::mechanics::demand::Demand;
use crate::mechanics::doubt::{Doubt, Doubts};
use crate::mechanics::pulls::OnHands;
use crate::mechanics::refused::Refused;

/// What pulls on the hands in the last key pose, or the first.
pub fn on_hands(demand: &Demand, last: bool) -> Option<&OnHands> {
    let at = &demand.pulled.as_ref()?.at;
    if last { at.last() } else { at.first() }
}

/// The pull on both hands together in the last key pose, kilograms, where a line's pull is written.
pub fn reading(demand: &Demand) -> Result<Reading, Unknown> {
    let at_end = on_hands(demand, true).ok_or(Unknown::Banded)?;
    let kilograms = at_end.kilograms.ok_or(Unknown::Undecided(Refused::TooFar))?;
    if kilograms <= 0.0 {
        return Err(Unknown::Slack);
    }
    let axis = Axis::Pulled;
    let (value, doubts) = demand
        .doubtful(|demand| on_hands(demand, true)?.kilograms)
        .ok_or(Unknown::Undecided(Refused::TooFar))?;
    let band = axis.band(doubts);
    if band > value {
        return Err(Unknown::TooRough);
    }
    Ok(Reading {
        axis,
        value,
        band,
        doubts,
        at_end: None,
        rows: None,
        as_it_starts: true,
        ruled: false,
        usual_weight: false,
        alone: false,
    })
}

/// How many times its length at rest a band is, with what its doubts come to.
pub fn times(demand: &Demand, last: bool) -> Option<(f64, Doubts)> {
    demand.doubtful(|demand| on_hands(demand, last)?.times)
}

/// Whether a pull comes of a stretch, and not of a weight that hangs.
pub fn is_stretched(read: &Reading) -> bool {
    read.doubts.0[Doubt::Rest as usize] != 0.0
}

/// Whether all that a ladder's rungs work against is a pull on the hands: bands and pulleys, at least
/// one of them with its pull written, and no body weight on the arms.
pub fn is_all_pull(gym: &Gym, ladder: &Ladder) -> bool {
    let demand = |rung: &Rung| gym.rungs.get(&RungKey::of(rung))?.demand.as_ref();
    let written = |rung: &Rung| demand(rung).is_some_and(|demand| demand.pulled.is_some());
    let borne = |rung: &Rung| demand(rung).is_none_or(|demand| demand.borne.is_some());
    ladder.rungs.iter().any(written) && !ladder.rungs.iter().any(borne)
}
