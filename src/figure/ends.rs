//! Feet: shoes with heel, toe cap and sole, from any side, whole on the floor or on their toes.
//! Drawing measures of our own, fractions of stature; never used for weighing.

use super::outline::{Round, capsule, chain, line, wrap};
use super::sitter::{ASIDE, Sitter};
use crate::mechanics::joints::Side;
use crate::mechanics::marks::{LimbMark, Piece};
use crate::mechanics::skeleton::FOOT_SOLE;
use crate::mechanics::space::{Vec3, vec3};

/// A shoe on paper.
pub struct Shoe {
    /// Its outline.
    pub outline: String,
    /// The room it takes.
    pub rounds: Vec<Round>,
}

/// A shoe; on tiptoe it bends at the ball.
pub fn shoe(sitter: &Sitter, side: Side, ankle: Vec3) -> Shoe {
    let foot = sitter.body.frame(Piece::Foot(side));
    if sitter.seen(foot.right) > 0.6 {
        return shoe_from_before(sitter, side, ankle);
    }
    let h = sitter.body.stature;
    let at = |x: f64, y: f64, r: f64| sitter.round(ankle + foot.carry(x, y, 0.0) * h, r);
    let top = sitter.round(ankle, 0.0175);
    let parts = if sitter.tiptoe[side.index()] {
        let (ball, tip) = bent_toes(sitter, side);
        let upper = vec![
            at(-0.022, -0.0180, 0.0205),
            at(0.030, -0.0210, 0.0185),
            at(0.068, -0.0250, 0.0145),
            sitter.round(ball + vec3(0.0, 0.0135 * h, 0.0), 0.0135),
            sitter.round(tip, 0.011),
        ];
        vec![upper, vec![top, at(-0.016, -0.016, 0.021)]]
    } else {
        vec![
            vec![
                at(-0.020, -0.0185, 0.0205),
                at(0.040, -0.0215, 0.0175),
                at(0.098, -0.0265, 0.0125),
            ],
            vec![top, at(-0.012, -0.016, 0.021)],
            vec![sitter.round(ankle, 0.0165), at(0.032, -0.020, 0.0175)],
        ]
    };
    let outline = parts.iter().map(|part| chain(part)).collect();
    Shoe { outline, rounds: parts.concat() }
}

/// Corners of the outline of a shoe from before or behind, the same in every frame of a motion.
const CORNERS: usize = 8;

/// Where a shoe is broad: a low slab from heel to toe cap, as wide as a foot, and over it the shaft and
/// the instep.
fn shoe_from_before(sitter: &Sitter, side: Side, ankle: Vec3) -> Shoe {
    let foot = sitter.body.frame(Piece::Foot(side));
    let h = sitter.body.stature;
    let out = foot.right * (side.sign() * h);
    let at = |x: f64, y: f64, aside: f64, r: f64| {
        sitter.round(ankle + foot.carry(x, y, 0.0) * h + out * aside, r)
    };
    let low = |r: f64| FOOT_SOLE + r;
    let mut slab =
        vec![at(-0.024, low(0.010), -0.012, 0.0100), at(-0.024, low(0.010), 0.010, 0.0100)];
    let cap = if sitter.tiptoe[side.index()] {
        let (ball, tip) = bent_toes(sitter, side);
        let up = vec3(0.0, 0.012 * h, 0.0);
        slab.extend(TOES.map(|aside| sitter.round(ball + up + out * aside, 0.0120)));
        slab.push(sitter.round(tip + out * 0.008, 0.0110));
        sitter.round(ball + up + out * 0.005, 0.0150)
    } else {
        slab.extend(TOES.map(|aside| at(0.072, low(0.0120), aside, 0.0120)));
        slab.push(at(0.096, low(0.0125), 0.012, 0.0125));
        at(0.066, low(0.0150), 0.004, 0.0150)
    };
    let (shaft, heel) = (sitter.round(ankle, 0.0180), at(-0.014, low(0.0185), 0.0, 0.0185));
    let instep = at(0.022, -0.014, 0.002, 0.0180);
    let outline =
        [wrap(&slab, CORNERS), capsule(shaft, heel), capsule(shaft, instep), capsule(instep, cap)];
    Shoe { outline: outline.concat(), rounds: [slab, vec![shaft, heel, instep, cap]].concat() }
}

/// How far the inner and the outer edge of the toe cap are from the middle of the foot.
const TOES: [f64; 2] = [-0.014, 0.026];

/// The line of the sole: heel, ball and tip; from before and behind along the edge that is nearest.
pub fn sole(sitter: &Sitter, side: Side, ankle: Vec3) -> String {
    let foot = sitter.body.frame(Piece::Foot(side));
    let h = sitter.body.stature;
    let at = |x: f64, aside: f64| {
        let out = foot.right * (side.sign() * aside * h);
        sitter.camera.see(ankle + foot.carry(x, FOOT_SOLE + 0.0045, 0.0) * h + out)
    };
    if sitter.seen(foot.right) > 0.6 {
        let flat = foot.up.y > 0.9 && !sitter.tiptoe[side.index()];
        let ahead = sitter.camera.depth(foot.front) > 0.0;
        return match (flat, ahead) {
            (false, _) => String::new(),
            (true, true) => {
                line(&[at(0.072, -0.020), at(0.088, -0.004), at(0.088, 0.020), at(0.072, 0.032)])
            }
            (true, false) => line(&[at(-0.030, -0.017), at(-0.030, 0.015)]),
        };
    }
    if sitter.seen(foot.right) > ASIDE {
        return String::new();
    }
    if !sitter.tiptoe[side.index()] {
        return line(&[at(-0.031, 0.0), at(0.103, 0.0)]);
    }
    let (ball, tip) = bent_toes(sitter, side);
    let low = |at: Vec3, up: f64| sitter.camera.see(at + vec3(0.0, up * h, 0.0));
    line(&[at(-0.031, 0.0), low(ball, 0.0045), low(tip, -0.0075)])
}

/// Ball and tip of a foot that stands on its toes.
fn bent_toes(sitter: &Sitter, side: Side) -> (Vec3, Vec3) {
    let h = sitter.body.stature;
    let foot = sitter.body.frame(Piece::Foot(side));
    let ball = sitter.limb(side, LimbMark::Ball);
    // Under a steep foot the toes bend towards its upper side, wherever the heel is.
    let toward = if foot.front.y < -0.6 { foot.up } else { foot.front };
    let level = vec3(toward.x, 0.0, toward.z).unit();
    let ahead = if foot.front.y < 0.95 { level } else { -level };
    (ball, ball + ahead * (0.040 * h) + vec3(0.0, 0.012 * h, 0.0))
}
