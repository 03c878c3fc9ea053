//! Placing: from a test result to a rung, a dose for today, a verdict on moving up, and a retest.
//! Never gives a computed number without its band, never promises, and says what it does not know.

mod across;
mod compared;
mod demand;
pub mod stretch;
mod moving_up;
mod noise;
pub mod norms;
pub mod possible;
mod predict;
pub mod relate;
mod relations;
mod retest;
pub mod set_up;
mod sheet;
mod tables;
mod there;
mod today;
mod words;

pub use across::{Across, PUBLISHED};
pub use demand::{
    Build, RungDemand, Share, demand_at, demands_of, rung_table, share_table, stature_note,
};
pub use moving_up::{MoveUp, Verdict as UpVerdict, move_up, sessions};
pub use noise::{noise, noise_of_one};
pub use predict::{Band, Prediction};
pub use relations::{CHART, Form, RELATIONS, Relation, chart_percent};
pub use retest::{Change, Verdict as RetestVerdict, compare};
pub use sheet::{Sheet, Target, UpCount, UpRule};
pub use stretch::STRETCH;
pub use tables::tables;
pub use there::{HEELS, NotThere, Stand, There, at_hand, granted, there};
pub use today::{Today, kept};

use crate::library::{Counts, Ladder, Quantity};
use crate::mechanics::segments::Table;
use serde::Serialize;
use std::fmt;
use words::{counts_words, fill};

/// What a test counted, to the standard, in one set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(tag = "counts", content = "amount", rename_all = "kebab-case")]
pub enum Counted {
    /// Repetitions.
    Reps(u32),
    /// Seconds.
    Seconds(u32),
}

impl Counted {
    /// The number.
    pub fn amount(self) -> u32 {
        match self {
            Counted::Reps(n) | Counted::Seconds(n) => n,
        }
    }

    /// What it counts.
    pub fn counts(self) -> Counts {
        match self {
            Counted::Reps(_) => Counts::Reps,
            Counted::Seconds(_) => Counts::Seconds,
        }
    }
}

/// The result of a test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestResult {
    /// The rung tested, from 1.
    pub rung: u32,
    /// What was counted.
    pub counted: Counted,
    /// Body mass, needed only where a weight is added.
    pub body_mass: Option<Quantity>,
    /// Weight added beyond what the rung says.
    pub added: Option<Quantity>,
    /// What was carried, where the rung's movement was tested at a height or lean of one's own;
    /// `None` where it was the rung as written.
    pub own: Option<RungDemand>,
}

impl TestResult {
    /// Whether the rung was done as it is written: no height of one's own, no weight added.
    pub fn is_as_written(&self) -> bool {
        self.own.is_none() && self.added_kg() == 0.0
    }

    /// The added weight in kg; 0 for none.
    pub fn added_kg(&self) -> f64 {
        self.added.map_or(0.0, Quantity::number)
    }
}

/// What a result says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Placement {
    /// Every rung, lowest demand first.
    pub predicted: Vec<Prediction>,
    /// The rung and dose for today.
    pub today: Today,
    /// What a test at a height or lean of one's own says about that same height today.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub own: Option<String>,
    /// Whether to move up by the ladder's rule.
    pub move_up: MoveUp,
    /// What to know about the numbers.
    pub notes: Vec<String>,
}

/// Why a result cannot be placed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CannotPlace {
    /// The ladder has no rung of that number; it has this many.
    NoSuchRung(usize),
    /// The tested rung counts something else than the result.
    CountsOther {
        /// What the rung counts.
        rung: Counts,
        /// What the result counted.
        result: Counts,
    },
    /// An amount that cannot be, as a sentence with its next step.
    AskAgain(String),
}

impl fmt::Display for CannotPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CannotPlace::NoSuchRung(rungs) => write!(f, "this ladder has rungs 1 to {rungs}"),
            CannotPlace::CountsOther {
                rung: rung @ (Counts::Metres | Counts::Contacts), ..
            } => {
                let rung = counts_words(*rung);
                write!(f, "that rung counts {rung}, and only repetitions and seconds can be placed")
            }
            CannotPlace::CountsOther { rung, result } => {
                let [rung, result] = [*rung, *result].map(counts_words);
                write!(f, "that rung counts {rung}, not {result}")
            }
            CannotPlace::AskAgain(sentence) => f.write_str(sentence),
        }
    }
}

/// Places a result on `ladder`. `demands` has an entry for each rung; missing ones are unknown.
///
/// # Errors
/// When the result does not belong to the ladder.
pub fn place(
    ladder: &Ladder,
    demands: &[Option<RungDemand>],
    result: &TestResult,
) -> Result<Placement, CannotPlace> {
    place_on(&Sheet::of(ladder), demands, result)
}

