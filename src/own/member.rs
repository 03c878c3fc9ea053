//! Member: what is known of a person: kit, limits, own rungs, heights at home, results.
//! Never a name, and never kept: it is made for one question and forgotten.

use crate::library::{KitId, LadderId, MovementId, Quantity};
use crate::placing::Counted;
use crate::swap::Person;
use std::collections::BTreeMap;

/// The movement and written settings that a rung had when it was recorded.
pub type RungThen = (MovementId, BTreeMap<String, f64>);

/// A person with what their book, or the coach's roster, knows.
#[derive(Debug, Clone, Default)]
pub struct Member {
    /// Kit, limits, noise.
    pub person: Person,
    /// Own rungs, from 1, as written by hand, with what they were then where that is known.
    pub rungs: BTreeMap<LadderId, (u32, Option<RungThen>)>,
    /// Heights at home in cm, by kit.
    pub heights: BTreeMap<KitId, f64>,
    /// Results in the order written.
    pub results: Vec<Tested>,
    /// Stature.
    pub stature: Option<Quantity>,
    /// Body mass.
    pub body_mass: Option<Quantity>,
}

/// A result of a test.
#[derive(Debug, Clone, PartialEq)]
pub struct Tested {
    /// The day, such as `2026-11-25`.
    pub day: String,
    /// The ladder.
    pub ladder: LadderId,
    /// The rung then, from 1.
    pub rung: u32,
    /// The rung's movement and written settings then; nothing where only its number was recorded.
    pub then: Option<RungThen>,
    /// What was counted.
    pub counted: Counted,
    /// Settings that were not the rung's, in its units.
    pub setting: BTreeMap<String, f64>,
    /// Weight added beyond what the rung says.
    pub added: Option<Quantity>,
}

impl Member {
    /// The latest result on a ladder; of one day the one written last.
    pub fn latest(&self, ladder: &LadderId) -> Option<&Tested> {
        let here = self.results.iter().filter(|one| one.ladder == *ladder);
        here.max_by(|a, b| a.day.cmp(&b.day))
    }
}
