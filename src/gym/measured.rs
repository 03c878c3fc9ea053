//! Measured: what the library's own poses say to the published rows.
//! Never a pose drawn for the comparison: a row that no entry does has no number here.

use super::{pose_person, posed};
use crate::library::{Library, Quantity, Unit};
use crate::mechanics::published::{ROWS, Row, RowKind, When};

/// A row and what the model says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residual {
    /// The row.
    pub row: Row,
    /// The model's share, per cent of body weight.
    pub computed: f64,
    /// Give or take, points.
    pub band: f64,
}

impl Residual {
    /// Computed less measured, points.
    pub fn miss(&self) -> f64 {
        self.computed - self.row.per_cent
    }

    /// Whether the measured number lies in the band.
    pub fn covered(&self) -> bool {
        self.miss().abs() <= self.band
    }

    /// The interval score of a band of nine in ten: its width, and twenty times by how much it
    /// misses, so that neither a wide nor a proud band looks good.
    pub fn score(&self) -> f64 {
        2.0 * self.band + 20.0 * (self.miss().abs() - self.band).max(0.0)
    }
}

/// How the rows of one kind came out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreement {
    /// How many rows.
    pub rows: usize,
    /// Root mean square of the misses, points.
    pub rms: f64,
    /// True when every row is a peak in motion, which no still pose is.
    pub moving: bool,
    /// At which instant they were read.
    pub when: When,
}

/// What the library's poses say to every published row that they do.
pub fn residuals(library: &Library) -> Vec<Residual> {
    ROWS.iter().filter_map(|row| residual(library, row)).collect()
}

fn residual(library: &Library, row: &Row) -> Option<Residual> {
    let (id, at) = row.what.entry();
    let movement = library.movements.values().find(|movement| movement.id.as_str() == id)?;
    let unit = if row.what.kind() == RowKind::Straps { Unit::Degree } else { Unit::Centimetre };
    let given: Vec<(&str, Quantity)> =
        at.into_iter().map(|(name, value)| (name, Quantity::new(value, unit))).collect();
    let demand = posed(movement, &given, &pose_person())?.demand?;
    let (computed, doubts) = demand.doubtful(|demand| row.read(demand))?;
    Some(Residual { row: *row, computed, band: doubts.band() })
}

/// How rows of a kind came out at an instant: those held still there; where none is and the arms are
/// straight, the peaks in motion.
pub fn agreement(residuals: &[Residual], kind: RowKind, when: When) -> Option<Agreement> {
    let at = |when: When| {
        let of_kind = move |r: &&Residual| r.row.what.kind() == kind && r.row.when == when;
        residuals.iter().filter(of_kind).map(Residual::miss).collect::<Vec<f64>>()
    };
    let still = at(when);
    let moving = still.is_empty() && when == When::Straight;
    let counted = if moving { at(When::MovingPeak) } else { still };
    let rows = counted.len();
    let rms = (counted.iter().map(|miss| miss * miss).sum::<f64>() / rows as f64).sqrt();
    (rows > 0).then_some(Agreement { rows, rms, moving, when })
}

/// How the rows of one kind came out, held still or in motion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Family {
    /// Of which kind; all kinds together where there is none.
    pub kind: Option<RowKind>,
    /// Whether the rows are peaks in motion, which no still pose is: they count in no coverage.
    pub moving: bool,
    /// How many rows.
    pub rows: usize,
    /// Root mean square of the misses, points.
    pub rms: f64,
    /// Mean of the misses, computed less measured, points.
    pub bias: f64,
    /// How many lie in their band.
    pub inside: usize,
    /// Mean interval score, points: the smaller the better, so that a wide band costs.
    pub score: f64,
}

/// Every kind of rows, and all that were held still together.
pub fn families(residuals: &[Residual]) -> Vec<Family> {
    let kinds = RowKind::ALL.into_iter().map(Some);
    let each = kinds.flat_map(|kind| [(kind, false), (kind, true)]).chain([(None, false)]);
    each.filter_map(|(kind, moving)| family(residuals, kind, moving)).collect()
}

fn family(residuals: &[Residual], kind: Option<RowKind>, moving: bool) -> Option<Family> {
    let of_kind = |r: &&Residual| {
        kind.is_none_or(|kind| r.row.what.kind() == kind)
            && (r.row.when == When::MovingPeak) == moving
    };
    let found: Vec<&Residual> = residuals.iter().filter(of_kind).collect();
    let mean =
        |of: fn(&Residual) -> f64| found.iter().map(|r| of(r)).sum::<f64>() / found.len() as f64;
    (!found.is_empty()).then(|| Family {
        kind,
        moving,
        rows: found.len(),
        rms: mean(|r| r.miss() * r.miss()).sqrt(),
        bias: mean(Residual::miss),
        inside: found.iter().filter(|r| r.covered()).count(),
        score: mean(Residual::score),
    })
}

impl Family {
    /// In a coach's words.
    pub fn words(&self) -> String {
        let kind = self.kind.map_or("All together", RowKind::words);
        format!("{kind}, {}", if self.moving { "peaks in motion" } else { "held still" })
    }
}

/// How a number was come by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Provenance {
    /// Computed, and rows of its kind say how near that comes.
    Checked(Agreement),
    /// Computed from balance; held against no row.
    Computed,
    /// Computed, with a rule for what the leading foot carries.
    Ruled,
    /// Written on the weight.
    Written,
}

impl Provenance {
    /// In one sentence, without its full stop.
    pub fn words(self) -> String {
        let rows = |n: usize| if n == 1 { "row".to_string() } else { "rows".to_string() };
        match self {
            Provenance::Checked(Agreement { rows: n, rms, moving: false, when }) => format!(
                "Computed and checked on the one person drawn: {n} published {} of this kind, {}, within {rms:.1} points (root mean square)",
                rows(n),
                when.words()
            ),
            Provenance::Checked(Agreement { rows: n, rms, moving: true, .. }) => format!(
                "Computed; {n} published {} of this kind, peaks in motion and so another instant, {rms:.1} points away (root mean square)",
                rows(n)
            ),
            Provenance::Computed => {
                "Computed from balance; held against no measurement of this kind".to_string()
            }
            Provenance::Ruled => {
                "Computed, with a rule for how much the front foot carries; held against no measurement".to_string()
            }
            Provenance::Written => "As written on the weight".to_string(),
        }
    }
}
