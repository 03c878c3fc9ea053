//! Computed shares against published measurements, row by row.
//! Never a fitted row: the tolerances are the issue's, 5 points, and 7 on the knees.

use super::facts::{number, pose, table};
use rungbook::mechanics::demand::demand;
use rungbook::mechanics::published::{Measured, ROWS, residuals};
use rungbook::mechanics::segments::Table;
use rungbook::mechanics::solve::{Person, figure};

#[test]
fn residuals_of_every_published_row() {
    let found = residuals();
    assert_eq!(found.len(), ROWS.len(), "every row has a model number");
    println!("{:52} {:>8} {:>8} {:>6}", "published row", "measured", "computed", "miss");
    for r in &found {
        let words = format!("{} ({})", r.row.what.words(), r.row.source);
        println!("{words:52} {:8.1} {:8.1} {:+6.1}", r.row.per_cent, r.computed, r.miss());
    }
    let beyond: Vec<_> = found.iter().filter(|r| r.miss().abs() > r.row.within).collect();
    assert!(beyond.is_empty(), "{beyond:?}");
}

/// Ebben et al. 2011: 41 < 49 < 55 < 64 < 70 < 74 % of body mass.
#[test]
fn push_ups_keep_the_measured_order() {
    let mut ours: Vec<(f64, f64)> = residuals()
        .iter()
        .filter(|r| r.row.source == "ebben-2011")
        .map(|r| (r.row.per_cent, r.computed))
        .collect();
    ours.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert_eq!(ours.len(), 6);
    assert!(ours.windows(2).all(|pair| pair[0].1 < pair[1].1), "{ours:?}");
}

/// The rows in the program are those of the tables, to the printed digit.
#[test]
fn rows_are_copied_from_the_tables() {
    let mut left: Vec<_> = ROWS.to_vec();
    let mut take = |what: Measured, per_cent: f64| {
        let at = left.iter().position(|row| row.what == what && row.per_cent == per_cent);
        left.remove(at.unwrap_or_else(|| panic!("{what:?} {per_cent}")));
    };
    for row in table("push_up_shares") {
        let (hands, feet) = (number(&row, "hands_cm"), number(&row, "feet_cm"));
        let (knees, lowered) = (row["on"] == "knees", row["key_pose"] == "end");
        take(Measured::PushUp { hands, feet, knees, lowered }, number(&row, "per_cent"));
    }
    for row in table("strap_row_shares") {
        take(Measured::StrapRow(number(&row, "lean_deg")), number(&row, "per_cent"));
    }
    assert!(left.is_empty(), "{left:?}");
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
