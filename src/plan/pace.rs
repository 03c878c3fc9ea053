//! Pace: how long a set and the changes round it take, and every rule of thumb of the clock.
//! Never a rule of thumb without its source beside it.

use super::band::Band;
use super::ways::Way;
use crate::library::{Amount, Count, Sides};

/// Seconds a repetition takes where an entry gives no pace: 1 to 2 s each way (ACSM 2009).
pub const REPETITION_S: u32 = 3;

/// Seconds from one station to the next, when the kit changes; common practice, no source.
pub const CHANGE_STATION_S: Band = Band { least: 10, most: 15 };

/// Seconds from one movement to the next on the spot; common practice, no source.
pub const CHANGE_ON_THE_SPOT_S: Band = Band { least: 0, most: 5 };

/// Seconds to clear one block away and rig the next; common practice, no source.
pub const RE_RIG_S: Band = Band { least: 30, most: 60 };

/// Seconds a metre takes, carrying or crawling; common practice, no source.
pub const METRE_S: Band = Band { least: 1, most: 2 };

/// The most work that leaves room to breathe before the next minute starts; common practice, no
/// source.
pub const WORK_IN_A_MINUTE_S: u32 = 40;

/// What an every-minute format starts anew.
pub const MINUTE_S: u32 = 60;

/// Hours that a test keeps from hard work before it; common practice, no source.
pub const FRESH_H: u32 = 48;

/// Repetitions or contacts in one pass that wake a muscle and do not yet tire it; a hold may take
/// the same time at [`REPETITION_S`]. Common practice, no source.
pub const WAKING_REPS: u32 = 6;

/// A week of building may have this share of the sets of the week before it, in hundredths;
/// common practice, no source.
pub const STEADY_SHARE: u32 = 150;

/// What a lighter week keeps of the sets, in hundredths: less volume, same movements and frequency
/// (Rogerson 2024); that it is half is common practice, no source.
pub const LIGHTER_SHARE: u32 = 50;

/// No class does more rounds, sets or counts than this: a slip of the pen must not fill a page.
pub const MOST_TURNS: u32 = 200;

/// How long `amount` takes for one side; the whole set where both work at once or turn about.
pub fn side_seconds(way: &Way<'_>, amount: Amount) -> Band {
    let turns = if way.movement.sides == Sides::Alternating && way.per_side { 2 } else { 1 };
    match amount {
        Amount::Reps(n) | Amount::Contacts(n) => {
            Band::new(reps_seconds(way, n.from, turns), reps_seconds(way, n.to, turns))
        }
        Amount::Seconds(n) => Band::new(n.from, n.to).times(Count { from: turns, to: turns }),
        Amount::Metres(n) => {
            METRE_S.times(Count { from: turns * n.from.min(1_000), to: turns * n.to.min(1_000) })
        }
    }
}

/// How long a set of `amount` takes, both sides: a side that has its own turn doubles it.
pub fn set_seconds(way: &Way<'_>, amount: Amount) -> Band {
    let side = side_seconds(way, amount);
    match way.movement.sides {
        Sides::Each => side.plus(side),
        Sides::Together | Sides::Alternating => side,
    }
}

/// Whole seconds, part of one counted as one, so that a set is never shorter than planned.
fn reps_seconds(way: &Way<'_>, reps: u32, turns: u32) -> u32 {
    let usual = i64::from(REPETITION_S) * 1_000_000;
    let pace = way.movement.pace.map_or(usual, |pace| pace.micro).max(1);
    let micro = i128::from(reps) * i128::from(turns) * i128::from(pace);
    u32::try_from((micro + 999_999) / 1_000_000).unwrap_or(u32::MAX)
}
