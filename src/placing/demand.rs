//! What a rung demands, as placing needs it.
//! Never measures it: the room `mechanics` does, and an unknown demand stays unknown.

use crate::gym::Gym;
use crate::library::{Ladder, Quantity};
use serde::Serialize;

/// What one repetition of a rung carries. Leave a rung out (`None`) whose repetitions cannot be
/// compared with the others by weight alone: lowering only, another range, another tempo.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RungDemand {
    /// Share of body mass carried, 0 to 1.
    pub share: f64,
    /// How far the true share may be from it, either way.
    pub band: f64,
    /// Weight that the rung itself adds, in kg; 0 for none.
    pub weight_kg: f64,
}

/// What a set carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Carried {
    /// In kg when the body mass is known, else as a share of it.
    pub weight: f64,
    /// How far it may be off, as a share of itself.
    pub doubt: f64,
}

/// What `demand` makes of a body; an added weight counts whole, as if it hung straight over the
/// hands or feet that carry. `None` when the demand leaves nothing to carry.
pub(super) fn carried(demand: RungDemand, body: f64, added_kg: f64) -> Option<Carried> {
    let weight = demand.share * body + (demand.weight_kg + added_kg);
    let doubt = demand.band * body / weight;
    (weight > 0.0 && weight.is_finite() && (0.0..1.0).contains(&doubt))
        .then_some(Carried { weight, doubt })
}

/// The demand of each rung of `ladder` for a person of `stature` (raised hands ask more of a tall
/// person). The one place where the mechanics room fills the demands in; until it does, none is
/// known, and only counting rules speak.
pub fn demands_of(
    _gym: &Gym,
    ladder: &Ladder,
    _stature: Option<Quantity>,
) -> Vec<Option<RungDemand>> {
    vec![None; ladder.rungs.len()]
}
