//! What a movement asks, as pages show it: the number, its band, and how it was come by.
//! Never computes a demand; the gym did.

use super::drawing;
use super::frame::{Link, Maker};
use super::standing::setting_words;
use crate::figure::scale::{Scale, ScaleRung, draw};
use crate::finding::capital;
use crate::gym::heights::HeightTable;
use crate::gym::measured::{Family, Residual, families};
use crate::gym::scale::{Axis, Reading, Unknown, axis_words, bearing_words, reading, whole};
use crate::gym::{Gym, pose_person, pulled};
use crate::ladder::RungKey;
use crate::library::{Ladder, LadderId, Movement};
use crate::mechanics::demand::Demand;
use crate::mechanics::doubt::Doubt;
use crate::mechanics::published::{CALIBRATIONS, RowKind};
use crate::site::routes::To;
use serde::Serialize;

/// What a movement asks at its usual settings.
#[derive(Debug, Serialize)]
pub struct DemandRow {
    /// `About 65 % of body weight through the arms`.
    pub about: String,
    /// The part straight up, and the other end of the movement; empty where there is neither.
    pub besides: String,
    /// `give or take 4 points`, as everywhere.
    pub band: String,
    /// At which settings, in words; empty where there are none.
    pub at: String,
    /// How the number was come by, a sentence.
    pub how: String,
    /// The published rows it is held to.
    pub residuals: Link,
}

/// A published row beside the computed one.
#[derive(Debug, Serialize)]
pub struct ResidualRow {
    what: String,
    measured: String,
    computed: String,
    band: String,
    miss: String,
    /// What a model says that never saw the source, and how far that misses.
    unseen: String,
    source: Option<Link>,
}

/// How the rows of one kind came out.
#[derive(Debug, Serialize)]
pub struct FamilyRow {
    what: String,
    rms: String,
    bias: String,
    inside: String,
    score: String,
    unseen: String,
}

/// A number of the model that was chosen on published rows.
#[derive(Debug, Serialize)]
pub struct CalibrationRow {
    what: &'static str,
    value: &'static str,
    rows: &'static str,
    sources: Vec<Link>,
}

/// A drawn ladder.
#[derive(Debug, Serialize)]
pub struct DrawnScale {
    svg: String,
    axis: &'static str,
    unknown: bool,
    /// Some have none because hands higher than the feet may press either way.
    either_way: bool,
    ratio: bool,
    usual: bool,
}

/// The share of body mass on the arms, for movements that have one.
pub fn demand_row(maker: &Maker<'_>, movement: &Movement) -> Option<DemandRow> {
    let posed = maker.gym.posed.get(&movement.id)?;
    let demand = posed.demand.as_ref()?;
    let axis = Axis::of(movement.pattern.value.as_str()).filter(|axis| *axis == Axis::Arms)?;
    let read = reading(axis, movement, Some(posed), &[]).ok()?;
    let (of, besides) = match read.axis {
        Axis::Pulled => ("of pull on both hands together, at the end", stretch(demand)),
        _ => (bearing_words(demand.borne.as_ref()?), besides(demand)),
    };
    Some(DemandRow {
        about: format!("About {} {of}", read.axis.shown(read.value)),
        besides,
        band: format!("give or take {}", read.axis.band_shown(read.band)),
        at: usual_settings(movement),
        how: how(maker.gym, &read),
        residuals: Link {
            text: "how near this comes to measurements".to_string(),
            to: format!("{}#measured", maker.links.to(&To::Sources)),
        },
    })
}

fn usual_settings(movement: &Movement) -> String {
    let usual = movement.settings.iter().filter_map(|(name, setting)| {
        Some(format!("{} {}", name.value, setting.usual.as_ref()?.value))
    });
    usual.collect::<Vec<_>>().join(", ")
}

/// The part straight up of the first key pose, and what the last one asks.
pub fn besides(demand: &Demand) -> String {
    let Some(borne) = demand.borne.as_ref() else { return String::new() };
    let Some(start) = borne.at.first().filter(|at| at.refused.is_none()) else {
        return String::new();
    };
    let [along, upward] = [start.along, start.upward].map(|share| borne.counted(share));
    let mut said = Vec::new();
    if along - upward > 0.5 && upward > 0.5 {
        said.push(format!("{} of body weight straight up", HeightTable::shown(upward)));
    }
    let end = demand.doubtful(|demand| Axis::Arms.in_pose(demand, true));
    let end = end.map(|(value, doubts)| (value, Axis::Arms.band(doubts)));
    let moved = |(value, band): &(f64, f64)| (value - along).abs() > 0.5 && band <= value;
    if let Some((value, band)) = end.filter(moved).filter(|_| borne.at.len() > 1) {
        let band = Axis::Arms.band_shown(band);
        let value = HeightTable::shown(value);
        said.push(format!("{value} at the other end of the movement, give or take {band}"));
    }
    said.join("; ")
}

