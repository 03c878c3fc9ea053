//! Fits: whether one way to do a line can be done in the time there is, and why.
//! Never drops a set or a repetition to make it fit.

use super::band::{Band, clock};
use super::line::{Line, set_of};
use super::pace::WORK_IN_A_MINUTE_S;
use super::pieces::{self, counts_down};
use super::ways::{Way, whole_seconds};
use crate::library::{Block, Format};
use crate::swap::sets_that_fit;

/// A block as its lines meet it.
pub(super) struct Room<'b, 'g> {
    pub block: &'b Block,
    pub format: Format,
    pub lines: &'b [Line<'g>],
    /// Window or cap, in seconds.
    pub limit: Option<u32>,
    /// Work and rest of the whole block.
    pub asked: Band,
    /// One round of it.
    pub round: Band,
    /// The sets of every line at their shortest, in seconds: each line is measured against the others.
    pub shortest_s: u64,
}

/// The sets of a line at their shortest, with the rest after each.
pub(super) fn shortest_s(line: &Line<'_>) -> u64 {
    let sets = line.sets.map_or(1, |sets| sets.from);
    u64::from(line.set.least.saturating_add(line.rest_s)) * u64::from(sets)
}

/// What is said of one way.
pub(super) struct Verdict {
    pub fits: bool,
    pub sets_that_fit: Option<u32>,
    pub why: String,
}

fn verdict_of(needs: u32, there_is: u32, what: &str, where_: &str) -> Verdict {
    let fits = needs <= there_is;
    let verb = if fits { "fits" } else { "does not fit" };
    let why = format!("{what} takes {} and {verb} {where_} {}", clock(needs), clock(there_is));
    Verdict { fits, sets_that_fit: None, why }
}

/// Whether `way` of line `at` fits.
pub(super) fn verdict(room: &Room<'_, '_>, at: usize, way: &Way<'_>) -> Verdict {
    let set = set_of(way, None);
    match (room.format, room.limit) {
        (Format::EveryMinute, _) => {
            let mut verdict =
                verdict_of(set.most, WORK_IN_A_MINUTE_S, "a set", "a minute's work of about");
            if verdict.fits {
                verdict.why = format!("a set takes {} of its minute", clock(set.most));
            }
            verdict
        }
        (Format::Intervals, _) => {
            let work = room.block.work.map_or(set.most, whole_seconds);
            verdict_of(set.most, work, "a set", "the work of")
        }
        (Format::TimedSets, Some(limit)) => timed_sets(room, at, way, limit),
        (Format::MostRounds, Some(limit)) => {
            let others = room.round.least.saturating_sub(room.lines[at].set.least);
            verdict_of(others.saturating_add(set.most), limit, "a round", "the window of")
        }
        (_, Some(limit)) => {
            let others = room
                .asked
                .least
                .saturating_sub(whole(room, |n| room.lines[at].set_counting(n).least));
            let own = whole(room, |n| set_of(way, n).most);
            verdict_of(others.saturating_add(own), limit, "the block", "the limit of")
        }
        (_, None) => {
            let why = format!("a set takes {set}; nothing limits it");
            Verdict { fits: true, sets_that_fit: None, why }
        }
    }
}

/// Every set of one way over a whole block in rounds.
fn whole(room: &Room<'_, '_>, set: impl Fn(Option<u32>) -> u32) -> u32 {
    match room.format {
        Format::Descending => {
            let sets = counts_down(room.block).into_iter().map(|n| set(Some(n)));
            sets.fold(0, u32::saturating_add)
        }
        _ => set(None).saturating_mul(pieces::rounds(room.block).from),
    }
}

/// The window that the sets of the other lines leave, at their shortest.
fn timed_sets(room: &Room<'_, '_>, at: usize, way: &Way<'_>, limit: u32) -> Verdict {
    let taken = room.shortest_s - shortest_s(&room.lines[at]);
    let set = set_of(way, None);
    let left = limit.saturating_sub(u32::try_from(taken).unwrap_or(u32::MAX));
    let fit = sets_that_fit(left, set.most, way.rest_s);
    let asked = way.sets.map_or(1, |sets| sets.from);
    let sets = |n| if n == 1 { "1 set".to_string() } else { format!("{n} sets") };
    let why = format!(
        "a set takes {} with {} s rest, so {} fit into {}, where {} planned",
        clock(set.most),
        way.rest_s,
        sets(fit),
        clock(left),
        if asked == 1 { "1 is".to_string() } else { format!("{asked} are") },
    );
    Verdict { fits: fit >= asked, sets_that_fit: Some(fit), why }
}
