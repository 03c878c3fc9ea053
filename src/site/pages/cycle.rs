//! The page of a cycle: week by week, and for each ladder and each rung to start from, what to do.
//! Never does the arithmetic: the room `plan` does, and the command that asks it gets the same.

use super::demand::rung_words;
use super::frame::{Frame, Link, Maker, SourceLink};
use super::standing::setting_words;
use super::weeks::{SetsDrawn, sets_drawn, stair_drawn};
use crate::finding::capital;
use crate::gym::Gym;
use crate::gym::scale::{Reading, Unknown};
use crate::library::{Cycle, Ladder, LadderId, WeekKind};
use crate::plan::{self, LadderPlan, LadderWeek, Reminder, WeekBalance};
use crate::site::routes::To;
use serde::Serialize;
use std::collections::BTreeMap;

/// The context of `cycle.html`.
#[derive(Debug, Serialize)]
pub struct CyclePage {
    page: Frame,
    name: String,
    about: Option<String>,
    focus: Vec<Link>,
    first_day: Option<String>,
    calendar: Option<CalendarLink>,
    weeks: Vec<WeekRow>,
    sets: SetsDrawn,
    ladders: Vec<LadderRow>,
    sources: Vec<SourceLink>,
}

/// The cycle's calendar, silent and with reminders: its files, and their whole addresses where the
/// club has one.
#[derive(Debug, Serialize)]
struct CalendarLink {
    file: String,
    address: Option<String>,
    reminding: String,
    reminding_address: Option<String>,
}

/// A week with its sessions and sets.
#[derive(Debug, Serialize)]
pub struct WeekRow {
    number: u32,
    kind: Option<&'static str>,
    sessions: Vec<SessionDay>,
    note: Option<String>,
    /// Sets of the week: `99-105`.
    all: String,
    pushing: String,
    pulling: String,
}

/// A session on its day.
#[derive(Debug, Serialize)]
struct SessionDay {
    /// `Tuesday`, where the cycle names its days.
    weekday: Option<String>,
    /// `5 January`, where the cycle says when it starts.
    date: Option<String>,
    session: Link,
}

/// A focus ladder with a plan for each rung to start from.
#[derive(Debug, Serialize)]
struct LadderRow {
    id: String,
    ladder: Link,
    moves_up: Option<String>,
    moves_down: Option<String>,
    stops: Option<String>,
    /// The rung that the plan starts from when nobody says another.
    usual: u32,
    starts: Vec<StartRow>,
}

/// The plan of a ladder from one rung.
#[derive(Debug, Serialize)]
struct StartRow {
    rung: u32,
    said: String,
    drawn: Option<String>,
    weeks: Vec<LadderWeekRow>,
}

/// One week of a ladder.
#[derive(Debug, Serialize)]
struct LadderWeekRow {
    number: u32,
    kind: Option<&'static str>,
    rung: u32,
    movement: Link,
    setting: String,
    /// What the rung asks, where there is a number.
    demand: Option<String>,
    /// `4 sets of 8`.
    dose: String,
    /// Sets of the ladder in the whole week.
    sets_in_week: String,
    why: String,
}

/// The page of `cycle`.
pub fn cycle_page(gym: &Gym, cycle: &Cycle) -> CyclePage {
    let maker = Maker::new(gym, &To::Cycle(&cycle.id));
    let description = cycle
        .about
        .clone()
        .unwrap_or_else(|| format!("{}: {} weeks.", cycle.name.value, cycle.weeks.len()));
    let usual = plan::starting_rungs(gym, cycle, &[]).unwrap_or_default();
    let balance = plan::cycle_plan(gym, cycle, &usual).balance;
    let ladders = cycle.focus.iter().filter_map(|id| gym.library.ladders.get(&id.value));
    let ladders = ladders.filter(|ladder| !ladder.rungs.is_empty());
    CyclePage {
        page: maker.frame(cycle.name.value.clone(), description).telling_to_move().with_feed(),
        name: cycle.name.value.clone(),
        about: cycle.about.clone(),
        focus: cycle.focus.iter().map(|id| maker.ladder(&id.value)).collect(),
        first_day: first_date(cycle),
        calendar: calendar_link(&maker, cycle),
        weeks: week_rows(&maker, cycle, &balance),
        sets: sets_drawn(gym, &balance),
        ladders: ladders.map(|ladder| ladder_row(&maker, cycle, ladder, &usual)).collect(),
        sources: maker.sources(cycle.sources.iter().map(|id| &id.value)),
    }
}

/// The day of the first session in words.
fn first_date(cycle: &Cycle) -> Option<String> {
    let dates = plan::training_dates(cycle, plan::first_day(cycle)?);
    dates.first().map(|(_, _, day, _)| day.in_words())
}

