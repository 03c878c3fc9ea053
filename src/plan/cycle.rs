//! A cycle week by week: for each ladder the rung, the setting, sets and repetitions to aim for.
//! Never a promise: each week holds while the ladder's own rule is met, and says so.

use super::balance::{WeekBalance, share, week_balance};
use super::band::only;
use super::block::{BlockPlan, block_plan};
use super::session::warm_up_block;
use super::ways::{Way, count, ways};
use crate::finding::did_you_mean;
use crate::gym::Gym;
use crate::ladder::RungKey;
use crate::library::{
    Amount, Block, Count, Cycle, CycleWeek, Item, ItemWork, Ladder, LadderId, Session, Sides,
    WeekKind,
};
use std::collections::BTreeMap;

/// A cycle for one person, by where they start.
#[derive(Debug, Clone)]
pub struct CyclePlan {
    /// One plan a focus ladder, in the cycle's order.
    pub ladders: Vec<LadderPlan>,
    /// Sets of every week.
    pub balance: Vec<WeekBalance>,
}

/// One ladder through a cycle.
#[derive(Debug, Clone)]
pub struct LadderPlan {
    /// The ladder.
    pub ladder: LadderId,
    /// Its name.
    pub name: String,
    /// When to move up, as the ladder says.
    pub moves_up: Option<String>,
    /// When to step back, as the ladder says.
    pub moves_down: Option<String>,
    /// What ends a set of its test, as the ladder says.
    pub stops: Option<String>,
    /// Its weeks.
    pub weeks: Vec<LadderWeek>,
}

/// One ladder in one week.
#[derive(Debug, Clone, PartialEq)]
pub struct LadderWeek {
    /// The week, from 1.
    pub week: u32,
    /// What it is for.
    pub kind: Option<WeekKind>,
    /// The rung, from 1.
    pub rung: u32,
    /// The rung's identity, for its demand.
    pub key: RungKey,
    /// The rung in words: `Strap row, lean 45 deg`.
    pub said: String,
    /// Sets in one session; nothing in a week of test.
    pub sets: Option<Count>,
    /// What each set aims for: one number inside the dose. In a week of test nothing: the test
    /// counts what there is.
    pub aim: Option<Amount>,
    /// Whether the aim is for each side.
    pub each_side: bool,
    /// Sets of the ladder in the whole week, every block but the warm-up.
    pub sets_in_week: Count,
    /// What the week is about, in one plain sentence without its full stop.
    pub why: String,
}

/// Where each focus ladder of a cycle starts, from words such as `push-up=3`; rungs from 1. A
/// ladder that is not named starts at its test's rung. Every mistake is said at once, one a line.
pub fn starting_rungs(
    gym: &Gym,
    cycle: &Cycle,
    words: &[String],
) -> Result<BTreeMap<LadderId, u32>, String> {
    let mut rungs = BTreeMap::new();
    for ladder in focus(gym, cycle) {
        let tested = ladder.test.as_ref().map_or(1, |test| test.rung.value);
        rungs.insert(ladder.id.clone(), tested.clamp(1, top(ladder)));
    }
    let mut mistakes = Vec::new();
    for word in words {
        match starting_rung(gym, cycle, word) {
            Ok((ladder, rung)) => drop(rungs.insert(ladder, rung)),
            Err(mistake) => mistakes.push(mistake),
        }
    }
    if mistakes.is_empty() { Ok(rungs) } else { Err(mistakes.join("\n")) }
}

fn starting_rung(gym: &Gym, cycle: &Cycle, word: &str) -> Result<(LadderId, u32), String> {
    let not_read = || format!("`{word}` is not a ladder and a rung; write it like `push-up=3`");
    let (id, rung) = word.split_once('=').ok_or_else(not_read)?;
    let rung: u32 = rung.trim().parse().map_err(|_| not_read())?;
    let Some(ladder) = focus(gym, cycle).find(|ladder| ladder.id.as_str() == id.trim()) else {
        let ladders = focus(gym, cycle).map(|ladder| ladder.id.as_str());
        let ladders: Vec<&str> = ladders.collect();
        let otherwise = format!("it is about {}", ladders.join(", "));
        let help = did_you_mean(id.trim(), ladders.iter().copied(), &otherwise);
        return Err(format!("the cycle is not about the ladder `{}`; {help}", id.trim()));
    };
    if rung == 0 || rung > top(ladder) {
        let top = top(ladder);
        return Err(format!("the ladder `{}` has rungs 1 to {top}, not {rung}", ladder.id));
    }
    Ok((ladder.id.clone(), rung))
}

fn top(ladder: &Ladder) -> u32 {
    u32::try_from(ladder.rungs.len()).unwrap_or(u32::MAX).max(1)
}

