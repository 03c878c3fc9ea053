//! Faults drawn: the picture of a movement's fault beside the good pose, as a file of its own that a
//! page names. Never decides which faults can be drawn: that is `figure::wrong`'s.

use super::drawing::{WrongDrawn, wrong_drawn};
use super::frame::Maker;
use crate::gym::Gym;
use crate::library::{FaultId, Movement, MovementId};
use serde::Serialize;

/// A picture of a fault, with its words and its size on the page.
#[derive(Debug, Serialize)]
pub struct WrongRow {
    file: String,
    words: String,
    width: u32,
    height: u32,
}

/// The picture of a movement's fault; none where geometry cannot show it.
pub fn wrong_row(maker: &Maker<'_>, movement: &Movement, id: &FaultId) -> Option<WrongRow> {
    let WrongDrawn { words, size, .. } = wrong_drawn(maker.gym, movement, id)?;
    // Two pixels a centimetre, as far as the text beside it is wide.
    let scale = (WIDEST / size.0).min(2.0);
    let pixels = |cm: f64| (cm * scale).round() as u32;
    Some(WrongRow {
        file: maker.links.to_file(&wrong_file(&movement.id, id)),
        words,
        width: pixels(size.0),
        height: pixels(size.1),
    })
}

/// As wide as a picture of a fault gets, CSS pixels.
const WIDEST: f64 = 340.0;

/// The file of a movement's fault drawn, below the site's folder. No id has a point in it.
pub fn wrong_file(movement: &MovementId, id: &FaultId) -> String {
    format!("figures/faults/{movement}.{id}.svg")
}

/// The pictures of a movement's faults, each with its file below the site's folder.
pub fn wrong_figures(gym: &Gym, movement: &Movement) -> Vec<(String, String)> {
    let faults = movement.faults.iter().filter_map(|fault| fault.of.as_ref());
    let drawn =
        |id: &FaultId| Some((wrong_file(&movement.id, id), wrong_drawn(gym, movement, id)?.svg));
    faults.filter_map(|id| drawn(&id.value)).collect()
}