fn calendar_link(maker: &Maker<'_>, cycle: &Cycle) -> Option<CalendarLink> {
    plan::first_day(cycle)?;
    let to = To::Calendar(&cycle.id, Reminder::Silent);
    let reminding = To::Calendar(&cycle.id, Reminder::Morning);
    let club = maker.gym.library.club.address.as_ref();
    let whole = |to: &To<'_>| club.map(|address| format!("{address}{}", to.file()));
    let (address, reminding_address) = (whole(&to), whole(&reminding));
    let (file, reminding) = (maker.links.to(&to), maker.links.to(&reminding));
    Some(CalendarLink { file, address, reminding, reminding_address })
}

/// Every week of a cycle with its sessions on their days, and its sets.
pub fn week_rows(maker: &Maker<'_>, cycle: &Cycle, balance: &[WeekBalance]) -> Vec<WeekRow> {
    let mut days = session_days(maker, cycle);
    let row = |(at, week): (usize, &crate::library::CycleWeek)| {
        let sets = balance.get(at);
        let said = |of: fn(&WeekBalance) -> crate::library::Count| {
            sets.map_or(String::new(), |sets| of(sets).to_string())
        };
        WeekRow {
            number: week.week,
            kind: week.kind.map(WeekKind::word),
            sessions: days.drain(..week.sessions.len().min(days.len())).collect(),
            note: week.note.clone(),
            all: said(|sets| sets.all),
            pushing: said(|sets| sets.pushing),
            pulling: said(|sets| sets.pulling),
        }
    };
    cycle.weeks.iter().enumerate().map(row).collect()
}

/// The sessions of all weeks, one after the other.
fn session_days(maker: &Maker<'_>, cycle: &Cycle) -> Vec<SessionDay> {
    let first = plan::first_day(cycle);
    let dates = first.map(|first| plan::training_dates(cycle, first)).unwrap_or_default();
    let days = plan::training_days(cycle).into_iter().enumerate();
    let row = |(at, (_, place, _, id)): (usize, (u32, usize, i64, &crate::library::SessionId))| {
        let date = dates.get(at).map(|(_, _, day, _)| *day);
        let named = cycle.days.get(place).map(|day| capital(&day.value));
        let known = maker.gym.library.sessions.get(id);
        let name = known.map_or(id.to_string(), |session| session.name.value.clone());
        SessionDay {
            weekday: date.map(|day| capital(day.weekday_word())).or(named),
            date: date.map(plan::Day::without_year),
            session: maker.link(name, &To::Session(id)),
        }
    };
    days.map(row).collect()
}

fn ladder_row(
    maker: &Maker<'_>,
    cycle: &Cycle,
    ladder: &Ladder,
    usual: &BTreeMap<LadderId, u32>,
) -> LadderRow {
    let plans = plan::from_every_rung(maker.gym, cycle, ladder);
    let readings = maker.gym.readings(ladder);
    LadderRow {
        id: ladder.id.to_string(),
        ladder: maker.ladder(&ladder.id),
        moves_up: ladder.moves_up.as_ref().map(|rule| rule.value.clone()),
        moves_down: ladder.moves_down.clone(),
        stops: ladder.test.as_ref().and_then(|test| test.stop.clone()),
        usual: usual.get(&ladder.id).copied().unwrap_or(1),
        starts: (1..)
            .zip(&plans)
            .filter_map(|(rung, planned)| start_row(maker, ladder, &readings, (rung, planned)))
            .collect(),
    }
}

fn start_row(
    maker: &Maker<'_>,
    ladder: &Ladder,
    readings: &[Result<Reading, Unknown>],
    (rung, planned): (u32, &LadderPlan),
) -> Option<StartRow> {
    let written = ladder.rungs.get(rung as usize - 1)?;
    let setting = setting_words(written);
    let name = maker.movement(&written.movement.value).text;
    let week = |week: &LadderWeek| {
        let rung = ladder.rungs.get(week.rung as usize - 1);
        let reading = readings.get(week.rung as usize - 1);
        LadderWeekRow {
            number: week.week,
            kind: week.kind.map(WeekKind::word),
            rung: week.rung,
            movement: maker.movement(&week.key.movement),
            setting: rung.map_or(String::new(), setting_words),
            demand: reading.filter(|reading| reading.is_ok()).map(rung_words),
            dose: plan::week_dose(week),
            sets_in_week: week.sets_in_week.to_string(),
            why: week.why.clone(),
        }
    };
    Some(StartRow {
        rung,
        said: if setting.is_empty() { name } else { format!("{name}, {setting}") },
        drawn: stair_drawn(maker.gym, ladder, planned, rung),
        weeks: planned.weeks.iter().map(week).collect(),
    })
}
