//! Dose: how much of a line a person does, in their own numbers.
//! Never more than the line asks, and never less than one repetition.

use super::line::{Line, Work};
use super::member::Member;
use super::standing::{Now, now, tested};
use super::words::told;
use crate::finding::{Placed, Span};
use crate::gym::Gym;
use crate::library::{Amount, Count, Counts, Dose, Ladder, Movement};
use crate::placing::{RungDemand, Sheet, Target, TestResult, demands_of, kept, place_on};
use crate::swap::{RungOf, converted_dose};
use std::fmt;

/// A count where nothing says its pace: 1 to 2 s each way (ACSM 2009); a metre takes 1 s (common
/// practice, no source).
const COUNT_S: u32 = 3;

/// What stands for each count of a round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EachCount {
    /// How many for each count.
    pub per: u32,
    /// `s` or `m`.
    pub unit: &'static str,
}

impl EachCount {
    /// For a movement that is held, or covers ground; nothing for one that is counted.
    pub(super) fn of(movement: &Movement) -> Option<EachCount> {
        let pace = movement.pace.map_or(f64::from(COUNT_S), |pace| pace.number());
        let per = (pace.ceil() as u32).max(1);
        match movement.counts {
            Counts::Seconds => Some(EachCount { per, unit: "s" }),
            Counts::Metres => Some(EachCount { per, unit: "m" }),
            Counts::Reps | Counts::Contacts => None,
        }
    }
}

impl fmt::Display for EachCount {
    /// `each count 3 s`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "each count {} {}", self.per, self.unit)
    }
}

/// What a person is predicted to manage on a rung, less what stays in reserve, where `own` is what
/// it asks at a height of theirs; nothing where nothing is known.
pub(super) fn manages(
    gym: &Gym,
    (ladder, at): (&Ladder, usize),
    (line, member): (&Line<'_>, &Member),
    own: Option<RungDemand>,
) -> Option<(u32, u32)> {
    let result = member.latest(&ladder.id)?;
    let Now::Same(there) = now(gym, ladder, result.then.as_ref()) else {
        return None;
    };
    let asked = line.asks(at)?;
    let mut demands = demands_of(gym, ladder, member.stature);
    let test = tested(gym, ladder, (there, result), member);
    let carried = test.own.or(demands.get(there).copied().flatten());
    if let (Some(own), Some(demand)) = (own, demands.get_mut(at)) {
        *demand = Some(own);
    }
    // The rung of the test keeps what was carried in it, whatever height the person has now.
    let test =
        if own.is_some() && at == there { TestResult { own: carried, ..test } } else { test };
    let mut sheet = Sheet { up: None, ..Sheet::of(ladder) };
    if let Some(target) = sheet.rungs.get_mut(at) {
        *target = Some(asked);
    }
    let placed = place_on(&sheet, &demands, &test).ok()?;
    kept(asked.counts, placed.predicted.get(at)?.band()?.point)
}

/// The dose in a person's own numbers, and what is said about it; nothing where they could not do
/// one.
pub(super) fn own_dose(
    line: &Line<'_>,
    at: usize,
    manages: Option<(u32, u32)>,
    member: &Member,
) -> Option<(String, String)> {
    let Some(asked) = line.asks(at).filter(|_| !line.tests) else {
        return Some((line.dose.clone(), String::new()));
    };
    let Some((least, most)) = manages else { return Some((asked.to_string(), String::new())) };
    let your = told(member, "your", "their");
    if most < 1 {
        return None;
    }
    if most < asked.from {
        let fewer = Target { from: least.max(1), to: most, ..asked };
        return Some((
            fewer.to_string(),
            format!("Fewer than the session asks, by {your} result; an estimate."),
        ));
    }
    let own = Target { from: least.max(asked.from).min(asked.to), to: most.min(asked.to), ..asked };
    let why = match (asked.from == asked.to, asked.counts) {
        (true, _) => String::new(),
        (false, Counts::Seconds) => format!("Seconds by {your} result; an estimate."),
        (false, _) => format!("Repetitions by {your} result; an estimate."),
    };
    Some((own.to_string(), why))
}

/// As much of a swap as the line asks of the first: in numbers, or by the words of the line.
fn swap_dose((from, to): (&Movement, &Movement), asked: Option<Target>, words: &str) -> String {
    let Some(asked) = asked else {
        let each = to.sides == crate::library::Sides::Each;
        let more = each && !words.is_empty() && !words.contains("each side");
        return if more { format!("{words}, each side") } else { words.to_string() };
    };
    converted_dose(from, to, &as_dose(asked), None).dose.to_string()
}

/// The same in the person's own numbers where a result of theirs on its ladder allows fewer, and what
/// is said about it; nothing where it allows not one.
pub(super) fn own_swap_dose(
    gym: &Gym,
    (from, to): (&Movement, (&Movement, &RungOf)),
    (asked, words): (Option<Target>, &str),
    member: &Member,
) -> Option<(String, String)> {
    let by_result = || {
        let target = counted_as((from, to.0), asked?)?;
        let (id, at) = to.1.place.as_ref()?;
        let ladder = gym.library.ladders.get(id)?;
        let mut asked = vec![None; ladder.rungs.len()];
        *asked.get_mut(*at)? = Some(target);
        let work = Work::Ladder(ladder, 1);
        let dose = String::new();
        let line = Line { work, below: 0, asked, tests: false, counts_down: false, dose };
        let known = manages(gym, (ladder, *at), (&line, member), None)?;
        (known.1 < target.from).then(|| own_dose(&line, *at, Some(known), member))
    };
    by_result().unwrap_or_else(|| Some((swap_dose((from, to.0), asked, words), String::new())))
}

/// What a line asks of one movement, as another counts it.
pub(super) fn counted_as((from, to): (&Movement, &Movement), asked: Target) -> Option<Target> {
    let dose = converted_dose(from, to, &as_dose(asked), None).dose;
    let each_side = dose.per_side.as_ref().is_some_and(|said| said.value);
    Some(Target { each_side, ..Target::of(dose.amount?.value, dose.sets) })
}

fn as_dose(target: Target) -> Dose {
    let count = Count { from: target.from, to: target.to };
    let amount = match target.counts {
        Counts::Reps => Amount::Reps(count),
        Counts::Seconds => Amount::Seconds(count),
        Counts::Metres => Amount::Metres(count),
        Counts::Contacts => Amount::Contacts(count),
    };
    Dose {
        sets: target.sets.map(|[from, to]| Count { from, to }),
        amount: Some(Placed::new(amount, Span::default())),
        rest: None,
        per_side: target.each_side.then(|| Placed::new(true, Span::default())),
    }
}
