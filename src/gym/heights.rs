//! The right height: what a movement asks at each value of its height or lean, for any stature.
//! Never a new number: a table solved once, read by the command and by the page with one rule.

use super::scale::{Axis, Reading, reading};
use super::{Gym, posed, scale};
use crate::kept::Inputs;
use crate::library::{Harder, Movement, Quantity, Setting, SettingName, Unit};
use crate::mechanics::solve::Person;
use serde::{Deserialize, Serialize};

/// Statures at which tables are solved, centimetres.
pub const STATURES: [f64; 3] = [150.0, 172.0, 198.0];

/// Centimetres or degrees between two columns of a table.
const APART: f64 = 10.0;

/// A moment that may be out by more than this share of itself is no guide to a height. Our own rule.
const TOO_ROUGH: f64 = 0.4;

/// What a movement asks by stature and setting.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HeightTable {
    /// The setting's name: `hands`, `feet`, `box`, `lean`.
    pub setting: String,
    /// `cm` or `deg`.
    pub unit: Unit,
    /// The setting's values, rising.
    pub values: Vec<f64>,
    /// For each stature of `STATURES` the demand at each value, rounded to a tenth.
    pub demands: Vec<Vec<f64>>,
    /// Give or take at each of them, in the same unit.
    pub bands: Vec<Vec<f64>>,
    /// The same in the last key pose, where every column has it.
    pub ends: Option<Ends>,
    /// True when the demands are per cent of body weight; false when they are per cent of what the
    /// usual setting asks of the drawn person.
    pub is_share: bool,
}

/// What the arms bear in the last key pose, for each stature at each value, rounded to a tenth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Ends {
    /// Per cent of body weight.
    pub demands: Vec<Vec<f64>>,
    /// Give or take, in the same unit.
    pub bands: Vec<Vec<f64>>,
}

/// The table of a movement, solved where it is not kept. It follows from the entry as it is written
/// and from the heights that ladders ask for.
pub(super) fn kept_table(gym: &Gym, movement: &Movement) -> Option<HeightTable> {
    let text = gym.library.sources.text(movement.file.file);
    let inputs = Inputs::of("heights").text(movement.id.as_str()).text(&movement.folder).text(text);
    let keys = gym.ladders.rungs_of(&movement.id).flat_map(|rung| &gym.ladders.key(rung).settings);
    let inputs = keys.fold(inputs, |inputs, (name, value)| {
        inputs.text(name.as_str()).number(value.number()).text(value.unit.symbol())
    });
    // What entries share of their faults is not written in them, and says nothing of heights.
    let as_written = || Movement { faults: Vec::new(), ..movement.clone() };
    gym.kept.get(inputs.print(), || table(gym, &as_written()))
}

