//! The page of a session: blocks in order, three rungs an item, its arithmetic.
//! Never does the arithmetic; the room `plan` does.

use super::block::{BlockRow, USUAL_PEOPLE, block_row};
use super::frame::{Frame, Link, Maker, SourceLink};
use crate::gym::Gym;
use crate::library::{Cycle, CycleWeek, Session};
use crate::plan::{self, Band, BlockPlan, SessionPlan, pace, session_plan};
use crate::site::routes::To;
use serde::Serialize;
use std::collections::BTreeMap;

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
    /// The weeks of dated cycles that have it; the page's script shows the one that is on.
    weeks: Vec<WeekLink>,
    /// What of it hangs on the wall.
    wall: String,
    sources: Vec<SourceLink>,
}

/// A week that has the session, and the days on which it is that week.
#[derive(Debug, Serialize)]
struct WeekLink {
    cycle: String,
    name: String,
    number: u32,
    from: String,
    to: String,
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
        page: maker.frame(session.name.value.clone(), description).telling_to_move().with_feed(),
        name: session.name.value.clone(),
        about: session.about.clone(),
        focus: session.focus.as_ref().map(|id| maker.pattern(&id.value)),
        id: session.id.to_string(),
        length: session.length.map(plan::clock_words),
        time: time_row(&maker, &plan),
        blocks: block_rows(&maker, session, &plan),
        cycles: cycles.map(|c| maker.link(c.name.value.clone(), &To::Cycle(&c.id))).collect(),
        weeks: all_weeks(gym, session),
        wall: maker.links.to(&To::Poster(&session.id)),
        sources: maker.sources(session.sources.iter().map(|id| &id.value)),
    }
}

fn all_weeks(gym: &Gym, session: &Session) -> Vec<WeekLink> {
    gym.library.cycles.values().flat_map(|cycle| weeks(cycle, session)).collect()
}

fn weeks(cycle: &Cycle, session: &Session) -> Vec<WeekLink> {
    let link = |(week, from, to): (&CycleWeek, plan::Day, plan::Day)| WeekLink {
        cycle: cycle.id.to_string(),
        name: cycle.name.value.clone(),
        number: week.week,
        from: from.to_string(),
        to: to.to_string(),
    };
    plan::weeks_with(cycle, &session.id).into_iter().map(link).collect()
}

/// The blocks of a session in order.
pub fn block_rows(maker: &Maker<'_>, session: &Session, plan: &SessionPlan) -> Vec<BlockRow> {
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
    /// The length that the coach gave it, in seconds.
    length_s: Option<u32>,
    /// Seconds to clear one block away and rig the next, at the most.
    rig_s: u32,
    /// People in a class where nobody says.
    people: u32,
    /// Kit in the hall and how many of each.
    hall: BTreeMap<String, u32>,
    blocks: Vec<BlockRow>,
    /// The weeks of dated cycles that have it.
    weeks: Vec<WeekLink>,
}

/// The file of a session's blocks below the site's folder.
pub fn steps_file(id: &crate::library::SessionId) -> String {
    format!("cards/sessions/{id}.js")
}

/// The blocks of `session` as a script that hands them to `rungbookSession`; links start at the
/// site's folder, as on the floor.
pub fn steps(gym: &Gym, session: &Session) -> String {
    let maker = Maker::new(gym, &To::Floor);
    let plan = session_plan(gym, session);
    let hall = gym.library.club.hall_kit.iter();
    let steps = Steps {
        id: session.id.to_string(),
        name: session.name.value.clone(),
        page: maker.links.to(&To::Session(&session.id)),
        length_s: plan.length,
        rig_s: pace::RE_RIG_S.most,
        people: USUAL_PEOPLE,
        hall: hall.map(|(id, count)| (id.value.to_string(), *count)).collect(),
        blocks: block_rows(&maker, session, &plan),
        weeks: all_weeks(gym, session),
    };
    // Strings, numbers and lists of them always serialise.
    format!("rungbookSession({});\n", serde_json::to_string(&steps).unwrap_or_default())
}
