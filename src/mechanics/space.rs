//! Space: points and directions in the hall, and the frames that segments carry with them.
//! Knows no body: only vectors and rotations, in metres and radians.

use serde::{Deserialize, Serialize};
use std::ops::{Add, AddAssign, Mul, Neg, Sub};

/// A point or direction in metres: `x` the way the figure faces, `y` up, `z` towards the near
/// side (the figure's own right).
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Vec3 {
    /// Forward.
    pub x: f64,
    /// Up.
    pub y: f64,
    /// Towards the near side.
    pub z: f64,
}

/// Shorthand for a vector.
pub const fn vec3(x: f64, y: f64, z: f64) -> Vec3 {
    Vec3 { x, y, z }
}

impl Vec3 {
    /// Nothing, the origin.
    pub const ZERO: Vec3 = vec3(0.0, 0.0, 0.0);

    /// The component along `axis`.
    pub fn along(self, axis: Axis) -> f64 {
        match axis {
            Axis::Forward => self.x,
            Axis::Up => self.y,
            Axis::Sideways => self.z,
        }
    }

    /// Scalar product.
    pub fn dot(self, other: Vec3) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// Vector product.
    pub fn cross(self, other: Vec3) -> Vec3 {
        vec3(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )
    }

    /// Length in metres.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// Same direction, length one; a vector of no length stays as it is.
    pub fn unit(self) -> Vec3 {
        let length = self.length();
        if length < 1e-12 { self } else { self * (1.0 / length) }
    }

    /// The point a fraction `t` of the way to `other`.
    pub fn towards(self, other: Vec3, t: f64) -> Vec3 {
        self + (other - self) * t
    }
}

impl Add for Vec3 {
    type Output = Vec3;
    fn add(self, o: Vec3) -> Vec3 {
        vec3(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}

impl AddAssign for Vec3 {
    fn add_assign(&mut self, o: Vec3) {
        *self = *self + o;
    }
}

impl Sub for Vec3 {
    type Output = Vec3;
    fn sub(self, o: Vec3) -> Vec3 {
        vec3(self.x - o.x, self.y - o.y, self.z - o.z)
    }
}

impl Mul<f64> for Vec3 {
    type Output = Vec3;
    fn mul(self, k: f64) -> Vec3 {
        vec3(self.x * k, self.y * k, self.z * k)
    }
}

impl Neg for Vec3 {
    type Output = Vec3;
    fn neg(self) -> Vec3 {
        self * -1.0
    }
}

/// One of the three directions of the hall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// The way the figure faces.
    Forward,
    /// Against gravity.
    Up,
    /// Towards the near side.
    Sideways,
}

/// The plane in which a movement is balanced and measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Plane {
    /// Seen from the side: forward and up.
    Side,
    /// Seen from the front: sideways and up.
    Front,
}

impl Plane {
    /// The level direction of the plane.
    pub fn level(self) -> Axis {
        match self {
            Plane::Side => Axis::Forward,
            Plane::Front => Axis::Sideways,
        }
    }

    /// The level and the upward component of `v`, metres.
    pub fn flat(self, v: Vec3) -> (f64, f64) {
        (v.along(self.level()), v.y)
    }
}

/// How a segment stands in the hall: its own front, up and right as unit vectors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Where the segment's front points.
    pub front: Vec3,
    /// From its far end to its near end.
    pub up: Vec3,
    /// Towards the figure's right.
    pub right: Vec3,
}

impl Frame {
    /// Upright, facing forward.
    pub const UPRIGHT: Frame =
        Frame { front: vec3(1.0, 0.0, 0.0), up: vec3(0.0, 1.0, 0.0), right: vec3(0.0, 0.0, 1.0) };

    /// Bent back by `a` radians about its own left-right line (a thigh lifting, an elbow closing).
    pub fn pitched(self, a: f64) -> Frame {
        let (s, c) = a.sin_cos();
        Frame {
            front: self.front * c + self.up * s,
            up: self.up * c - self.front * s,
            right: self.right,
        }
    }

    /// Tilted by `a` radians about its own front (up goes towards right).
    pub fn rolled(self, a: f64) -> Frame {
        let (s, c) = a.sin_cos();
        Frame {
            front: self.front,
            up: self.up * c + self.right * s,
            right: self.right * c - self.up * s,
        }
    }

    /// Turned by `a` radians about its own length (front goes away from right).
    pub fn turned(self, a: f64) -> Frame {
        let (s, c) = a.sin_cos();
        Frame {
            front: self.front * c - self.right * s,
            up: self.up,
            right: self.right * c + self.front * s,
        }
    }

    /// The hall's direction for (front, up, right) amounts of this frame.
    pub fn carry(self, front: f64, up: f64, right: f64) -> Vec3 {
        self.front * front + self.up * up + self.right * right
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn frames_stay_square() {
        let f = Frame::UPRIGHT.pitched(0.7).rolled(-0.3).turned(1.1);
        for (a, b) in [(f.front, f.up), (f.up, f.right), (f.right, f.front)] {
            assert!(a.dot(b).abs() < 1e-12);
        }
        assert!((f.front.cross(f.up) - f.right).length() < 1e-12);
    }

    #[test]
    fn pitching_lifts_the_front() {
        let f = Frame::UPRIGHT.pitched(std::f64::consts::FRAC_PI_2);
        assert!((f.front.y - 1.0).abs() < 1e-12);
        assert!((f.up.x + 1.0).abs() < 1e-12);
    }
}
