//! Measured: what the library's own poses say to the published rows.
//! Never a pose drawn for the comparison: a row that no entry does has no number here.

use super::left_out::Unseen;
use crate::library::{Library, Quantity, Unit};
use crate::mechanics::doubt::Doubts;
use crate::mechanics::published::{CALIBRATIONS, ROWS, Row, RowKind, When};

/// A row and what the model says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residual {
    /// The row.
    pub row: Row,
    /// The model's share, per cent of body weight.
    pub computed: f64,
    /// Give or take, points.
    pub band: f64,
    /// The same by a model without the numbers that were chosen on the row's own source.
    pub left_out: LeftOut,
}

/// What a model says to a row whose source it never saw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftOut {
    /// The model's number, in the row's unit.
    pub computed: f64,
    /// Give or take.
    pub band: f64,
}

impl Residual {
    /// Computed less measured, points.
    pub fn miss(&self) -> f64 {
        self.computed - self.row.per_cent
    }

    /// Computed less measured by the model that never saw the source.
    pub fn left_out_miss(&self) -> f64 {
        self.left_out.computed - self.row.per_cent
    }

    /// Whether the measured number lies in that model's band.
    pub fn covered_unseen(&self) -> bool {
        self.left_out_miss().abs() <= self.left_out.band
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
    /// Whether something in the model was chosen on these very rows: then they are met, and check nothing.
    pub set_on: bool,
}

/// Whether a number of the model was chosen on the sources of these rows, which are of one kind.
fn is_set_on(residuals: &[Residual], kind: RowKind) -> bool {
    let chosen = |source: &str| CALIBRATIONS.iter().any(|one| one.chosen_on.contains(&source));
    let set = matches!(kind, RowKind::RaisedHands | RowKind::RaisedFeet | RowKind::Straps);
    set && residuals.iter().any(|r| r.row.what.kind() == kind && chosen(r.row.source))
}

/// What the library's poses say to every published row that they do.
pub fn residuals(library: &Library) -> Vec<Residual> {
    ROWS.iter().filter_map(|row| residual(library, row)).collect()
}

fn residual(library: &Library, row: &Row) -> Option<Residual> {
    let seen = side(library, row, Unseen::Nothing)?;
    let unseen = side(library, row, Unseen::of(row))?;
    let (computed, band) = seen;
    let left_out = LeftOut { computed: unseen.0, band: unseen.1 };
    Some(Residual { row: *row, computed, band, left_out })
}

/// A row's number and its band, of one pose or of one over another.
fn side(library: &Library, row: &Row, unseen: Unseen) -> Option<(f64, f64)> {
    let (value, doubts) = one(library, row, unseen)?;
    let Some(over) = row.over else { return Some((value, doubts.band())) };
    let (below, other) = one(library, &Row { what: over, over: None, ..*row }, unseen)?;
    let ratio = 100.0 * value / below;
    Some((ratio, ratio * doubts.times(1.0 / value).apart(other.times(1.0 / below))))
}

fn one(library: &Library, row: &Row, unseen: Unseen) -> Option<(f64, Doubts)> {
    let (id, at) = row.what.entry();
    let movement = library.movements.values().find(|movement| movement.id.as_str() == id)?;
    let unit = if row.what.kind() == RowKind::Straps { Unit::Degree } else { Unit::Centimetre };
    let given: Vec<(&str, Quantity)> =
        at.into_iter().map(|(name, value)| (name, Quantity::new(value, unit))).collect();
    let demand = unseen.demand(movement, &given)?;
    let (value, doubts) = demand.doubtful(|demand| row.read(demand))?;
    Some(unseen.without_factor(value, doubts))
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
    let set_on = when == When::Straight && is_set_on(residuals, kind);
    (rows > 0).then_some(Agreement { rows, rms, moving, when, set_on })
}

/// How the rows of one kind came out, held still or in motion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Family {
    /// Of which kind; all kinds together where there is none.
    pub kind: Option<RowKind>,
    /// Whether the rows are peaks in motion, or poses that are not ours: they count in no coverage.
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
    /// Root mean square of the misses of a model that never saw the row's source.
    pub unseen_rms: f64,
    /// How many lie in that model's band.
    pub unseen_inside: usize,
}

/// Every kind of rows, and all that compare with a still pose together.
pub fn families(residuals: &[Residual]) -> Vec<Family> {
    let kinds = RowKind::ALL.into_iter().map(Some);
    let each = kinds.flat_map(|kind| [(kind, false), (kind, true)]).chain([(None, false)]);
    each.filter_map(|(kind, moving)| family(residuals, kind, moving)).collect()
}

fn family(residuals: &[Residual], kind: Option<RowKind>, moving: bool) -> Option<Family> {
    let of_kind = |r: &&Residual| {
        kind.is_none_or(|kind| r.row.what.kind() == kind) && r.row.when.compares() != moving
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
        unseen_rms: mean(|r| r.left_out_miss() * r.left_out_miss()).sqrt(),
        unseen_inside: found.iter().filter(|r| r.covered_unseen()).count(),
    })
}

impl Family {
    /// In a coach's words.
    pub fn words(&self) -> String {
        let kind = self.kind.map_or("All together", RowKind::words);
        let how = match (self.moving, self.kind) {
            (true, Some(RowKind::Rise)) => "another lean",
            (true, _) => "peaks in motion",
            (false, _) => "like by like",
        };
        format!("{kind}, {how}")
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
    /// Computed from a band's stretch, by published tables.
    Stretched,
    /// What hangs from a pulley.
    Hung,
}

impl Provenance {
    /// In one sentence, without its full stop.
    pub fn words(self) -> String {
        let rows = |n: usize| if n == 1 { "row".to_string() } else { "rows".to_string() };
        match self {
            Provenance::Checked(Agreement { rows: n, rms, moving: false, when, set_on: true }) => format!(
                "Computed for the one person drawn, with a factor set on {n} published {} of this kind, {}, which it meets within {rms:.1} points (root mean square): no check of their own",
                rows(n),
                when.words()
            ),
            Provenance::Checked(Agreement { rows: n, rms, moving: true, set_on: true, .. }) => format!(
                "Computed, with the line of the arms set on {n} published {} of this kind, peaks in motion and so another instant, {rms:.1} points away (root mean square): no check of their own",
                rows(n)
            ),
            Provenance::Checked(Agreement { rows: n, rms, moving: false, when, .. }) => format!(
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
            Provenance::Stretched => {
                "Computed from how far the band is stretched, by a maker's table of two points and a \
                 published curve of second order; held against no other measurement"
                    .to_string()
            }
            Provenance::Hung => "As written on the weight that hangs from the pulley".to_string(),
        }
    }
}