/// How far a band is stretched at the end, and at the start.
fn stretch(demand: &Demand) -> String {
    let at = |last: bool| pulled::times(demand, last).map(|(times, doubts)| (times, doubts.band()));
    let Some((end, band)) = at(true) else { return String::new() };
    let start = at(false).map_or(String::new(), |(start, _)| format!(", {start:.1} at the start"));
    format!(
        "the band stretched to {end:.1} times its length at rest, give or take {:.1}{start}",
        band.max(0.1)
    )
}

fn how(gym: &Gym, read: &Reading) -> String {
    let person = pose_person();
    if read.axis == Axis::Pulled {
        let tall = person.stature * 100.0;
        return format!("For {tall:.0} cm of height. {}.", gym.provenance(read).words());
    }
    format!(
        "For {:.0} cm of height, holding still at the start, with the body segments of {}; moving peaks are higher. {}.",
        person.stature * 100.0,
        person.table.name(),
        gym.provenance(read).words(),
    )
}

/// The published rows and what the model says to them.
pub fn residual_rows(maker: &Maker<'_>) -> Vec<ResidualRow> {
    maker.gym.residuals().iter().map(|residual| residual_row(maker, residual)).collect()
}

fn residual_row(maker: &Maker<'_>, residual: &Residual) -> ResidualRow {
    let legs = residual.row.what.kind() == RowKind::Rise;
    let shown = |value: f64| match legs {
        true => format!("{:.2}", value / 100.0),
        false => HeightTable::shown(value),
    };
    let signed = |miss: f64| match legs {
        true => format!("{:+.2}", miss / 100.0).replace('-', "\u{2212}"),
        false => format!("{miss:+.1}").replace('-', "\u{2212}"),
    };
    let sources = &maker.gym.library.words.sources;
    let source = sources.values().find(|s| s.id.value.as_str() == residual.row.source);
    ResidualRow {
        what: format!("{}, {}", residual.row.words(), residual.row.when.words()),
        measured: shown(residual.row.per_cent),
        computed: shown(residual.computed),
        band: if legs { shown(residual.band) } else { whole(residual.band).to_string() },
        miss: signed(residual.miss()),
        unseen: format!(
            "{} ({})",
            shown(residual.left_out.computed),
            signed(residual.left_out_miss())
        ),
        source: source.map(|source| Link {
            text: source.id.value.to_string(),
            to: format!("{}#{}", maker.links.to(&To::Sources), source.id.value),
        }),
    }
}

/// How the rows of each kind came out.
pub fn family_rows(maker: &Maker<'_>) -> Vec<FamilyRow> {
    let signed = |number: f64| format!("{number:+.1}").replace('-', "\u{2212}");
    let row = |one: &Family| FamilyRow {
        what: one.words(),
        rms: format!("{:.1}", one.rms),
        bias: signed(one.bias),
        inside: format!("{} of {}", one.inside, one.rows),
        score: format!("{:.1}", one.score),
        unseen: format!("{:.1}, {} of {}", one.unseen_rms, one.unseen_inside, one.rows),
    };
    families(maker.gym.residuals()).iter().map(row).collect()
}

/// What every band comes from, with one standard deviation of each.
pub fn doubt_words() -> Vec<String> {
    let mut all: Vec<String> = Doubt::ALL.into_iter().map(Doubt::words).collect();
    all.dedup();
    all
}

/// The numbers that were chosen on published rows.
pub fn calibration_rows(maker: &Maker<'_>) -> Vec<CalibrationRow> {
    let source = |id: &&str| Link {
        text: id.to_string(),
        to: format!("{}#{id}", maker.links.to(&To::Sources)),
    };
    let row = |one: &crate::mechanics::published::Calibration| CalibrationRow {
        what: one.what,
        value: one.value,
        rows: one.rows,
        sources: one.chosen_on.iter().map(source).collect(),
    };
    CALIBRATIONS.iter().map(row).collect()
}

