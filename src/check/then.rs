//! What a fault's `then` asks for, read from its first words.
//! Never asks whether the movement has such a setting; rules do.

use crate::finding::Span;
use crate::gym::Gym;
use crate::library::{Fault, Movement};

/// What to do when a cue does not mend a fault.
pub enum Then<'t> {
    /// The rung below.
    RungBelow,
    /// Stop.
    Stop,
    /// A setting and how to change it.
    Setting(&'t str, How<'t>),
    /// Some other words: a movement, or nothing known.
    Words(&'t str),
}

/// How to change a setting.
pub enum How<'t> {
    /// A larger number.
    More,
    /// A smaller number.
    Less,
    /// To a value, such as `60 cm`.
    To(&'t str),
}

/// Reads the words before the first comma.
pub fn read(words: &str) -> Then<'_> {
    if words == "rung below" {
        return Then::RungBelow;
    }
    if words == "stop" {
        return Then::Stop;
    }
    match words.split_once(' ') {
        Some((setting, "more")) => Then::Setting(setting, How::More),
        Some((setting, "less")) => Then::Setting(setting, How::Less),
        Some((setting, value)) if value.starts_with(|c: char| c.is_ascii_digit()) => {
            Then::Setting(setting, How::To(value.trim()))
        }
        _ => Then::Words(words),
    }
}

/// One fault's `then`: whose it is, where its first words stand, and what they ask for.
pub struct Found<'l> {
    /// The movement with the fault.
    pub movement: &'l Movement,
    /// Where the words before the first comma stand.
    pub span: Span,
    /// The words.
    pub words: &'l str,
    /// What they ask for.
    pub then: Then<'l>,
}

/// Every `then` of every fault.
pub fn all(gym: &Gym) -> Vec<Found<'_>> {
    let movements = gym.library.movements.values();
    let faults = movements.flat_map(|m| m.faults.iter().map(move |fault| (m, fault)));
    faults.filter_map(|(movement, fault)| found(movement, fault, gym)).collect()
}

fn found<'l>(movement: &'l Movement, fault: &'l Fault, gym: &Gym) -> Option<Found<'l>> {
    let then = fault.then.as_ref()?;
    let words = then.value.names.as_str();
    let span = gym.library.sources.part(then.span, words);
    Some(Found { movement, span, words, then: read(words) })
}
