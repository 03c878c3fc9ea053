//! The clock of a block: what its script counts, slot by slot or turn by turn.
//! Never runs: the page's script does, by the numbers here.

use super::block::{BlockPlan, Slot};
use super::line::SlotKind;
use super::turns::{Turn, self_paced};
use crate::library::Format;
use serde::Serialize;

/// What the clock's script takes. Seconds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ClockRow {
    /// `slots`: it moves everybody on; `window`: it counts down while each moves on; `up`: it counts
    /// up to the end.
    pub by: &'static str,
    /// From start to end.
    pub total_s: u32,
    /// Stretches without gaps: length, 1 for work and 0 for rest, what, and the line from 0.
    pub slots: Vec<(u32, u8, String, Option<usize>)>,
    /// What each person moves through: what, rest after it, and the line from 0.
    pub turns: Vec<(String, u32, usize)>,
    /// How long each turn takes at the most: a clock that runs a whole session moves on by itself.
    pub sets_s: Vec<u32>,
    /// Turns in a round, where rounds are counted; 0 where the turns come once.
    pub round: usize,
}

/// The clock of a planned block.
pub fn clock_row(plan: &BlockPlan) -> ClockRow {
    let format = plan.format.unwrap_or(Format::Rounds);
    let by = match format {
        Format::TimedSets | Format::MostRounds => "window",
        Format::ForTime | Format::Descending => "up",
        _ => "slots",
    };
    let slots =
        if self_paced(format) { Vec::new() } else { plan.timeline.iter().map(slot).collect() };
    let round = match format {
        Format::MostRounds | Format::ForTime | Format::Descending => plan.items.len(),
        _ => 0,
    };
    let turn = |Turn { what, item, rest_s, .. }: &Turn| (what.clone(), *rest_s, *item);
    let turns = plan.turns.iter().map(turn).collect();
    let sets_s = plan.turns.iter().map(|turn| turn.work_s).collect();
    ClockRow { by, total_s: plan.lasts_s(), slots, turns, sets_s, round }
}

fn slot(slot: &Slot) -> (u32, u8, String, Option<usize>) {
    let work = u8::from(slot.kind == SlotKind::Work);
    (slot.to_s - slot.from_s, work, slot.what.clone(), slot.item)
}