/// The table of a movement that has just one height or lean setting, where the model can say: from
/// the first value to the last at which every stature has a number.
fn table(gym: &Gym, movement: &Movement) -> Option<HeightTable> {
    let axis = Axis::of(movement.pattern.value.as_str())?;
    let (name, setting) = movement.settings.iter().find(|(_, s)| is_height(s))?;
    let usual = setting.usual.as_ref().map_or(setting.from, |usual| usual.value);
    let solve = |at: f64, stature: f64| {
        let given = (&name.value, Quantity::new(at, setting.unit));
        let person = Person { stature: stature / 100.0, ..Person::default() };
        asked(movement, &[given], &person).ok()
    };
    let is_share = axis == Axis::Arms;
    let usual = solve(usual.number(), STATURES[1])?;
    // A pull depends on what pulls, and on no stature that a table could say for it.
    if usual.axis == Axis::Pulled {
        return None;
    }
    if !is_share && usual.band > TOO_ROUGH * usual.value {
        return None;
    }
    // One after the other: shared out, a core could take up a page that waits for this very table.
    let column = |at: f64| {
        let row: Option<Vec<Reading>> = STATURES.iter().map(|tall| solve(at, *tall)).collect();
        row.map(|row| (at, row))
    };
    let known: Vec<Option<(f64, Vec<Reading>)>> =
        columns(gym, movement, (name.value.as_str(), setting)).into_iter().map(column).collect();
    let known = longest(known);
    let whole = if is_share { 100.0 } else { usual.value };
    let tenth = |value: f64| (1000.0 * value / whole).round() / 10.0;
    let each = |of: &dyn Fn(&Reading) -> f64| -> Vec<Vec<f64>> {
        let row = |at: usize| known.iter().map(|(_, row)| tenth(of(&row[at]))).collect();
        (0..STATURES.len()).map(row).collect()
    };
    let has_ends = known.iter().flat_map(|(_, row)| row).all(|read| read.at_end.is_some());
    (known.len() > 1).then(|| HeightTable {
        setting: name.value.as_str().to_string(),
        unit: setting.unit,
        values: known.iter().map(|(at, _)| *at).collect(),
        demands: each(&|read| read.value),
        bands: each(&|read| read.band),
        ends: has_ends.then(|| Ends {
            demands: each(&|read| read.at_end.unwrap_or_default().0),
            bands: each(&|read| read.at_end.unwrap_or_default().1),
        }),
        is_share,
    })
}

/// The longest run of columns with numbers.
fn longest(columns: Vec<Option<(f64, Vec<Reading>)>>) -> Vec<(f64, Vec<Reading>)> {
    let runs = columns.split(Option::is_none).map(|run| run.iter().flatten().cloned());
    runs.map(Iterator::collect::<Vec<_>>).max_by_key(Vec::len).unwrap_or_default()
}

/// What a movement asks of a person at some settings, the others as usual, on its pattern's axis.
/// The one function behind pages, commands, ladders and placing.
pub fn asked(
    movement: &Movement,
    at: &[(&SettingName, Quantity)],
    person: &Person,
) -> Result<Reading, scale::Unknown> {
    let axis = Axis::of(movement.pattern.value.as_str()).ok_or(scale::Unknown::NoAxis)?;
    let given: Vec<(&str, Quantity)> = at.iter().map(|(name, q)| (name.as_str(), *q)).collect();
    let names: Vec<&SettingName> = at.iter().map(|(name, _)| *name).collect();
    reading(axis, movement, posed(movement, &given, person).as_ref(), &names)
}

/// A setting that a surface or a lean gives, and that says which way is harder.
fn is_height(setting: &Setting) -> bool {
    matches!(setting.unit, Unit::Centimetre | Unit::Degree)
        && matches!(setting.harder, Some(Harder::More | Harder::Less))
}

/// Round values, the usual one and those of the ladders' rungs, rising: at these a table says what
/// the pose says, between them it draws a straight line.
fn columns(gym: &Gym, movement: &Movement, (name, setting): (&str, &Setting)) -> Vec<f64> {
    let (from, to) = (setting.from.number(), setting.to.number());
    let whole = ((to - from) / APART).floor() as usize;
    let mut values: Vec<f64> = (0..=whole).map(|n| from + n as f64 * APART).collect();
    values.push(to);
    values.extend(setting.usual.as_ref().map(|usual| usual.value.number()));
    let keys = gym.ladders.rungs_of(&movement.id).map(|rung| gym.ladders.key(rung));
    let rungs = keys.flat_map(|key| &key.settings).filter(|(own, _)| own.as_str() == name);
    values.extend(rungs.map(|(_, value)| value.number()));
    values.retain(|value| (from..=to).contains(value));
    values.sort_by(f64::total_cmp);
    values.dedup();
    values
}

impl HeightTable {
    /// The demand at a setting for a stature in centimetres, by straight lines between the table's
    /// entries; nothing outside the table. `height.js` has the same lines in the same order, so
    /// that both print the same digit.
    pub fn at(&self, value: f64, stature: f64) -> Option<f64> {
        self.line(&self.demands, value, stature)
    }

