//! Motions: how a movement gets from key pose to key pose, one small file each, fetched on request.
//! Never part of a page: a page shows its key poses and is complete without.

use super::drawing;
use crate::gym::Gym;
use crate::library::{Movement, MovementId};
use crate::mechanics::solve::SolvedFigure;
use serde::Serialize;

/// What a page says of its movement's motion.
#[derive(Debug, Serialize)]
pub struct MotionRow {
    /// The movement.
    id: String,
    /// Seconds a repetition, where the entry gives them.
    pace: Option<f64>,
}

/// The file of a movement's motion below the site's folder. Cards have a folder of their own: a
/// movement may be called anything.
pub fn motion_file(id: &MovementId) -> String {
    format!("motion/{id}.js")
}

/// The motion of `movement` as a script that hands it to `rungbookMotion`; none for a hold.
pub fn motion_script(gym: &Gym, movement: &Movement) -> Option<String> {
    figure_that_moves(gym, movement)?;
    let data = drawing::motion_data(gym, gym.posed.get(&movement.id)?)?;
    // A string always serialises.
    let id = serde_json::to_string(movement.id.as_str()).ok()?;
    Some(format!("rungbookMotion.keep({id},{data});\n"))
}

/// What the page of `movement` says of it.
pub fn motion_row(gym: &Gym, movement: &Movement) -> Option<MotionRow> {
    figure_that_moves(gym, movement)?;
    let pace = movement.pace.map(|pace| pace.number());
    Some(MotionRow { id: movement.id.to_string(), pace })
}

fn figure_that_moves<'a>(gym: &'a Gym, movement: &Movement) -> Option<&'a SolvedFigure> {
    gym.posed.get(&movement.id)?.figure.as_ref().filter(|figure| figure.poses.len() > 1)
}
