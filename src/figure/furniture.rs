//! Furniture: how each block of kit looks, whatever touches it.
//! Plain shapes in the kit's inks; no body, no pose.

use super::camera::Camera;
use super::outline::{chain, line, polygon, round};
use super::paper::{Ink, Paper};
use super::pen::Pen;
use super::solid::{block, rail};
use crate::mechanics::scenery::Piece;
use crate::mechanics::space::{Vec3, vec3};

/// A wooden box with a slot to carry it by.
pub fn crate_(p: &Piece, camera: &Camera, paper: &mut Paper) {
    block(p.x, (0.0, p.height), p.z).draw(camera, paper);
    if p.height >= 0.30 {
        let (middle, y) = ((p.x.0 + p.x.1) / 2.0, p.height - 0.11);
        let across = (p.z.0 + p.z.1) / 2.0;
        let behind = if camera.faces(vec3(1.0, 0.0, 0.0)) { p.x.1 } else { p.x.0 };
        let end = |out: f64| {
            let on = if camera.is_level_on() {
                vec3(behind, y, across + out)
            } else {
                vec3(middle + out, y, p.z.1)
            };
            round(camera.see(on), 1.5)
        };
        paper.draw(Ink::KitEnd, chain(&[end(-0.05), end(0.05)]));
    }
}

/// A low step: a slab on two feet.
pub fn step(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let top = (p.height - 0.05).max(p.height * 0.5);
    for x in [(p.x.0 + 0.03, p.x.0 + 0.11), (p.x.1 - 0.11, p.x.1 - 0.03)] {
        block(x, (0.0, top), p.z).draw(camera, paper);
    }
    block(p.x, (top, p.height), p.z).draw(camera, paper);
}

/// A mat or a folded towel on the floor.
pub fn mat(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let end = |x: f64| round(camera.see(vec3(x, 0.0, 0.0)), 2.2);
    let ends = [end(p.x.0), end(p.x.1)];
    paper.reach(&ends);
    paper.draw(Ink::KitEnd, chain(&ends));
}

fn legs(p: &Piece, inset: f64, top: f64, camera: &Camera, paper: &mut Paper) {
    for z in [p.z.0 + inset, p.z.1 - inset] {
        for x in [p.x.0 + inset, p.x.1 - inset] {
            rail(camera, paper, Ink::KitLine, vec3(x, top, z), vec3(x, 0.012, z));
        }
    }
}

/// A padded bench.
pub fn bench(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let z = ((p.z.0 + p.z.1) / 2.0 - 0.16, (p.z.0 + p.z.1) / 2.0 + 0.16);
    let narrow = Piece { z, ..*p };
    legs(&narrow, 0.05, p.height - 0.07, camera, paper);
    block(p.x, (p.height - 0.07, p.height), z).draw(camera, paper);
}

/// A plain chair, its back away from the body.
pub fn chair(p: &Piece, camera: &Camera, paper: &mut Paper) {
    use crate::mechanics::words::contact::Part;
    let z = (p.z.0 + 0.03, p.z.1 - 0.03);
    let seat = Piece { z, ..*p };
    legs(&seat, 0.02, p.height - 0.03, camera, paper);
    let behind = p.part == Some(Part::Seat) || p.ahead < 0.0;
    let back = if behind { (p.x.0, p.x.0 + 0.03) } else { (p.x.1 - 0.03, p.x.1) };
    let rest = block(back, (p.height + 0.16, p.height + 0.44), z);
    let posts = |paper: &mut Paper| {
        for side in [z.0 + 0.015, z.1 - 0.015] {
            let x = (back.0 + back.1) / 2.0;
            rail(
                camera,
                paper,
                Ink::KitLine,
                vec3(x, p.height, side),
                vec3(x, p.height + 0.2, side),
            );
        }
    };
    posts(paper);
    rest.draw(camera, paper);
    block(p.x, (p.height - 0.045, p.height), z).draw(camera, paper);
}

/// A shut door with its handle, square to the pull of a band that is anchored in it at `at`.
pub fn door(at: Vec3, along: bool, camera: &Camera, paper: &mut Paper) {
    let tall = (at.y + 0.03).max(DOOR);
    let (x, z) = if along {
        ((at.x, at.x + 0.05), (at.z - 0.40, at.z + 0.40))
    } else {
        ((at.x - 0.40, at.x + 0.40), (at.z - 0.05, at.z))
    };
    block(x, (0.0, tall), z).draw(camera, paper);
    let handle = if along { vec3(x.1, 1.0, z.1 - 0.08) } else { vec3(x.1 - 0.08, 1.0, z.1) };
    let way = if along { vec3(0.0, 0.0, -0.09) } else { vec3(-0.09, 0.0, 0.0) };
    rail(camera, paper, Ink::KitLine, handle, handle + way);
}

/// Height of a door, metres: common practice, no source.
const DOOR: f64 = 2.0;