    /// Give or take at a setting for a stature, by the same straight lines.
    pub fn band_at(&self, value: f64, stature: f64) -> Option<f64> {
        self.line(&self.bands, value, stature)
    }

    /// What the arms bear in the last key pose and its give or take, by the same straight lines.
    pub fn end_at(&self, value: f64, stature: f64) -> Option<(f64, f64)> {
        let ends = self.ends.as_ref()?;
        let line = |of: &[Vec<f64>]| self.line(of, value, stature);
        Some((line(&ends.demands)?, line(&ends.bands)?))
    }

    fn line(&self, of: &[Vec<f64>], value: f64, stature: f64) -> Option<f64> {
        let (column, across) = place(&self.values, value)?;
        let (row, down) = place(&STATURES, stature)?;
        let line = |row: usize| {
            let (a, b) = (of[row][column], of[row][column + 1]);
            a + (b - a) * across
        };
        let (low, high) = (line(row), line(row + 1));
        Some(low + (high - low) * down)
    }

    /// `41 %`, as printed everywhere.
    pub fn shown(demand: f64) -> String {
        format!("{} %", scale::whole(demand))
    }
}

/// In which gap of a rising list a value lies, and how far along it.
fn place(list: &[f64], value: f64) -> Option<(usize, f64)> {
    let gap = list.windows(2).position(|pair| pair[0] <= value && value <= pair[1])?;
    Some((gap, (value - list[gap]) / (list[gap + 1] - list[gap])))
}

/// Something at home that has a height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// In a coach's words.
    pub name: &'static str,
    /// Id of the kit it belongs to.
    pub kit: &'static str,
    /// Lowest and highest that are common, centimetres.
    pub from: f64,
    /// Highest.
    pub to: f64,
}

const fn surface(name: &'static str, kit: &'static str, from: f64, to: f64) -> Surface {
    Surface { name, kit, from, to }
}

/// Common heights. Stairs: Approved Document K (England), a riser of 15 to 22 cm; chair: design
/// lists, 43 to 48 cm; table: 2010 ADA Standards 902.3, 71 to 86 cm; sofa and counter: ergonomics
/// handbooks and EN 1116, from memory.
pub const SURFACES: [Surface; 7] = [
    surface("First stair", "stairs", 15.0, 22.0),
    surface("Second stair", "stairs", 30.0, 44.0),
    surface("Third stair", "stairs", 45.0, 66.0),
    surface("Sofa seat", "sofa", 38.0, 45.0),
    surface("Chair seat", "chair", 43.0, 48.0),
    surface("Table", "table", 71.0, 86.0),
    surface("Kitchen counter", "counter", 85.0, 95.0),
];

/// Beyond its usual heights by more than this a thing was measured elsewhere than where weight goes: a
/// chair of 90 cm is its back, which tips. Common practice, no source.
const FAR_CM: f64 = 15.0;

/// From which to which height a household thing can have been measured, cm; nothing of what has no
/// usual height.
pub fn can_be(kit: &str) -> Option<(f64, f64)> {
    let mine = || SURFACES.iter().filter(|one| one.kit == kit);
    let least = mine().map(|one| one.from).reduce(f64::min)?;
    let most = mine().map(|one| one.to).reduce(f64::max)?;
    Some(((least - FAR_CM).max(5.0), most + FAR_CM))
}

/// The surfaces that may serve a movement: those of its own kit.
pub fn surfaces(movement: &Movement) -> impl Iterator<Item = &'static Surface> + '_ {
    let wanted =
        |kit: &str| movement.kit.iter().flat_map(|need| &need.0).any(|k| k.value.as_str() == kit);
    SURFACES.iter().filter(move |surface| wanted(surface.kit))
}

/// Why a movement has no table, in a coach's words.
pub fn why_none(movement: &Movement) -> &'static str {
    match asked(movement, &[], &Person::default()) {
        Err(why) => why.words(),
        Ok(_) => "no height or lean with a number",
    }
}
