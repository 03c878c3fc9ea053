//! The right height: what a movement asks at each value of its height or lean, for any stature.
//! Never a new number: a table solved once, read by the command and by the page with one rule.

use super::scale::{Axis, reading};
use super::{posed, scale};
use crate::library::{Harder, Movement, Quantity, Setting, Unit};
use crate::mechanics::solve::Person;

/// Statures at which tables are solved, centimetres.
pub const STATURES: [f64; 3] = [150.0, 172.0, 198.0];

/// Centimetres or degrees between two columns of a table.
const APART: f64 = 10.0;

/// A moment that may be out by more than this share of itself is no guide to a height.
const TOO_ROUGH: f64 = 0.3;

/// What a movement asks by stature and setting.
#[derive(Debug, Clone, PartialEq)]
pub struct HeightTable {
    /// The setting's name: `hands`, `feet`, `box`, `lean`.
    pub setting: String,
    /// `cm` or `deg`.
    pub unit: Unit,
    /// The setting's values, rising.
    pub values: Vec<f64>,
    /// For each stature of `STATURES` the demand at each value, rounded to a tenth.
    pub demands: Vec<Vec<f64>>,
    /// Give or take at the usual value, in the same unit as the demands.
    pub band: f64,
    /// Give or take at each value, for the stature in the middle.
    pub bands: Vec<f64>,
    /// True when the demands are per cent of body mass; false when they are per cent of what the
    /// usual setting asks of the drawn person.
    pub is_share: bool,
}

/// The table of a movement that has just one height or lean setting, where the model can say.
pub(super) fn table(movement: &Movement) -> Option<HeightTable> {
    let axis = Axis::of(movement.pattern.value.as_str())?;
    let mut fitting = movement.settings.iter().filter(|(_, s)| is_height(s));
    let (name, setting) = fitting.next()?;
    let values = columns(setting.from.number(), setting.to.number());
    let solve = |at: f64, stature: f64| {
        let given = [(name.value.as_str(), Quantity::new(at, setting.unit))];
        let person = Person { stature: stature / 100.0, ..Person::default() };
        let posed = posed(movement, &given, &person)?;
        reading(axis, movement, Some(&posed), &[]).ok()
    };
    let usual = setting.usual.as_ref().map_or(setting.from, |usual| usual.value);
    let usual = solve(usual.number(), STATURES[1])?;
    let is_share = axis == Axis::Arms;
    let whole = if is_share { 100.0 } else { usual.value };
    let tenth = |value: f64| (1000.0 * value / whole).round() / 10.0;
    let bands = values.iter().map(|at| Some(tenth(solve(*at, STATURES[1])?.band)));
    let bands: Vec<f64> = bands.collect::<Option<_>>()?;
    // One after the other: shared out, a core could take up a page that waits for this very table.
    let demands: Vec<Option<Vec<f64>>> = STATURES
        .iter()
        .map(|stature| values.iter().map(|at| Some(tenth(solve(*at, *stature)?.value))).collect())
        .collect();
    let demands: Vec<Vec<f64>> = demands.into_iter().collect::<Option<_>>()?;
    let name = name.value.as_str().to_string();
    if !is_share && usual.band > TOO_ROUGH * usual.value {
        return None;
    }
    Some(HeightTable {
        setting: name,
        unit: setting.unit,
        values,
        demands,
        band: tenth(usual.band),
        bands,
        is_share,
    })
}

/// A setting that a surface or a lean gives, and that says which way is harder.
fn is_height(setting: &Setting) -> bool {
    matches!(setting.unit, Unit::Centimetre | Unit::Degree)
        && matches!(setting.harder, Some(Harder::More | Harder::Less))
}

fn columns(from: f64, to: f64) -> Vec<f64> {
    let whole = ((to - from) / APART).floor() as usize;
    let mut values: Vec<f64> = (0..=whole).map(|n| from + n as f64 * APART).collect();
    if values.last().is_some_and(|last| *last < to) {
        values.push(to);
    }
    values
}

impl HeightTable {
    /// The demand at a setting for a stature in centimetres, by straight lines between the table's
    /// entries; nothing outside the table. `height.js` has the same lines in the same order, so
    /// that both print the same digit.
    pub fn at(&self, value: f64, stature: f64) -> Option<f64> {
        let (column, across) = place(&self.values, value)?;
        let (row, down) = place(&STATURES, stature)?;
        let line = |row: usize| {
            let (a, b) = (self.demands[row][column], self.demands[row][column + 1]);
            a + (b - a) * across
        };
        let (low, high) = (line(row), line(row + 1));
        Some(low + (high - low) * down)
    }

    /// Give or take at a setting: the wider one of its two neighbours in the table.
    pub fn band_at(&self, value: f64) -> Option<f64> {
        let (column, _) = place(&self.values, value)?;
        Some(self.bands[column].max(self.bands[column + 1]))
    }

    /// `41 %`, as printed everywhere.
    pub fn shown(demand: f64) -> String {
        format!("{} %", (demand + 0.5).floor())
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

/// The surfaces that may serve a movement: those of its own kit.
pub fn surfaces(movement: &Movement) -> impl Iterator<Item = &'static Surface> + '_ {
    let wanted =
        |kit: &str| movement.kit.iter().flat_map(|need| &need.0).any(|k| k.value.as_str() == kit);
    SURFACES.iter().filter(move |surface| wanted(surface.kit))
}

/// Why a movement has no table, in a coach's words.
pub fn why_none(movement: &Movement) -> &'static str {
    let Some(axis) = Axis::of(movement.pattern.value.as_str()) else {
        return scale::Unknown::NotComputed.words();
    };
    match posed(movement, &[], &Person::default()) {
        None => scale::Unknown::NoPose.words(),
        Some(posed) => match reading(axis, movement, Some(&posed), &[]) {
            Err(why) => why.words(),
            Ok(_) => "no height or lean with a number",
        },
    }
}
