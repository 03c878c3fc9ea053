//! The body against the floor and against itself from pose to pose.
//! Looks at marks only; kit is `blocks`', falling is `balance`'s.

use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::node::{PoseCode, PoseProblem};
use crate::mechanics::skeleton as bone;
use crate::mechanics::solve::SolvedFigure;
use crate::mechanics::words::recipe::Arrow;

/// This far below the floor is drawn badly, metres.
const SUNK: f64 = 0.025;

/// Parts below the floor.
pub fn floor(figure: &SolvedFigure, index: usize, found: &mut Vec<PoseProblem>) {
    let pose = &figure.poses[index];
    let mut worst: Option<(String, f64)> = None;
    for (name, mark, radius) in parts() {
        let deep = radius * pose.body.stature - pose.body.mark(mark).y;
        if deep > SUNK && worst.as_ref().is_none_or(|(_, d)| deep > *d) {
            worst = Some((name, deep));
        }
    }
    if let Some((name, deep)) = worst {
        found.push(PoseProblem::new(
            PoseCode::ThroughFloor,
            pose.at,
            format!("The {name} is {} cm below the floor.", (100.0 * deep).round()),
            "bend the limb more, lift the hips, or say that it rests on the floor",
        ));
    }
}

fn parts() -> Vec<(String, Mark, f64)> {
    use LimbMark::*;
    let mut all = vec![
        ("head".to_string(), Mark::Head, bone::HEAD_RADIUS),
        ("seat".to_string(), Mark::Hips, 0.050),
        ("shoulder line".to_string(), Mark::Shoulders, 0.040),
    ];
    for side in Side::BOTH {
        let limbs = [
            ("knee", Knee, 0.028),
            ("elbow", Elbow, 0.018),
            ("wrist", Wrist, 0.010),
            ("hand", Fingers, 0.0),
            ("heel", Heel, 0.0),
            ("ball of the foot", Ball, 0.0),
        ];
        for (word, mark, radius) in limbs {
            all.push((format!("{} {word}", side.word()), mark.of(side), radius));
        }
    }
    all
}

/// Less than this between two key poses is no movement, metres.
const STILL: f64 = 0.03;
/// A joint that turns further than this from one key pose to the next has gone the wrong way.
const SPIN: f64 = 165.0;

/// Key poses that are the same, swapped, or a joint that spins.
pub fn movement(figure: &SolvedFigure, found: &mut Vec<PoseProblem>) {
    for (before, after) in figure.poses.iter().zip(figure.poses.iter().skip(1)) {
        if furthest(&before.body, &after.body) < STILL {
            found.push(PoseProblem::new(
                PoseCode::NothingMoves,
                after.at,
                "This key pose is the same as the one before.",
                "say what changes, or leave it out: a held position needs only a `start`",
            ));
        } else if figure.recipe.arrow != Arrow::Onward && swapped(&before.body, &after.body) {
            found.push(PoseProblem::new(
                PoseCode::Mirrored,
                after.at,
                "This key pose is the one before with near and far exchanged.",
                "exchange `near` and `far` in one of them, or write `arrow: forward` if the figure walks on",
            ));
        }
        if let Some((side, limb, turned)) = spun(&before.body, &after.body) {
            found.push(PoseProblem::new(
                PoseCode::Mirrored,
                after.at,
                format!(
                    "The {} {} turns {} degrees from one key pose to the next.",
                    side.word(),
                    limb.word(),
                    turned.round()
                ),
                "check the sign of its angle, or put a key pose in `between`",
            ));
        }
    }
}

fn furthest(a: &Body, b: &Body) -> f64 {
    let pairs = a.places().iter().zip(b.places());
    // A head that turns moves none of the marks: its front does.
    let face = |body: &Body| body.frame(Piece::Head).front * FACE;
    let turned = (face(a) - face(b)).length();
    pairs.map(|(p, q)| (*p - *q).length()).fold(turned, f64::max)
}

/// From the middle of a head to its face, metres: a drawing measure.
const FACE: f64 = 0.10;

/// The second pose is the first with its sides exchanged, and the first is not the same on both.
fn swapped(a: &Body, b: &Body) -> bool {
    let angle = |body: &Body, side, limb| body.posture.degrees(side, limb);
    let apart = |x: &Body, sx, y: &Body, sy| {
        [LimbJoint::Hip, LimbJoint::Knee, LimbJoint::Shoulder, LimbJoint::Elbow]
            .iter()
            .map(|l| (angle(x, sx, *l) - angle(y, sy, *l)).abs())
            .fold(0.0, f64::max)
    };
    let crossed = apart(a, Side::Near, b, Side::Far).max(apart(a, Side::Far, b, Side::Near));
    crossed < 8.0 && apart(a, Side::Near, a, Side::Far) > 25.0
}

fn spun(a: &Body, b: &Body) -> Option<(Side, LimbJoint, f64)> {
    for side in Side::BOTH {
        for limb in LimbJoint::ALL {
            let joint = Joint::Limb(side, limb);
            let turned = (a.posture.get(joint) - b.posture.get(joint)).abs().to_degrees();
            // An arm may well go from the side to overhead.
            let allowed = if limb == LimbJoint::Shoulder { 235.0 } else { SPIN };
            if turned > allowed {
                return Some((side, limb, turned));
            }
        }
    }
    None
}
