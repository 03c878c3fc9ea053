//! Links: what the coach has already said about two movements, on ladders and under `beside`.
//! Never a score; the weights decide what a link is worth.

use crate::gym::Gym;
use crate::library::{Beside, Ladder, LadderId, Movement, MovementId};
use std::collections::BTreeMap;

/// Where a movement stands from another on a ladder that holds both.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnLadder {
    /// The ladder.
    pub ladder: LadderId,
    /// Its nearest rung below: how many rungs down, and its place on the ladder from 0.
    pub below: Option<(usize, usize)>,
    /// Its nearest rung above: how many rungs up, and its place on the ladder from 0.
    pub above: Option<(usize, usize)>,
}

impl OnLadder {
    /// Rungs apart; 1 is the next rung.
    pub fn apart(&self) -> usize {
        let steps = |way: Option<(usize, usize)>| way.map_or(usize::MAX, |(steps, _)| steps);
        steps(self.below).min(steps(self.above))
    }
}

/// The movement that a swap is wanted for, and everything linked to it.
pub struct FirstChoice<'g> {
    /// The gym.
    pub gym: &'g Gym,
    /// The movement itself.
    pub movement: &'g Movement,
    on_ladders: BTreeMap<&'g MovementId, OnLadder>,
}

impl<'g> FirstChoice<'g> {
    /// Looks up the links of a movement.
    pub fn of(gym: &'g Gym, movement: &'g Movement) -> FirstChoice<'g> {
        let mut on_ladders: BTreeMap<&MovementId, OnLadder> = BTreeMap::new();
        for ladder in gym.library.ladders.values() {
            for (to, place) in places(ladder, &movement.id) {
                let nearer = on_ladders.get(to).is_none_or(|found| place.apart() < found.apart());
                if nearer {
                    on_ladders.insert(to, place);
                }
            }
        }
        FirstChoice { gym, movement, on_ladders }
    }

    /// Where `to` stands on the ladder that has the two nearest to each other.
    pub fn on_ladder(&self, to: &MovementId) -> Option<&OnLadder> {
        self.on_ladders.get(to)
    }

    /// The link that the first movement's entry has to `to`.
    pub fn said(&self, to: &MovementId) -> Option<&'g Beside> {
        self.movement.beside.iter().find(|link| link.to.value == *to)
    }

    /// Whether `to`'s entry has a link back to the first movement.
    pub fn said_back(&self, to: &Movement) -> bool {
        to.beside.iter().any(|link| link.to.value == self.movement.id)
    }
}

/// Every other movement of a ladder and how far it stands from `from`.
fn places<'g>(ladder: &'g Ladder, from: &MovementId) -> BTreeMap<&'g MovementId, OnLadder> {
    let mut found: BTreeMap<&MovementId, OnLadder> = BTreeMap::new();
    let own: Vec<usize> =
        (0..ladder.rungs.len()).filter(|at| ladder.rungs[*at].movement.value == *from).collect();
    if own.is_empty() {
        return found;
    }
    for (at, rung) in ladder.rungs.iter().enumerate().filter(|(at, _)| !own.contains(at)) {
        let place = found.entry(&rung.movement.value).or_insert_with(|| OnLadder {
            ladder: ladder.id.clone(),
            below: None,
            above: None,
        });
        for own in &own {
            let way = if at < *own { &mut place.below } else { &mut place.above };
            let steps = at.abs_diff(*own);
            if way.is_none_or(|(nearest, _)| steps < nearest) {
                *way = Some((steps, at));
            }
        }
    }
    found
}
