//! Placing: against published figures, as rules, and against the browser's script.

mod command;
mod stretch;
mod people;
mod published;
mod relate;
mod retest;
mod rules;
mod script;
mod segments;
mod set_up;
mod starter;

use rungbook::library::{Counts, Quantity, Unit};
use rungbook::placing::{Counted, PUBLISHED, RungDemand, Sheet, Target, TestResult, UpRule};

/// A ladder whose rungs all have the dose 3 x 6-10 repetitions and the usual rule.
fn sheet(rungs: usize) -> Sheet {
    let rule = "Two extra repetitions in the last set, two sessions running";
    Sheet { up: Some(UpRule::read(rule)), rungs: vec![Some(dose(Counts::Reps, 6, 10)); rungs] }
}

fn dose(counts: Counts, from: u32, to: u32) -> Target {
    Target { counts, from, to, sets: Some([3, 3]), each_side: false }
}

/// Rungs that carry these shares of body mass, exactly.
fn shares(shares: &[f64]) -> Vec<Option<RungDemand>> {
    shares.iter().map(|share| Some(carries(*share, 0.0, 0.0))).collect()
}

/// A share of body mass, its band, and kilograms added by the rung.
fn carries(share: f64, band: f64, weight_kg: f64) -> RungDemand {
    RungDemand {
        share,
        band,
        end: None,
        weight_kg,
        kind: 0,
        pose: 0,
        in_mass: true,
        across: PUBLISHED,
    }
}

fn reps(rung: u32, reps: u32) -> TestResult {
    TestResult { rung, counted: Counted::Reps(reps), body_mass: None, added: None, own: None }
}

fn seconds(rung: u32, seconds: u32) -> TestResult {
    TestResult { counted: Counted::Seconds(seconds), ..reps(rung, 0) }
}

fn kg(number: f64) -> Option<Quantity> {
    Some(Quantity::new(number, Unit::Kilogram))
}
