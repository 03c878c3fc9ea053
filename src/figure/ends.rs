//! Hands and feet: mittens with a thumb, fists round what they hold, palms flat on a surface;
//! shoes with heel and sole.
//! Drawing measures of our own, fractions of stature; never used for weighing.

use super::limbs::Sitter;
use super::outline::{Round, line};
use crate::mechanics::joints::{LimbJoint, Side};
use crate::mechanics::marks::{LimbMark, Piece};
use crate::mechanics::skeleton::{FOOT_SOLE, HAND};
use crate::mechanics::space::{Vec3, vec3};

/// How a hand lies: towards the fingertips, towards the thumb, out of the back of the hand.
struct Lie {
    down: Vec3,
    thumb: Vec3,
    back: Vec3,
}

/// A free hand hangs with its thumb ahead and a little inward, whatever the search left it at, so
/// that it is a hand from the front as well; a hand on something is turned as it was solved.
fn lie(sitter: &Sitter, side: Side) -> Lie {
    let hand = sitter.body.frame(Piece::Hand(side));
    let turned = sitter.body.posture.degrees(side, LimbJoint::HandTurn).abs() > 1.0;
    let free = !turned && !sitter.palms[side.index()];
    let inward = hand.right * -side.sign();
    let (down, thumb) =
        (-hand.up, if free { (hand.front + inward * INWARD).unit() } else { inward });
    Lie { down, thumb, back: down.cross(thumb) }
}

/// How far inward the thumb of a hanging hand points for every part ahead: common practice, no
/// source.
const INWARD: f64 = 0.75;

/// A hand as chains of circles from the wrist on.
pub fn hand(sitter: &Sitter, side: Side, wrist: Vec3) -> Vec<Vec<Round>> {
    let lie = lie(sitter, side);
    if sitter.fists[side.index()] {
        return fist(sitter, side, wrist, &lie);
    }
    let h = sitter.body.stature;
    let long = HAND * h;
    // Share of the hand's length, half its breadth and half its thickness there.
    let palm = [(0.42, 0.0205, 0.0120), (0.90, 0.0120, 0.0090)];
    let across = sitter.across(lie.down);
    let spread = |way: Vec3, half: f64| {
        let on = sitter.camera.aim(way);
        half * (on.x * across.x + on.y * across.y) / 100.0
    };
    let mut mitten = vec![sitter.round(wrist, 0.0140)];
    mitten.extend(palm.map(|(t, wide, thick)| {
        let r = spread(lie.thumb, wide).hypot(spread(lie.back, thick));
        sitter.round(wrist + lie.down * (t * long), r)
    }));
    // A thumb that points at the reader, or away, lies within the hand.
    if seen(sitter, lie.thumb) < ASIDE || (sitter.paler && side == Side::Far) {
        return vec![mitten];
    }
    let thumb = |t: f64, out: f64, r: f64| {
        sitter.round(wrist + lie.down * (t * long) + lie.thumb * (out * h), r)
    };
    vec![mitten, vec![thumb(0.22, 0.007, 0.0088), thumb(0.55, 0.030, 0.0068)]]
}

/// Knuckles across the handle, the wrist behind them.
fn fist(sitter: &Sitter, side: Side, wrist: Vec3, lie: &Lie) -> Vec<Vec<Round>> {
    let grip = sitter.limb(side, LimbMark::Grip);
    let half = lie.thumb * (0.0095 * sitter.body.stature);
    let knuckles = vec![sitter.round(grip + half, 0.0165), sitter.round(grip - half, 0.0165)];
    vec![vec![sitter.round(wrist, 0.0145), sitter.round(grip, 0.0170)], knuckles]
}

/// A shoe as chains of circles; on tiptoe it bends at the ball.
pub fn shoe(sitter: &Sitter, side: Side, ankle: Vec3) -> Vec<Vec<Round>> {
    let foot = sitter.body.frame(Piece::Foot(side));
    let h = sitter.body.stature;
    let at = |x: f64, y: f64, r: f64| sitter.round(ankle + foot.carry(x, y, 0.0) * h, r);
    let top = sitter.round(ankle, 0.0175);
    if sitter.tiptoe[side.index()] {
        let (ball, tip) = bent_toes(sitter, side);
        let upper = vec![
            at(-0.022, -0.0180, 0.0205),
            at(0.030, -0.0210, 0.0185),
            at(0.068, -0.0250, 0.0145),
            sitter.round(ball + vec3(0.0, 0.0135 * h, 0.0), 0.0135),
            sitter.round(tip, 0.011),
        ];
        return vec![upper, vec![top, at(-0.016, -0.016, 0.021)]];
    }
    let mut shoe = vec![
        vec![at(-0.020, -0.0185, 0.0205), at(0.040, -0.0215, 0.0175), at(0.098, -0.0265, 0.0125)],
        vec![top, at(-0.012, -0.016, 0.021)],
        vec![sitter.round(ankle, 0.0165), at(0.032, -0.020, 0.0175)],
    ];
    // From before or behind a shoe is as wide as a foot.
    if seen(sitter, foot.right) > 0.6 {
        let aside =
            |x: f64, z: f64, r: f64| sitter.round(ankle + foot.carry(x, FOOT_SOLE + r, z) * h, r);
        shoe.remove(0);
        shoe.push(vec![aside(0.080, -0.013, 0.0145), aside(0.080, 0.013, 0.0145)]);
        shoe.push(vec![aside(0.080, 0.0, 0.020), aside(-0.015, 0.0, 0.0215)]);
    }
    shoe
}

/// The line of the sole: heel, ball and tip; nothing where the foot is not seen from its side.
pub fn sole(sitter: &Sitter, side: Side, ankle: Vec3) -> String {
    let foot = sitter.body.frame(Piece::Foot(side));
    if seen(sitter, foot.right) > ASIDE {
        return String::new();
    }
    let h = sitter.body.stature;
    let at = |x: f64| sitter.camera.see(ankle + foot.carry(x, FOOT_SOLE + 0.0045, 0.0) * h);
    if !sitter.tiptoe[side.index()] {
        return line(&[at(-0.031), at(0.103)]);
    }
    let (ball, tip) = bent_toes(sitter, side);
    let low = |at: Vec3, up: f64| sitter.camera.see(at + vec3(0.0, up * h, 0.0));
    line(&[at(-0.031), low(ball, 0.0045), low(tip, -0.0075)])
}

/// How long a direction is on paper, from 0 (towards the reader) to about 1.
fn seen(sitter: &Sitter, way: Vec3) -> f64 {
    let on = sitter.camera.aim(way);
    on.x.hypot(on.y) / 100.0
}

/// From this on, what points to a side of the body is seen beside it.
const ASIDE: f64 = 0.4;

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
