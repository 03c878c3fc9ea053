//! Roster: a member of the coach's roster as the person whose own version is wanted.
//! Never reads a file, and never guesses a rung that the roster does not have.

use super::member::{Member, RungThen, Tested};
use crate::finding::Placed;
use crate::gym::Gym;
use crate::library::{self, Counts, LadderId, MemberResult, OfToday, OwnRung, Roster, RungWas};
use crate::placing::Counted;
use crate::plan::Day;
use crate::swap::{Limits, Person};
use std::collections::BTreeMap;

/// The person that an entry on the roster describes, with what they leave out on the day that is
/// today.
pub fn from_roster(gym: &Gym, entry: &library::Member, today: Option<Day>) -> Member {
    let of_today = of_today(entry, today);
    let mut limits = Limits::default();
    for (id, from) in entry.limits.iter().chain(of_today.iter().flat_map(|one| &one.limits)) {
        limits.lower(id.value.clone(), *from);
    }
    let cautions = entry.cautions.iter();
    cautions
        .chain(of_today.iter().flat_map(|one| &one.cautions))
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
    let rungs = entry.rungs.iter().map(|(id, own)| {
        let then = own.was.as_ref().map(then);
        (id.value.clone(), (own.rung.value, then))
    });
    Member {
        person,
        rungs: rungs.collect(),
        results: entry.results.iter().map(tested).collect(),
        ..Member::default()
    }
}

/// What an entry leaves out on one day alone, where that is today; where nobody knows what day it is,
/// it counts.
pub fn of_today(entry: &library::Member, today: Option<Day>) -> Option<&OfToday> {
    let written = entry.coming.today.as_ref()?;
    let is_today = |today: Day| Day::read(&written.day.value) == Some(today);
    today.is_none_or(is_today).then_some(written)
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
    let was = result.was.or_else(|| rung_today(gym, &result.ladder.value, result.rung.value));
    MemberResult { was, ..result }
}

/// The roster with what every rung is today of which only the number is written down; those that a
/// ladder does not have stay as they are.
pub fn with_their_rungs(gym: &Gym, roster: &Roster) -> Roster {
    let rung = |(id, own): (Placed<LadderId>, OwnRung)| {
        let was = own.was.or_else(|| rung_today(gym, &id.value, own.rung.value));
        (id, OwnRung { was, ..own })
    };
    let member = |entry: library::Member| library::Member {
        rungs: entry.rungs.into_iter().map(rung).collect(),
        results: entry.results.into_iter().map(|one| with_its_rung(gym, one)).collect(),
        ..entry
    };
    Roster { members: roster.members.iter().cloned().map(member).collect() }
}

/// The movement and settings that a rung, from 1, has today.
fn rung_today(gym: &Gym, ladder: &LadderId, rung: u32) -> Option<RungWas> {
    let at = (rung as usize).checked_sub(1)?;
    let rung = gym.library.ladders.get(ladder)?.rungs.get(at)?;
    Some(RungWas { movement: rung.movement.clone(), settings: rung.settings.clone() })
}
