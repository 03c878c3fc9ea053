//! Cover: for usual kits and every limit, how many rungs are fine, changed, swapped, or left with
//! nothing.
//! Never counts a caution's general sentence as an answer: that is the coach's to decide.

use super::asked::{Limits, hall, limits_of_situation};
use super::choose::{choose, own_first};
use super::fits::{Fit, fit};
use super::rungs::{RungOf, rungs_of};
use super::why::Why;
use super::{Person, ask, ranked};
use crate::gym::Gym;
use crate::library::{KitId, Movement, MovementId};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// A usual kit by the words that the club has for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UsualKit {
    /// `one kettlebell`.
    pub name: String,
    /// What is in it.
    pub kit: BTreeSet<KitId>,
}

/// A situation or a single trait that is left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UsualLimit {
    /// Its name; a trait's after what avoids it.
    pub name: String,
    /// What it leaves out.
    pub limits: Limits,
}

impl UsualLimit {
    /// Somebody with nothing to leave out.
    pub fn nothing() -> UsualLimit {
        UsualLimit { name: "nothing to leave out".to_string(), limits: Limits::default() }
    }
}

/// How a rung is answered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answered {
    /// As it stands.
    Fine,
    /// Changed like this.
    Changed,
    /// Left out; a rung below on its ladder does.
    Below,
    /// Left out; another movement does.
    Swapped,
    /// Left out, and nothing does: why, in plain words.
    Nothing(String),
}

/// How many rungs are answered how.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Tally {
    /// As they stand.
    pub fine: usize,
    /// Changed.
    pub changed: usize,
    /// Left out, with a rung below or another movement in their place.
    pub swapped: usize,
    /// With nothing.
    pub nothing: usize,
}

impl Tally {
    /// All of them.
    pub fn all(&self) -> usize {
        self.fine + self.changed + self.swapped + self.nothing
    }

    /// One answer more.
    pub fn add(&mut self, answered: &Answered) {
        match answered {
            Answered::Fine => self.fine += 1,
            Answered::Changed => self.changed += 1,
            Answered::Below | Answered::Swapped => self.swapped += 1,
            Answered::Nothing(_) => self.nothing += 1,
        }
    }

    /// Both together.
    pub fn and(self, other: Tally) -> Tally {
        Tally {
            fine: self.fine + other.fine,
            changed: self.changed + other.changed,
            swapped: self.swapped + other.swapped,
            nothing: self.nothing + other.nothing,
        }
    }
}

/// One kit and one limit.
#[derive(Debug, Clone)]
pub struct Cell {
    /// The place of the kit in the list that was asked for.
    pub kit: usize,
    /// The place of the limit likewise.
    pub limit: usize,
    /// The counts.
    pub tally: Tally,
    /// Rungs that are left with nothing, and why.
    pub nothing: Vec<(RungOf, String)>,
}

/// The club's usual kits, and last what the hall has.
pub fn usual_kits(gym: &Gym) -> Vec<UsualKit> {
    let written = gym.library.club.usual_kits.iter().map(|(name, kit)| UsualKit {
        name: name.value.clone(),
        kit: kit.iter().map(|id| id.value.clone()).collect(),
    });
    let hall = UsualKit { name: "full hall".to_string(), kit: hall(gym).into_iter().collect() };
    written.chain([hall]).collect()
}

/// Every situation.
pub fn usual_situations(gym: &Gym) -> Vec<UsualLimit> {
    let cautions = gym.library.words.cautions.values();
    let situation = |caution: &crate::library::Caution| UsualLimit {
        name: caution.name.clone(),
        limits: limits_of_situation(caution),
    };
    cautions.map(situation).collect()
}

/// Every situation, then every single trait.
pub fn usual_limits(gym: &Gym) -> Vec<UsualLimit> {
    let words = &gym.library.words;
    let traits = words.traits.values().map(|known| {
        let mut limits = Limits::default();
        limits.lower(known.id.value.clone(), 1);
        let name = known.avoid.clone().unwrap_or_else(|| known.name.clone());
        UsualLimit { name: format!("{name} ({})", known.id.value), limits }
    });
    usual_situations(gym).into_iter().chain(traits).collect()
}

/// How every rung of every movement is answered, for each kit and each limit; kits first.
pub fn cover(gym: &Gym, kits: &[UsualKit], limits: &[UsualLimit]) -> Vec<Cell> {
    let likes = likes(gym);
    let pairs: Vec<(usize, usize)> =
        (0..kits.len()).flat_map(|kit| (0..limits.len()).map(move |limit| (kit, limit))).collect();
    let cell = |(kit, limit): (usize, usize)| {
        let person = Person {
            kit: Some(kits[kit].kit.clone()),
            limits: limits[limit].limits.levels.clone(),
            situations: limits[limit].limits.situations.clone(),
            ..Person::default()
        };
        let mut cell = Cell { kit, limit, tally: Tally::default(), nothing: Vec::new() };
        for movement in gym.library.movements.values() {
            for rung in rungs_of(gym, movement) {
                let answered = answered(gym, &rung, &person, &likes);
                cell.tally.add(&answered);
                if let Answered::Nothing(why) = answered {
                    cell.nothing.push((rung, why));
                }
            }
        }
        cell
    };
    pairs.into_par_iter().map(cell).collect()
}

/// The movements that do like work, by movement: the same for everybody.
type Likes<'g> = BTreeMap<&'g MovementId, Vec<&'g Movement>>;

fn likes(gym: &Gym) -> Likes<'_> {
    let movements: Vec<&Movement> = gym.library.movements.values().collect();
    let of = |movement: &&'_ Movement| {
        let found = ranked(gym, &movement.id);
        found.iter().filter_map(|one| gym.library.movements.get(&one.to)).collect::<Vec<_>>()
    };
    let lists: Vec<_> = movements.par_iter().map(of).collect();
    movements.iter().map(|movement| &movement.id).zip(lists).collect()
}

fn answered(gym: &Gym, rung: &RungOf, person: &Person, likes: &Likes<'_>) -> Answered {
    match fit(gym, person, rung) {
        Fit::Fine => return Answered::Fine,
        Fit::Changed(_) => return Answered::Changed,
        Fit::Out(_) => {}
    }
    if let Some((ladder, at)) = &rung.place
        && *at > 0
        && own_first(gym, (ladder, at - 1), person).is_ok()
    {
        return Answered::Below;
    }
    let mut out: Vec<Vec<Why>> = Vec::new();
    let mut harder = Vec::new();
    for to in likes.get(&rung.key.movement).into_iter().flatten() {
        match choose(gym, rung, to, person) {
            Ok(_) => return Answered::Swapped,
            Err(super::NotThis::Out(why)) => out.push(why),
            Err(super::NotThis::Harder) => harder.push(to.name.value.clone()),
        }
    }
    Answered::Nothing(ask::why(gym, &out, &harder))
}
