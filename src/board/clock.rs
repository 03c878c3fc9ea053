//! Clock: what the clock on a board counts, block by block, as the class goes through it.
//! Never runs: the file's script does, by the numbers here; and never says more of a line than its name.

use super::rota::Rota;
use super::standing::Standing;
use crate::library::Spread;
use crate::plan::{BlockPlan, ClockRow, clock_row, pace};
use serde::Serialize;

/// The whole session.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Clock {
    /// Seconds between two blocks: clear away and set up.
    pub rig_s: u32,
    /// Each block's name, its clock, and at which line each group is in each of its slots; nothing there
    /// where all are together.
    pub blocks: Vec<(String, ClockRow, Lines)>,
}

/// By slot and group the line, from 0; nothing while a group rests.
pub type Lines = Vec<Vec<Option<usize>>>;

/// The clock of a class.
pub(super) fn clock(standing: &Standing) -> Clock {
    let blocks = standing.class.blocks.iter().zip(&standing.rotas);
    let blocks = blocks.map(|(asked, rota)| {
        let (row, lines) = row(&asked.plan, rota);
        (asked.name.clone(), row, lines)
    });
    Clock { rig_s: pace::RE_RIG_S.most, blocks: blocks.collect() }
}

/// A block's own clock where all are together; else who is where, as the rota has it.
fn row(plan: &BlockPlan, rota: &Rota) -> (ClockRow, Lines) {
    let own = clock_row(plan);
    if rota.spread == Spread::Together || rota.stretches.is_empty() {
        return (own, Vec::new());
    }
    let (mut slots, mut lines) = (Vec::new(), Vec::new());
    let mut at_s = 0;
    for stretch in &rota.stretches {
        if stretch.from_s > at_s {
            slots.push((stretch.from_s - at_s, 0, "Rest".to_string(), None));
            lines.push(Vec::new());
        }
        lines.push(stretch.lines.clone());
        slots.push((stretch.to_s - stretch.from_s, 1, said(plan, &stretch.lines), None));
        at_s = stretch.to_s;
    }
    if own.total_s > at_s {
        slots.push((own.total_s - at_s, 0, "Spare: finish what is open".to_string(), None));
    }
    let total_s = own.total_s.max(at_s);
    let (turns, sets_s) = (Vec::new(), Vec::new());
    (ClockRow { by: "slots", total_s, slots, turns, sets_s, round: 0 }, lines)
}

/// `A: Row, B: Push-up`.
fn said(plan: &BlockPlan, lines: &[Option<usize>]) -> String {
    let name = |line: &Option<usize>| {
        line.and_then(|line| plan.items.get(line)).map_or("rest", |item| item.name.as_str())
    };
    let groups = lines.iter().zip('A'..);
    let groups: Vec<String> =
        groups.map(|(line, letter)| format!("{letter}: {}", name(line))).collect();
    groups.join(", ")
}
