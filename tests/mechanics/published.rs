//! Computed shares against published measurements, row by row.
//! Never a fitted row: the tolerances are the issue's, 5 points, and 7 on the knees.

use super::facts::{number, pose, table};
use rungbook::gym::Gym;
use rungbook::gym::measured::{LeftOut, Residual, families};
use rungbook::library::reader;
use rungbook::mechanics::demand::demand;
use rungbook::mechanics::published::{CALIBRATIONS, LegJoint, Measured, ROWS, Row, When};
use rungbook::mechanics::segments::Table;
use rungbook::mechanics::solve::{Person, figure};
use std::path::Path;

fn residuals() -> Vec<Residual> {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Gym::open(reader::read(&content).expect("the starter library is there")).residuals().to_vec()
}

/// Root mean square and mean of the misses, the share of rows in their band, the mean interval score.
fn said(rows: &[&Residual]) -> String {
    let n = rows.len() as f64;
    let mean = |of: &dyn Fn(&Residual) -> f64| rows.iter().map(|r| of(r)).sum::<f64>() / n;
    format!(
        "n {:2}  rms {:4.1}  bias {:+5.1}  in band {:3.0} %  interval score {:5.1}",
        rows.len(),
        mean(&|r| r.miss() * r.miss()).sqrt(),
        mean(&Residual::miss),
        100.0 * mean(&|r| f64::from(u8::from(r.covered()))),
        mean(&Residual::score)
    )
}

/// `cargo test --test mechanics residuals -- --nocapture` prints every row, then each family. A
/// still pose is no peak in motion: those rows stand apart and count in no coverage.
#[test]
fn residuals_of_every_published_row() {
    let found = residuals();
    assert_eq!(found.len(), ROWS.len(), "every row has a pose of the library");
    println!(
        "{:90} {:>8} {:>8} {:>5} {:>6} {:>6}",
        "published row", "measured", "computed", "band", "miss", "unseen"
    );
    for r in &found {
        let words = format!("{}, {} ({})", r.row.words(), r.row.when.words(), r.row.source);
        let (miss, unseen) = (r.miss(), r.left_out_miss());
        println!(
            "{words:90} {:8.1} {:8.1} {:5.1} {miss:+6.1} {unseen:+6.1}",
            r.row.per_cent, r.computed, r.band
        );
    }
    let held: Vec<&Residual> = found.iter().filter(|r| r.row.when.compares()).collect();
    let families = families(&found);
    assert_eq!(families.iter().map(|f| f.rows).sum::<usize>(), found.len() + held.len());
    for family in &families {
        let of_it = |r: &&Residual| {
            let kind = family.kind.is_none_or(|kind| r.row.what.kind() == kind);
            kind && r.row.when.compares() != family.moving
        };
        let rows: Vec<&Residual> = found.iter().filter(of_it).collect();
        println!("{:55} {}", family.words(), said(&rows));
        // The page's line is the same, reckoned by the program.
        let squares = rows.iter().map(|r| (r.computed - r.row.per_cent).powi(2)).sum::<f64>();
        assert!((family.rms - (squares / rows.len() as f64).sqrt()).abs() < 1e-9, "{family:?}");
        let outside = |r: &&&Residual| (r.computed - r.row.per_cent).abs() > r.band;
        assert_eq!(family.inside, rows.len() - rows.iter().filter(outside).count(), "{family:?}");
    }
    let beyond: Vec<_> = found.iter().filter(|r| r.miss().abs() > r.row.within).collect();
    assert!(beyond.is_empty(), "{beyond:?}");
    // Nine of ten in the band: two in ten may lie outside of so few rows.
    let outside = held.iter().filter(|r| !r.covered()).count();
    assert!(10 * outside <= 2 * held.len(), "{outside} of {} held rows outside", held.len());
}

/// `cargo test --test mechanics left_it_out -- --nocapture` prints what each source is told by a model that
/// never saw it (`gym::left_out`): within the tolerance of a row that was seen, or within the band that
/// pages print.
#[test]
fn each_source_is_told_by_a_model_that_left_it_out() {
    let found = residuals();
    for source in ["ebben-2011", "suprak-2011", "melrose-dawes-2015"] {
        let own = |r: &&Residual| r.row.source == source && r.row.over.is_none();
        let rows: Vec<&Residual> = found.iter().filter(own).collect();
        let rms = |of: &dyn Fn(&Residual) -> f64| {
            (rows.iter().map(|r| of(r).powi(2)).sum::<f64>() / rows.len() as f64).sqrt()
        };
        let (with, without) = (rms(&Residual::miss), rms(&Residual::left_out_miss));
        let chosen = CALIBRATIONS.iter().filter(|c| c.chosen_on.contains(&source)).count();
        let inside = rows.iter().filter(|r| r.covered_unseen()).count();
        println!(
            "{source:20} {chosen} chosen on it: rms {with:4.1}, left out {without:4.1}, {inside} of {} in that band",
            rows.len()
        );
        for r in &rows {
            let LeftOut { computed, band } = r.left_out;
            println!(
                "  {:60} {:6.1} {computed:6.1} +- {band:4.1} {:+5.1}",
                r.row.words(),
                r.row.per_cent,
                r.left_out_miss()
            );
        }
        assert!(without <= 7.5 && (chosen > 0 || without <= 5.0), "{source}: {without}");
        // What was chosen on a source earns its place there, and was left out indeed.
        assert!((chosen > 0) == (without - with > 1e-9), "{source}: {with} {without}");
    }
    let compared: Vec<&Residual> = found.iter().filter(|r| r.row.when.compares()).collect();
    let outside = compared.iter().filter(|r| !r.covered_unseen()).count();
    println!("unseen: {outside} of {} outside", compared.len());
    assert!(10 * outside <= 2 * compared.len(), "{outside} of {}", compared.len());
}

