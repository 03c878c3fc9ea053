//! A block: how long it takes, what fits into it, and what its clock shows.
//! Never chooses a rung: it answers for every rung and option at once, as a band.

use super::band::{Band, only};
use super::fits::{self, Room};
use super::line::{Line, SlotKind, amount_of, set_of};
use super::pace::{MINUTE_S, MOST_TURNS, side_seconds};
use super::pieces::{self, Piece};
use super::turns::{Turn, turns};
use super::ways::{Way, pattern, whole_seconds};
use crate::finding::Span;
use crate::gym::Gym;
use crate::library::{Amount, Block, Count, Format, KitId, MovementId, PatternId};
use std::collections::{BTreeMap, BTreeSet};

/// A block with its arithmetic done. Times in seconds.
#[derive(Debug, Clone)]
pub struct BlockPlan {
    /// The name shown.
    pub name: String,
    /// How it is run.
    pub format: Option<Format>,
    /// Time at work, for one person.
    pub work: Band,
    /// Rest and changing over, for one person.
    pub rest: Band,
    /// From its start to its end: the window, where it has one.
    pub total: Band,
    /// The window or cap.
    pub limit: Option<u32>,
    /// Its lines, in order.
    pub items: Vec<ItemPlan>,
    /// Rounds to expect of one person, as a band; nothing where the format has none.
    pub rounds: Option<Count>,
    /// Kit and how many of its lines need it at once when the class spreads over the lines.
    pub kit: BTreeMap<KitId, u32>,
    /// What the clock shows, without gaps from 0 to the most it takes.
    pub timeline: Vec<Slot>,
    /// What each person moves through at their own pace; empty where the clock moves everybody on.
    pub turns: Vec<Turn>,
}

impl BlockPlan {
    /// How long its clock runs: to the cap, where it counts up to one.
    pub fn lasts_s(&self) -> u32 {
        match self.format {
            Some(Format::ForTime | Format::Descending) => self.limit.unwrap_or(self.total.most),
            _ => self.total.most,
        }
    }
}

/// A line of a block.
#[derive(Debug, Clone)]
pub struct ItemPlan {
    /// What it is called.
    pub name: String,
    /// Where it is written.
    pub span: Span,
    /// Its pattern; of options, that of the middle one.
    pub pattern: Option<PatternId>,
    /// Sets that one person does of it in this block.
    pub sets: Count,
    /// Every way to do it.
    pub ways: Vec<WayPlan>,
}

/// One way to do a line, against the clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WayPlan {
    /// The movement.
    pub movement: MovementId,
    /// The movement at its settings, in words.
    pub said: String,
    /// Its rung, from 0, where the line names a ladder.
    pub rung: Option<usize>,
    /// What a set counts.
    pub amount: Option<Amount>,
    /// Seconds for one side; the same as `set` where both sides work at once or turn about.
    pub side: Band,
    /// Seconds a set takes, both sides.
    pub set: Band,
    /// Sets that fit the window, in a format that counts sets in one.
    pub sets_that_fit: Option<u32>,
    /// Whether it can be done as written.
    pub fits: bool,
    /// Why, in one plain sentence without its full stop.
    pub why: String,
}

/// A stretch of the clock. Seconds from the start of the block.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slot {
    /// Its start.
    pub from_s: u32,
    /// Its end.
    pub to_s: u32,
    /// What it is for.
    pub kind: SlotKind,
    /// In words.
    pub what: String,
    /// Which line of the block, from 0; of rest, the line that it follows. Nothing where the slot
    /// is the whole window.
    pub item: Option<usize>,
}

/// A block with its arithmetic done.
pub fn block_plan(gym: &Gym, block: &Block) -> BlockPlan {
    let format = block.format.as_ref().map_or(Format::Rounds, |format| format.value);
    let lines: Vec<Line<'_>> = block.items.iter().map(|item| Line::of(gym, item, format)).collect();
    let window = block.window.map(whole_seconds);
    let limit = window.or(block.cap.map(whole_seconds));
    let pieces = pieces::of(block, format, &lines);
    let sum = |kind| Band::sum(pieces.iter().filter(|p| p.kind == kind).map(|p| p.time));
    let (work, rest) = (sum(SlotKind::Work), sum(SlotKind::Rest));
    let asked = work.plus(rest);
    let total = match (format, limit) {
        (Format::TimedSets | Format::MostRounds | Format::EveryMinute, Some(limit)) => {
            Band::exact(limit)
        }
        (Format::Intervals, _) => Band::exact(asked.most),
        (_, Some(limit)) => asked.no_more_than(limit),
        (_, None) => asked,
    };
    let rounds = rounds(block, format, &lines);
    let round = match format {
        Format::MostRounds => pieces::one_round(block, format, &lines),
        _ => Band::default(),
    };
    let shortest_s = lines.iter().map(fits::shortest_s).sum();
    let room = Room { block, format, lines: &lines, limit, asked, round, shortest_s };
    BlockPlan {
        name: block.name.value.clone(),
        format: block.format.as_ref().map(|format| format.value),
        work,
        rest,
        total,
        limit,
        rounds,
        items: (0..lines.len()).map(|at| item_plan(gym, &room, at, rounds)).collect(),
        kit: kit_at_once(&lines),
        timeline: timeline(block, format, &pieces, total.most),
        turns: turns(block, format, &lines, &pieces),
    }
}

