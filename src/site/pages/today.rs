//! The page of today: every day of every cycle, and the hour of every session as a timetable.
//! Never the clock: the page's script picks the day, so that the same content gives the same bytes.

use super::block::BlockRow;
use super::frame::{Frame, Link, Maker};
use super::session::block_rows;
use crate::finding::capital;
use crate::gym::Gym;
use crate::library::{Cycle, CycleWeek, Session, SessionId, WeekKind};
use crate::plan::{self, BlockPlan, Day, session_plan};
use crate::site::routes::To;
use serde::Serialize;

/// Height of a minute in the drawn hour.
const PX_A_MINUTE: u32 = 5;
/// Figures that a block has room for.
const MOST_FIGURES: usize = 2;

/// The context of `today.html`.
#[derive(Debug, Serialize)]
pub struct TodayPage {
    page: Frame,
    cycles: Vec<CycleRow>,
    hours: Vec<HourRow>,
    kit_and_limits: String,
    sessions: String,
}

/// A cycle with its days; no dates where it does not say when it starts.
#[derive(Debug, Serialize)]
struct CycleRow {
    id: String,
    link: Link,
    weeks: Vec<WeekRow>,
}

#[derive(Debug, Serialize)]
struct WeekRow {
    number: u32,
    kind: Option<&'static str>,
    note: Option<String>,
    days: Vec<DayRow>,
}

#[derive(Debug, Serialize)]
struct DayRow {
    /// `2027-01-05`, where the cycle says when it starts.
    day: Option<String>,
    /// `Tuesday 5 January`, or the weekday alone.
    words: String,
    session: Link,
    id: String,
}

/// A session as an hour: its blocks with the time from the start.
#[derive(Debug, Serialize)]
struct HourRow {
    id: String,
    link: Link,
    length: Option<String>,
    lasts_s: u32,
    blocks: Vec<HourBlock>,
}

#[derive(Debug, Serialize)]
struct HourBlock {
    /// Minutes and seconds from the start.
    at: String,
    /// Its height in the drawn hour, px.
    height: u32,
    figures: Vec<Figure>,
    block: BlockRow,
}

#[derive(Debug, Serialize, PartialEq, Eq)]
struct Figure {
    file: String,
}

/// What happens today.
pub fn today_page(gym: &Gym) -> TodayPage {
    let maker = Maker::new(gym, &To::Today);
    let description = "What is on today: one Start, one clock for the whole session.";
    let library = &gym.library;
    TodayPage {
        page: maker.frame("Today", description).telling_to_move().with_feed(),
        cycles: library.cycles.values().map(|cycle| cycle_row(&maker, cycle)).collect(),
        hours: library.sessions.values().map(|session| hour(&maker, session)).collect(),
        kit_and_limits: maker.links.to(&To::Picker),
        sessions: maker.links.to(&To::Sessions),
    }
}

fn cycle_row(maker: &Maker<'_>, cycle: &Cycle) -> CycleRow {
    let first = plan::first_day(cycle);
    let dates = first.map(|first| plan::training_dates(cycle, first)).unwrap_or_default();
    let of_week = |week: &CycleWeek| {
        let days = week.sessions.iter().enumerate();
        let row = |(place, id): (usize, &crate::finding::Placed<SessionId>)| {
            let date = dates.iter().find(|(at, nth, ..)| *at == week.week && *nth == place);
            let named = cycle.days.get(place).map(|day| capital(&day.value));
            day_row(maker, &id.value, (date.map(|(_, _, day, _)| *day), named))
        };
        WeekRow {
            number: week.week,
            kind: week.kind.map(WeekKind::word),
            note: week.note.clone(),
            days: days.map(row).collect(),
        }
    };
    CycleRow {
        id: cycle.id.to_string(),
        link: maker.link(cycle.name.value.clone(), &To::Cycle(&cycle.id)),
        weeks: cycle.weeks.iter().map(of_week).collect(),
    }
}

fn day_row(maker: &Maker<'_>, id: &SessionId, when: (Option<Day>, Option<String>)) -> DayRow {
    let (date, named) = when;
    let known = maker.gym.library.sessions.get(id);
    let name = known.map_or(id.to_string(), |session| session.name.value.clone());
    let words =
        date.map(|day| format!("{} {}", capital(day.weekday_word()), day.without_year())).or(named);
    DayRow {
        day: date.map(|day| day.to_string()),
        words: words.unwrap_or_default(),
        session: maker.link(name, &To::Session(id)),
        id: id.to_string(),
    }
}

/// Blocks one after the other, each at its longest as the clock counts it, with the rigging between.
fn hour(maker: &Maker<'_>, session: &Session) -> HourRow {
    let plan = session_plan(maker.gym, session);
    let times = plan::in_turn(plan.blocks.iter().map(BlockPlan::lasts_s));
    let mut blocks = Vec::new();
    let rows = session.blocks.iter().zip(block_rows(maker, session, &plan));
    for ((written, block), (at_s, to_s)) in rows.zip(&times) {
        blocks.push(HourBlock {
            at: plan::clock(*at_s),
            height: (to_s - at_s) * PX_A_MINUTE / 60,
            figures: figures(maker, written),
            block,
        });
    }
    HourRow {
        id: session.id.to_string(),
        link: maker.link(session.name.value.clone(), &To::Session(&session.id)),
        length: session.length.map(plan::clock_words),
        lasts_s: times.last().map_or(0, |(_, to_s)| *to_s),
        blocks,
    }
}

/// What the first lines look like: of a ladder or of options, the middle one.
fn figures(maker: &Maker<'_>, block: &crate::library::Block) -> Vec<Figure> {
    let gym = maker.gym;
    let drawn = |item: &crate::library::Item| {
        let ways = plan::ways(gym, item);
        let movement = ways.get(ways.len() / 2).map(|way| way.movement)?;
        gym.posed.get(&movement.id)?.figure.as_ref()?;
        Some(Figure { file: maker.links.to_file(&super::figure_file(&movement.id)) })
    };
    let mut found: Vec<Figure> = Vec::new();
    for figure in block.items.iter().filter_map(drawn) {
        if !found.contains(&figure) && found.len() < MOST_FIGURES {
            found.push(figure);
        }
    }
    found
}