/// Ebben et al. 2011: 41 < 49 < 55 < 64 < 70 < 74 % of body mass.
#[test]
fn push_ups_keep_the_measured_order() {
    let found = residuals();
    let mut ours: Vec<(f64, f64)> = found
        .iter()
        .filter(|r| r.row.source == "ebben-2011" && r.row.over.is_none())
        .map(|r| (r.row.per_cent, r.computed))
        .collect();
    ours.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert_eq!(ours.len(), 6);
    assert!(ours.windows(2).all(|pair| pair[0].1 < pair[1].1), "{ours:?}");
}

/// The rows in the program are those of the tables, to the printed digit.
#[test]
fn rows_are_copied_from_the_tables() {
    let (mut left, ratios): (Vec<Row>, Vec<Row>) =
        ROWS.iter().copied().partition(|row| row.over.is_none());
    let mut take = |what: Measured, lowered: bool, per_cent: f64| {
        let at = left.iter().position(|row| {
            row.what == what && row.per_cent == per_cent && lowered == (row.when == When::Bottom)
        });
        left.remove(at.unwrap_or_else(|| panic!("{what:?} {per_cent}")))
    };
    let floor = Measured::PushUp { hands: 0.0, feet: 0.0, knees: false };
    let mut over_floor: Vec<(Measured, f64)> = Vec::new();
    for row in table("push_up_shares") {
        let (hands, feet) = (number(&row, "hands_cm"), number(&row, "feet_cm"));
        let (knees, lowered) = (row["on"] == "knees", row["key_pose"] == "end");
        let what = Measured::PushUp { hands, feet, knees };
        let row = take(what, lowered, number(&row, "per_cent"));
        if row.when == When::MovingPeak && what != floor {
            over_floor.push((what, 100.0 * row.per_cent / 64.0));
        }
    }
    for row in table("strap_row_shares") {
        take(Measured::StrapRow(number(&row, "lean_deg")), false, number(&row, "per_cent"));
    }
    // `yosh07a`, `burdett1` and `burdett2` of the shared table of other measurements.
    take(Measured::Rise(40.0, LegJoint::Both), false, 153.0);
    assert!(left.is_empty(), "{left:?}");
    for row in ratios {
        let over = row.over.expect("a ratio");
        let known = match row.what {
            Measured::Rise(43.0, joint) => {
                assert_eq!(over, Measured::Rise(64.0, joint));
                let times = if joint == LegJoint::Knee { 190.0 } else { 240.0 };
                row.per_cent == times
            }
            what => over == floor && over_floor.contains(&(what, row.per_cent)),
        };
        assert!(known, "{row:?}");
    }
}

/// What goes up and down is the segment tables' arithmetic, to 0.05 of a point.
#[test]
fn lifted_shares_are_the_tables_arithmetic() {
    let rows = table("lifted_shares");
    assert_eq!(rows.len(), 9);
    for row in rows {
        let text = match row["movement"].as_str() {
            "squat" => {
                "{start: {feet: floor, knee: 3, balance: feet}, end: {thigh: horizontal, arms: forward}}"
            }
            "pull-up" => {
                "{start: {hands: bar 225, elbow: 0, balance: hands}, end: {chin: over bar}}"
            }
            _ => {
                "{start: {near: {foot: floor, knee: 5}, far: {hip: 25}, balance: near foot}, end: {near: {knee: 60}, balance: near foot}}"
            }
        };
        let segments = match row["table"].as_str() {
            "de Leva 1996 table 4, women" => Table::DeLevaWomen,
            "de Leva 1996 table 4, men" => Table::DeLevaMen,
            _ => Table::Winter,
        };
        let person = Person { table: segments, ..Person::default() };
        let (solved, _) = figure(&pose(text), 0, &[], &person);
        let ours = demand(&solved.expect("a figure")).lifted.expect("a lifted share");
        assert!((ours - number(&row, "per_cent")).abs() <= 0.05, "{row:?}: {ours}");
    }
}