fn focus<'g>(gym: &'g Gym, cycle: &'g Cycle) -> impl Iterator<Item = &'g Ladder> {
    cycle.focus.iter().filter_map(|id| gym.library.ladders.get(&id.value))
}

/// A cycle from the rungs (from 1) that a person starts on.
pub fn cycle_plan(gym: &Gym, cycle: &Cycle, start: &BTreeMap<LadderId, u32>) -> CyclePlan {
    let ladders = focus(gym, cycle).filter(|ladder| !ladder.rungs.is_empty());
    let ladders = ladders.map(|ladder| {
        let rung = start.get(&ladder.id).copied().unwrap_or(1).clamp(1, top(ladder));
        ladder_plan(ladder, &asking(gym, cycle, ladder), rung)
    });
    let weeks = cycle.weeks.iter();
    CyclePlan {
        ladders: ladders.collect(),
        balance: weeks.filter_map(|week| week_balance(gym, cycle, week.week)).collect(),
    }
}

/// The plan of one ladder of a cycle for whoever starts on each of its rungs, the lowest first.
pub fn from_every_rung(gym: &Gym, cycle: &Cycle, ladder: &Ladder) -> Vec<LadderPlan> {
    let asking = asking(gym, cycle, ladder);
    let starts = ladder.rungs.iter().zip(1..);
    starts.map(|(_, rung)| ladder_plan(ladder, &asking, rung)).collect()
}

fn ladder_plan(ladder: &Ladder, asking: &[Asking<'_>], start: u32) -> LadderPlan {
    let mut standing = Standing { rung: start, next: Aim::Middle };
    let weeks = asking.iter();
    LadderPlan {
        ladder: ladder.id.clone(),
        name: ladder.name.value.clone(),
        moves_up: ladder.moves_up.as_ref().map(|rule| rule.value.clone()),
        moves_down: ladder.moves_down.clone(),
        stops: ladder.test.as_ref().and_then(|test| test.stop.clone()),
        weeks: weeks.filter_map(|week| ladder_week(week, ladder, (start, &mut standing))).collect(),
    }
}

/// What a week asks of a ladder, whatever rung somebody is on: found once for all of them.
struct Asking<'g> {
    week: &'g CycleWeek,
    /// By rung, from 0.
    ways: Vec<Option<Way<'g>>>,
    sets_in_week: Count,
}

fn asking<'g>(gym: &'g Gym, cycle: &'g Cycle, ladder: &'g Ladder) -> Vec<Asking<'g>> {
    let of = |week| Asking {
        week,
        ways: asked(gym, week, ladder),
        sets_in_week: sets_in_week(gym, week, ladder),
    };
    cycle.weeks.iter().map(of).collect()
}

/// What a week of building aims for. Double progression: repetitions first, then the rung; the
/// middle of the range, its top, then a rung up at the bottom. Common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Aim {
    Bottom,
    Middle,
    Top,
}

impl Aim {
    /// The number in a range.
    pub(super) fn of(self, from: u32, to: u32) -> u32 {
        match self {
            Aim::Bottom => from,
            Aim::Middle => from + (to - from).div_ceil(2),
            Aim::Top => to,
        }
    }

    /// What the next week of building aims for.
    fn then(self, on_top: bool) -> Aim {
        match self {
            Aim::Bottom => Aim::Middle,
            Aim::Middle => Aim::Top,
            Aim::Top if on_top => Aim::Top,
            Aim::Top => Aim::Bottom,
        }
    }
}

/// The aim of every week for whoever stays on a rung, which is the top of its ladder or not; nothing
/// in a week of test.
pub(super) fn aims(cycle: &Cycle, on_top: bool) -> Vec<Option<Aim>> {
    let mut next = Aim::Middle;
    let aim = |week: &CycleWeek| match week.kind {
        Some(WeekKind::Test | WeekKind::Retest) => None,
        Some(WeekKind::Lighter) => Some(Aim::Bottom),
        Some(WeekKind::Build) | None => {
            let now = next;
            next = now.then(on_top);
            Some(now)
        }
    };
    cycle.weeks.iter().map(aim).collect()
}

/// Where the plan stands from week to week.
struct Standing {
    rung: u32,
    next: Aim,
}

const TEST_WEEK: &str = "test fresh; the rest of the week is on the rung that the result gives";
const RETEST_WEEK: &str = "the same test on the same rung, after 48 hours without hard work; the \
                           result gives the next rung";

