//! Links: what the coach has already said about two movements, on ladders and under `beside`.
//! Never a score; the weights decide what a link is worth.

use super::effort::Effort;
use crate::gym::Gym;
use crate::gym::scale::Axis;
use crate::library::{Beside, Ladder, LadderId, Movement, MovementId, PatternId};
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
    /// How hard each of its muscles works, with the sum.
    pub effort: Effort<'g>,
    /// What it asks at its usual settings.
    pub asks: Option<(Axis, u32)>,
    on_ladders: BTreeMap<&'g MovementId, OnLadder>,
    near: BTreeMap<&'g PatternId, u32>,
}

impl<'g> FirstChoice<'g> {
    /// Looks up the links of a movement.
    pub fn of(gym: &'g Gym, movement: &'g Movement) -> FirstChoice<'g> {
        let mut on_ladders: BTreeMap<&MovementId, OnLadder> = BTreeMap::new();
        for ladder in gym.ladders_of(&movement.id) {
            for (to, place) in places(ladder, &movement.id) {
                let nearer = on_ladders.get(to).is_none_or(|found| place.apart() < found.apart());
                if nearer {
                    on_ladders.insert(to, place);
                }
            }
        }
        let effort = Effort::of(&movement.muscles);
        let asks = gym.asks_usually.get(&movement.id).copied();
        let near = near(gym, &movement.pattern.value);
        FirstChoice { gym, movement, effort, asks, on_ladders, near }
    }

    /// The share of the same work that a pattern does, in thousandths.
    pub fn near(&self, pattern: &PatternId) -> u32 {
        self.near.get(pattern).copied().unwrap_or(0)
    }

    /// Every other movement that may do the same work, in the order of ids: those of near patterns, and
    /// those that the entry names itself.
    pub fn candidates(&self, floor: u32) -> Vec<&'g MovementId> {
        let near = self.near.iter().filter(|(_, share)| **share >= floor);
        let of_near = near.filter_map(|(pattern, _)| self.gym.of_pattern.get(*pattern)).flatten();
        let named = self.movement.beside.iter().map(|link| &link.to.value);
        let all = of_near.chain(named).filter(|to| **to != self.movement.id);
        let mut all: Vec<&MovementId> = all.collect();
        // A few lists that are in order already: sorting them is one pass.
        all.sort();
        all.dedup();
        all
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

/// Every pattern that does some of the same work, itself included. Either pattern's entry may say
/// it; where both do, the first choice's own counts.
fn near<'g>(gym: &'g Gym, own: &'g PatternId) -> BTreeMap<&'g PatternId, u32> {
    let mut shares = BTreeMap::new();
    for (other, pattern) in &gym.library.words.patterns {
        let said = pattern.near.iter().filter(|(id, _)| id.value == *own);
        shares.extend(said.map(|(_, hundredths)| (other, 10 * u32::from(*hundredths))));
    }
    if let Some(pattern) = gym.library.words.patterns.get(own) {
        let said = pattern.near.iter();
        shares.extend(said.map(|(id, hundredths)| (&id.value, 10 * u32::from(*hundredths))));
    }
    shares.insert(own, 1000);
    shares
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
