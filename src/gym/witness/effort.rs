//! Effort that no pose shows: holding the breath, pressure in the belly, all-out holds, jolts.
//! Only rules of thumb, each stated here with its reason; their word is advice, never a finding
//! that must be mended.

use super::thresholds as from;
use crate::gym::Posed;
use crate::library::{Amount, Counts, Dose, Movement, Purpose, TraitId};
use crate::mechanics::demand::Borne;

/// A trait to be expected of a movement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Expected {
    /// The trait's id in `words/traits.yaml`.
    pub shows: &'static str,
    /// 1 some, 2 a lot.
    pub level: u8,
    /// By which rule, in a coach's words.
    pub words: String,
}

/// So few repetitions are near the most that can be done: ACSM 2009 gives 1 to 6 for strength.
const FEW_REPS: u32 = 5;
/// Per cent of body mass on the arms at which most people hold their breath: a push-up on the
/// floor carries 64 (Ebben 2011). Common practice, no source.
const ARMS_STRAIN: f64 = 60.0;
/// Kilograms held, at which most people do. Common practice, no source.
const WEIGHT_STRAINS: f64 = 16.0;
/// A landing at least every so many seconds jolts. Common practice, no source.
const QUICK: f64 = 1.5;

/// What is to be expected of a movement, with the doses that its ladders give it.
pub fn expected(movement: &Movement, posed: Option<&Posed>, doses: &[&Dose]) -> Vec<Expected> {
    let found = [
        held_long(movement),
        breath(movement, posed, doses),
        belly(movement, posed),
        jolt(movement),
        pressed(movement),
    ];
    found.into_iter().flatten().collect()
}

fn one(shows: &'static str, words: impl Into<String>) -> Option<Expected> {
    Some(Expected { shows, level: 1, words: words.into() })
}

/// Strength or endurance counted in seconds is held, and a hold climbs towards its end.
fn held_long(movement: &Movement) -> Option<Expected> {
    let trained = matches!(movement.purpose, Some(Purpose::Strength | Purpose::Endurance));
    let held = movement.counts == Counts::Seconds && trained;
    held.then(|| one("maximal-hold", "it is held for seconds to get stronger or to last")).flatten()
}

/// Much weight in the hands or on the arms, or few repetitions.
fn breath(movement: &Movement, posed: Option<&Posed>, doses: &[&Dose]) -> Option<Expected> {
    let demand = posed.and_then(|posed| posed.demand.as_ref());
    let arms = demand.and_then(|d| d.borne.as_ref()).and_then(Borne::share).unwrap_or(0.0);
    let weight = demand.map_or(0.0, |d| d.weight);
    let few =
        |dose: &&Dose| matches!(&dose.amount, Some(amount) if at_most(amount.value, FEW_REPS));
    if movement.purpose != Some(Purpose::Strength) {
        None
    } else if arms >= ARMS_STRAIN {
        one("breath-hold", format!("the arms carry {arms:.0} % of body mass"))
    } else if weight >= WEIGHT_STRAINS {
        one("breath-hold", format!("{weight:.0} kg are held"))
    } else if doses.iter().any(few) {
        one("breath-hold", format!("a ladder asks for {FEW_REPS} repetitions at most"))
    } else {
        None
    }
}

fn at_most(amount: Amount, most: u32) -> bool {
    matches!(amount, Amount::Reps(reps) if reps.to <= most)
}

/// A braced trunk, a heavy weight, or a landing presses on the belly's wall and the pelvic floor.
fn belly(movement: &Movement, posed: Option<&Posed>) -> Option<Expected> {
    let weight = posed.and_then(|posed| posed.demand.as_ref()).map_or(0.0, |d| d.weight);
    let strength = movement.purpose == Some(Purpose::Strength);
    match movement.pattern.value.as_str() {
        "jump" if movement.counts == Counts::Contacts => {
            one("abdominal-pressure", "every landing presses down on the pelvic floor")
        }
        _ if strength && weight >= from::SPINE_CARRIES_MUCH => {
            one("abdominal-pressure", format!("{weight:.0} kg are held"))
        }
        _ => None,
    }
}

/// Who holds the breath presses on the belly: the closed chest leaves the pressure no other way.
fn pressed(movement: &Movement) -> Option<Expected> {
    let holds = movement.trait_level(&TraitId("breath-hold".to_string())) > 0;
    let words = "whoever holds the breath presses on the belly and the pelvic floor";
    holds.then(|| one("abdominal-pressure", words)).flatten()
}

/// A jump that is counted by its landings, or a quick one, jolts even where the figure stands.
fn jolt(movement: &Movement) -> Option<Expected> {
    if movement.pattern.value.as_str() != "jump" {
        return None;
    }
    let contacts = movement.counts == Counts::Contacts;
    let quick = movement.pace.is_some_and(|pace| pace.number() < QUICK);
    match contacts || quick {
        true => one("impact", "it is a jump, counted in landings or done quickly"),
        false => None,
    }
}
