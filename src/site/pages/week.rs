//! The weeks of a cycle for the scripts: what of each session differs from how it is written.
//! Never says a thing twice: a week that asks what the session asks is empty.

use super::block::BlockRow;
use super::frame::Maker;
use super::session::block_rows;
use crate::gym::Gym;
use crate::library::{Cycle, CycleId, CycleWeek, Session};
use crate::plan::{in_week, session_plan, warm_up_block};
use crate::site::routes::To;
use serde::Serialize;
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// A block from 0, a line of it from 0 or nothing for the block itself, and what takes the place of
/// its fields.
#[derive(Serialize)]
struct Instead(usize, Option<usize>, Map<String, Value>);

#[derive(Serialize)]
struct Weeks {
    id: String,
    /// By week, then by session.
    weeks: BTreeMap<u32, BTreeMap<String, Vec<Instead>>>,
}

/// The file of a cycle's weeks below the site's folder.
pub fn weeks_file(id: &CycleId) -> String {
    format!("data/weeks-{id}.js")
}

/// The weeks of `cycle` as a script that hands them to `rungbookWeeks`.
pub fn weeks_data(gym: &Gym, cycle: &Cycle) -> String {
    let weeks = cycle.weeks.iter().map(|week| (week.week, of_week(gym, cycle, week))).collect();
    let weeks = Weeks { id: cycle.id.to_string(), weeks };
    // Strings, numbers and lists of them always serialise.
    format!("rungbookWeeks({});\n", serde_json::to_string(&weeks).unwrap_or_default())
}

fn of_week(gym: &Gym, cycle: &Cycle, week: &CycleWeek) -> BTreeMap<String, Vec<Instead>> {
    let sessions = week.sessions.iter().filter_map(|id| gym.library.sessions.get(&id.value));
    let changed = sessions.map(|session| {
        let (written, asked) = (rows(gym, session), asked_rows(gym, cycle, week, session));
        (session.id.to_string(), differences(&written, &asked))
    });
    changed.filter(|(_, instead)| !instead.is_empty()).collect()
}

fn rows(gym: &Gym, session: &Session) -> Vec<BlockRow> {
    block_rows(&Maker::new(gym, &To::Floor), session, &session_plan(gym, session))
}

/// The blocks as the week asks for them.
pub fn asked_rows(gym: &Gym, cycle: &Cycle, week: &CycleWeek, session: &Session) -> Vec<BlockRow> {
    let asked = in_week((cycle, week), session);
    let mut blocks = rows(gym, &asked);
    let warm = warm_up_block(session);
    let work = blocks.iter_mut().enumerate().filter(|(at, _)| Some(*at) != warm);
    work.for_each(|(_, block)| block.aimed(gym, cycle, week.week));
    blocks
}

fn differences(written: &[BlockRow], asked: &[BlockRow]) -> Vec<Instead> {
    let mut found = Vec::new();
    for (at, (written, asked)) in written.iter().zip(asked).enumerate() {
        let (mut written, mut asked) = (fields(written), fields(asked));
        let items = (written.remove("items"), asked.remove("items"));
        found.extend(difference(at, None, &written, asked));
        let (Some(Value::Array(written)), Some(Value::Array(asked))) = items else { continue };
        for (line, pair) in written.into_iter().zip(asked).enumerate() {
            let (Value::Object(written), Value::Object(asked)) = pair else { continue };
            found.extend(difference(at, Some(line), &written, asked));
        }
    }
    found
}

fn fields(block: &BlockRow) -> Map<String, Value> {
    match serde_json::to_value(block) {
        Ok(Value::Object(fields)) => fields,
        _ => Map::new(),
    }
}

fn difference(
    at: usize,
    line: Option<usize>,
    written: &Map<String, Value>,
    asked: Map<String, Value>,
) -> Option<Instead> {
    let other: Map<String, Value> =
        asked.into_iter().filter(|(key, value)| written.get(key) != Some(value)).collect();
    (!other.is_empty()).then_some(Instead(at, line, other))
}
