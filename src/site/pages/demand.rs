//! What a movement asks, as pages show it: the number, its band, and how it was come by.
//! Never computes a demand; the gym did.

use super::frame::{Link, Maker};
use super::standing::setting_words;
use crate::figure::scale::{Scale, ScaleRung, draw};
use crate::gym::scale::{Axis, Reading, Unknown, bearing_words, reading};
use crate::gym::{Gym, pose_person};
use crate::ladder::RungKey;
use crate::library::{Ladder, Movement};
use crate::mechanics::demand::Trust;
use crate::mechanics::published::{Residual, residuals};
use crate::site::routes::To;
use serde::Serialize;

/// What a movement asks at its usual settings.
#[derive(Debug, Serialize)]
pub struct DemandRow {
    /// `about 65 % of body mass on the hands`.
    pub about: String,
    /// `60 to 70 %`.
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
    miss: String,
    source: Option<Link>,
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
    let borne = posed.demand.as_ref()?.borne.as_ref()?;
    let axis = Axis::of(movement.pattern.value.as_str()).filter(|axis| *axis == Axis::Arms)?;
    let read = reading(axis, movement, Some(posed), &[]).ok()?;
    let (low, high) = ((read.value - read.band).max(0.0), read.value + read.band);
    Some(DemandRow {
        about: format!("About {:.0} % {}", borne.rounded(), bearing_words(borne)),
        band: format!("{low:.0} to {high:.0} %"),
        at: usual_settings(movement),
        how: how(&read),
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

fn how(read: &Reading) -> String {
    let person = pose_person();
    let way = match read.trust {
        Trust::Checked => "Published measurements of this kind come out within the band",
        Trust::Computed => "It follows from balance; nobody has published a measurement",
        Trust::Shared => "Several supports share the weight, so balance alone does not decide",
    };
    format!(
        "Computed from the pose for {:.0} cm of height with the body segments of {}, holding still; moving peaks are higher. {way}.",
        person.stature * 100.0,
        person.table.name(),
    )
}

/// The published rows and what the model says to them.
pub fn residual_rows(maker: &Maker<'_>) -> Vec<ResidualRow> {
    residuals().iter().map(|residual| residual_row(maker, residual)).collect()
}

fn residual_row(maker: &Maker<'_>, residual: &Residual) -> ResidualRow {
    let sources = &maker.gym.library.words.sources;
    let source = sources.values().find(|s| s.id.value.as_str() == residual.row.source);
    ResidualRow {
        what: residual.row.what.words(),
        measured: format!("{:.0} %", residual.row.per_cent),
        computed: format!("{:.0} %", residual.computed),
        miss: format!("{:+.1}", residual.miss()).replace('-', "\u{2212}"),
        source: source.map(|source| Link {
            text: source.id.value.to_string(),
            to: format!("{}#{}", maker.links.to(&To::Sources), source.id.value),
        }),
    }
}

/// The file of the picture of rung `at` (from 0) and the picture: its last key pose.
pub fn rung_figure(gym: &Gym, ladder: &Ladder, at: usize) -> Option<(String, String)> {
    let posed = gym.rungs.get(&RungKey::of(ladder.rungs.get(at)?))?;
    let drawn = crate::figure::draw(posed.figure.as_ref()?, "", "rung");
    Some((format!("figures/{}-{}.svg", ladder.id, at + 1), drawn.last_standalone()?))
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
    let rungs = ladder.rungs.iter().zip(&readings).enumerate();
    let rungs = rungs.filter_map(|(at, (rung, reading))| {
        let movement = gym.library.movements.get(&rung.movement.value)?;
        let setting = setting_words(rung);
        let words = reading.as_ref().map_or_else(|why| why.brief().to_string(), about);
        Some(ScaleRung {
            name: movement.name.value.clone(),
            figure: rung_figure(gym, ladder, at).map(|(file, _)| maker.links.to_file(&file)),
            value: reading.ok().map(|r| (r.value, r.band)),
            words: if setting.is_empty() { words } else { format!("{setting}: {words}") },
        })
    });
    let scale = Scale {
        title: format!("{} ladder to scale", ladder.name.value),
        axis: capital(axis.words()),
        ticks: ticks(axis, most),
        rungs: rungs.collect(),
    };
    Some(DrawnScale {
        svg: draw(&scale, "scale"),
        axis: axis.words(),
        ratio: !matches!(axis, Axis::Arms | Axis::Carried),
        unknown: readings.iter().any(Result::is_err),
        either_way: readings.iter().any(|r| matches!(r, Err(Unknown::EitherWay))),
        usual: readings.iter().flatten().any(|r| r.usual_weight),
    })
}

/// What a rung asks, or why nobody can say.
pub fn rung_words(reading: &Result<Reading, Unknown>) -> String {
    let read = match reading {
        Ok(read) => read,
        Err(why) => return why.words().to_string(),
    };
    match read.axis {
        Axis::Arms => format!("{}, give or take {:.0}", about(read), read.band),
        Axis::Carried => about(read),
        _ => format!("{}, give or take {:.1}", about(read), read.band),
    }
}

/// The number without its band.
fn about(read: &Reading) -> String {
    let usual = if read.usual_weight { " at the usual weight" } else { "" };
    let along = if read.along { " along the arms" } else { "" };
    match read.axis {
        Axis::Arms => format!("about {:.0} %{along}", read.value),
        Axis::Carried => read.axis.shown(read.value),
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
        _ => format!("{value:.1}"),
    };
    (0..=count).map(|n| n as f64 * step).map(|value| (value, shown(value))).collect()
}

/// The first letter large.
pub(super) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters
        .next()
        .map_or(String::new(), |first| first.to_uppercase().collect::<String>() + letters.as_str())
}
