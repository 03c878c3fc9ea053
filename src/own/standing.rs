//! Standing: a person's own rung of a ladder, and why.
//! Never moves anybody to something harder because a ladder was rewritten: a result keeps the
//! movement and settings that it was done with, and where no rung has them the rung goes down.

use super::member::{Member, RungThen, Tested};
use super::words::{book, told};
use crate::gym::Gym;
use crate::library::{Ladder, LadderId, Quantity, Rung};
use crate::placing::{RungDemand, Sheet, TestResult, demand_at, demands_of, place_on, share_table};
use std::collections::BTreeMap;

/// A person's own rung.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// The rung, from 1.
    pub rung: u32,
    /// Where it comes from, with a `{below}` where a line says how far below it goes.
    pub why: String,
}

/// Where a recorded rung stands on the ladder of today.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Now {
    /// This rung, from 0, is the very same.
    Same(usize),
    /// The ladder has changed; this rung, from 0, asks no more.
    NoMore(usize),
    /// The ladder has changed, and nothing says what compares.
    Lost,
    /// Only the number was recorded: what it stood for then nobody knows.
    Number,
}

/// Own rungs of every ladder of which something is known, from 1.
pub fn standings(gym: &Gym, member: &Member) -> BTreeMap<LadderId, u32> {
    let known = member.rungs.keys().chain(member.results.iter().map(|result| &result.ladder));
    let ladders = known.filter_map(|id| gym.library.ladders.get(id));
    let rung = |ladder: &Ladder| Some((ladder.id.clone(), standing(gym, ladder, member)?.rung));
    ladders.filter_map(rung).collect()
}

/// The own rung of a ladder: as written by hand, else by the latest result; nothing where neither
/// is known.
pub fn standing(gym: &Gym, ladder: &Ladder, member: &Member) -> Option<Standing> {
    if let Some(written) = by_hand(gym, ladder, member) {
        return Some(written);
    }
    let result = member.latest(&ladder.id)?;
    match now(gym, ladder, result.then.as_ref()) {
        Now::Same(at) => by_result(gym, ladder, (at, result), member),
        moved => {
            let your = told(member, "your", "their");
            let otherwise = keep_or(member, "or test again");
            Some(moved_to(moved, (&format!("since {your} result"), otherwise)))
        }
    }
}

/// The own rung as written by hand.
pub(super) fn by_hand(gym: &Gym, ladder: &Ladder, member: &Member) -> Option<Standing> {
    let (_, then) = member.rungs.get(&ladder.id)?;
    match now(gym, ladder, then.as_ref()) {
        Now::Same(at) => {
            let rung = number(at);
            let (your, book) = (told(member, "Your", "Their"), book(member));
            Some(Standing { rung, why: format!("{your} rung is {rung}, from {book}{{below}}.") })
        }
        // What was counted says more than a number of which nobody knows what it stood for.
        Now::Number if member.latest(&ladder.id).is_some() => None,
        moved => {
            let since = told(member, "since you picked your rung", "since it was written down");
            Some(moved_to(moved, (since, keep_or(member, "or pick yours again"))))
        }
    }
}

