//! Weights: every number by which swaps are ranked, in one place. All are thousandths.
//! Never a filter: what a person must not do is settled before any weight counts.
//!
//! That pattern, prime movers, effort and purpose must match, that plane, sides, stability and
//! grip are penalised, and that tool, posture and resistance curve may differ, is what coaches do;
//! how much each counts is common practice, no source. Integers throughout, so that a script in a
//! browser reckons the same order.

use crate::library::{Counts, Purpose, Sides};

/// What each part of a score weighs. A part that is not known is left out and the rest share its
/// weight in proportion, so that it neither adds nor subtracts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Weights {
    /// The same pattern, or one near it.
    pub pattern: u32,
    /// The same muscles, the prime movers first.
    pub movers: u32,
    /// What it is trained for.
    pub purpose: u32,
    /// How near the effort is.
    pub demand: u32,
    /// Both sides at once, or one.
    pub sides: u32,
    /// The plane.
    pub plane: u32,
    /// How much balance it asks for.
    pub stability: u32,
    /// How hard the hands must hold.
    pub grip: u32,
    /// Whether it is counted in the same thing: repetitions, seconds, metres, contacts.
    pub counts: u32,
}

/// The weights in use; they add up to 1000. Common practice, no source: what must match
/// (pattern, movers, purpose, demand) has 760 of them, what is only penalised the other 240.
pub const WEIGHTS: Weights = Weights {
    pattern: 260,
    movers: 260,
    purpose: 100,
    demand: 140,
    sides: 60,
    plane: 50,
    stability: 50,
    grip: 30,
    counts: 50,
};

/// Below this total a movement does not do the same work and is not returned, unless the coach has
/// linked the two.
/// Common practice, no source: set so that a row still stands for a pull-up and a held row for a
/// moving one.
pub const FLOOR: u32 = 600;

/// A movement has at most this many candidates, the best: more than anyone reads, and enough for
/// kit and limits to take most of them away. It keeps pages small in a large library. Common
/// practice, no source.
pub const MOST: usize = 40;

/// Below this likeness of patterns a movement does not do the same work, unless the coach has
/// linked the two: half of the work, so that a bridge stands for a hinge and a jump or a deadlift
/// does not stand for a squat. Common practice, no source.
pub const PATTERN_FLOOR: u32 = 500;

/// Below this likeness of muscles likewise. Common practice, no source.
pub const MOVERS_FLOOR: u32 = 450;

/// Added to the total of a movement that the first one's entry names under `beside`: the coach
/// has said that it does like work. Common practice, no source.
pub const LINKED: u32 = 60;

/// Added where only the other entry names this one.
pub const LINKED_BACK: u32 = 30;

/// How much a prime mover counts by its place in the list, the hardest working first; the last
/// number serves every later place. Common practice, no source.
pub const PRIME: [u32; 5] = [1000, 800, 600, 500, 400];

/// How much a muscle counts that only helps or holds. Common practice, no source.
pub const ASSIST: u32 = 200;

/// Lost for each level by which a trait (balance, strong grip) differs; levels run from 0 to 2.
pub const PER_LEVEL: u32 = 400;

/// Lost for each rung further apart on a ladder than next to each other.
pub const PER_RUNG: u32 = 200;

/// How alike two purposes are. Strength and mobility are different work (nothing in common);
/// the rest is common practice, no source.
pub fn purposes(a: Purpose, b: Purpose) -> u32 {
    use Purpose::{Endurance, Mobility, Power, Skill, Strength};
    match (a.min(b), a.max(b)) {
        _ if a == b => 1000,
        (Strength, Endurance) => 700,
        (Strength | Endurance, Power) => 400,
        (Mobility, Skill) => 300,
        (_, Mobility) | (Mobility, _) => 0,
        (_, Skill) => 500,
        _ => 0,
    }
}

/// How alike two ways of using the sides are. A per-side swap doubles the time; one that takes
/// turns lies between. Common practice, no source.
pub fn sides(a: Sides, b: Sides) -> u32 {
    match (a, b) {
        _ if a == b => 1000,
        (Sides::Alternating, _) | (_, Sides::Alternating) => 600,
        _ => 400,
    }
}

/// How alike two ways of counting are. A hold is a partial match for repetitions.
/// Common practice, no source.
pub fn counts(a: Counts, b: Counts) -> u32 {
    match (a.min(b), a.max(b)) {
        _ if a == b => 1000,
        (Counts::Reps, Counts::Contacts) => 700,
        (Counts::Reps, Counts::Seconds) => 300,
        (Counts::Seconds, Counts::Metres) => 600,
        _ => 300,
    }
}
