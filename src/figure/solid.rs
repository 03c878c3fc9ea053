//! Solids: boxes, posts and slabs of the hall, seen by the camera.
//! Draws faces that show, back to front; it knows no names of kit.

use super::camera::{Camera, Spot};
use super::outline::{line, polygon, round};
use super::paper::{Ink, Paper};
use crate::mechanics::space::{Vec3, vec3};

/// A box with its sides along the hall: smaller and larger corner, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Block {
    /// Smallest x, y, z.
    pub low: Vec3,
    /// Largest x, y, z.
    pub high: Vec3,
}

/// Shorthand: ranges along x, y and z.
pub fn block(x: (f64, f64), y: (f64, f64), z: (f64, f64)) -> Block {
    Block { low: vec3(x.0, y.0, z.0), high: vec3(x.1, y.1, z.1) }
}

impl Block {
    fn corner(&self, x: bool, y: bool, z: bool) -> Vec3 {
        let pick = |up: bool, low: f64, high: f64| if up { high } else { low };
        vec3(
            pick(x, self.low.x, self.high.x),
            pick(y, self.low.y, self.high.y),
            pick(z, self.low.z, self.high.z),
        )
    }

    /// The four corners of the face whose outward direction is along axis `axis` (0 x, 1 y, 2 z).
    fn face(&self, axis: usize, positive: bool) -> [Vec3; 4] {
        [(false, false), (true, false), (true, true), (false, true)].map(|(a, b)| match axis {
            0 => self.corner(positive, a, b),
            1 => self.corner(a, positive, b),
            _ => self.corner(a, b, positive),
        })
    }

    /// Draw the faces that show.
    pub fn draw(&self, camera: &Camera, paper: &mut Paper) {
        for (axis, ink) in [(0, Ink::KitEnd), (1, Ink::KitTop), (2, Ink::Kit)] {
            for positive in [false, true] {
                let sign = if positive { 1.0 } else { -1.0 };
                let out = [vec3(sign, 0.0, 0.0), vec3(0.0, sign, 0.0), vec3(0.0, 0.0, sign)][axis];
                let below = axis == 1 && !positive;
                if camera.faces(out) && !below {
                    let corners: Vec<Spot> =
                        self.face(axis, positive).iter().map(|c| camera.see(*c)).collect();
                    corners.iter().for_each(|c| paper.reach(&[round(*c, 1.0)]));
                    paper.draw(ink, polygon(&corners));
                }
            }
        }
    }
}

/// A post or rail between two points, in one of the line inks.
pub fn rail(camera: &Camera, paper: &mut Paper, ink: Ink, from: Vec3, to: Vec3) {
    let (a, b) = (camera.see(from), camera.see(to));
    paper.reach(&[round(a, 1.6), round(b, 1.6)]);
    paper.draw(ink, line(&[a, b]));
}