/// What else to do where only a number is known: a coach has it written down beside the number.
fn keep_or(member: &Member, member_does: &'static str) -> &'static str {
    told(member, member_does, "or have `rungbook roster keep` write it down")
}

/// The own rung on a ladder that has changed since then, or may have; and what else to do there.
fn moved_to(now: Now, (since, otherwise): (&str, &str)) -> Standing {
    let at = match now {
        Now::Same(at) | Now::NoMore(at) => at,
        Now::Lost => {
            let why =
                format!("The ladder has changed {since}: start at its lowest rung, or test again.");
            return Standing { rung: 1, why };
        }
        Now::Number => {
            let why = format!(
                "Only a number is written down, and ladders change: start at the lowest rung, \
                 {otherwise}."
            );
            return Standing { rung: 1, why };
        }
    };
    let rung = number(at);
    let why =
        format!("The ladder has changed {since}; rung {rung} asks no more than that did{{below}}.");
    Standing { rung, why }
}

fn by_result(
    gym: &Gym,
    ladder: &Ladder,
    (at, result): (usize, &Tested),
    member: &Member,
) -> Option<Standing> {
    let demands = demands_of(gym, ladder, member.stature);
    let test = tested(gym, ladder, (at, result), member);
    let placed = place_on(&Sheet::of(ladder), &demands, &test).ok()?;
    let rung = placed.today.rung;
    let said = result_words(gym, ladder, at, result);
    let your = told(member, "Your", "Their");
    Some(Standing { rung, why: format!("{your} rung is {rung}, from {said}{{below}}.") })
}

/// A result as placing takes it.
pub(super) fn tested(
    gym: &Gym,
    ladder: &Ladder,
    (at, result): (usize, &Tested),
    member: &Member,
) -> TestResult {
    TestResult {
        rung: number(at),
        counted: result.counted,
        body_mass: member.body_mass,
        added: result.added,
        own: own_demand(gym, ladder, (at, result), member.stature),
    }
}

fn own_demand(
    gym: &Gym,
    ladder: &Ladder,
    (at, result): (usize, &Tested),
    stature: Option<Quantity>,
) -> Option<RungDemand> {
    let rung = ladder.rungs.get(at)?;
    let table = share_table(gym, gym.library.movements.get(&rung.movement.value)?)?;
    let value = *result.setting.get(&table.setting)?;
    (setting_of(rung, &table.setting) != Some(value))
        .then(|| demand_at(gym, ladder, (at, value), stature))?
}

/// The value that a rung is written with.
pub(super) fn setting_of(rung: &Rung, name: &str) -> Option<f64> {
    let written = rung.settings.iter().find(|(known, _)| known.value.as_str() == name);
    written.map(|(_, value)| value.value.number())
}

/// `12 at hands 90 cm`.
fn result_words(gym: &Gym, ladder: &Ladder, at: usize, result: &Tested) -> String {
    let Some(rung) = ladder.rungs.get(at) else { return String::new() };
    let movement = gym.library.movements.get(&rung.movement.value);
    let unit = movement.and_then(|movement| share_table(gym, movement));
    let unit = unit.map_or("", |table| table.unit.symbol());
    let own = result.setting.iter().map(|(name, value)| format!("{name} {value} {unit}"));
    let own: Vec<String> = own.map(|words| words.trim().to_string()).collect();
    let written = rung.settings_said().join(", ");
    let at = match (own.is_empty(), written.is_empty()) {
        (false, _) => own.join(", "),
        (true, false) => written,
        (true, true) => movement.map_or(String::new(), |movement| movement.name.value.clone()),
    };
    let seconds = result.counted.counts() == crate::library::Counts::Seconds;
    format!("{}{} at {at}", result.counted.amount(), if seconds { " s" } else { "" })
}

/// Where a recorded rung stands today: the highest rung that is the very same; else the highest up
/// to which nothing asks more by the ladder's numbers. Of which only the number is known, nowhere.
pub(super) fn now(gym: &Gym, ladder: &Ladder, then: Option<&RungThen>) -> Now {
    let Some((movement, then)) = then else {
        return Now::Number;
    };
    let written = |rung: &Rung| -> BTreeMap<String, f64> {
        let settings = rung.settings.iter();
        settings.map(|(name, value)| (name.value.to_string(), value.value.number())).collect()
    };
    let same = |rung: &Rung| rung.movement.value == *movement && written(rung) == *then;
    if let Some(at) = ladder.rungs.iter().rposition(same) {
        return Now::Same(at);
    }
    let on_ladder = ladder.rungs.iter().any(|rung| rung.movement.value == *movement);
    let asked = on_ladder.then(|| asked_then(gym, movement, then)).flatten();
    asked.and_then(|asked| no_more(gym, ladder, asked)).map_or(Now::Lost, Now::NoMore)
}

/// What a movement asks at its one height or lean, in tenths of a per cent of body mass.
fn asked_then(
    gym: &Gym,
    movement: &crate::library::MovementId,
    then: &BTreeMap<String, f64>,
) -> Option<i64> {
    let table = share_table(gym, gym.library.movements.get(movement)?)?;
    let value = then.get(&table.setting).filter(|_| then.len() == 1)?;
    Some(tenths(table.at(*value, crate::gym::heights::STATURES[1])?))
}

fn no_more(gym: &Gym, ladder: &Ladder, asked: i64) -> Option<usize> {
    let mut found = None;
    for (at, reading) in gym.readings(ladder).into_iter().enumerate() {
        match reading.ok().map(|reading| tenths(reading.value)) {
            Some(asks) if asks > asked => break,
            Some(_) => found = Some(at),
            None => {}
        }
    }
    found
}

/// As the ladder's file of data has it.
fn tenths(value: f64) -> i64 {
    (10.0 * value).round() as i64
}

/// A place from 0 as a rung's number.
pub(super) fn number(at: usize) -> u32 {
    u32::try_from(at + 1).unwrap_or(u32::MAX)
}