/// The same, on a ladder's sheet.
///
/// # Errors
/// When the result does not belong to the ladder.
pub fn place_on(
    sheet: &Sheet,
    demands: &[Option<RungDemand>],
    result: &TestResult,
) -> Result<Placement, CannotPlace> {
    place_after(sheet, demands, result, &[result.counted.amount()])
}

/// The same, where `last_sets` are those of the sessions running at the tested rung, this one last;
/// what the rule for moving up says to them stands above every estimate.
///
/// # Errors
/// When the result does not belong to the ladder.
pub fn place_after(
    sheet: &Sheet,
    demands: &[Option<RungDemand>],
    result: &TestResult,
    last_sets: &[u32],
) -> Result<Placement, CannotPlace> {
    belongs(sheet, result)?;
    let predicted = predict::every_rung(sheet, demands, result);
    let by_rule = match result.own {
        None => move_up(sheet, result.rung, last_sets),
        Some(_) => moving_up::elsewhere(sheet, result.rung),
    };
    let today = today::choose(sheet, &predicted, (result, &by_rule));
    let move_up = moving_up::from_today(sheet, by_rule, (result.rung, today.rung));
    let notes = notes(&predicted, (demands, &today), result);
    Ok(Placement { predicted, own: today::at_own(sheet, result), today, move_up, notes })
}

fn belongs(sheet: &Sheet, result: &TestResult) -> Result<(), CannotPlace> {
    let rungs = sheet.rungs.len();
    let at = (result.rung as usize).checked_sub(1).filter(|at| *at < rungs);
    let at = at.ok_or(CannotPlace::NoSuchRung(rungs))?;
    let counts = result.counted.counts();
    if let Some(rung) = sheet.rungs[at].map(|dose| dose.counts).filter(|rung| *rung != counts) {
        return Err(CannotPlace::CountsOther { rung, result: counts });
    }
    result.ask_again().map_or(Ok(()), |sentence| Err(CannotPlace::AskAgain(sentence)))
}

/// Says that shares are reckoned with a person's own segments.
pub fn segments_note(table: Table) -> String {
    fill(words::NOTE_SEGMENTS, &[("table", &table.name())])
}

fn notes(
    predicted: &[Prediction],
    (demands, today): (&[Option<RungDemand>], &Today),
    result: &TestResult,
) -> Vec<String> {
    let is_computed = |known: &Prediction| matches!(known, Prediction::Computed(_));
    let mut notes = Vec::new();
    if predicted.iter().any(is_computed) {
        notes.push(match result.counted {
            Counted::Reps(_) => estimate_note(demands),
            Counted::Seconds(_) => fill(words::NOTE_HOLD, &[]),
        });
    } else {
        notes.push(fill(words::NOTE_COUNTED, &[]));
    }
    if result.added_kg() > 0.0 {
        notes.push(fill(words::NOTE_ADDED, &[("added", &result.added_kg())]));
        let same = predicted.get(result.rung as usize - 1);
        if today.rung == result.rung && matches!(same, Some(Prediction::Measured(_))) {
            notes.push(fill(words::NOTE_ADDED_DOSE, &[]));
        }
    }
    if result.own.is_some() {
        notes.push(fill(words::NOTE_OWN, &[("rung", &result.rung)]));
    }
    if today.rung != result.rung {
        notes.push(fill(words::NOTE_PLACED, &[("rung", &today.rung)]));
    }
    notes
}

/// By what repetitions were carried over from rung to rung.
fn estimate_note(demands: &[Option<RungDemand>]) -> String {
    match demands.iter().flatten().map(|demand| demand.across).find(|across| across.own) {
        Some(own) => fill(words::NOTE_CLUB, &[("factor", &own.factor), ("band", &own.band)]),
        None => fill(words::NOTE_ESTIMATE, &[]),
    }
}

/// That `rung` (from 1) is not for the person who asks, why, and the nearest below that is.
pub fn left_out(rung: u32, why: &str, below: Option<(u32, &str)>) -> String {
    let out = fill(words::LEFT_OUT, &[("rung", &rung), ("whom", &"you"), ("why", &why)]);
    let then = match below {
        Some((below, name)) => fill(words::LEFT_OUT_BELOW, &[("below", &below), ("name", &name)]),
        None => fill(words::LEFT_OUT_NONE, &[("ask", &"ask your coach")]),
    };
    format!("{out} {then}")
}
