//! Person: whose swap it is, by what they have, what they avoid, and where they stand.
//! Never a name, and never kept: a person is made for one question and forgotten.

use crate::library::{CautionId, KitId, LadderId, Noise, Quantity, TraitId, Unit};
use std::collections::{BTreeMap, BTreeSet};

/// What a person has, avoids, and has room and time for. The default avoids nothing, stands in
/// the hall, and may be loud.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// The kit at hand. Nothing written: everything the hall has. What nobody lacks, such as a
    /// wall, is always at hand.
    pub kit: Option<BTreeSet<KitId>>,
    /// Traits to avoid, each from this level on (1 or 2).
    pub limits: BTreeMap<TraitId, u8>,
    /// Situations that the limits come from, so that what a caution says can be said.
    pub situations: BTreeSet<CautionId>,
    /// Their own rungs, from 0, on ladders where they are known. A swap never stands above them.
    pub rungs: BTreeMap<LadderId, usize>,
    /// Whether a coach reads the answer, about the person in front: it says they, not you.
    pub front: bool,
    /// Whether they ask for more than the rung that is swapped.
    pub harder: bool,
    /// The loudest that is allowed.
    pub noise: Noise,
    /// The clear space there is. Nothing written: enough.
    pub room: Option<Space>,
    /// The time there is for all the sets and the rests between them, in seconds.
    pub window: Option<Quantity>,
}

impl Default for Person {
    fn default() -> Self {
        Person {
            kit: None,
            limits: BTreeMap::new(),
            situations: BTreeSet::new(),
            rungs: BTreeMap::new(),
            front: false,
            harder: false,
            noise: Noise::Loud,
            room: None,
            window: None,
        }
    }
}

/// Clear space, in metres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Space {
    /// One side of the floor.
    pub length: Quantity,
    /// The other side.
    pub width: Quantity,
    /// Up to the ceiling. Nothing written: enough.
    pub height: Option<Quantity>,
}

impl Space {
    /// Reads `2 m x 3 m`, or `2 m x 3 m x 2.4 m` with the height last.
    ///
    /// # Errors
    /// A sentence with an example, when that is not what was written.
    pub fn read(text: &str) -> Result<Space, String> {
        let sides: Result<Vec<Quantity>, _> =
            text.split(['x', '×']).map(|side| Quantity::read(side, Unit::Metre)).collect();
        match sides.as_deref() {
            Ok([length, width]) => Ok(Space { length: *length, width: *width, height: None }),
            Ok([length, width, height]) => {
                Ok(Space { length: *length, width: *width, height: Some(*height) })
            }
            _ => Err(format!("`{text}` is not a clear space; write it such as `2 m x 3 m`")),
        }
    }
}
