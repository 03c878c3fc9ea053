//! The pages of sessions and cycles: blocks in order, three rungs an item, weeks.
//! Never does their arithmetic; the room `plan` does.

use super::block::{BlockRow, block_row, clock_words};
use super::frame::{Frame, Link, Maker, SourceLink};
use crate::gym::Gym;
use crate::library::{Cycle, CycleWeek, Session, WeekKind};
use crate::plan::{Band, BlockPlan, SessionPlan, session_plan};
use crate::site::routes::To;
use serde::Serialize;

/// The context of `session.html`.
#[derive(Debug, Serialize)]
pub struct SessionPage {
    page: Frame,
    name: String,
    about: Option<String>,
    focus: Option<Link>,
    id: String,
    length: Option<String>,
    time: TimeRow,
    blocks: Vec<BlockRow>,
    cycles: Vec<Link>,
    sources: Vec<SourceLink>,
}

/// The arithmetic of a whole session, in words.
#[derive(Debug, Serialize)]
struct TimeRow {
    total: String,
    work: String,
    rest: String,
    between: String,
    /// Whether even the most that it takes is inside its length; nothing where it has no length.
    fits: Option<bool>,
    /// Work sets by pattern.
    sets: Vec<SetsRow>,
}

#[derive(Debug, Serialize)]
struct SetsRow {
    pattern: Link,
    count: String,
}

/// The context of `sessions.html`.
#[derive(Debug, Serialize)]
pub struct SessionsPage {
    page: Frame,
    cycles: Vec<CycleRow>,
    sessions: Vec<SessionRow>,
}

#[derive(Debug, Serialize)]
struct CycleRow {
    link: Link,
    about: Option<String>,
    weeks: usize,
}

#[derive(Debug, Serialize)]
struct SessionRow {
    link: Link,
    about: Option<String>,
    length: Option<String>,
}

/// The context of `cycle.html`.
#[derive(Debug, Serialize)]
pub struct CyclePage {
    page: Frame,
    name: String,
    about: Option<String>,
    focus: Vec<Link>,
    days: Vec<String>,
    weeks: Vec<WeekRow>,
    sources: Vec<SourceLink>,
}

#[derive(Debug, Serialize)]
struct WeekRow {
    number: u32,
    kind: Option<&'static str>,
    sessions: Vec<Link>,
    note: Option<String>,
}

/// The page of `session`.
pub fn session_page(gym: &Gym, session: &Session) -> SessionPage {
    let maker = Maker::new(gym, &To::Session(&session.id));
    let description = session
        .about
        .clone()
        .unwrap_or_else(|| format!("{}: its blocks in order.", session.name.value));
    let holds = |cycle: &&Cycle| {
        let mut weeks = cycle.weeks.iter();
        weeks.any(|week| week.sessions.iter().any(|id| id.value == session.id))
    };
    let cycles = gym.library.cycles.values().filter(holds);
    let plan = session_plan(gym, session);
    SessionPage {
        page: maker.frame(session.name.value.clone(), description).telling_to_move(),
        name: session.name.value.clone(),
        about: session.about.clone(),
        focus: session.focus.as_ref().map(|id| maker.pattern(&id.value)),
        id: session.id.to_string(),
        length: session.length.map(clock_words),
        time: time_row(&maker, &plan),
        blocks: block_rows(&maker, session, &plan),
        cycles: cycles.map(|c| maker.link(c.name.value.clone(), &To::Cycle(&c.id))).collect(),
        sources: maker.sources(session.sources.iter().map(|id| &id.value)),
    }
}

fn block_rows(maker: &Maker<'_>, session: &Session, plan: &SessionPlan) -> Vec<BlockRow> {
    let blocks = plan.blocks.iter().enumerate();
    blocks.map(|(at, plan)| block_row(maker, session, at, plan)).collect()
}

fn time_row(maker: &Maker<'_>, plan: &SessionPlan) -> TimeRow {
    let sum = |of: fn(&BlockPlan) -> Band| Band::sum(plan.blocks.iter().map(of)).to_string();
    let sets = plan
        .sets
        .iter()
        .map(|(id, count)| SetsRow { pattern: maker.pattern(id), count: count.to_string() });
    TimeRow {
        total: plan.total.to_string(),
        work: sum(|block| block.work),
        rest: sum(|block| block.rest),
        between: plan.between.to_string(),
        fits: plan.length.map(|_| plan.fits),
        sets: sets.collect(),
    }
}

/// A session for the coach in class, block by block.
#[derive(Serialize)]
struct Steps {
    id: String,
    name: String,
    page: String,
    blocks: Vec<BlockRow>,
}

/// The file of a session's blocks below the site's folder.
pub fn steps_file(id: &crate::library::SessionId) -> String {
    format!("cards/session-{id}.js")
}

/// The blocks of `session` as a script that hands them to `rungbookSession`; links start at the
/// site's folder, as on the floor.
pub fn steps(gym: &Gym, session: &Session) -> String {
    let maker = Maker::new(gym, &To::Floor);
    let steps = Steps {
        id: session.id.to_string(),
        name: session.name.value.clone(),
        page: maker.links.to(&To::Session(&session.id)),
        blocks: block_rows(&maker, session, &session_plan(gym, session)),
    };
    // Strings, numbers and lists of them always serialise.
    format!("rungbookSession({});\n", serde_json::to_string(&steps).unwrap_or_default())
}

/// The list of sessions and cycles.
pub fn sessions_page(gym: &Gym) -> SessionsPage {
    let maker = Maker::new(gym, &To::Sessions);
    let library = &gym.library;
    SessionsPage {
        page: maker.frame("Sessions", "Sessions and the cycles they belong to.").telling_to_move(),
        cycles: library
            .cycles
            .values()
            .map(|cycle| CycleRow {
                link: maker.link(cycle.name.value.clone(), &To::Cycle(&cycle.id)),
                about: cycle.about.clone(),
                weeks: cycle.weeks.len(),
            })
            .collect(),
        sessions: library
            .sessions
            .values()
            .map(|session| SessionRow {
                link: maker.link(session.name.value.clone(), &To::Session(&session.id)),
                about: session.about.clone(),
                length: session.length.map(clock_words),
            })
            .collect(),
    }
}

/// The page of `cycle`.
pub fn cycle_page(gym: &Gym, cycle: &Cycle) -> CyclePage {
    let maker = Maker::new(gym, &To::Cycle(&cycle.id));
    let description = cycle
        .about
        .clone()
        .unwrap_or_else(|| format!("{}: {} weeks.", cycle.name.value, cycle.weeks.len()));
    CyclePage {
        page: maker.frame(cycle.name.value.clone(), description).telling_to_move(),
        name: cycle.name.value.clone(),
        about: cycle.about.clone(),
        focus: cycle.focus.iter().map(|id| maker.ladder(&id.value)).collect(),
        days: cycle.days.iter().map(|day| day.value.clone()).collect(),
        weeks: cycle.weeks.iter().map(|week| week_row(&maker, week)).collect(),
        sources: maker.sources(cycle.sources.iter().map(|id| &id.value)),
    }
}

fn week_row(maker: &Maker<'_>, week: &CycleWeek) -> WeekRow {
    let session = |id: &crate::finding::Placed<crate::library::SessionId>| {
        let known = maker.gym.library.sessions.get(&id.value);
        let name = known.map_or(id.value.to_string(), |session| session.name.value.clone());
        maker.link(name, &To::Session(&id.value))
    };
    WeekRow {
        number: week.week,
        kind: week.kind.map(WeekKind::word),
        sessions: week.sessions.iter().map(session).collect(),
        note: week.note.clone(),
    }
}
