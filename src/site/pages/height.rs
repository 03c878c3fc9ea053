//! The right height: which surface at home gives which demand and which rung, as a table.
//! Never interpolates: the gym's table does, and `height.js` by the same rule.

use super::frame::Maker;
use crate::gym::heights::{HeightTable, STATURES, Surface, surfaces};
use crate::gym::scale::{bearing_of, whole};
use crate::ladder::RungKey;
use crate::library::{Movement, Unit};
use serde::Serialize;

/// The right height of one movement.
#[derive(Debug, Serialize)]
pub struct HeightRow {
    setting: String,
    unit: &'static str,
    /// What the numbers are of: body mass, or what the usual setting asks.
    of: &'static str,
    usual: Option<String>,
    values: String,
    statures: String,
    demands: String,
    bands: String,
    rungs: String,
    rows: Vec<AtHeight>,
}

/// A surface, or a rung of a ladder, with what it asks.
#[derive(Debug, Serialize)]
struct AtHeight {
    what: String,
    height: String,
    demand: String,
    rung: Option<String>,
}

/// The section of a movement that has a height or a lean to choose.
pub fn height_row(maker: &Maker<'_>, movement: &Movement) -> Option<HeightRow> {
    let table = maker.gym.heights(movement)?;
    let rungs = rungs(maker, movement, table);
    let joined = |list: &[f64]| list.iter().map(f64::to_string).collect::<Vec<_>>().join(" ");
    let rows_of =
        |all: &[Vec<f64>]| all.iter().map(|row| joined(row)).collect::<Vec<_>>().join(";");
    let mut rows: Vec<AtHeight> = rungs.iter().filter_map(|at| rung_row(table, *at)).collect();
    if table.unit == Unit::Centimetre {
        rows.extend(surfaces(movement).filter_map(|s| surface_row(table, s, &rungs)));
    }
    let usual = movement.setting(&table.setting).and_then(|setting| setting.usual.as_ref());
    Some(HeightRow {
        unit: table.unit.symbol(),
        of: if table.is_share {
            bearing_of(maker.gym, movement)
        } else {
            "of what the usual setting asks"
        },
        usual: usual.map(|usual| usual.value.number().to_string()),
        values: joined(&table.values),
        statures: joined(&STATURES),
        demands: rows_of(&table.demands),
        bands: rows_of(&table.bands),
        rungs: joined(&rungs),
        rows,
        setting: table.setting.clone(),
    })
}

/// The values at which the movement stands on ladders, rising, each once.
fn rungs(maker: &Maker<'_>, movement: &Movement, table: &HeightTable) -> Vec<f64> {
    let of_ours = |key: &&RungKey| key.movement == movement.id;
    let keys = maker.gym.ladders.rungs().map(|(_, key)| key).filter(of_ours);
    let ours = keys.filter_map(|key| {
        let (_, value) = key.settings.iter().find(|(name, _)| name.as_str() == table.setting)?;
        Some(value.number())
    });
    let mut values: Vec<f64> = ours.collect();
    values.sort_by(f64::total_cmp);
    values.dedup();
    values
}

fn rung_row(table: &HeightTable, at: f64) -> Option<AtHeight> {
    let demand = table.at(at, STATURES[1])?;
    Some(AtHeight {
        what: format!("Rung at {} {at} {}", table.setting, table.unit.symbol()),
        height: format!("{at} {}", table.unit.symbol()),
        demand: format!("{}, {}", HeightTable::shown(demand), give_or_take(table, (at, at))?),
        rung: None,
    })
}

/// A surface within the table, with the rung nearest to its middle.
fn surface_row(table: &HeightTable, surface: &Surface, rungs: &[f64]) -> Option<AtHeight> {
    let ends = (table.values.first()?, table.values.last()?);
    let (low, high) = (surface.from.max(*ends.0), surface.to.min(*ends.1));
    if low > high {
        return None;
    }
    let demand = |at: f64| Some(HeightTable::shown(table.at(at, STATURES[1])?));
    let (a, b) = (demand(low)?, demand(high)?);
    let middle = (low + high) / 2.0;
    let nearest = rungs.iter().min_by(|a, b| (*a - middle).abs().total_cmp(&(*b - middle).abs()));
    Some(AtHeight {
        what: surface.name.to_string(),
        height: format!("{:.0} to {:.0} cm", surface.from, surface.to),
        demand: format!(
            "{}, {}",
            if a == b { a } else { format!("{a} to {b}") },
            give_or_take(table, (low, high))?
        ),
        rung: nearest.map(|at| format!("{} {at} cm", table.setting)),
    })
}

/// `give or take 6`: the wider band of both ends, points.
fn give_or_take(table: &HeightTable, (from, to): (f64, f64)) -> Option<String> {
    let band = table.band_at(from, STATURES[1])?.max(table.band_at(to, STATURES[1])?);
    Some(format!("give or take {}", whole(band)))
}
