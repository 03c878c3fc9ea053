//! A line of a block: its ways, their sets in seconds, and the change to the next one.
//! Never says whether it fits; `fits` does.

use super::band::{Band, only};
use super::pace::{CHANGE_ON_THE_SPOT_S, CHANGE_STATION_S, MOST_TURNS, set_seconds};
use super::ways::{Way, kit_needs, name, ways};
use crate::gym::Gym;
use crate::library::{Amount, Count, Format, Item, KitId};
use std::collections::BTreeSet;

/// What a stretch of the clock is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SlotKind {
    /// Somebody works.
    Work,
    /// Rest, or a change of station.
    Rest,
}

/// A line, its ways and their sets in seconds.
pub(super) struct Line<'g> {
    pub item: &'g Item,
    pub name: String,
    pub ways: Vec<Way<'g>>,
    /// The set of whichever way: the shortest to the longest.
    pub set: Band,
    /// Rest after a set: the longest of its ways'.
    pub rest_s: u32,
    /// Sets, of any of its ways.
    pub sets: Option<Count>,
    kit: BTreeSet<&'g KitId>,
}

impl<'g> Line<'g> {
    pub(super) fn of(gym: &'g Gym, item: &'g Item, format: Format) -> Line<'g> {
        let ways = ways(gym, item);
        let sets = ways.iter().filter_map(|way| way.sets).reduce(|one, other| Count {
            from: one.from.min(other.from),
            to: one.to.max(other.to),
        });
        let rests = ways.iter().filter(|way| way.rest_asked || format == Format::TimedSets);
        let needs = ways.iter().flat_map(|way| kit_needs(gym, way.movement));
        Line {
            item,
            name: name(gym, item),
            set: Band::around(ways.iter().map(|way| set_of(way, None))).unwrap_or_default(),
            rest_s: rests.map(|way| way.rest_s).max().unwrap_or(0),
            sets: sets.map(|n| Count { from: n.from.min(MOST_TURNS), to: n.to.min(MOST_TURNS) }),
            kit: needs.flat_map(|need| need.0.iter().map(|id| &id.value)).collect(),
            ways,
        }
    }

    /// The set of whichever way, when the round asks for `counted`.
    pub(super) fn set_counting(&self, counted: Option<u32>) -> Band {
        Band::around(self.ways.iter().map(|way| set_of(way, counted))).unwrap_or_default()
    }

    /// The change from this line to `next`.
    pub(super) fn change(&self, next: &Line<'_>, format: Format) -> Band {
        match self.kit == next.kit {
            false => CHANGE_STATION_S,
            true if std::ptr::eq(self.item, next.item) || format == Format::Holds => {
                Band::default()
            }
            true => CHANGE_ON_THE_SPOT_S,
        }
    }
}

/// A set of a way in seconds; `counted` is the count of a round that goes down.
pub(super) fn set_of(way: &Way<'_>, counted: Option<u32>) -> Band {
    amount_of(way, counted).map(|amount| set_seconds(way, amount)).unwrap_or_default()
}

/// What a set of a way counts; `counted` is the count of a round that goes down.
pub(super) fn amount_of(way: &Way<'_>, counted: Option<u32>) -> Option<Amount> {
    counted.map(|n| Amount::Reps(only(n))).or(way.amount)
}
