//! Spoil: changes of a solved body that need no solving anew: knees that fall in, limbs that stay as
//! they were while the trunk goes wrong. It knows no fault by name and draws nothing.

use crate::mechanics::joints::{Joint, LimbJoint, Posture, Side};
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::LimbMark;
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::{Vec3, vec3};
use crate::mechanics::words::contact::{Family, Part, Surface};

/// The wrong pose with every limb that is on nothing as it was in the good one: it points the same way
/// in the hall, so that one thing alone goes wrong.
pub fn steadied(good: &SolvedPose, wrong: SolvedPose) -> SolvedPose {
    let mut posture = wrong.body.posture;
    let limbs = [
        (Family::Arm, LimbJoint::Shoulder, [LimbMark::Shoulder, LimbMark::Elbow]),
        (Family::Leg, LimbJoint::Hip, [LimbMark::Hip, LimbMark::Knee]),
    ];
    for side in Side::BOTH {
        for (family, joint, [top, low]) in limbs {
            let mut own = good.touches.iter().filter(|(c, _)| c.side == Some(side));
            if own.any(|(c, _)| c.part.family() == family && c.surface != Surface::Air) {
                continue;
            }
            let way = |body: &Body| (body.limb(side, low) - body.limb(side, top)).unit();
            turn_to(
                &mut posture,
                Joint::Limb(side, joint),
                way(&good.body),
                good.body.stature,
                &way,
            );
        }
    }
    SolvedPose { body: Body::stand(posture, good.body.stature), ..wrong }
}

/// Turn one joint until a limb points as near as it can to `way`, by halves of what is left.
fn turn_to(
    posture: &mut Posture,
    joint: Joint,
    way: Vec3,
    stature: f64,
    points: &impl Fn(&Body) -> Vec3,
) {
    let off = |angle: f64| {
        let mut turned = *posture;
        turned.set(joint, angle);
        -points(&Body::stand(turned, stature)).dot(way)
    };
    let mut best = posture.get(joint);
    let mut step = 0.8;
    while step > 0.002 {
        let tries = [best - step, best, best + step];
        best = tries.into_iter().min_by(|a, b| off(*a).total_cmp(&off(*b))).unwrap_or(best);
        step *= 0.7;
    }
    posture.set(joint, best);
}

/// Arms that reach out for balance alone, at the sides: from the front they would point at the reader
/// and hide what the picture is about.
pub fn arms_down(good: SolvedPose, figure: &SolvedFigure) -> SolvedPose {
    let holds = figure.recipe.held.as_ref().is_some_and(|held| !held.is_nothing());
    let strung = !figure.recipe.lines.is_empty();
    let bears = good.touches.iter().any(|(c, _)| c.part.family() == Family::Arm);
    let ahead = |side| {
        let at = |mark| good.body.limb(side, mark);
        (at(LimbMark::Wrist) - at(LimbMark::Shoulder)).x > 0.25 * good.body.stature
    };
    if holds || strung || bears || !Side::BOTH.into_iter().any(ahead) {
        return good;
    }
    let mut posture = good.body.posture;
    for side in Side::BOTH {
        let hang =
            [(LimbJoint::ArmOut, 16.0), (LimbJoint::ArmTurn, 0.0), (LimbJoint::Elbow, 12.0_f64)];
        for (joint, degrees) in hang {
            posture.set(Joint::Limb(side, joint), degrees.to_radians());
        }
        let points = |body: &Body| {
            let at = |mark| body.limb(side, mark);
            (at(LimbMark::Elbow) - at(LimbMark::Shoulder)).unit()
        };
        let down = vec3(0.0, -1.0, 0.0);
        turn_to(
            &mut posture,
            Joint::Limb(side, LimbJoint::Shoulder),
            down,
            good.body.stature,
            &points,
        );
    }
    SolvedPose { body: Body::stand(posture, good.body.stature), ..good }
}

/// The legs whose whole foot is down: theirs are the knees that fall in.
fn stood_on(good: &SolvedPose) -> impl Iterator<Item = Side> {
    let down = |side: &Side| {
        good.touches.iter().any(|(c, _)| c.side == Some(*side) && c.part == Part::Foot)
    };
    Side::BOTH.into_iter().filter(down)
}

/// How far inward a knee falls, as a part of stature: about 7 cm.
const FALLS: f64 = 0.042;

/// Knees fallen inward over feet that stay: of each leg the turn at the hip that brings the knee
/// there and leaves the ankle, found step by smaller step.
pub fn inward(good: &SolvedPose) -> SolvedPose {
    let (mut posture, h) = (good.body.posture, good.body.stature);
    for side in stood_on(good) {
        let at = |body: &Body, mark| body.limb(side, mark);
        let ankle = at(&good.body, LimbMark::Ankle);
        let knee = at(&good.body, LimbMark::Knee) - vec3(0.0, 0.0, side.sign() * FALLS * h);
        let off = |posture: &Posture| {
            let body = Body::stand(*posture, h);
            (at(&body, LimbMark::Knee) - knee).length()
                + 2.0 * (at(&body, LimbMark::Ankle) - ankle).length()
        };
        for step in [6.0, 3.0, 1.5, 0.7_f64] {
            descend(&mut posture, side, step.to_radians(), &off);
        }
    }
    SolvedPose { body: Body::stand(posture, h), ..good.clone() }
}

/// Turn the joints of a leg by `step` each way, together in every way, as long as that comes nearer:
/// one at a time would never move the knee and leave the ankle.
fn descend(posture: &mut Posture, side: Side, step: f64, off: &impl Fn(&Posture) -> f64) {
    const JOINTS: [LimbJoint; 4] =
        [LimbJoint::Hip, LimbJoint::LegOut, LimbJoint::LegTurn, LimbJoint::Knee];
    const WAYS: usize = 81;
    let turned = |posture: &Posture, way: usize| {
        let mut turned = *posture;
        let mut rest = way;
        for joint in JOINTS.map(|limb| Joint::Limb(side, limb)) {
            turned.set(joint, turned.get(joint) + step * ((rest % 3) as f64 - 1.0));
            rest /= 3;
        }
        turned
    };
    for _ in 0..30 {
        let tries = (0..WAYS).map(|way| turned(posture, way)).map(|tried| (off(&tried), tried));
        match tries.min_by(|a, b| a.0.total_cmp(&b.0)) {
            Some((better, tried)) if better < off(posture) - 1e-9 => *posture = tried,
            _ => return,
        }
    }
}