fn item_plan(gym: &Gym, room: &Room<'_, '_>, at: usize, rounds: Option<Count>) -> ItemPlan {
    let line = &room.lines[at];
    let ways: Vec<WayPlan> = line.ways.iter().map(|way| way_plan(room, at, way)).collect();
    let fit = ways.iter().filter_map(|way| way.sets_that_fit).min();
    let sets = match room.format {
        Format::TimedSets => line.sets.unwrap_or(only(fit.unwrap_or(1))),
        Format::EveryMinute => only(turns_in_minutes(room, at)),
        Format::Descending => only(pieces::counts_down(room.block).len() as u32),
        _ => rounds.unwrap_or(only(1)),
    };
    let pattern = pattern(gym, line.item).cloned();
    ItemPlan { name: line.name.clone(), span: line.item.span, pattern, sets, ways }
}

/// How often the turn of line `at` comes in an every-minute window.
fn turns_in_minutes(room: &Room<'_, '_>, at: usize) -> u32 {
    let minutes = pieces::minutes(room.limit);
    let (lines, at) = (room.lines.len() as u32, at as u32);
    minutes / lines.max(1) + u32::from(at < minutes % lines.max(1))
}

fn way_plan(room: &Room<'_, '_>, at: usize, way: &Way<'_>) -> WayPlan {
    let counted = match room.format {
        Format::Descending => pieces::counts_down(room.block).into_iter().max(),
        _ => None,
    };
    let amount = amount_of(way, counted);
    let verdict = fits::verdict(room, at, way);
    WayPlan {
        movement: way.movement.id.clone(),
        said: way.said(),
        rung: way.rung,
        amount,
        side: amount.map(|amount| side_seconds(way, amount)).unwrap_or_default(),
        set: set_of(way, counted),
        sets_that_fit: verdict.sets_that_fit,
        fits: verdict.fits,
        why: verdict.why,
    }
}

fn rounds(block: &Block, format: Format, lines: &[Line<'_>]) -> Option<Count> {
    match format {
        Format::MostRounds => {
            let round = pieces::one_round(block, format, lines);
            let limit = block.window.map(whole_seconds)?;
            let fit = |round: u32| (limit / round.max(1)).min(MOST_TURNS);
            Some(Count { from: fit(round.most), to: fit(round.least) })
        }
        Format::EveryMinute => {
            let minutes = pieces::minutes(block.window.map(whole_seconds));
            Some(only(minutes / (lines.len() as u32).max(1)))
        }
        Format::Rounds | Format::Intervals | Format::ForTime | Format::Holds => {
            Some(pieces::rounds(block))
        }
        Format::TimedSets | Format::Descending => None,
    }
}

/// How many lines need a thing that nothing else can stand in for.
fn kit_at_once(lines: &[Line<'_>]) -> BTreeMap<KitId, u32> {
    let mut kit = BTreeMap::new();
    for line in lines {
        let needs = line.ways.iter().flat_map(|way| &way.movement.kit);
        let alone: BTreeSet<&KitId> =
            needs.filter(|need| need.0.len() == 1).map(|need| &need.0[0].value).collect();
        alone.into_iter().for_each(|id| *kit.entry(id.clone()).or_insert(0) += 1);
    }
    kit
}

/// Formats with a window that each spends in their own way show it as one stretch; the others show
/// each piece at its longest.
fn timeline(block: &Block, format: Format, pieces: &[Piece], end: u32) -> Vec<Slot> {
    let one = matches!(format, Format::TimedSets | Format::MostRounds);
    if one {
        let what = block.name.value.clone();
        return vec![Slot { from_s: 0, to_s: end, kind: SlotKind::Work, what, item: None }];
    }
    let mut slots: Vec<Slot> = Vec::new();
    for piece in pieces {
        let from_s = slots.last().map_or(0, |slot| slot.to_s);
        let long = match (format, piece.kind) {
            (Format::EveryMinute, SlotKind::Work) => MINUTE_S,
            (Format::EveryMinute, SlotKind::Rest) => 0,
            _ => piece.time.most,
        };
        let to_s = from_s.saturating_add(long).min(end);
        if to_s > from_s {
            let (kind, what) = (piece.kind, piece.what.clone());
            slots.push(Slot { from_s, to_s, kind, what, item: Some(piece.item) });
        }
    }
    slots
}
