//! Hands: fists with fingers round what they hold, palms flat on a surface, and hands at ease.
//! Drawing measures of our own, fractions of stature; never used for weighing.

use super::outline::{Round, capsule, line, tube, wrap};
use super::sitter::{ASIDE, Sitter};
use crate::mechanics::joints::{LimbJoint, Side};
use crate::mechanics::marks::{LimbMark, Piece};
use crate::mechanics::skeleton::HAND;
use crate::mechanics::space::Vec3;

/// A hand on paper, from the wrist on.
pub struct Hand {
    /// Its outline.
    pub outline: String,
    /// The room it takes.
    pub rounds: Vec<Round>,
    /// The lines between its fingers; nothing where they are not seen.
    pub creases: String,
}

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
    let inward = hand.right * -side.sign();
    let down = -hand.up;
    let thumb = if is_free(sitter, side) { (hand.front + inward * INWARD).unit() } else { inward };
    Lie { down, thumb, back: down.cross(thumb) * side.sign() }
}

fn is_free(sitter: &Sitter, side: Side) -> bool {
    let turned = sitter.body.posture.degrees(side, LimbJoint::HandTurn).abs() > 1.0;
    !turned && !sitter.palms[side.index()]
}

/// How far inward the thumb of a hanging hand points for every part ahead: common practice, no
/// source.
const INWARD: f64 = 0.75;

/// A hand as it is drawn.
pub fn hand(sitter: &Sitter, side: Side, wrist: Vec3) -> Hand {
    let lie = lie(sitter, side);
    if sitter.fists[side.index()] {
        fist(sitter, side, wrist, &lie)
    } else {
        open(sitter, side, wrist, &lie)
    }
}

/// From here on a direction is seen well enough to draw what stands side by side along it.
const BROAD: f64 = 0.6;

/// Palm and fingers in one, with a thumb where it is seen. At ease the fingers bend a little.
fn open(sitter: &Sitter, side: Side, wrist: Vec3, lie: &Lie) -> Hand {
    let h = sitter.body.stature;
    let long = HAND * h;
    let bent = if sitter.palms[side.index()] { 0.0 } else { BENT };
    // Share of the hand's length, half its breadth and half its thickness there, how far it is bent.
    let palm =
        [(0.36, 0.0215, 0.0130, 0.0), (0.66, 0.0205, 0.0120, 0.3), (0.92, 0.0140, 0.0100, 1.0)];
    let across = sitter.across(lie.down);
    let spread = |way: Vec3, half: f64| {
        let on = sitter.camera.aim(way);
        half * (on.x * across.x + on.y * across.y) / 100.0
    };
    let place = |t: f64, out: f64, bend: f64| {
        wrist + lie.down * (t * long) + lie.thumb * (out * h) - lie.back * (bend * bent * h)
    };
    let mut rounds = vec![sitter.round(wrist, 0.0140)];
    rounds.extend(palm.map(|(t, wide, thick, bend)| {
        let r = spread(lie.thumb, wide).hypot(spread(lie.back, thick));
        sitter.round(place(t, 0.0, bend), r)
    }));
    let mut outline = tube(&rounds);
    // A thumb that points at the reader, or away, lies within the hand.
    if sitter.seen(lie.thumb) > ASIDE {
        let thumb = [(0.20, 0.010, 0.0100), (0.56, 0.0335, 0.0078)]
            .map(|(t, out, r)| sitter.round(place(t, out, 0.0), r));
        outline += &capsule(thumb[0], thumb[1]);
        rounds.extend(thumb);
    }
    let broad = sitter.seen(lie.thumb) > 1.3 * BROAD && sitter.seen(lie.down) > BROAD;
    let crease = |out: f64| {
        let ends = [place(0.62, out, 0.25), place(0.90, 0.8 * out, 0.9)];
        line(&ends.map(|at| sitter.camera.see(at)))
    };
    let creases = if broad { [-0.0080, 0.0, 0.0080].map(crease).concat() } else { String::new() };
    Hand { outline, rounds, creases }
}

/// How far fingertips at ease are bent towards the palm.
const BENT: f64 = 0.022;

/// Four fingers across a handle, the wrist behind them.
fn fist(sitter: &Sitter, side: Side, wrist: Vec3, lie: &Lie) -> Hand {
    let h = sitter.body.stature;
    let grip = sitter.limb(side, LimbMark::Grip);
    let at = |thumb: f64, down: f64, back: f64| {
        grip + (lie.thumb * thumb + lie.down * down + lie.back * back) * h
    };
    // Four corners of a block, no two on one edge: from every side their outline is the block's.
    let block = [(1.0, 1.0, 1.0), (1.0, -1.0, -1.0), (-1.0, 1.0, -1.0), (-1.0, -1.0, 1.0)];
    let block = block.map(|(t, d, b)| sitter.round(at(0.0130 * t, 0.0080 * d, 0.0080 * b), 0.0135));
    let arm = [sitter.round(wrist, 0.0145), sitter.round(grip, 0.0150)];
    let outline = capsule(arm[0], arm[1]) + &wrap(&block, CORNERS);
    let across = if sitter.seen(lie.down) > BROAD { (0.0210, 0.0) } else { (0.0, -0.0210) };
    let crease = |out: f64| {
        let ends = [at(out, across.0, across.1), at(out, -0.0030, 0.0)];
        line(&ends.map(|at| sitter.camera.see(at)))
    };
    let broad = sitter.seen(lie.thumb) > BROAD;
    let creases = if broad { [-0.0125, 0.0, 0.0125].map(crease).concat() } else { String::new() };
    Hand { outline, rounds: block.into_iter().chain(arm).collect(), creases }
}

/// Corners of the outline of a fist, the same in every frame of a motion.
const CORNERS: usize = 10;
