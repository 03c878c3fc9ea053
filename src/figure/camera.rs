//! The camera: from the hall's metres to the picture's centimetres.
//! Parallel projections only; of a figure it asks from where it is seen and where its walls stand.

use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::SolvedFigure;
use crate::mechanics::space::{Vec3, vec3};
use crate::mechanics::words::contact::Surface;
use crate::mechanics::words::recipe::View;

/// A point of the picture in centimetres: `x` right, `y` down.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Spot {
    /// Rightwards.
    pub x: f64,
    /// Downwards.
    pub y: f64,
}

/// Shorthand for a spot.
pub const fn spot(x: f64, y: f64) -> Spot {
    Spot { x, y }
}

impl Spot {
    /// Shifted by (x, y).
    pub fn plus(self, x: f64, y: f64) -> Spot {
        spot(self.x + x, self.y + y)
    }

    /// From here to `other`.
    pub fn to(self, other: Spot) -> Spot {
        spot(other.x - self.x, other.y - self.y)
    }

    /// Length, taken as a direction.
    pub fn length(self) -> f64 {
        self.x.hypot(self.y)
    }

    /// The spot a fraction `t` of the way to `other`.
    pub fn towards(self, other: Spot, t: f64) -> Spot {
        spot(self.x + (other.x - self.x) * t, self.y + (other.y - self.y) * t)
    }

    /// This direction with length one, or straight right if it has none.
    pub fn unit(self) -> Spot {
        let l = self.length();
        if l < 1e-9 { spot(1.0, 0.0) } else { spot(self.x / l, self.y / l) }
    }

    /// `self + direction * k`.
    pub fn along(self, direction: Spot, k: f64) -> Spot {
        spot(self.x + direction.x * k, self.y + direction.y * k)
    }
}

/// A parallel projection: rows of a matrix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    right: Vec3,
    down: Vec3,
    near: Vec3,
    /// Depth sets a point off, and turns nothing: the side views.
    shifted: bool,
}

/// How far the far side is set off in a side view: rightwards and upwards, per unit of depth.
/// Enough to tell two limbs apart, too little to bend a straight line.
const SIDE_SHIFT: (f64, f64) = (0.28, 0.10);
/// How far the camera looks down in the other views.
const LOOK_DOWN: f64 = 0.13;
/// How far round the corner view stands, degrees from the side towards the front.
const CORNER: f64 = 42.0;
/// And the wide corner: far enough round for an arm behind the body to show on its other side.
const WIDE_CORNER: f64 = 54.0;
/// And the front corner view.
const FRONT_CORNER: f64 = 66.0;
/// The high corner: how far round it stands, and how high over the floor, degrees. Past
/// the front: shins bent back behind who lies on the near side are seen beside the body.
const HIGH: (f64, f64) = (106.0, 48.0);
/// And the high side.
const HIGH_SIDE: (f64, f64) = (20.0, 44.0);

impl Camera {
    /// The camera for a view.
    pub fn of(view: View) -> Camera {
        match view {
            View::Side => Camera::side(SIDE_SHIFT.0),
            View::Front => Camera::round(90.0, LOOK_DOWN),
            View::Back => Camera::round(-90.0, LOOK_DOWN),
            View::WideCorner => Camera::round(WIDE_CORNER, LOOK_DOWN),
            View::FrontCorner => Camera::round(FRONT_CORNER, 0.2),
            View::Corner => Camera::round(CORNER, LOOK_DOWN),
            View::HighCorner => Camera::from_above(HIGH.0, HIGH.1),
            View::HighSide => Camera::from_above(HIGH_SIDE.0, HIGH_SIDE.1),
        }
    }

    /// The camera for a figure. Who faces a wall is seen from a little behind instead of from a
    /// little ahead: from there the wall's face shows, and both hands on it.
    pub fn on(figure: &SolvedFigure) -> Camera {
        let wall = |piece: &crate::mechanics::scenery::Piece| {
            piece.surface == Surface::Wall && piece.ahead > 0.0
        };
        match figure.recipe.view {
            View::Side if pieces(figure).iter().any(wall) => Camera::side(-SIDE_SHIFT.0),
            view => Camera::of(view),
        }
    }

    /// The side view, what is farther set off by `aside` rightwards.
    fn side(aside: f64) -> Camera {
        Camera {
            right: vec3(1.0, 0.0, -aside),
            down: vec3(0.0, -1.0, SIDE_SHIFT.1),
            near: vec3(0.0, 0.0, 1.0),
            shifted: true,
        }
    }

    /// Turned by `degrees` from the side view towards the figure's front.
    fn round(degrees: f64, look_down: f64) -> Camera {
        let (s, c) = degrees.to_radians().sin_cos();
        let near = vec3(s, 0.0, c);
        Camera {
            right: vec3(c, 0.0, -s),
            down: vec3(0.0, -1.0, 0.0) + near * look_down,
            near: near + vec3(0.0, look_down, 0.0),
            shifted: false,
        }
    }

    /// Turned by `degrees` as `round` is, and raised by `rise` degrees over the floor: a true
    /// turn, because so far up a shifted view would stretch the floor.
    fn from_above(degrees: f64, rise: f64) -> Camera {
        let (s, c) = degrees.to_radians().sin_cos();
        let (sr, cr) = rise.to_radians().sin_cos();
        let level = vec3(s, 0.0, c);
        Camera {
            right: vec3(c, 0.0, -s),
            down: level * sr - vec3(0.0, cr, 0.0),
            near: level * cr + vec3(0.0, sr, 0.0),
            shifted: false,
        }
    }

    /// Whether both sides of a body are as near: seen from the front or from behind.
    pub fn is_level_on(&self) -> bool {
        self.right.z.abs() > 0.99 && self.right.x.abs() < 0.1
    }

    /// Whether it is a side view: what is far is set off beside what is near, and drawn paler.
    pub fn is_shifted(&self) -> bool {
        self.shifted
    }

    /// Where a point of the hall (metres) is in the picture (centimetres).
    ///
    /// How far depth sets a point off is rounded to the tenth of a centimetre that paths are
    /// written in, in the side view: so a far limb that does what the near one does is written in
    /// the same numbers, and a moving figure packs small.
    pub fn see(&self, point: Vec3) -> Spot {
        if !self.shifted {
            return self.aim(point);
        }
        let flat = self.aim(vec3(point.x, point.y, 0.0));
        let aside = self.aim(vec3(0.0, 0.0, point.z));
        let tenth = |cm: f64| (10.0 * cm).round() / 10.0;
        flat.plus(tenth(aside.x), tenth(aside.y))
    }

    /// A direction of the hall in the picture, same scale as `see`, per metre.
    pub fn aim(&self, direction: Vec3) -> Spot {
        spot(100.0 * self.right.dot(direction), 100.0 * self.down.dot(direction))
    }

    /// How near a point is to the reader; larger is nearer.
    pub fn depth(&self, point: Vec3) -> f64 {
        self.near.dot(point)
    }

    /// Whether a face with this outward direction turns towards the reader. In a shifted side
    /// view tops and one end of a box show although they stand square to the reader.
    pub fn faces(&self, outward: Vec3) -> bool {
        let towards = self.right.cross(-self.down);
        towards.dot(outward) > 1e-6
    }
}
