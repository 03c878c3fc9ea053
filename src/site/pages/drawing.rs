//! Drawings: what is drawn of a solved pose, by everything that it is drawn from, so that each is drawn
//! once and found again. Never draws itself: the room `figure` does.

use crate::figure::beside::draw_wrong;
use crate::figure::moving::moving;
use crate::figure::wrong::{tell_wrong, wrong};
use crate::figure::{self, Caption};
use crate::gym::{Gym, Posed};
use crate::kept::Inputs;
use crate::library::{FaultId, Movement};
use crate::mechanics::between::motion;
use serde::{Deserialize, Serialize};

/// A fault drawn beside the good pose.
#[derive(Serialize, Deserialize)]
pub struct WrongDrawn {
    /// The picture, a file of its own.
    pub svg: String,
    /// What it shows.
    pub words: String,
    /// Width and height, centimetres of the hall.
    pub size: (f64, f64),
}

/// The picture of a movement as a file of its own.
pub fn strip(gym: &Gym, movement: &Movement) -> Option<String> {
    let posed = gym.posed.get(&movement.id)?;
    let solved = posed.figure.as_ref()?;
    let caption = caption(movement);
    let inputs = captioned("strip", posed, &caption);
    Some(gym.kept.get(inputs.print(), || figure::draw(solved, caption, "fig").standalone()))
}

/// Its key poses as a page shows them.
pub fn key_poses(gym: &Gym, movement: &Movement) -> Option<String> {
    let posed = gym.posed.get(&movement.id)?;
    let solved = posed.figure.as_ref()?;
    let caption = caption(movement);
    let inputs = captioned("key poses", posed, &caption);
    Some(gym.kept.get(inputs.print(), || figure::poses(solved, caption, "fig")))
}

/// The last key pose of a rung as a file of its own.
pub fn last_pose(gym: &Gym, posed: &Posed) -> Option<String> {
    let solved = posed.figure.as_ref()?;
    let draw = || figure::draw(solved, "", "rung").last_standalone();
    gym.kept.get(of("last pose", posed).print(), draw)
}

/// A movement's motion, as the page's script reads it; none for a hold.
pub fn motion_data(gym: &Gym, posed: &Posed) -> Option<String> {
    let solved = posed.figure.as_ref()?;
    // Strings, numbers and lists of them always serialise.
    let draw = || serde_json::to_string(&moving(solved, &motion(solved)?)).ok();
    gym.kept.get(of("motion", posed).print(), draw)
}

/// A fault of a movement drawn; none where geometry cannot show it.
pub fn wrong_drawn(gym: &Gym, movement: &Movement, fault: &FaultId) -> Option<WrongDrawn> {
    let posed = gym.posed.get(&movement.id)?;
    let solved = posed.figure.as_ref()?;
    let draw = || {
        let spoilt = wrong(solved, fault.as_str())?;
        let (svg, size) = draw_wrong(&spoilt, fault.as_str());
        Some(WrongDrawn { svg, words: tell_wrong(&spoilt), size })
    };
    gym.kept.get(of("wrong", posed).text(fault.as_str()).print(), draw)
}

/// A drawing that follows from the pose alone.
fn of(what: &str, posed: &Posed) -> Inputs {
    Inputs::of(what).of_print(posed.print)
}

fn captioned(what: &str, posed: &Posed, caption: &Caption<'_>) -> Inputs {
    of(what, posed).text(caption.name).text(caption.standard)
}

/// The name of a movement's picture, and the standard for who does not see it.
pub fn caption(movement: &Movement) -> Caption<'_> {
    let standard = movement.standard.as_ref().map_or("", |standard| &standard.value);
    Caption { name: &movement.name.value, standard }
}
