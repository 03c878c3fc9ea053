//! Scenery: where the boxes, benches, walls and bars of a figure stand.
//! Puts them where the body meets them; it never moves the body and draws nothing.

use super::joints::Side;
use super::marks::{LimbMark, Mark};
use super::mass::centre_of_mass;
use super::solve::{SolvedFigure, SolvedPose};
use super::space::{Plane, Vec3};
use super::words::contact::{Contact, Part, Surface};

/// A piece of kit in its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// What.
    pub surface: Surface,
    /// Height of its top (or bar), metres.
    pub height: f64,
    /// From here to here along x, metres.
    pub x: (f64, f64),
    /// From here to here along z, metres.
    pub z: (f64, f64),
    /// The side of the body on which it has its back or its wall: +1 ahead, -1 behind.
    pub ahead: f64,
    /// The part that touches it; none for things that only stand about.
    pub part: Option<Part>,
}

/// Every piece of kit of a figure, in the order of first mention.
pub fn pieces(figure: &SolvedFigure) -> Vec<Piece> {
    let mut all: Vec<Piece> = Vec::new();
    for pose in &figure.poses {
        for (contact, at) in &pose.touches {
            let Some(piece) = touched(contact, *at, pose, figure) else { continue };
            let same = |p: &&mut Piece| {
                p.surface == piece.surface
                    && (p.height - piece.height).abs() < 1e-6
                    && p.part.map(Part::family) == piece.part.map(Part::family)
            };
            match all.iter_mut().find(same) {
                Some(old) if figure.plane() == Plane::Front => {
                    old.z = (old.z.0.min(piece.z.0), old.z.1.max(piece.z.1));
                }
                Some(_) => {}
                None => all.push(piece),
            }
        }
    }
    all.extend(standing_about(figure));
    all
}

fn standing_about(figure: &SolvedFigure) -> Vec<Piece> {
    let start = figure.start().body.mark(Mark::Hips);
    figure
        .recipe
        .scene
        .iter()
        .map(|item| {
            let surface = item.surface;
            let x = start.x + item.ahead;
            let ahead = if item.ahead < 0.0 { -1.0 } else { 1.0 };
            let x = match surface {
                Surface::Wall => (x, x),
                Surface::Mat => (x - 0.6, x + 0.6),
                _ if ahead > 0.0 => (x, x + 0.42),
                _ => (x - 0.42, x),
            };
            let z = (start.z - 0.24, start.z + 0.24);
            Piece { surface, height: item.height, x, z, ahead, part: None }
        })
        .collect()
}

/// A box of less than this is the floor, metres: feet raised by 0 cm stand on nothing.
const LEAST: f64 = 0.01;

/// The kit under one contact; floors and air are not kit.
fn touched(contact: &Contact, at: Vec3, pose: &SolvedPose, figure: &SolvedFigure) -> Option<Piece> {
    let surface = contact.surface;
    if matches!(surface, Surface::Floor | Surface::Air | Surface::Straps | Surface::Rings) {
        return None;
    }
    if surface.is_block() && contact.height.unwrap_or(0.0) < LEAST {
        return None;
    }
    let centre = centre_of_mass(&figure.lumps, &pose.body).1;
    let ahead = if at.x >= centre.x { 1.0 } else { -1.0 };
    let height = match surface {
        Surface::Wall => 0.0,
        _ => contact.height.unwrap_or(0.0),
    };
    let z = match figure.plane() {
        // A hand alone on something to the far side: it stands beside the body, not under it.
        Plane::Side if one_sided(contact, pose) => (at.z - 0.42, at.z + 0.06),
        Plane::Side => (-0.25, 0.25),
        Plane::Front => (at.z - 0.22, at.z + 0.22),
    };
    let x = reach_along(contact, at, pose, ahead);
    Some(Piece { surface, height, x, z, ahead, part: Some(contact.part) })
}

fn one_sided(contact: &Contact, pose: &SolvedPose) -> bool {
    contact.side == Some(Side::Far)
        && contact.part == Part::Hand
        && !pose.touches.iter().any(|(c, _)| c.side == Some(Side::Near) && c.part == Part::Hand)
}

/// How far a piece of kit extends about the contact, metres: a little under the body, more away
/// from it.
fn reach_along(contact: &Contact, at: Vec3, pose: &SolvedPose, ahead: f64) -> (f64, f64) {
    let span = |near: f64, away: f64| {
        if ahead > 0.0 { (at.x - near, at.x + away) } else { (at.x - away, at.x + near) }
    };
    let side = contact.side.unwrap_or(Side::Near);
    match contact.part {
        _ if contact.surface == Surface::Wall => wall_at(contact, at, ahead),
        Part::Hand => span(0.09, 0.36),
        Part::Forearm => span(0.10, 0.46),
        Part::Toes => span(0.09, 0.34),
        Part::Foot => {
            let heel = pose.body.limb(side, LimbMark::Heel).x;
            let tip = pose.body.limb(side, LimbMark::Tip).x;
            (heel.min(tip) - 0.06, heel.max(tip) + 0.04)
        }
        Part::Heel => span(0.10, 0.32),
        Part::Seat => {
            let heels = pose
                .touches
                .iter()
                .filter(|(c, _)| c.part == Part::Foot && c.surface == Surface::Floor)
                .map(|(c, _)| pose.body.limb(c.side.unwrap_or(Side::Near), LimbMark::Heel).x)
                .fold(f64::INFINITY, f64::min);
            (at.x - 0.26, (at.x + 0.18).min(heels - 0.025).max(at.x))
        }
        Part::Back => span(0.09, 0.30),
        _ => (at.x - 0.16, at.x + 0.16),
    }
}

/// The face of a wall from the mark that touches it.
fn wall_at(contact: &Contact, at: Vec3, ahead: f64) -> (f64, f64) {
    let skin = match contact.part {
        Part::Hand => 0.02,
        Part::Forearm => 0.04,
        Part::Head | Part::Seat => 0.10,
        _ => 0.0,
    };
    (at.x + skin * ahead, at.x + skin * ahead)
}