/// A sofa: a back, the arm of the far side, a seat with its cushion on short feet.
pub fn sofa(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let (away, whole) = if p.ahead > 0.0 {
        ((p.x.1, p.x.1 + 0.20), (p.x.0, p.x.1 + 0.20))
    } else {
        ((p.x.0 - 0.20, p.x.0), (p.x.0 - 0.20, p.x.1))
    };
    legs(&Piece { x: whole, ..*p }, 0.05, 0.07, camera, paper);
    block(whole, (0.06, p.height + 0.17), (p.z.0 - 0.14, p.z.0)).draw(camera, paper);
    block(away, (0.06, p.height + 0.38), p.z).draw(camera, paper);
    block(p.x, (0.06, p.height - 0.13), p.z).draw(camera, paper);
    block(p.x, (p.height - 0.13, p.height), p.z).draw(camera, paper);
}

/// A table: top and legs.
pub fn table(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let wide = Piece { x: widened(p, 0.15), ..*p };
    legs(&wide, 0.04, p.height - 0.03, camera, paper);
    block(wide.x, (p.height - 0.04, p.height), p.z).draw(camera, paper);
}

fn widened(p: &Piece, more: f64) -> (f64, f64) {
    if p.ahead > 0.0 { (p.x.0, p.x.1 + more) } else { (p.x.0 - more, p.x.1) }
}

/// A kitchen counter: a cupboard with a drawer and a door on a set-back plinth, under a worktop
/// with a tap.
pub fn counter(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let wide = Piece { x: widened(p, 0.12), ..*p };
    let body =
        if p.ahead > 0.0 { (wide.x.0 + 0.05, wide.x.1) } else { (wide.x.0, wide.x.1 - 0.05) };
    let (plinth, top) = (0.10, p.height - 0.045);
    block((body.0 + 0.04, body.1 - 0.04), (0.0, plinth), p.z).draw(camera, paper);
    block(body, (plinth, top), p.z).draw(camera, paper);
    cupboard(body, (plinth, top), p.z.1, camera, paper);
    tap(&wide, camera, paper);
    block(wide.x, (top, p.height), p.z).draw(camera, paper);
}

/// The drawer and the door on the face at depth `z`, each with a handle.
fn cupboard(x: (f64, f64), y: (f64, f64), z: f64, camera: &Camera, paper: &mut Paper) {
    let see = |x: f64, y: f64| camera.see(vec3(x, y, z));
    let split = y.1 - 0.18;
    paper.draw(Ink::Thin, line(&[see(x.0, split), see(x.1, split)]));
    let middle = (x.0 + x.1) / 2.0;
    for handle in [y.1 - 0.09, split - 0.07] {
        let ends = [see(middle - 0.06, handle), see(middle + 0.06, handle)];
        paper.stroke(Ink::KitLine, line(&ends), 1.8);
    }
}

/// A tap at the end of the worktop away from the body.
fn tap(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let foot = if p.ahead > 0.0 { p.x.1 - 0.08 } else { p.x.0 + 0.08 };
    let see = |dx: f64, up: f64| camera.see(vec3(foot - dx * p.ahead, p.height + up, p.z.0 + 0.1));
    let mut pen = Pen::at(see(0.0, 0.0));
    pen.quadratic(see(0.0, 0.30), see(0.09, 0.24));
    pen.quadratic(see(0.13, 0.22), see(0.13, 0.16));
    paper.reach(&[round(see(0.05, 0.27), 2.0)]);
    paper.stroke(Ink::KitLine, pen.path(), 2.4);
}

/// Risers of a flight of stairs, metres: Approved Document K allows 15 to 22 cm.
const RISER: f64 = 0.18;
/// Depth of a tread, metres: the same document asks for 22 cm or more.
const TREAD: f64 = 0.25;

/// A flight of stairs that rises away from the body; the touched tread has the height asked for.
pub fn stairs(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let below = ((p.height / RISER).round() as i64 - 1).max(0);
    let riser = p.height / (below + 1) as f64;
    let edge = if p.ahead > 0.0 { p.x.0 } else { p.x.1 };
    // Front edge and top of each step, lowest first.
    let steps: Vec<(f64, f64)> = (-below..=2)
        .map(|i| (edge + p.ahead * TREAD * i as f64, p.height + i as f64 * riser))
        .collect();
    for (x, top) in steps.iter().rev() {
        let end = x + p.ahead * TREAD;
        block((x.min(end), x.max(end)), (0.0, *top), p.z).draw(camera, paper);
    }
    // A width of its own keeps it out of the blocks' path, where the two would cancel out.
    paper.stroke(Ink::Kit, flank(&steps, riser, p, camera), 0.9);
}

/// The near side of a flight, one piece from the floor up and down again, as a wooden string.
fn flank(steps: &[(f64, f64)], riser: f64, p: &Piece, camera: &Camera) -> String {
    let see = |x: f64, y: f64| camera.see(vec3(x, y, p.z.1));
    let mut outline = Vec::new();
    let mut under = 0.0;
    for (x, top) in steps {
        outline.extend([see(*x, under), see(*x, *top)]);
        under = *top;
    }
    let (last, top) = steps.last().copied().unwrap_or((p.x.0, riser));
    let back = last + p.ahead * TREAD;
    outline.extend([see(back, top), see(back, 0.0)]);
    polygon(&outline)
}