/// The file of the picture of rung `at` (from 0), where it has one.
pub fn rung_figure_file(gym: &Gym, ladder: &Ladder, at: usize) -> Option<String> {
    let posed = gym.rungs.get(&RungKey::of(ladder.rungs.get(at)?))?;
    posed.figure.as_ref().map(|_| rung_file(&ladder.id, at))
}

/// The file of the picture of rung `at` (from 0) of a ladder, below the site's folder.
pub fn rung_file(ladder: &LadderId, at: usize) -> String {
    format!("figures/{ladder}-{}.svg", at + 1)
}

/// The same with the picture: its last key pose.
pub fn rung_figure(gym: &Gym, ladder: &Ladder, at: usize) -> Option<(String, String)> {
    let file = rung_figure_file(gym, ladder, at)?;
    let posed = gym.rungs.get(&RungKey::of(ladder.rungs.get(at)?))?;
    Some((file, drawing::last_pose(gym, posed)?))
}

/// A ladder on its axis; nothing where fewer than two rungs have a number.
pub fn drawn_scale(maker: &Maker<'_>, ladder: &Ladder) -> Option<DrawnScale> {
    let gym = maker.gym;
    let axis = gym.axis(ladder)?;
    let readings = gym.readings(ladder);
    if readings.iter().flatten().count() < 2 {
        return None;
    }
    let most = readings.iter().flatten().map(|r| r.value + r.band).fold(0.0, f64::max);
    let words = axis_words(axis, readings.iter().flatten());
    let rungs = ladder.rungs.iter().zip(&readings).enumerate();
    let rungs = rungs.filter_map(|(at, (rung, reading))| {
        let movement = gym.library.movements.get(&rung.movement.value)?;
        let setting = setting_words(rung);
        let words = reading.as_ref().map_or_else(|why| why.brief().to_string(), about);
        Some(ScaleRung {
            name: movement.name.value.clone(),
            figure: rung_figure_file(gym, ladder, at).map(|file| maker.links.to_file(&file)),
            value: reading.ok().map(|r| (r.value, drawn_band(&r))),
            words: if setting.is_empty() { words } else { format!("{setting}: {words}") },
        })
    });
    let scale = Scale {
        title: format!("{} ladder to scale", ladder.name.value),
        axis: capital(words),
        ticks: ticks(axis, most),
        rungs: rungs.collect(),
    };
    Some(DrawnScale {
        svg: draw(&scale, "scale"),
        axis: words,
        ratio: !matches!(axis, Axis::Arms | Axis::Carried | Axis::Pulled),
        unknown: readings.iter().any(Result::is_err),
        either_way: readings.iter().any(|r| matches!(r, Err(Unknown::EitherWay))),
        usual: readings.iter().flatten().any(|r| r.usual_weight),
    })
}

/// The light bar, as long as the words say.
pub(super) fn drawn_band(read: &Reading) -> f64 {
    match read.axis {
        Axis::Arms => whole(read.band),
        _ => (10.0 * read.band).round() / 10.0,
    }
}

/// What a rung asks, or why nobody can say.
pub fn rung_words(reading: &Result<Reading, Unknown>) -> String {
    let read = match reading {
        Ok(read) => read,
        Err(why) => return why.words().to_string(),
    };
    match read.axis {
        Axis::Carried => about(read),
        axis => format!("{}, give or take {}", about(read), axis.band_shown(read.band)),
    }
}

/// The number without its band.
fn about(read: &Reading) -> String {
    let usual = if read.usual_weight { " at the usual weight" } else { "" };
    match read.axis {
        Axis::Arms => format!("about {}", HeightTable::shown(read.value)),
        Axis::Carried => read.axis.shown(read.value),
        Axis::Pulled => format!("about {}", read.axis.shown(read.value)),
        _ => format!("about {:.1}{usual}", read.value),
    }
}

/// Four or five round values from nothing to the top.
pub(super) fn ticks(axis: Axis, most: f64) -> Vec<(f64, String)> {
    let steps: &[f64] = &[0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0];
    let step = steps.iter().copied().find(|step| most / step <= 5.0).unwrap_or(50.0);
    let count = (most / step).ceil() as usize;
    let shown = |value: f64| match axis {
        Axis::Arms => format!("{value:.0} %"),
        Axis::Carried => format!("{value:.0} kg"),
        Axis::Pulled => format!("{value} kg"),
        _ => format!("{value:.1}"),
    };
    (0..=count).map(|n| n as f64 * step).map(|value| (value, shown(value))).collect()
}
