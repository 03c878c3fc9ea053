//! What a person can have counted, weigh or measure; beyond it a slip of the finger is likelier.
//! Never judges a result that can be: it is asked again, not scored.

use super::words::{self, fill};
use super::{Counted, TestResult};
use crate::library::Quantity;
use serde::Serialize;

/// From how much to how much something can be. Wide on purpose, so that nobody is refused who
/// stands in front of the coach: common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Possible {
    /// What is measured, as a sentence begins with it.
    pub what: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
}

const fn possible(what: &'static str, unit: &'static str, least: f64, most: f64) -> Possible {
    Possible { what, unit, least, most }
}

/// Repetitions in one set.
pub const REPS: Possible = possible("A set of", "repetitions", 0.0, 300.0);
/// Seconds held.
pub const SECONDS: Possible = possible("A hold of", "s", 0.0, 3600.0);
/// Stature.
pub const STATURE: Possible = possible("A stature of", "cm", 120.0, 230.0);
/// Body mass.
pub const BODY_MASS: Possible = possible("A body mass of", "kg", 25.0, 300.0);
/// Weight added in a test.
pub const ADDED: Possible = possible("An added weight of", "kg", 0.0, 200.0);
/// The height of a thing at home or in the hall.
pub const HEIGHT: Possible = possible("A height of", "cm", 1.0, 250.0);

/// The height of an anchor for straps.
pub const ANCHOR: Possible = possible("An anchor at", "cm", 120.0, 500.0);

impl Possible {
    /// One sentence with the next step where `value` cannot be; nothing where it can.
    pub fn ask_again(&self, value: f64) -> Option<String> {
        let holes: [(&str, &dyn std::fmt::Display); 5] = [
            ("what", &self.what),
            ("value", &value),
            ("unit", &self.unit),
            ("least", &self.least),
            ("most", &self.most),
        ];
        let can = (self.least..=self.most).contains(&value);
        (!can).then(|| fill(words::ASK_AGAIN, &holes))
    }
}

impl TestResult {
    /// Why the result is asked again: an amount that cannot be.
    pub fn ask_again(&self) -> Option<String> {
        let amount = f64::from(self.counted.amount());
        let counted = match self.counted {
            Counted::Reps(_) => REPS.ask_again(amount),
            Counted::Seconds(_) => SECONDS.ask_again(amount),
        };
        let mass = self.body_mass.map(Quantity::number);
        counted
            .or_else(|| mass.and_then(|mass| BODY_MASS.ask_again(mass)))
            .or_else(|| ADDED.ask_again(self.added_kg()))
    }
}
