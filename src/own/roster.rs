//! Roster: a member of the coach's roster as the person whose own version is wanted.
//! Never reads a file, and never guesses a rung that the roster does not have.

use super::member::{Member, RungThen, Tested};
use crate::gym::Gym;
use crate::library::{self, Counts, MemberResult, RungWas};
use crate::placing::Counted;
use crate::swap::{Limits, Person};
use std::collections::BTreeMap;

/// The person that an entry on the roster describes.
pub fn from_roster(gym: &Gym, entry: &library::Member) -> Member {
    let mut limits = Limits::default();
    for (id, from) in &entry.limits {
        limits.lower(id.value.clone(), *from);
    }
    let cautions = entry.cautions.iter();
    cautions
        .filter_map(|id| gym.library.words.cautions.get(&id.value))
        .for_each(|caution| limits.add(caution));
    let kit = entry.kit.as_ref().map(|kit| kit.iter().map(|id| id.value.clone()).collect());
    let person = Person {
        kit,
        limits: limits.levels,
        situations: limits.situations,
        // Only a coach has the roster.
        front: true,
        ..Person::default()
    };
    let rungs = entry.rungs.iter().map(|(id, rung)| (id.value.clone(), (rung.value, None)));
    Member {
        person,
        rungs: rungs.collect(),
        results: entry.results.iter().map(tested).collect(),
        ..Member::default()
    }
}

/// A result of the roster, or one that was typed.
pub fn tested(result: &MemberResult) -> Tested {
    let amount = result.amount.value;
    let counted = match result.counts {
        Counts::Seconds => Counted::Seconds(amount),
        _ => Counted::Reps(amount),
    };
    let setting = result.settings.iter();
    Tested {
        day: result.day.value.clone(),
        ladder: result.ladder.value.clone(),
        rung: result.rung.value,
        then: result.was.as_ref().map(then),
        counted,
        setting: setting.map(|(name, at)| (name.value.to_string(), at.value.number())).collect(),
        added: result.added.as_ref().map(|added| added.value),
    }
}

fn then(was: &RungWas) -> RungThen {
    let settings = was.settings.iter();
    let settings: BTreeMap<String, f64> =
        settings.map(|(name, at)| (name.value.to_string(), at.value.number())).collect();
    (was.movement.value.clone(), settings)
}

/// A result with what its rung is today, so that a ladder that is rewritten later moves nobody; one
/// that says it already is left alone.
pub fn with_its_rung(gym: &Gym, result: MemberResult) -> MemberResult {
    let ladder = gym.library.ladders.get(&result.ladder.value);
    let rung = (result.rung.value as usize)
        .checked_sub(1)
        .and_then(|at| ladder?.rungs.get(at))
        .filter(|_| result.was.is_none());
    let Some(rung) = rung else { return result };
    let was = RungWas { movement: rung.movement.clone(), settings: rung.settings.clone() };
    MemberResult { was: Some(was), ..result }
}
