//! The list of sessions, and the cycles with which session is on which day.
//! Never plans: the room `plan` counted the sets.

use super::cycle::{WeekRow, week_rows};
use super::frame::{Frame, Link, Maker};
use crate::gym::Gym;
use crate::library::Cycle;
use crate::plan;
use crate::site::routes::To;
use serde::Serialize;

/// The context of `sessions.html`.
#[derive(Debug, Serialize)]
pub struct SessionsPage {
    page: Frame,
    feed: String,
    cycles: Vec<CycleRow>,
    sessions: Vec<SessionRow>,
}

#[derive(Debug, Serialize)]
struct CycleRow {
    link: Link,
    about: Option<String>,
    weeks: Vec<WeekRow>,
}

#[derive(Debug, Serialize)]
struct SessionRow {
    link: Link,
    about: Option<String>,
    length: Option<String>,
}

/// The list of sessions and cycles.
pub fn sessions_page(gym: &Gym) -> SessionsPage {
    let maker = Maker::new(gym, &To::Sessions);
    let library = &gym.library;
    let frame = maker.frame("Sessions", "Sessions and the cycles they belong to.");
    SessionsPage {
        page: frame.telling_to_move().with_feed(),
        feed: maker.links.to(&To::Feed),
        cycles: library.cycles.values().map(|cycle| cycle_row(&maker, cycle)).collect(),
        sessions: library
            .sessions
            .values()
            .map(|session| SessionRow {
                link: maker.link(session.name.value.clone(), &To::Session(&session.id)),
                about: session.about.clone(),
                length: session.length.map(plan::clock_words),
            })
            .collect(),
    }
}

fn cycle_row(maker: &Maker<'_>, cycle: &Cycle) -> CycleRow {
    let weeks = cycle.weeks.iter();
    let balance: Vec<_> =
        weeks.filter_map(|week| plan::week_balance(maker.gym, cycle, week.week)).collect();
    CycleRow {
        link: maker.link(cycle.name.value.clone(), &To::Cycle(&cycle.id)),
        about: cycle.about.clone(),
        weeks: week_rows(maker, cycle, &balance),
    }
}
