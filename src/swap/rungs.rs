//! Rungs of a swap: a movement at its settings, where it stands, and whether it asks more.
//! Never guesses: two rungs that share no ladder and no axis are not compared.

use super::changes::{Change, taken};
use super::fits::traits_of;
use crate::gym::Gym;
use crate::ladder::RungKey;
use crate::library::{LadderId, Movement, MovementId, Quantity, TraitId};
use std::collections::BTreeMap;

/// A movement at its settings, on a ladder or on none.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct RungOf {
    /// The movement and the settings that are not as usual.
    pub key: RungKey,
    /// The ladder and the place on it, from 0.
    pub place: Option<(LadderId, usize)>,
    /// Whether its height is one that the person measured: then what stands there serves.
    pub measured: bool,
}

/// Whether one rung asks more than another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Compared {
    /// It asks as much or less.
    NoMore,
    /// It asks more.
    Harder,
    /// Nothing says.
    Unknown,
}

impl RungOf {
    /// A movement at its usual settings, on no ladder.
    pub fn usual(movement: &MovementId) -> RungOf {
        let key = RungKey { movement: movement.clone(), settings: Vec::new() };
        RungOf { key, place: None, measured: false }
    }

    /// A rung of a ladder, from 0; nothing where the ladder is not that long.
    pub fn on(gym: &Gym, ladder: &LadderId, at: usize) -> Option<RungOf> {
        let rung = gym.library.ladders.get(ladder)?.rungs.get(at)?;
        let place = Some((ladder.clone(), at));
        Some(RungOf { key: RungKey::of(rung), place, measured: false })
    }

    /// Its settings by name.
    pub fn settings(&self) -> Vec<(&str, Quantity)> {
        self.key.settings.iter().map(|(name, value)| (name.as_str(), *value)).collect()
    }

    /// Its settings in words: `hands 60 cm`. No height and no weight are not said.
    pub fn said(&self) -> String {
        self.said_changed(&[])
    }

    /// The same when it is changed: what a change takes away or replaces is not said.
    pub fn said_changed(&self, made: &[Change<'_>]) -> String {
        let said = self.key.settings.iter().filter(|(_, value)| !value.is_nothing());
        let said = said.filter(|(name, _)| !taken(made, name.as_str()));
        let words: Vec<String> = said.map(|(name, value)| format!("{name} {value}")).collect();
        words.join(", ")
    }
}

/// Every rung of a movement, ladder by ladder, the lowest first; a movement on no ladder has one,
/// at its usual settings.
pub fn rungs_of(gym: &Gym, movement: &Movement) -> Vec<RungOf> {
    let graph = &gym.ladders;
    let mut rungs: Vec<RungOf> = graph
        .rungs_of(&movement.id)
        .flat_map(|index| {
            let key = graph.key(index);
            let on = move |place: &crate::ladder::RungPlace| RungOf {
                key: key.clone(),
                place: Some((place.ladder.clone(), place.at)),
                measured: false,
            };
            graph.places(index).iter().map(on)
        })
        .collect();
    rungs.sort_by(|a, b| a.place.cmp(&b.place));
    if rungs.is_empty() { vec![RungOf::usual(&movement.id)] } else { rungs }
}

/// Whether `to` asks more than `asked`: by their places on a ladder that holds both, else by their
/// numbers on one axis; where no numbers say, one leg asks more than two, and so does whatever has more
/// of a trait that is work.
pub fn compared(gym: &Gym, asked: &RungOf, to: &RungOf) -> Compared {
    if let (Some((one, at)), Some((other, other_at))) = (&asked.place, &to.place)
        && one == other
    {
        return if other_at > at { Compared::Harder } else { Compared::NoMore };
    }
    match (gym.asks(&asked.key), gym.asks(&to.key)) {
        (Some((one, a)), Some((other, b))) if one == other => {
            if b > a {
                Compared::Harder
            } else {
                Compared::NoMore
            }
        }
        _ if is_one_leg(gym, to) && !is_one_leg(gym, asked) => Compared::Harder,
        _ if is_more_work(gym, asked, to) => Compared::Harder,
        _ => Compared::Unknown,
    }
}

/// Whether a rung stands or pushes on one leg at a time.
fn is_one_leg(gym: &Gym, rung: &RungOf) -> bool {
    let movement = gym.library.movements.get(&rung.key.movement);
    movement.is_some_and(|movement| movement.pattern.value.as_str() == "single-leg")
}

/// Whether a rung has so much more of a trait that it is harder work: a deeper knee bend, a
/// breath held long where none was.
fn is_more_work(gym: &Gym, asked: &RungOf, to: &RungOf) -> bool {
    let traits = |rung: &RungOf| {
        gym.library.movements.get(&rung.key.movement).map(|movement| traits_of(movement, rung))
    };
    let (Some(before), Some(after)) = (traits(asked), traits(to)) else { return false };
    let level = |of: &BTreeMap<&TraitId, u8>, id: &TraitId| of.get(id).copied().unwrap_or(0);
    let work = gym.library.words.traits.values();
    let mut work = work.filter_map(|one| Some((&one.id.value, one.effort?)));
    work.any(|(id, more)| level(&after, id) >= level(&before, id) + more)
}

/// Whether a rung stands above the middle of its ladder, where nobody of whom nothing is known starts.
pub fn is_high(gym: &Gym, rung: &RungOf) -> bool {
    let ladder = rung.place.as_ref().and_then(|(id, at)| Some((gym.library.ladders.get(id)?, at)));
    ladder.is_some_and(|(ladder, at)| *at > ladder.middle())
}

/// The rung that is meant where only a movement is named: the lowest it has, so that nothing in its
/// place asks more than anybody meant.
pub fn asked_rung(gym: &Gym, movement: &MovementId) -> RungOf {
    let known = gym.library.movements.get(movement);
    let first = known.and_then(|movement| rungs_of(gym, movement).into_iter().next());
    first.unwrap_or_else(|| RungOf::usual(movement))
}
