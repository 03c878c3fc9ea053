//! Pairs: results of one person on two rungs of a ladder, near enough in time to be one strength.
//! Never a result whose rung or height is not known today.

use super::member::{Member, Tested};
use super::standing::{Now, now, tested};
use crate::gym::Gym;
use crate::library::Ladder;
use crate::placing::relate::{Pair, pair};
use crate::placing::{TestResult, demands_of};
use crate::plan::Day;

/// Two results further apart in days may be of two strengths: common practice, no source.
pub const DAYS_APART: i64 = 14;

/// The pairs of a person, who is told apart by a number: on every ladder each result with the one
/// before it, so that no result speaks more than twice.
pub fn pairs(gym: &Gym, person: usize, member: &Member) -> Vec<Pair> {
    let on = |ladder: &Ladder| {
        let demands = demands_of(gym, ladder, member.stature);
        let mut results: Vec<(Day, TestResult)> = member
            .results
            .iter()
            .filter(|result| result.ladder == ladder.id)
            .filter_map(|result| Some((day(result)?, known(gym, ladder, result, member)?)))
            .collect();
        results.sort_by_key(|(day, _)| *day);
        let near = |two: &&[(Day, TestResult)]| two[1].0.since(two[0].0) <= DAYS_APART;
        let both = |two: &[(Day, TestResult)]| pair(person, &demands, (&two[0].1, &two[1].1));
        results.windows(2).filter(near).filter_map(both).collect::<Vec<_>>()
    };
    gym.library.ladders.values().flat_map(on).collect()
}

/// A result as placing takes it; nothing where the rung is another now or the height has no number.
fn known(gym: &Gym, ladder: &Ladder, result: &Tested, member: &Member) -> Option<TestResult> {
    let Now::Same(at) = now(gym, ladder, result.then.as_ref()) else { return None };
    ladder.rungs.get(at)?;
    let test = tested(gym, ladder, (at, result), member);
    (result.setting.is_empty() || test.own.is_some()).then_some(test)
}

fn day(result: &Tested) -> Option<Day> {
    Day::read(&result.day)
}
