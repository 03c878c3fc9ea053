//! Ladders as data for the scripts that place a member: doses, demands, needs, one small file each.
//! Never places anyone; the room `placing` and its script do, by the same tables.

use super::Maker;
use super::card::Work;
use super::needs::Needs;
use super::standing::{RungRow, setting_words};
use crate::gym::Gym;
use crate::gym::heights::{Ends, HeightTable, STATURES};
use crate::gym::scale::{Reading, Unknown};
use crate::library::{End, Ladder, LadderId, Movement, Quantity, Rung, Unit};
use crate::placing::{RungDemand, Sheet, demands_of, rung_table, share_table, tables};
use crate::site::routes::To;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Where the numbers and sentences of placing stand below the site's folder.
pub const PLACING_FILE: &str = "data/placing.js";

#[derive(Serialize)]
struct Data<'g> {
    id: &'g str,
    name: &'g str,
    page: String,
    goal: Option<&'g str>,
    sheet: Sheet,
    test: Option<Test<'g>>,
    tables: BTreeMap<&'g str, Table<'g>>,
    rungs: Vec<RungData<'g>>,
}

#[derive(Serialize)]
struct Test<'g> {
    rung: u32,
    count: Option<&'g str>,
    stop: Option<&'g str>,
}

/// What a movement asks at each height, as `height.js` reads it: per cent of body weight.
#[derive(Serialize)]
struct Table<'g> {
    setting: &'g str,
    unit: &'static str,
    values: &'g [f64],
    statures: [f64; 3],
    demands: &'g [Vec<f64>],
    bands: &'g [Vec<f64>],
    #[serde(skip_serializing_if = "Option::is_none")]
    ends: Option<&'g Ends>,
    rungs: [f64; 0],
    /// Traits at each height, where a height is in cm.
    #[serde(skip_serializing_if = "Option::is_none")]
    levels: Option<Levels>,
}

/// What a movement has of each trait by its height. Between two ends, and at each, stands one text of
/// `name:level` words: below the first end, at it, between it and the second, and so on.
#[derive(Serialize)]
struct Levels {
    ends: Vec<f64>,
    traits: Vec<String>,
}

#[derive(Serialize)]
struct RungData<'g> {
    movement: &'g str,
    name: &'g str,
    setting: String,
    settings: BTreeMap<&'g str, f64>,
    at_hand: Option<String>,
    object: String,
    page: String,
    needs: Needs,
    work: Work,
    cue: Option<&'g str>,
    standard: Option<&'g str>,
    sides: &'static str,
    demand: Option<RungDemand>,
    /// True where the rung writes a setting otherwise than its movement's table was solved with.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    off_table: bool,
    axis: Option<AxisValue>,
}

/// A rung on the ladder's axis.
#[derive(Serialize)]
struct AxisValue {
    value: f64,
    band: f64,
    shown: String,
}

/// The file of a ladder's data below the site's folder.
pub fn ladder_file(id: &LadderId) -> String {
    format!("cards/ladders/{id}.js")
}

/// The data of `ladder` as a script that hands it to `rungbookLadder`; links start at the site's
/// folder.
pub fn ladder_data(gym: &Gym, ladder: &Ladder) -> String {
    let maker = Maker::new(gym, &To::Floor);
    let demands = demands_of(gym, ladder, None);
    let known = demands.into_iter().zip(gym.readings(ladder)).enumerate();
    let rung = |(at, known)| rung(&maker, (ladder, at), known);
    let data = Data {
        id: ladder.id.as_str(),
        name: &ladder.name.value,
        page: To::Ladder(&ladder.id).file(),
        goal: ladder.goal.as_ref().map(|goal| goal.value.as_str()),
        sheet: Sheet::of(ladder),
        test: ladder.test.as_ref().map(|test| Test {
            rung: test.rung.value,
            count: test.count.as_deref(),
            stop: test.stop.as_deref(),
        }),
        tables: height_tables(gym, ladder),
        rungs: known.filter_map(rung).collect(),
    };
    // Strings, numbers and lists of them always serialise.
    format!("rungbookLadder({});\n", serde_json::to_string(&data).unwrap_or_default())
}

/// The numbers and sentences of placing as a script.
pub fn placing_data() -> String {
    format!("window.rungbookPlacingTables={};\n", tables())
}

fn height_tables<'g>(gym: &'g Gym, ladder: &'g Ladder) -> BTreeMap<&'g str, Table<'g>> {
    let movements = ladder.rungs.iter().map(|rung| &rung.movement.value);
    let table = |id: &'g crate::library::MovementId| {
        let movement = gym.library.movements.get(id)?;
        let table = share_table(gym, movement)?;
        Some((id.as_str(), as_data(gym, movement, table)))
    };
    movements.filter_map(table).collect()
}

fn as_data<'g>(gym: &Gym, movement: &Movement, table: &'g HeightTable) -> Table<'g> {
    Table {
        setting: &table.setting,
        unit: table.unit.symbol(),
        values: &table.values,
        statures: STATURES,
        demands: &table.demands,
        bands: &table.bands,
        ends: table.ends.as_ref(),
        rungs: [],
        levels: (table.unit == Unit::Centimetre).then(|| levels(gym, movement, &table.setting)),
    }
}

fn levels(gym: &Gym, movement: &Movement, setting: &str) -> Levels {
    let said = movement.traits.iter().flatten().flat_map(|of| &of.levels);
    let ends = said.flat_map(|at| &at.ends).filter(|(name, _)| name.value.as_str() == setting);
    let ends: BTreeSet<Quantity> = ends.map(|(_, End::UpTo(q) | End::From(q))| *q).collect();
    let ends: Vec<Quantity> = ends.into_iter().collect();
    let at = |micro: i64| {
        let value = Quantity { micro, unit: Unit::Centimetre };
        Needs::at(gym, movement, &[(setting, value)]).traits
    };
    let mut traits: Vec<String> =
        ends.iter().flat_map(|end| [at(end.micro - 1), at(end.micro)]).collect();
    traits.push(at(ends.last().map_or(0, |end| end.micro + 1)));
    Levels { ends: ends.iter().map(|end| end.number()).collect(), traits }
}

fn rung<'g>(
    maker: &Maker<'g>,
    (ladder, at): (&'g Ladder, usize),
    (demand, known): (Option<RungDemand>, Result<Reading, Unknown>),
) -> Option<RungData<'g>> {
    let written: &Rung = ladder.rungs.get(at)?;
    let movement: &Movement = maker.gym.library.movements.get(&written.movement.value)?;
    let row: RungRow = maker.rung_row(ladder, at)?;
    let settings = written.settings.iter();
    Some(RungData {
        movement: movement.id.as_str(),
        name: &movement.name.value,
        setting: setting_words(written),
        settings: settings.map(|(name, v)| (name.value.as_str(), v.value.number())).collect(),
        at_hand: row.at_hand,
        object: row.object,
        page: To::Movement(&movement.id).file(),
        needs: row.needs,
        work: Work::of(movement),
        cue: movement.cues.first().map(|cue| cue.say.value.as_str()),
        standard: movement.standard.as_ref().map(|standard| standard.value.as_str()),
        sides: movement.sides.word(),
        demand,
        off_table: share_table(maker.gym, movement).is_some()
            && rung_table(maker.gym, written).is_none(),
        axis: known.ok().map(|known| AxisValue {
            value: (10.0 * known.value).round() / 10.0,
            band: (10.0 * known.band).round() / 10.0,
            shown: known.axis.shown(known.value),
        }),
    })
}
