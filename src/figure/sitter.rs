//! Sitter: the body that is drawn, with the camera and what its hands and feet are doing.
//! Measures on paper for those who draw its parts; it draws nothing itself.

use super::camera::{Camera, Spot, spot};
use super::outline::{Round, round};
use super::tones::Tones;
use crate::mechanics::joints::Side;
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::LimbMark;
use crate::mechanics::space::{Frame, Vec3};

/// From this on, what points to a side of the body is seen beside it.
pub const ASIDE: f64 = 0.4;

/// What a body is drawn with: the body, the camera and what the hands and feet are doing.
pub struct Sitter<'a> {
    /// The body.
    pub body: &'a Body,
    /// The camera.
    pub camera: Camera,
    /// Hands that close round something: near, far.
    pub fists: [bool; 2],
    /// Hands that lie on something: near, far.
    pub palms: [bool; 2],
    /// Feet that stand on their toes: near, far.
    pub tiptoe: [bool; 2],
    /// Whether it is a side view, in which one limb of a pair stands before the other.
    pub aside: bool,
    /// Which limbs are drawn paler.
    pub tones: Tones,
}

impl Sitter<'_> {
    /// A circle round a point of the hall; the radius is a fraction of stature.
    pub fn round(&self, at: Vec3, r: f64) -> Round {
        round(self.camera.see(at), 100.0 * r * self.body.stature)
    }

    /// A point of a limb.
    pub fn limb(&self, side: Side, mark: LimbMark) -> Vec3 {
        self.body.limb(side, mark)
    }

    /// Across a direction of the hall, on paper.
    pub fn across(&self, way: Vec3) -> Spot {
        let seen = self.camera.aim(way);
        spot(-seen.y, seen.x).unit()
    }

    /// How long a direction is on paper, from 0 (towards the reader) to about 1.
    pub fn seen(&self, way: Vec3) -> f64 {
        let on = self.camera.aim(way);
        on.x.hypot(on.y) / 100.0
    }

    /// Points along a segment, pushed to its front by a fraction of stature.
    pub fn along(&self, a: Vec3, b: Vec3, frame: Frame, spots: &[(f64, f64, f64)]) -> Vec<Round> {
        spots
            .iter()
            .map(|(t, front, r)| {
                let at = a.towards(b, *t) + frame.front * (front * self.body.stature);
                self.round(at, *r)
            })
            .collect()
    }
}

impl Sitter<'_> {
    /// Whether an arm is drawn paler.
    pub fn pale_arm(&self, side: Side) -> bool {
        self.tones.arms[side.index()]
    }

    /// Whether a leg is drawn paler.
    pub fn pale_leg(&self, side: Side) -> bool {
        self.tones.legs[side.index()]
    }
}
