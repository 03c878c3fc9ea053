//! Reached: what a solved body says in the words of poses, as if an author had written it.
//! Only measures; whether that is what the author wanted is not asked here.

use super::joints::{Joint, LimbJoint, Side};
use super::kinematics::Body;
use super::marks::{LimbMark, Mark};
use super::skeleton::{HEAD_RADIUS, KNEE_RADIUS};
use super::words::keypose::joint_of;
use super::words::number::WRITTEN_FOR;

/// Words whose number is a segment's angle against the vertical, each with its lower and its upper end.
const SLOPES: [(&str, LimbMark, LimbMark); 5] = [
    ("thigh", LimbMark::Knee, LimbMark::Hip),
    ("shin", LimbMark::Ankle, LimbMark::Knee),
    ("upper-arm", LimbMark::Elbow, LimbMark::Shoulder),
    ("forearm", LimbMark::Wrist, LimbMark::Elbow),
    ("foot-angle", LimbMark::Heel, LimbMark::Ball),
];

/// What `word` would say of a body: degrees, or centimetres as they are written for the drawn person.
/// Nothing where the word has no number of its own.
pub fn reached(body: &Body, word: &str, side: Side) -> Option<f64> {
    let slope = SLOPES.iter().find(|(own, ..)| *own == word);
    if let Some((_, foot, top)) = slope {
        return Some(leaning(body, foot.of(side), top.of(side)));
    }
    match (word, joint_of(word)) {
        ("trunk", _) => Some(leaning(body, Mark::Hips, Mark::Shoulders)),
        (_, Some(Joint::Limb(_, limb))) => Some(body.posture.degrees(side, limb)),
        (_, Some(joint)) => Some(body.posture.get(joint).to_degrees()),
        _ => height(body, word, side),
    }
}

/// The angle of the line from `foot` up to `top` against the vertical, degrees, forward positive.
fn leaning(body: &Body, foot: Mark, top: Mark) -> f64 {
    let line = body.mark(top) - body.mark(foot);
    line.x.atan2(line.y).to_degrees()
}

fn height(body: &Body, word: &str, side: Side) -> Option<f64> {
    let limb = |mark| body.limb(side, mark).y;
    let metres = match word {
        "hips" => body.mark(Mark::Hips).y,
        "chest" => body.mark(Mark::Chest).y,
        "head" => body.mark(Mark::Head).y - HEAD_RADIUS * body.stature,
        "knee-height" => limb(LimbMark::Knee) - KNEE_RADIUS * body.stature,
        "foot-height" => limb(LimbMark::Ball),
        "hand-height" => limb(LimbMark::Grip),
        _ => return None,
    };
    Some(100.0 * metres * WRITTEN_FOR / body.stature)
}

/// Where on the body a joint sits.
pub fn seat_of(joint: Joint) -> Mark {
    match joint {
        Joint::Limb(side, limb) => limb_seat(limb).of(side),
        Joint::Waist | Joint::SideBend | Joint::Twist => Mark::Waist,
        Joint::UpperBack => Mark::UpperBack,
        Joint::Neck | Joint::HeadTurn => Mark::Neck,
        _ => Mark::Hips,
    }
}

fn limb_seat(limb: LimbJoint) -> LimbMark {
    match limb {
        LimbJoint::Hip | LimbJoint::LegOut | LimbJoint::LegTurn => LimbMark::Hip,
        LimbJoint::Knee => LimbMark::Knee,
        LimbJoint::Ankle => LimbMark::Ankle,
        LimbJoint::Elbow => LimbMark::Elbow,
        LimbJoint::Wrist | LimbJoint::HandTurn => LimbMark::Wrist,
        _ => LimbMark::Shoulder,
    }
}
