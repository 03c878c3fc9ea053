//! Due: who has met a ladder's rule for the next rung, who is to go down, and what was left out twice running.
//! Never a move to a rung that limits leave out, and never up on an estimate: up goes by what was counted.

use super::member::{Member, Tested};
use super::standing::{Now, by_hand, now, number, tested};
use crate::gym::Gym;
use crate::library::{Done, Ladder, LadderId};
use crate::placing::{Sheet, UpVerdict, demands_of, place_after, sessions};
use crate::swap::{Fit, RungOf, fit};

/// So many classes are looked back at, twenty weeks of three: what was left out before is past.
const LATEST: usize = 60;

/// A move that is due on a ladder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Due {
    /// The ladder.
    pub ladder: LadderId,
    /// The rung now, from 1.
    pub from: u32,
    /// The rung to go to; nothing where all that could be gone to is left out or lacks its kit.
    pub to: Option<u32>,
    /// Whether it is up.
    pub is_up: bool,
    /// Why, in a sentence without its full stop.
    pub why: String,
}

/// A line that the last two classes which could have had it left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOutTwice {
    /// Its name.
    pub line: String,
    /// The two days, the earlier first.
    pub days: [String; 2],
}

/// Moves that are due, by what was counted; a rung written by hand that was not the one tested is the
/// coach's own word, and stands.
pub fn due(gym: &Gym, member: &Member) -> Vec<Due> {
    gym.library.ladders.values().filter_map(|ladder| on_ladder(gym, ladder, member)).collect()
}

fn on_ladder(gym: &Gym, ladder: &Ladder, member: &Member) -> Option<Due> {
    let latest = member.latest(&ladder.id)?;
    let Now::Same(at) = now(gym, ladder, latest.then.as_ref()) else { return None };
    let written = by_hand(gym, ladder, member).map(|standing| standing.rung);
    let from = number(at);
    if written.is_some_and(|rung| rung != from) {
        return None;
    }
    let (sheet, demands) = (Sheet::of(ladder), demands_of(gym, ladder, member.stature));
    let test = tested(gym, ladder, (at, latest), member);
    let last_sets = last_sets(gym, ladder, (at, latest), member);
    let placed = place_after(&sheet, &demands, &test, &last_sets).ok()?;
    let due = |to, is_up, why| Some(Due { ladder: ladder.id.clone(), from, to, is_up, why });
    let rule = sheet.up.as_ref().map_or("", |up| up.words.as_str());
    if placed.move_up.verdict == UpVerdict::Ready {
        let next = Some(from + 1).filter(|rung| is_for(gym, ladder, *rung, member));
        return due(next, true, format!("the rule is met: {rule}"));
    }
    if placed.today.rung < from {
        let to = (1..=placed.today.rung).rev().find(|rung| is_for(gym, ladder, *rung, member));
        let counted = latest.counted.amount();
        let why = format!("{counted} counted at rung {from} on {}, short of its dose", latest.day);
        return due(to, false, why);
    }
    None
}

/// Whether a rung, from 1, is fine for a person, or changed.
fn is_for(gym: &Gym, ladder: &Ladder, rung: u32, member: &Member) -> bool {
    let rung = (rung as usize).checked_sub(1).and_then(|at| RungOf::on(gym, &ladder.id, at));
    rung.is_some_and(|rung| !matches!(fit(gym, &member.person, &rung), Fit::Out(_)))
}

/// The last sets of the sessions running at the rung of the latest result, that one last; a set at a
/// height or with a weight of one's own stands alone.
fn last_sets(
    gym: &Gym,
    ladder: &Ladder,
    (at, latest): (usize, &Tested),
    member: &Member,
) -> Vec<u32> {
    let mut results: Vec<&Tested> =
        member.results.iter().filter(|one| one.ladder == ladder.id).collect();
    // Of one day in the order written, as everywhere.
    results.sort_by(|a, b| a.day.cmp(&b.day));
    let plain = |one: &&&Tested| {
        matches!(now(gym, ladder, one.then.as_ref()), Now::Same(there) if there == at)
            && tested(gym, ladder, (at, one), member).is_as_written()
    };
    let mut running: Vec<&Tested> = results.iter().rev().take_while(plain).copied().collect();
    running.reverse();
    match running.is_empty() {
        true => vec![latest.counted.amount()],
        false => sessions(running.into_iter().map(|one| (&one.day, one.counted.amount()))),
    }
}

/// Lines that the last two classes which could have had them both left out. A class could have had a
/// line where it says so, or is of the same session as the last that left it out.
pub fn left_out_twice(done: &[Done]) -> Vec<LeftOutTwice> {
    let mut classes: Vec<&Done> = done.iter().collect();
    classes.sort_by(|a, b| b.day.value.cmp(&a.day.value));
    classes.truncate(LATEST);
    let mut names: Vec<&String> = classes.iter().flat_map(|class| &class.left_out).collect();
    names.sort();
    names.dedup();
    let twice = |line: &String| {
        let is_out = |class: &&&Done| class.left_out.contains(line);
        let last = classes.iter().find(is_out)?;
        let had = |class: &&&Done| {
            is_out(class)
                || class.session.value == last.session.value
                || class.did.iter().any(|(name, _)| name == line)
        };
        let mut latest = classes.iter().filter(had);
        let (second, first) = (latest.next().filter(is_out)?, latest.next().filter(is_out)?);
        let days = [first.day.value.clone(), second.day.value.clone()];
        Some(LeftOutTwice { line: line.clone(), days })
    };
    names.into_iter().filter_map(twice).collect()
}

/// What a coach is to know of somebody after their last classes, a sentence each.
pub fn notes(gym: &Gym, member: &Member, done: &[Done]) -> Vec<String> {
    let moves = due(gym, member).into_iter().map(|one| said(gym, &one));
    let twice = left_out_twice(done).into_iter().map(|one| {
        let [first, second] = one.days;
        format!(
            "{}: left out twice running, on {first} and {second}; find something for them.",
            one.line
        )
    });
    moves.chain(twice).collect()
}

/// `Row: due up to rung 5, Strap row at lean 52 deg; the rule is met: ...`.
fn said(gym: &Gym, due: &Due) -> String {
    let Due { ladder, from, to, is_up, why } = due;
    let known = gym.library.ladders.get(ladder);
    let name = known.map_or(ladder.as_str(), |ladder| &ladder.name.value);
    let way = if *is_up { "up" } else { "down" };
    match to {
        Some(to) => {
            let rung = (*to as usize).checked_sub(1).and_then(|at| RungOf::on(gym, ladder, at));
            let what = rung.map_or(String::new(), |rung| of_rung(gym, &rung));
            format!("{name}: due {way} from rung {from} to {to}{what}; {why}.")
        }
        None => format!(
            "{name}: due {way} from rung {from}, and what would be next is left out for them, or \
             its kit is lacking: you decide; {why}."
        ),
    }
}

/// `, Strap row, lean 52 deg`.
fn of_rung(gym: &Gym, rung: &RungOf) -> String {
    let movement = gym.library.movements.get(&rung.key.movement);
    let name = movement.map_or(rung.key.movement.as_str(), |movement| &movement.name.value);
    let at = rung.said();
    let at = if at.is_empty() { String::new() } else { format!(", {at}") };
    format!(", {name}{at}")
}
