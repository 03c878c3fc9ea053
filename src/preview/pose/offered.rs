//! The traits that a pose shows and its entry does not say: offered, never written unasked.
//! Asks the same witness as the check does, at the usual settings and at both ends of each.

use super::asked::Edit;
use crate::finding::capital;
use crate::gym::witness::{Seen, seen};
use crate::library::{Library, Movement, Quantity, TraitId};
use crate::mechanics::solve::SolvedFigure;
use serde::Serialize;
use std::collections::BTreeMap;

/// A trait that is offered.
#[derive(Debug, Serialize)]
pub struct Offered {
    id: &'static str,
    name: String,
    level: u8,
    /// What the entry says now: 0 for nothing.
    says: u8,
    /// What shows it.
    words: String,
}

/// Settings, and the pose at them.
pub type AtSettings<'a> = (Vec<(&'a str, Quantity)>, &'a SolvedFigure);

/// Every trait that one of the poses shows above what is said or already confirmed, at the highest
/// level that is shown.
pub fn offered(
    library: &Library,
    movement: &Movement,
    edits: &[Edit],
    poses: &[AtSettings],
) -> Vec<Offered> {
    let mut most: BTreeMap<&'static str, (Seen, u8)> = BTreeMap::new();
    for (at, figure) in poses {
        for seen in seen(figure) {
            let id = TraitId(seen.shows.to_string());
            let overruled = movement.trait_of(&id).is_some_and(|of| of.because.is_some());
            let says = movement.level_at(&id, at).max(confirmed(edits, seen.shows));
            let above = most.get(seen.shows).is_none_or(|(known, _)| seen.level > known.level);
            if !overruled && seen.level > says && above && library.words.traits.contains_key(&id) {
                most.insert(seen.shows, (seen, says));
            }
        }
    }
    let one = |(seen, says): (Seen, u8)| {
        let known = library.words.traits.get(&TraitId(seen.shows.to_string()));
        let name = known.map_or(seen.shows.to_string(), |known| known.name.clone());
        let words = format!("{}, in `{}`.", capital(&seen.words), seen.pose.word());
        Offered { id: seen.shows, name, level: seen.level, says, words }
    };
    most.into_values().map(one).collect()
}

/// The level at which a trait was confirmed on the page.
fn confirmed(edits: &[Edit], wanted: &str) -> u8 {
    let level = |edit: &Edit| match edit {
        Edit::Trait { id, level } if id == wanted => Some(*level),
        _ => None,
    };
    edits.iter().filter_map(level).max().unwrap_or(0)
}