fn ladder_week(
    asking: &Asking<'_>,
    ladder: &Ladder,
    (start, standing): (u32, &mut Standing),
) -> Option<LadderWeek> {
    let week = asking.week;
    let tests = matches!(week.kind, Some(WeekKind::Test | WeekKind::Retest));
    let (rung, aim, why) = match week.kind {
        Some(WeekKind::Test) => (start, None, TEST_WEEK.into()),
        Some(WeekKind::Retest) => (start, None, RETEST_WEEK.into()),
        Some(WeekKind::Lighter) => (
            standing.rung,
            Some(Aim::Bottom),
            "same rung, half the sets, well short of hard".into(),
        ),
        Some(WeekKind::Build) | None => build(ladder, standing),
    };
    let way = asking.ways.get(rung as usize - 1)?.as_ref()?;
    let sets = way.sets.unwrap_or(only(1));
    Some(LadderWeek {
        week: week.week,
        kind: week.kind,
        rung,
        key: RungKey::of(ladder.rungs.get(rung as usize - 1)?),
        said: way.said(),
        sets: (!tests).then(|| share(week, sets)),
        aim: aim.and_then(|aim| Some(aim_in(way.amount?, aim))),
        each_side: way.per_side || way.movement.sides == Sides::Each,
        sets_in_week: share(week, asking.sets_in_week),
        why,
    })
}

/// A week of building: the next aim, and the rung it is aimed at.
fn build(ladder: &Ladder, standing: &mut Standing) -> (u32, Option<Aim>, String) {
    let aim = standing.next;
    let on_top = standing.rung >= top(ladder);
    let why = match aim {
        Aim::Bottom => {
            standing.rung += 1;
            "one rung up when the rule was met; if not, the same rung and the top of the range again"
        }
        Aim::Middle => "stay on the rung, the middle of the range in every set",
        Aim::Top if on_top => {
            "the top of the ladder: the top of the range, every set to the standard"
        }
        Aim::Top => "reach the top of the range in every set",
    };
    standing.next = aim.then(on_top);
    (standing.rung, Some(aim), why.to_string())
}

fn aim_in(amount: Amount, aim: Aim) -> Amount {
    let range = count(amount);
    let number = aim.of(range.from, range.to);
    match amount {
        Amount::Reps(_) => Amount::Reps(only(number)),
        Amount::Seconds(_) => Amount::Seconds(only(number)),
        Amount::Metres(_) => Amount::Metres(only(number)),
        Amount::Contacts(_) => Amount::Contacts(only(number)),
    }
}

/// The number of an aim, without what it counts.
pub fn aim_number(aim: Amount) -> u32 {
    count(aim).to
}

/// The ladder's items in a week's sessions, warm-ups left out, with the number of each block.
fn items_of<'g>(
    gym: &'g Gym,
    week: &'g CycleWeek,
    ladder: &'g Ladder,
) -> impl Iterator<Item = (&'g Session, usize, usize, &'g Item)> {
    let sessions = week.sessions.iter().filter_map(|id| gym.library.sessions.get(&id.value));
    sessions.flat_map(move |session| {
        let warm = warm_up_block(session);
        let blocks = session.blocks.iter().enumerate().filter(move |(at, _)| Some(*at) != warm);
        let items = blocks.flat_map(|(block, written)| {
            written.items.iter().enumerate().map(move |(at, item)| (block, at, item))
        });
        let ours = items.filter(
            |(_, _, item)| matches!(&item.work, ItemWork::Ladder(id) if id.value == ladder.id),
        );
        ours.map(move |(block, at, item)| (session, block, at, item))
    })
}

/// How the week's sessions ask for each rung: the item with the most sets, else the ladder's dose.
fn asked<'g>(gym: &'g Gym, week: &'g CycleWeek, ladder: &'g Ladder) -> Vec<Option<Way<'g>>> {
    let mut most: Vec<Option<Way<'g>>> = ladder.rungs.iter().map(|_| None).collect();
    let sets = |way: &Way<'_>| way.sets.map_or(0, |sets| sets.to);
    let items = items_of(gym, week, ladder).filter(|(.., item)| item.dose.is_some());
    for way in items.flat_map(|(.., item)| ways(gym, item)) {
        let Some(place) = way.rung.and_then(|rung| most.get_mut(rung)) else { continue };
        if place.as_ref().is_none_or(|known| sets(&way) > sets(known)) {
            *place = Some(way);
        }
    }
    let asked = most.into_iter().enumerate();
    asked
        .map(|(at, way)| way.or_else(|| super::ways::as_the_ladder_asks(gym, ladder, at)))
        .collect()
}

fn sets_in_week(gym: &Gym, week: &CycleWeek, ladder: &Ladder) -> Count {
    // A block is planned once, however many of its lines are ours.
    let mut planned: Option<(&Block, BlockPlan)> = None;
    let mut sum = only(0);
    for (session, block, at, _) in items_of(gym, week, ladder) {
        let block = &session.blocks[block];
        let (_, plan) = match planned.take() {
            Some((known, plan)) if std::ptr::eq(known, block) => planned.insert((known, plan)),
            _ => planned.insert((block, block_plan(gym, block))),
        };
        sum = plan.items.get(at).map_or(sum, |item| super::band::add(sum, item.sets));
    }
    sum
}
