//! The drill of the new coach: each fault with each of its cues once, whatever shows it.
//! Never words a fault itself: the library does.

use super::fault::with_fault;
use super::frame::{Link, Maker};
use super::large::is_large;
use crate::library::{Fault, FaultId, Movement, Pattern, PatternId};
use crate::site::routes::To;
use serde::Serialize;
use std::collections::BTreeSet;

/// The cards of a pattern.
#[derive(Debug, Serialize)]
pub struct DrillGroup {
    /// The pattern's id.
    #[serde(skip)]
    pub id: PatternId,
    /// The pattern.
    pub pattern: Link,
    /// Its cards.
    pub faults: Vec<DrillCard>,
}

impl DrillGroup {
    /// The same cards in groups of at most so many.
    pub fn in_parts(self, most: usize) -> Vec<DrillGroup> {
        let DrillGroup { id, pattern, faults } = self;
        let mut faults = faults.into_iter();
        let mut parts = Vec::new();
        loop {
            let some: Vec<DrillCard> = faults.by_ref().take(most).collect();
            if some.is_empty() {
                return parts;
            }
            parts.push(DrillGroup { id: id.clone(), pattern: pattern.clone(), faults: some });
        }
    }
}

/// A fault to name before the answer is opened.
#[derive(Debug, Serialize)]
pub struct DrillCard {
    /// The movements that show it, in a few words.
    shown_by: String,
    see: String,
    cause: Option<String>,
    say: Option<String>,
    /// Its place on the page of each.
    movements: Vec<Link>,
    /// The fault that movements share, where it is one.
    known: Option<Link>,
}

/// More names than this on one line are counted.
const NAMED: usize = 3;
/// More movements than this of a large library stand on the fault's page alone.
const LINKED: usize = 12;

/// Every fault by pattern. One that several movements share, with the same cue, is one card, in the
/// pattern of the first of them.
pub fn drill(maker: &Maker<'_>) -> Vec<DrillGroup> {
    let mut patterns: Vec<&Pattern> = maker.gym.library.words.patterns.values().collect();
    patterns.sort_by_key(|pattern| pattern.name.to_lowercase());
    let mut done: BTreeSet<(&FaultId, Option<&str>)> = BTreeSet::new();
    let mut groups = Vec::new();
    for pattern in patterns {
        let mut faults = Vec::new();
        for movement in by_name(maker, pattern) {
            for (fault, number) in movement.faults.iter().zip(1..) {
                let known = fault.of.as_ref().map(|id| (&id.value, cue(fault)));
                if known.is_none_or(|known| done.insert(known)) {
                    faults.push(card(maker, (movement, number, fault)));
                }
            }
        }
        if !faults.is_empty() {
            let id = pattern.id.value.clone();
            groups.push(DrillGroup { pattern: maker.pattern(&id), id, faults });
        }
    }
    groups
}

fn by_name<'g>(maker: &Maker<'g>, pattern: &Pattern) -> Vec<&'g Movement> {
    let movements = maker.gym.library.movements.values();
    let mut ours: Vec<&Movement> =
        movements.filter(|movement| movement.pattern.value == pattern.id.value).collect();
    ours.sort_by_key(|movement| movement.name.value.to_lowercase());
    ours
}

fn cue(fault: &Fault) -> Option<&str> {
    fault.say.as_ref().map(|say| say.value.as_str())
}

/// The card of a fault, with every movement that shows it and is told the same.
fn card(maker: &Maker<'_>, first: (&Movement, usize, &Fault)) -> DrillCard {
    let (movement, _, fault) = first;
    let mut shown = vec![first];
    if let Some(of) = &fault.of {
        let others = with_fault(maker.gym, &of.value).into_iter();
        let others = others.filter(|(other, _, _)| other.id != movement.id);
        shown.extend(others.filter(|(_, _, other)| cue(other) == cue(fault)));
    }
    let known = fault.of.as_ref().and_then(|of| maker.gym.library.words.faults.get(&of.value));
    let several = known.filter(|_| shown.len() > 1);
    let within = several.map(|known| known.within(&movement.pattern.value));
    // The fault's own page has them all.
    let most = if several.is_some() && is_large(maker.gym) { LINKED } else { usize::MAX };
    let links = shown.iter().take(most).map(|(movement, number, _)| {
        maker.link(movement.name.value.clone(), &To::Fault(&movement.id, *number))
    });
    DrillCard {
        shown_by: shown_by(&shown),
        see: several.map_or(&fault.see.value, |known| &known.name).clone(),
        cause: within.and_then(|within| within.cause()).or_else(|| fault.cause.clone()),
        say: cue(fault).map(String::from),
        movements: links.collect(),
        known: known.map(|known| maker.known_fault(&known.id.value)),
    }
}

fn shown_by(shown: &[(&Movement, usize, &Fault)]) -> String {
    let names: Vec<&str> =
        shown.iter().take(NAMED).map(|(movement, _, _)| movement.name.value.as_str()).collect();
    let more = shown.len().saturating_sub(NAMED);
    let names = names.join(", ");
    if more == 0 { names } else { format!("{names} and {more} more") }
}
