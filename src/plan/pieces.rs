//! Pieces: a block taken apart into work and rest, in the order one person meets them.
//! Never adds them up; `block` does.

use super::band::{Band, clock, only};
use super::line::{Line, SlotKind};
use super::pace::{MINUTE_S, MOST_TURNS};
use super::ways::whole_seconds;
use crate::library::{Block, Count, Format};

/// A stretch of work or rest.
pub(super) struct Piece {
    pub kind: SlotKind,
    pub time: Band,
    pub what: String,
    /// Which line of the block, from 0; of rest, the line that it follows.
    pub item: usize,
}

fn work(time: Band, what: String, item: usize) -> Piece {
    Piece { kind: SlotKind::Work, time, what, item }
}

fn rest(time: Band, what: &str, item: usize) -> Piece {
    Piece { kind: SlotKind::Rest, time, what: what.to_string(), item }
}

/// Rounds of a block, one where nothing is said.
pub(super) fn rounds(block: &Block) -> Count {
    let rounds = block.rounds.unwrap_or(only(1));
    Count { from: rounds.from.min(MOST_TURNS), to: rounds.to.min(MOST_TURNS) }
}

/// Whole minutes of a window.
pub(super) fn minutes(window: Option<u32>) -> u32 {
    (window.unwrap_or(0) / MINUTE_S).min(MOST_TURNS)
}

/// The counts of a block that goes down: 10, 9, 8 and so on, or up when it is written so.
pub(super) fn counts_down(block: &Block) -> Vec<u32> {
    let (Some(from), Some(to)) = (block.from, block.to) else { return Vec::new() };
    let long = (from.abs_diff(to)).saturating_add(1).min(MOST_TURNS);
    let count = |step| if from > to { from - step } else { from + step };
    (0..long).map(count).collect()
}

/// A block's pieces.
pub(super) fn of(block: &Block, format: Format, lines: &[Line<'_>]) -> Vec<Piece> {
    let mut pieces = match format {
        Format::Rounds | Format::ForTime | Format::Holds => {
            let turns = vec![None; rounds(block).to as usize];
            in_rounds(block, format, lines, &turns)
        }
        Format::Descending => {
            let turns: Vec<Option<u32>> = counts_down(block).into_iter().map(Some).collect();
            in_rounds(block, format, lines, &turns)
        }
        Format::MostRounds => Vec::new(),
        Format::TimedSets => timed_sets(lines),
        Format::EveryMinute => each_minute(block, lines),
        Format::Intervals => intervals(block, lines),
    };
    if format == Format::MostRounds
        && let Some(window) = block.window
    {
        pieces.push(work(Band::exact(whole_seconds(window)), block.name.value.clone(), 0));
    }
    // Nothing follows the last rest.
    while pieces.last().is_some_and(|piece| piece.kind == SlotKind::Rest)
        && format != Format::EveryMinute
    {
        pieces.pop();
    }
    pieces
}

/// One round of a block, and the change back to its first line.
pub(super) fn one_round(block: &Block, format: Format, lines: &[Line<'_>]) -> Band {
    Band::sum(in_rounds(block, format, lines, &[None]).into_iter().map(|piece| piece.time))
}

pub(super) fn in_rounds(
    block: &Block,
    format: Format,
    lines: &[Line<'_>],
    turns: &[Option<u32>],
) -> Vec<Piece> {
    let surely =
        if format == Format::Descending { turns.len() } else { rounds(block).from as usize };
    let pause = block.rest.map(whole_seconds);
    let mut pieces = Vec::new();
    for (turn, counted) in turns.iter().enumerate() {
        let maybe = |time: Band| if turn < surely { time } else { Band { least: 0, ..time } };
        for (at, line) in lines.iter().enumerate() {
            let what = match counted {
                Some(n) => format!("{}, {}", line.name, counted_words(line, *n)),
                None => line.name.clone(),
            };
            pieces.push(work(maybe(line.set_counting(*counted)), what, at));
            let last = at + 1 == lines.len();
            let next = if last { &lines[0] } else { &lines[at + 1] };
            let change = line.change(next, format).no_less_than(line.rest_s);
            let between = if last { pause.map(Band::exact) } else { None };
            pieces.push(rest(maybe(between.unwrap_or(change)), "Change over", at));
        }
    }
    pieces
}

/// `20+20` where a side has its own turn.
fn counted_words(line: &Line<'_>, n: u32) -> String {
    let each = line.ways.iter().any(|way| way.movement.sides == crate::library::Sides::Each);
    if each { format!("{n}+{n}") } else { n.to_string() }
}

/// Sets in turn: one of each line, then the next of each; a rest after every set.
fn timed_sets(lines: &[Line<'_>]) -> Vec<Piece> {
    let sets = |line: &Line<'_>| line.sets.unwrap_or(only(1));
    let most = lines.iter().map(|line| sets(line).to).max().unwrap_or(0);
    let mut pieces = Vec::new();
    for set in 0..most {
        for (at, line) in lines.iter().enumerate().filter(|(_, line)| set < sets(line).to) {
            let maybe =
                |time: Band| if set < sets(line).from { time } else { Band { least: 0, ..time } };
            pieces.push(work(maybe(line.set), line.name.clone(), at));
            let change = line.change(&lines[(at + 1) % lines.len()], Format::TimedSets);
            pieces.push(rest(maybe(change.no_less_than(line.rest_s)), "Rest", at));
        }
    }
    pieces
}

fn each_minute(block: &Block, lines: &[Line<'_>]) -> Vec<Piece> {
    let minutes = minutes(block.window.map(whole_seconds));
    let turns = (0..minutes as usize).map(|minute| minute % lines.len().max(1));
    turns
        .filter_map(|at| Some((at, lines.get(at)?)))
        .flat_map(|(at, line)| {
            let set = line.set.no_more_than(MINUTE_S);
            let left = Band::new(MINUTE_S - set.most, MINUTE_S - set.least);
            [work(set, line.name.clone(), at), rest(left, "Rest until the minute", at)]
        })
        .collect()
}

fn intervals(block: &Block, lines: &[Line<'_>]) -> Vec<Piece> {
    let seconds = |time| Band::exact(whole_seconds(time));
    let (at_work, pause) = (block.work.map(seconds), block.rest.map(seconds));
    let one = |(at, line): (usize, &Line<'_>)| {
        let go = at_work.unwrap_or(line.set);
        let what = format!("{}, {}", line.name, clock(go.most));
        [work(go, what, at), rest(pause.unwrap_or_default(), "Rest", at)]
    };
    (0..rounds(block).to).flat_map(|_| lines.iter().enumerate().flat_map(one)).collect()
}
