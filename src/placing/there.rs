//! There: what a height, a lean or a place for the heels of one's own is on a ladder.
//! Never a rung without how far the answer may be off, nor heels without what was taken for granted.

use super::demand::{Build, Share, demand_at};
use super::set_up::{self, SetUp, set_up_words, tie_of};
use super::stretch;
use super::words::{self, fill};
use super::{RungDemand, rung_table, share_table};
use crate::finding::capital;
use crate::gym::Gym;
use crate::gym::heights::{HeightTable, Surface, surfaces};
use crate::gym::scale::{bearing_of, whole};
use crate::library::{Ladder, Quantity, Unit};
use crate::mechanics::segments::Table;

/// The setting that is measured on the floor where the ladder writes a lean.
pub const HEELS: &str = "heels";

/// Where a person does a test, or wants to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// Stature, if it is known.
    pub stature: Option<Quantity>,
    /// The segments of women or of men, where that was said.
    pub segments: Option<Table>,
    /// Height of the anchor, cm.
    pub anchor: f64,
    /// Height at which the handles hang free, cm.
    pub handles: f64,
}

/// As it is drawn.
const USUAL: Stand =
    Stand { stature: None, segments: None, anchor: set_up::ANCHOR, handles: set_up::HANDLES };

impl Stand {
    fn build(&self) -> Build {
        Build { stature: self.stature, segments: self.segments }
    }
}

/// A setting of one's own on a ladder.
#[derive(Debug, Clone, PartialEq)]
pub struct There {
    /// The rung that is nearest to it, from 1.
    pub rung: u32,
    /// What it asks.
    pub demand: RungDemand,
    /// Whether the ladder writes another setting than the one that was given.
    pub by_heels: bool,
    /// The whole as a sentence, in both directions.
    pub say: String,
}

/// Why a setting of one's own has no answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotThere {
    /// No rung that was asked about has a number for that setting; these have one.
    NoSuchSetting(Vec<String>),
    /// The value cannot be read in this unit.
    Unreadable(Unit),
    /// Outside what was computed, which is this.
    Outside(String),
}

/// A rung with a table for a setting: its place from 0, the written value, the table.
type Row<'g> = (usize, f64, &'g HeightTable);

/// What `text` of the setting `name` is on `ladder`; on `rung` (from 1) where that is said, else on
/// the rung whose own value is nearest.
///
/// # Errors
/// Where there is no number for it.
pub fn there(
    gym: &Gym,
    (ladder, rung): (&Ladder, Option<u32>),
    (name, text): (&str, &str),
    stand: &Stand,
) -> Result<There, NotThere> {
    if let Some(band) = stretch::there(gym, (ladder, rung), (name, text), stand) {
        return band;
    }
    let asked = |row: &Row<'_>| rung.is_none_or(|rung| row.0 + 1 == rung as usize);
    let rows: Vec<Row<'_>> = rows(gym, ladder).filter(asked).collect();
    let by_heels =
        name == HEELS && rows.iter().any(|row| set_up_of(gym, ladder, row, stand).is_some());
    let fits = |row: &Row<'_>| match by_heels {
        true => set_up_of(gym, ladder, row, stand).is_some(),
        false => row.2.setting == name,
    };
    let rows: Vec<Row<'_>> = rows.into_iter().filter(fits).collect();
    let first = rows.first().ok_or_else(|| NotThere::NoSuchSetting(settings(gym, ladder)))?;
    let unit = if by_heels { Unit::Centimetre } else { first.2.unit };
    let value = Quantity::read(text, unit).map_err(|_| NotThere::Unreadable(unit))?.number();
    let off = |written: f64, value: f64| (written - value).abs();
    let lean = match by_heels {
        false => (value, 0.0),
        true => {
            let set_up = set_up_of(gym, ladder, first, stand);
            let lean = set_up.and_then(|set_up| set_up.lean(value));
            let lean = lean.ok_or_else(|| NotThere::Outside(range(first.2)))?;
            (lean.value, lean.band)
        }
    };
    let nearest = rows.iter().min_by(|a, b| off(a.1, lean.0).total_cmp(&off(b.1, lean.0)));
    let row = nearest.unwrap_or(first);
    let demand = demand_at(gym, ladder, (row.0, lean.0), stand.build());
    let demand = demand.ok_or_else(|| NotThere::Outside(range(row.2)))?;
    let demand = blurred(gym, (ladder, row), lean, stand, demand);
    let (rung, said) = (number(row.0), by_heels.then_some(value));
    Ok(There {
        rung,
        demand,
        by_heels,
        say: sentence(gym, (ladder, row), (said, lean), (stand, demand)),
    })
}

