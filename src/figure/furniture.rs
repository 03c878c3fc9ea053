//! Furniture: how each block of kit looks, whatever touches it.
//! Plain shapes in the kit's inks; no body, no pose.

use super::camera::Camera;
use super::paper::{Ink, Paper};
use super::solid::{block, rail};
use crate::mechanics::scenery::Piece;
use crate::mechanics::space::vec3;

/// A wooden crate or a low step.
pub fn crate_(p: &Piece, camera: &Camera, paper: &mut Paper) {
    block(p.x, (0.0, p.height), p.z).draw(camera, paper);
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

/// A sofa: seat and back.
pub fn sofa(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let away = if p.ahead > 0.0 { (p.x.1, p.x.1 + 0.20) } else { (p.x.0 - 0.20, p.x.0) };
    block(away, (0.04, p.height + 0.38), p.z).draw(camera, paper);
    block(p.x, (0.04, p.height), p.z).draw(camera, paper);
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

/// A kitchen counter: a body with an overhanging top.
pub fn counter(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let body = if p.ahead > 0.0 { (p.x.0 + 0.05, p.x.1) } else { (p.x.0, p.x.1 - 0.05) };
    block(body, (0.0, p.height - 0.04), p.z).draw(camera, paper);
    block(p.x, (p.height - 0.04, p.height), p.z).draw(camera, paper);
}

/// Risers of a flight of stairs, metres: Approved Document K allows 15 to 22 cm.
const RISER: f64 = 0.18;

/// A flight of stairs that rises away from the body; the touched tread has the height asked for.
pub fn stairs(p: &Piece, camera: &Camera, paper: &mut Paper) {
    let below = ((p.height / RISER).round() as i64 - 1).max(0);
    let riser = p.height / (below + 1) as f64;
    let tread = 0.25;
    for step in (-below..=2).rev() {
        let shift = step as f64 * tread;
        let top = p.height + step as f64 * riser;
        let x = if p.ahead > 0.0 {
            (p.x.0 + shift, p.x.0 + shift + tread)
        } else {
            (p.x.1 - shift - tread, p.x.1 - shift)
        };
        block(x, (0.0, top), p.z).draw(camera, paper);
    }
}
