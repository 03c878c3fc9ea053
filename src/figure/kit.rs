//! Kit: drawing the boxes, benches, walls and bars that a pose touches or has about it.
//! `mechanics::scenery` says where they stand; this only draws them, in layers.

use super::camera::{Camera, Spot};
use super::furniture;
use super::outline::{circle, line, polygon, round};
use super::paper::{Ink, Paper};
use super::solid::rail;
use crate::mechanics::joints::Side;
use crate::mechanics::scenery::Piece;
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::{Plane, vec3};
use crate::mechanics::words::contact::{Family, Surface};
use crate::mechanics::words::recipe::View;

/// Kit drawn behind the body, between trunk and near arm, and in front of all.
#[derive(Debug, Clone, Default)]
pub struct Layers {
    /// Behind the body.
    pub behind: Paper,
    /// In front of the trunk, behind the near arm.
    pub amid: Paper,
    /// In front of everything.
    pub before: Paper,
}

/// Draw all kit of a key pose in layers.
pub fn layers(figure: &SolvedFigure, pieces: &[Piece], camera: &Camera) -> Layers {
    let mut layers = Layers::default();
    for piece in pieces {
        draw(piece, figure, camera, &mut layers);
    }
    layers
}

fn draw(piece: &Piece, figure: &SolvedFigure, camera: &Camera, layers: &mut Layers) {
    let paper = &mut layers.behind;
    match piece.surface {
        Surface::Box => furniture::crate_(piece, camera, paper),
        Surface::Step => furniture::step(piece, camera, paper),
        Surface::Mat => furniture::mat(piece, camera, paper),
        Surface::Bench => furniture::bench(piece, camera, paper),
        Surface::Chair => furniture::chair(piece, camera, paper),
        Surface::Sofa => furniture::sofa(piece, camera, paper),
        Surface::Table => furniture::table(piece, camera, paper),
        Surface::Counter => furniture::counter(piece, camera, paper),
        Surface::Stairs => furniture::stairs(piece, camera, paper),
        Surface::Wall => wall(piece, figure, camera, paper),
        Surface::Bar => bar(piece, figure, camera, layers),
        Surface::ParallelBars => parallel_bars(piece, camera, layers),
        Surface::Slider => {}
        Surface::Floor | Surface::Air | Surface::Straps | Surface::Rings => {}
    }
}

/// From where to where a wall is drawn across the view, metres: far enough to look like one.
pub const WALL: (f64, f64) = (-0.75, 0.36);
/// Up to where a wall behind a back is drawn: its edge is where the back touches it.
const WALL_BEHIND: f64 = 0.04;
/// Height of its skirting board, metres.
const SKIRTING: f64 = 0.10;

fn wall(piece: &Piece, figure: &SolvedFigure, camera: &Camera, paper: &mut Paper) {
    let x = piece.x.0;
    let x = if piece.ahead > 0.0 { (x, x + 0.07) } else { (x - 0.07, x) };
    let tall = figure
        .poses
        .iter()
        .flat_map(|p| p.body.places().iter().map(|at| at.y))
        .fold(0.0, f64::max)
        .clamp(1.2, 2.1)
        + 0.12;
    let near = if piece.ahead > 0.0 { WALL.1 } else { WALL_BEHIND };
    room_wall(x, near, tall, camera, paper);
}

/// A wall cut open by the picture: its section, and the face that is seen with its skirting board.
/// No line closes it above or behind, so that it goes on.
fn room_wall(x: (f64, f64), near: f64, tall: f64, camera: &Camera, paper: &mut Paper) {
    let see = |x: f64, y: f64, z: f64| camera.see(vec3(x, y, z));
    // Seen from behind or before it goes on as far to either side.
    let (near, far) = if camera.is_level_on() { (0.55, -0.55) } else { (near, WALL.0) };
    let face =
        |x: f64| [see(x, 0.0, near), see(x, 0.0, far), see(x, tall, far), see(x, tall, near)];
    let section =
        [see(x.0, 0.0, near), see(x.0, tall, near), see(x.1, tall, near), see(x.1, 0.0, near)];
    let shown_at = if camera.aim(vec3(0.0, 0.0, -1.0)).x > 0.0 { x.1 } else { x.0 };
    let shown = face(shown_at);
    for corner in shown.iter().chain(&section) {
        paper.reach(&[round(*corner, 1.0)]);
    }
    paper.draw(Ink::Floor, polygon(&shown));
    // Hands that stand before a wall would be cut by it.
    if !camera.is_level_on() {
        let skirting = [see(shown_at, SKIRTING, near), see(shown_at, SKIRTING, far)];
        paper.draw(Ink::Thin, line(&skirting));
    }
    paper.draw(Ink::Thin, line(&[shown[0], shown[1]]));
    paper.draw(Ink::Section, polygon(&section));
}

