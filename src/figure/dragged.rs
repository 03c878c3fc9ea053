//! Dragged: which word of a key pose, at which number, brings a part of the body to a point of the
//! picture. Never solves; the pose is solved anew with that word.

use super::camera::{Camera, Spot};
use super::marked::{Handle, handles};
use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::reached::reached;
use crate::mechanics::skeleton::joint_range;
use crate::mechanics::solve::SolvedFigure;

/// A word of a pose with its number.
#[derive(Debug, Clone, PartialEq)]
pub struct Worded {
    /// The word: `elbow`, `upper-arm`, `hips`.
    pub word: &'static str,
    /// For which side; nothing for a word of the trunk.
    pub side: Option<Side>,
    /// Degrees or centimetres.
    pub number: f64,
}

/// What moves a part of a limb: where it turns, the joints that turn it there, and the word for the
/// slope of the segment.
type Turning = (LimbMark, &'static [(LimbJoint, &'static str)], &'static str);

fn turning(part: &str) -> Option<Turning> {
    use LimbJoint::{Ankle, ArmOut, Elbow, Hip, Knee, LegOut, Shoulder};
    Some(match part {
        "elbow" => {
            (LimbMark::Shoulder, &[(Shoulder, "shoulder"), (ArmOut, "arm-out")], "upper-arm")
        }
        "hand" => (LimbMark::Elbow, &[(Elbow, "elbow")], "forearm"),
        "knee" => (LimbMark::Hip, &[(Hip, "hip"), (LegOut, "leg-out")], "thigh"),
        "ankle" => (LimbMark::Knee, &[(Knee, "knee")], "shin"),
        "toes" => (LimbMark::Ankle, &[(Ankle, "ankle")], "foot-angle"),
        _ => return None,
    })
}

/// The word that brings the part called `name` to `to`, a point of the picture of key pose `index`.
/// `says` tells whether the pose has a word already, for a side: then that word is used.
pub fn dragged(
    figure: &SolvedFigure,
    index: usize,
    (name, to): (&str, Spot),
    says: impl Fn(&str, Option<Side>) -> bool,
) -> Option<Worded> {
    let handle = handles().into_iter().find(|handle| handle.name() == name)?;
    let camera = Camera::on(figure);
    let body = &figure.poses.get(index)?.body;
    match handle.side {
        Some(side) => limb(body, &camera, (&handle, side, to), says),
        None => trunk(body, &camera, (&handle, to), says),
    }
}

fn limb(
    body: &Body,
    camera: &Camera,
    (handle, side, to): (&Handle, Side, Spot),
    says: impl Fn(&str, Option<Side>) -> bool,
) -> Option<Worded> {
    let (pivot, joints, slope) = turning(handle.part)?;
    let pivot = pivot.of(side);
    let turned = |(limb, word): &(LimbJoint, &'static str)| {
        let (miss, posed) = best(body, camera, (Joint::Limb(side, *limb), pivot, handle.mark), to);
        (miss, posed, *word)
    };
    let tries: Vec<_> = joints.iter().map(turned).collect();
    // The first joint is the one that is meant unless another comes clearly nearer.
    let better = |a: (f64, Body, &'static str), b: (f64, Body, &'static str)| {
        if b.0 < a.0 - NEARER { b } else { a }
    };
    let (_, posed, word) = tries.into_iter().reduce(better)?;
    let word = if says(slope, Some(side)) { slope } else { word };
    Some(Worded { word, side: Some(side), number: reached(&posed, word, side)?.round() })
}

/// Another joint is turned where it brings the part so much nearer, centimetres of the picture.
const NEARER: f64 = 4.0;

/// The body with one joint turned so that `mark` comes nearest to `to` as seen from `pivot`, and how
/// far from it that is. The rest of the body stays as it is: the pose is solved anew afterwards.
fn best(
    body: &Body,
    camera: &Camera,
    (joint, pivot, mark): (Joint, Mark, Mark),
    to: Spot,
) -> (f64, Body) {
    let wanted = camera.see(body.mark(pivot)).to(to);
    let range = joint_range(joint);
    let degrees = (range.from as i32..=range.to as i32).map(f64::from);
    let turned = degrees.map(|degrees| {
        let mut posture = body.posture;
        posture.set(joint, degrees.to_radians());
        let other = Body::stand(posture, body.stature);
        let is = camera.see(other.mark(pivot)).to(camera.see(other.mark(mark)));
        (is.to(wanted).length(), other)
    });
    let nearer = |a: (f64, Body), b: (f64, Body)| if b.0 < a.0 { b } else { a };
    turned.reduce(nearer).unwrap_or_else(|| (0.0, body.clone()))
}

fn trunk(
    body: &Body,
    camera: &Camera,
    (handle, to): (&Handle, Spot),
    says: impl Fn(&str, Option<Side>) -> bool,
) -> Option<Worded> {
    let from = |mark| camera.see(body.mark(mark)).to(to);
    let once = |word, number: f64| Some(Worded { word, side: None, number: number.round() });
    match handle.part {
        "head" => {
            let (_, posed) = best(body, camera, (Joint::Neck, Mark::Neck, Mark::Head), to);
            once("neck", reached(&posed, "neck", Side::Near)?)
        }
        "shoulders" if camera.is_level_on() => {
            let (_, posed) = best(body, camera, (Joint::SideBend, Mark::Hips, Mark::Shoulders), to);
            once("side-bend", reached(&posed, "side-bend", Side::Near)?)
        }
        "shoulders" => {
            let line = from(Mark::Hips);
            once("trunk", line.x.atan2(-line.y).to_degrees())
        }
        // Up and down: `y` of the picture counts downwards.
        _ => {
            let word = if says("chest", None) { "chest" } else { "hips" };
            once(word, reached(body, word, Side::Near)? - from(handle.mark).y)
        }
    }
}
