//! Weeks: a session as one week of a cycle asks for it, a lighter week's share and a building week's aim.
//! Never another movement, never another rung, never more than the session asks.

use super::balance::share;
use super::cycle::{Aim, aims};
use super::day::{Day, first_day, training_dates};
use super::pace::MINUTE_S;
use super::session::warm_up_block;
use super::ways::whole_seconds;
use crate::library::{
    Block, Count, Cycle, CycleWeek, Dose, Format, InWeek, Item, ItemWork, LadderId, Quantity,
    Session, SessionId, Unit, WeekKind,
};
use crate::placing::Target;

/// A session as `week` asks for it: in a lighter week half of every block but the warm-up, in every
/// other as it is written.
pub fn in_week((cycle, week): (&Cycle, &CycleWeek), session: &Session) -> Session {
    let mut asked = session.clone();
    asked.in_week = Some(InWeek { cycle: Box::new(cycle.clone()), week: week.week });
    if week.kind == Some(WeekKind::Lighter) {
        let warm = warm_up_block(session);
        let blocks = asked.blocks.iter_mut().enumerate().filter(|(at, _)| Some(*at) != warm);
        blocks.for_each(|(_, block)| lighten(week, block));
    }
    asked
}

/// The weeks of a dated cycle that have a session, each from its first training day to the day before
/// the same one of the next week.
pub fn weeks_with<'c>(cycle: &'c Cycle, session: &SessionId) -> Vec<(&'c CycleWeek, Day, Day)> {
    let first = first_day(cycle);
    let dates = first.map(|first| training_dates(cycle, first)).unwrap_or_default();
    let has = |week: &&CycleWeek| week.sessions.iter().any(|id| id.value == *session);
    let of = |week: &'c CycleWeek| {
        let from = dates.iter().find(|(number, ..)| *number == week.week)?.2;
        Some((week, from, from.later(6)))
    };
    cycle.weeks.iter().filter(has).filter_map(of).collect()
}

fn lighten(week: &CycleWeek, block: &mut Block) {
    let format = block.format.as_ref().map_or(Format::Rounds, |format| format.value);
    block.rounds = block.rounds.map(|rounds| share(week, rounds));
    block.items.iter_mut().for_each(|item| lighten_item(week, item));
    let half = |time: Quantity| minutes(half_minutes(week, whole_seconds(time)));
    match format {
        // Whole rounds: nobody's last minute falls away.
        Format::EveryMinute => {
            let lines = u32::try_from(block.items.len()).unwrap_or(1).max(1);
            let rounds = |time| (whole_seconds(time) / MINUTE_S).div_ceil(lines);
            block.window = block.window.map(|time| minutes(of(week, rounds(time)) * lines));
        }
        Format::Descending => lighten_counts(week, block),
        _ => block.window = block.window.map(half),
    }
    block.cap = block.cap.map(half);
}

/// The half that is nearer to the last count, which is the smaller one where it goes down.
fn lighten_counts(week: &CycleWeek, block: &mut Block) {
    if let (Some(from), Some(to)) = (block.from, block.to) {
        let keep = of(week, from.abs_diff(to) + 1) - 1;
        block.from = Some(if from > to { to + keep } else { to.saturating_sub(keep) });
    }
}

fn lighten_item(week: &CycleWeek, item: &mut Item) {
    let fewer = |dose: &mut Dose| dose.sets = dose.sets.map(|sets| share(week, sets));
    item.dose.iter_mut().for_each(fewer);
    if let ItemWork::Options(options) = &mut item.work {
        options.iter_mut().for_each(|option| lighten_item(week, option));
    }
}

/// What a week keeps of so many.
fn of(week: &CycleWeek, n: u32) -> u32 {
    share(week, Count { from: n, to: n }).to
}

/// Half a time in whole minutes; part of one is counted as one.
fn half_minutes(week: &CycleWeek, seconds: u32) -> u32 {
    of(week, seconds).div_ceil(MINUTE_S)
}

fn minutes(n: u32) -> Quantity {
    Quantity::new(f64::from(n * MINUTE_S), Unit::Second)
}

/// What `week` asks of a focus ladder's own rung, where the session asks `target`: one number inside
/// it, as the cycle's plan aims. Where the plan may have come to that rung by now or not, everything
/// between the two stays open: whoever is new to it begins at the bottom, whoever stays does its top
/// again. `on_top`: no rung is above.
pub fn aimed(cycle: &Cycle, week: u32, target: Target, on_top: bool) -> Target {
    let Some(at) = cycle.weeks.iter().position(|written| written.week == week) else {
        return target;
    };
    let lighter = cycle.weeks[at].kind == Some(WeekKind::Lighter);
    let of = |on_top: bool| aims(cycle, on_top).get(at).copied().flatten();
    let mut possible: Vec<Aim> = of(false).into_iter().collect();
    if possible == [Aim::Bottom] && !lighter {
        possible.push(Aim::Top);
    }
    possible.extend(of(true).filter(|_| on_top));
    let numbers = possible.into_iter().map(|aim| aim.of(target.from, target.to));
    let (from, to) = (numbers.clone().min(), numbers.max());
    Target { from: from.unwrap_or(target.from), to: to.unwrap_or(target.to), ..target }
}

/// The same for each of a ladder's rungs, the lowest first; of a ladder that the cycle is not about
/// nothing changes. `rungs`: how many it has.
pub fn aim_rungs(
    (cycle, week): (&Cycle, u32),
    (ladder, rungs): (&LadderId, usize),
    asked: &mut [Option<Target>],
) {
    if is_focus(cycle, ladder) {
        for (at, target) in asked.iter_mut().enumerate() {
            *target = target.map(|target| aimed(cycle, week, target, at + 1 == rungs));
        }
    }
}

/// Whether a cycle is about a ladder.
pub fn is_focus(cycle: &Cycle, ladder: &LadderId) -> bool {
    cycle.focus.iter().any(|focus| focus.value == *ladder)
}