/// Half the width of a bar, metres.
pub const BAR_HALF: f64 = 0.60;
/// How far its near end goes in a side view.
const BAR_NEAR: f64 = 0.34;

fn bar(piece: &Piece, figure: &SolvedFigure, camera: &Camera, layers: &mut Layers) {
    let x = figure
        .start()
        .touches
        .iter()
        .find(|(c, _)| c.surface == Surface::Bar)
        .map_or((piece.x.0 + piece.x.1) / 2.0, |(_, at)| at.x);
    let at = |y: f64, z: f64| vec3(x, y, z);
    // A low bar stands in a rack; a high one hangs from the ceiling.
    let low = piece.height < 1.5;
    let fixed = if low { 0.0 } else { piece.height + 0.20 };
    // From the side the near end stops past the hand: it would cross the throat.
    let side = figure.recipe.view == View::Side;
    let near = if side { BAR_NEAR } else { BAR_HALF };
    for (paper, z) in [(&mut layers.behind, -BAR_HALF), (&mut layers.before, near)] {
        if side && !low && z > 0.0 {
            continue;
        }
        rail(camera, paper, Ink::KitLine, at(piece.height, z), at(fixed, z));
        if !low {
            let plate = |dx: f64| vec3(x + dx, fixed, z);
            rail(camera, paper, Ink::KitLine, plate(-0.07), plate(0.07));
        }
    }
    if low {
        // Feet along the floor: a rack, not two loose posts.
        for (paper, z) in [(&mut layers.behind, -BAR_HALF), (&mut layers.before, near)] {
            let foot = |dx: f64| vec3(x + dx, 0.012, z);
            rail(camera, paper, Ink::KitLine, foot(-0.20), foot(0.20));
        }
    }
    let whole = (at(piece.height, -BAR_HALF), at(piece.height, near));
    rail(camera, &mut layers.behind, Ink::KitLine, whole.0, whole.1);
    if figure.plane() == Plane::Side {
        // The near hand closes over the bar, the far hand lies behind it.
        rail(camera, &mut layers.amid, Ink::KitLine, at(piece.height, 0.0), whole.1);
    }
    if side {
        tube_end(camera.see(whole.1), &mut layers.before);
    }
}

/// The end of a tube that comes towards the reader: a ring.
fn tube_end(at: Spot, paper: &mut Paper) {
    paper.reach(&[round(at, 3.4)]);
    paper.draw(Ink::Weight, circle(round(at, 3.4)));
    paper.draw(Ink::Halo, circle(round(at, 0.6)));
}

fn parallel_bars(piece: &Piece, camera: &Camera, layers: &mut Layers) {
    let middle = (piece.x.0 + piece.x.1) / 2.0;
    let middle = if piece.ahead > 0.0 { middle - 0.135 } else { middle + 0.135 };
    // As long as bars are: their posts stand clear of the legs between them.
    let (a, b) = (middle - 0.46, middle + 0.46);
    for (paper, z, post) in
        [(&mut layers.behind, -0.21, Ink::KitLine), (&mut layers.amid, 0.21, Ink::KitLine)]
    {
        for x in [a, b] {
            rail(camera, paper, post, vec3(x, 0.0, z), vec3(x, piece.height, z));
        }
        rail(camera, paper, Ink::KitLine, vec3(a, piece.height, z), vec3(b, piece.height, z));
    }
}

/// Whether a part's family grips something in this pose: hands that close.
pub fn gripping(pose: &SolvedPose, side: Side) -> bool {
    pose.touches.iter().any(|(c, _)| {
        c.side == Some(side) && c.part.family() == Family::Arm && c.surface.is_gripped()
    })
}