/// A demand at a lean that is itself only known within a band.
fn blurred(
    gym: &Gym,
    (ladder, row): (&Ladder, &Row<'_>),
    (value, band): (f64, f64),
    stand: &Stand,
    demand: RungDemand,
) -> RungDemand {
    let ends = (row.2.values.first(), row.2.values.last());
    let (Some(least), Some(most)) = ends else { return demand };
    let at = |value: f64| {
        demand_at(gym, ladder, (row.0, value.clamp(*least, *most)), stand.build()).unwrap_or(demand)
    };
    let around = [at(value - band), at(value + band)];
    let moved = |of: &dyn Fn(&RungDemand) -> f64| {
        around.iter().map(|there| (of(there) - of(&demand)).abs()).fold(0.0, f64::max)
    };
    let at_end = |of: &RungDemand| of.end.map_or(0.0, |end| end.share);
    let end = demand.end.map(|end| Share { band: end.band.hypot(moved(&at_end)), ..end });
    RungDemand { band: demand.band.hypot(moved(&|of| of.share)), end, ..demand }
}

fn sentence(
    gym: &Gym,
    (ladder, row): (&Ladder, &Row<'_>),
    (heels, (value, band)): (Option<f64>, (f64, f64)),
    (stand, demand): (&Stand, RungDemand),
) -> String {
    let set_up = set_up_of(gym, ladder, row, stand);
    let unit = row.2.unit.symbol();
    let place = match (heels, set_up) {
        (Some(cm), Some(_)) => {
            fill(words::BY_HEELS, &[("cm", &cm), ("lean", &value.round()), ("band", &band.ceil())])
        }
        _ => format!("{} {value} {unit}", capital(&row.2.setting)),
    };
    let share = |of: f64| whole(100.0 * of);
    let movement = gym.library.movements.get(&ladder.rungs[row.0].movement.value);
    let bears = movement.map_or("", |movement| bearing_of(gym, movement));
    let asks = fill(
        words::THERE,
        &[
            ("place", &place),
            ("share", &share(demand.share)),
            ("bears", &bears),
            ("points", &share(demand.band)),
            ("rung", &(row.0 + 1)),
            ("written", &format!("{} {} {unit}", row.2.setting, row.1)),
        ],
    );
    let both_ways = set_up.and_then(|set_up| {
        let at = if heels.is_some() { row.1 } else { value };
        let measure = set_up.heels(at)?;
        let holes: [(&str, &dyn std::fmt::Display); 4] = [
            ("lean", &at),
            ("heels", &set_up.words(at)?),
            ("band", &measure.band.ceil()),
            ("granted", &set_up.granted()),
        ];
        Some(fill(words::FOR_THE_LEAN, &holes))
    });
    let things = things(gym, ladder, row.0, value);
    let things = things.map(|things| fill(words::THING, &[("thing", &things)]));
    [Some(asks), both_ways, things].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// How the rung at `at` (from 0) is set up with what is at hand: the heels for a lean, else the thing
/// whose common height is nearest; nothing where neither says anything.
pub fn at_hand(gym: &Gym, ladder: &Ladder, at: usize) -> Option<String> {
    set_up_words(gym, ladder.rungs.get(at)?, None).or_else(|| {
        let (_, written, table) = rows(gym, ladder).find(|row| row.0 == at)?;
        let movement = gym.library.movements.get(&ladder.rungs[at].movement.value)?;
        let serves = |surface: &&Surface| surface.from <= written && written <= surface.to;
        let off = |surface: &Surface| ((surface.from + surface.to) / 2.0 - written).abs();
        let mut fit: Vec<&Surface> = surfaces(movement).filter(serves).collect();
        fit.sort_by(|a, b| off(a).total_cmp(&off(b)));
        let nearest = fit.first().filter(|_| table.unit == Unit::Centimetre)?;
        Some(fill(words::ABOUT, &[("thing", &nearest.name.to_lowercase())]))
    })
}

/// What the places for the heels on a ladder take for granted, and how far they may be off; nothing
/// where no rung has one.
pub fn granted(gym: &Gym, ladder: &Ladder) -> Option<String> {
    if let Some(said) = stretch::granted(gym, ladder) {
        return Some(said);
    }
    let all = rows(gym, ladder).filter_map(|row| {
        let set_up = set_up_of(gym, ladder, &row, &USUAL)?;
        Some((set_up, set_up.heels(row.1)?.band))
    });
    let (set_up, band) = all.max_by(|a, b| a.1.total_cmp(&b.1))?;
    let holes: [(&str, &dyn std::fmt::Display); 2] =
        [("granted", &set_up.granted()), ("band", &band.ceil())];
    Some(fill(words::GRANTED, &holes))
}

/// Things of a movement's kit that are commonly so high: `a third stair or a chair seat`.
fn things(gym: &Gym, ladder: &Ladder, at: usize, cm: f64) -> Option<String> {
    let movement = gym.library.movements.get(&ladder.rungs.get(at)?.movement.value)?;
    let table = share_table(gym, movement).filter(|table| table.unit == Unit::Centimetre);
    table?;
    let fit = surfaces(movement).filter(|s| s.from <= cm && cm <= s.to);
    let names: Vec<String> = fit.map(|surface| surface.name.to_lowercase()).collect();
    let (last, others) = names.split_last()?;
    Some(if others.is_empty() { last.clone() } else { format!("{} or {last}", others.join(", ")) })
}

fn set_up_of(gym: &Gym, ladder: &Ladder, row: &Row<'_>, stand: &Stand) -> Option<SetUp> {
    let movement = gym.library.movements.get(&ladder.rungs.get(row.0)?.movement.value)?;
    let (_, tie) = tie_of(gym, movement).filter(|(name, _)| *name == row.2.setting)?;
    let stature = stand.stature.map(Quantity::number);
    Some(SetUp { tie, stature, anchor: stand.anchor, handles: stand.handles })
}

/// The rungs of a ladder whose height or lean has a number.
fn rows<'g>(gym: &'g Gym, ladder: &'g Ladder) -> impl Iterator<Item = Row<'g>> {
    ladder.rungs.iter().enumerate().filter_map(|(at, rung)| {
        let table = rung_table(gym, rung)?;
        let mut settings = rung.settings.iter();
        let written = settings.find(|(name, _)| name.value.as_str() == table.setting)?;
        Some((at, written.1.value.number(), table))
    })
}

/// The settings of a ladder that have a number, by name.
fn settings(gym: &Gym, ladder: &Ladder) -> Vec<String> {
    let heels = |row: &Row<'_>| set_up_of(gym, ladder, row, &USUAL).map(|_| HEELS.to_string());
    let names = rows(gym, ladder)
        .flat_map(|row| [Some(row.2.setting.clone()), heels(&row)].into_iter().flatten());
    let bands = stretch::settings(gym, ladder);
    let names: std::collections::BTreeSet<String> = names.chain(bands).collect();
    names.into_iter().collect()
}

fn range(table: &HeightTable) -> String {
    let ends = (table.values.first().unwrap_or(&0.0), table.values.last().unwrap_or(&0.0));
    format!("{} from {} to {} {}", table.setting, ends.0, ends.1, table.unit.symbol())
}

fn number(at: usize) -> u32 {
    u32::try_from(at + 1).unwrap_or(u32::MAX)
}
