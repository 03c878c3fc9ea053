//! Moments: what the forces under a still body leave at its joints.
//! Never a peak while moving, and never an absolute promise: only ratios within one family count.

use super::conditions::contact_mark;
use super::joints::{Joint, LimbJoint, Side};
use super::marks::Piece;
use super::mass::Lump;
use super::solve::{SolvedFigure, SolvedPose};
use super::space::{Vec3, vec3};
use super::statics::Support;

/// Gravity, m/s2: turns body weights times metres into N m per kg.
pub const GRAVITY: f64 = 9.81;

/// The net moment at a joint, N m per kg of body mass, as the turning of everything beyond the
/// joint about it: positive lifts the front. Only ratios within one family are to be trusted.
pub fn moment(joint: Joint, pose: &SolvedPose, figure: &SolvedFigure, support: &Support) -> f64 {
    let Some(hinge) = pose.body.hinge(joint) else { return 0.0 };
    let plane = figure.plane();
    let turn = |at: Vec3, force: Vec3| {
        let ((x, y), (fx, fy)) = (plane.flat(at - hinge.origin), plane.flat(force));
        x * fy - y * fx
    };
    let mut sum = 0.0;
    for push in &support.pushes {
        let each = push.force * (1.0 / push.touches.len().max(1) as f64);
        for (i, at) in support.points(push, pose) {
            if contact_mark(&pose.touches[i].0).0.carrier().moved_by(joint) {
                sum += turn(at, each);
            }
        }
    }
    for pull in &support.pulls {
        if pull.mark.carrier().moved_by(joint) {
            sum += turn(pull.at, pull.force);
        }
    }
    for lump in &figure.lumps {
        if carrier(lump).is_some_and(|p| p.moved_by(joint)) {
            sum += turn(lump.centre(&pose.body), vec3(0.0, -lump.mass, 0.0));
        }
    }
    sum * GRAVITY
}

fn carrier(lump: &Lump) -> Option<Piece> {
    lump.piece.or_else(|| lump.spots.first().map(|(m, _)| m.carrier()))
}

/// Extending moments at hip and knee of one leg, N m per kg: positive means the joint has to be
/// held against bending.
pub fn leg_moments(
    side: Side,
    pose: &SolvedPose,
    figure: &SolvedFigure,
    support: &Support,
) -> (f64, f64) {
    let hip = moment(Joint::Limb(side, LimbJoint::Hip), pose, figure, support);
    let knee = -moment(Joint::Limb(side, LimbJoint::Knee), pose, figure, support);
    (hip, knee)
}
