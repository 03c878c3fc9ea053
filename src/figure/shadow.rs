//! Contact shadows: what lies on the floor darkens it, so that a hover is seen to hover.
//! Only from the solved body; it knows nothing of how the body is drawn.

use super::camera::{Camera, Spot, spot};
use super::outline::line;
use super::paper::{Ink, Paper};
use crate::mechanics::joints::Side;
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::skeleton::{BACK_RADIUS, ELBOW_RADIUS, KNEE_RADIUS, SEAT_RADIUS};
use crate::mechanics::solve::SolvedPose;
use crate::mechanics::space::{Vec3, vec3};

/// Skin this near the floor touches it, metres.
const TOUCHES: f64 = 0.02;

/// The shadows of one key pose.
pub fn shadows(pose: &SolvedPose, camera: &Camera) -> Paper {
    let mut paper = Paper::default();
    let on_floor = |at: Vec3| camera.see(vec3(at.x, 0.0, at.z)).plus(0.0, BELOW);
    let mut path = String::new();
    for (from, to, thick) in stretches(pose) {
        let low = |at: Vec3| at.y - thick < TOUCHES;
        let (from, to) = match (low(from), low(to)) {
            (false, false) => continue,
            (true, true) => (from, to),
            (true, false) => (from, from.towards(to, 0.25)),
            (false, true) => (to.towards(from, 0.25), to),
        };
        let (from, to) = (on_floor(from), on_floor(to));
        let (a, b) = if from.to(to).x.abs() < SHORT { across(from, to) } else { (from, to) };
        path += &line(&[a, b]);
    }
    paper.draw(Ink::Shadow, path);
    paper
}

/// What points at the reader has a shadow as broad as it is, not one that stands on end: shorter than
/// this it would, centimetres.
const SHORT: f64 = 5.0;

fn across(from: Spot, to: Spot) -> (Spot, Spot) {
    let middle = spot((from.x + to.x) / 2.0, from.y.max(to.y));
    (middle.plus(-SHORT, 0.0), middle.plus(SHORT, 0.0))
}

/// How far a shadow shows below, past the halo of what casts it, centimetres.
const BELOW: f64 = 1.5;

/// Stretches of the body that can lie on the floor, and how thick the body is under their line.
fn stretches(pose: &SolvedPose) -> Vec<(Vec3, Vec3, f64)> {
    let h = pose.body.stature;
    let mark = |m: Mark| pose.body.mark(m);
    let mut all = vec![
        (mark(Mark::Hips), mark(Mark::Waist), SEAT_RADIUS * h),
        (mark(Mark::UpperBack), mark(Mark::Shoulders), BACK_RADIUS * h),
    ];
    for side in Side::BOTH {
        let limb = |m: LimbMark| pose.body.limb(side, m);
        all.push((limb(LimbMark::Heel), limb(LimbMark::Tip), 0.0));
        all.push((limb(LimbMark::Wrist), limb(LimbMark::Fingers), 0.012 * h));
        // An upright forearm stands on the hand, which has its own.
        let (elbow, thick) = (limb(LimbMark::Elbow), ELBOW_RADIUS * h);
        if elbow.y - thick < TOUCHES {
            all.push((elbow, limb(LimbMark::Wrist), thick));
        }
        all.push((limb(LimbMark::Knee), limb(LimbMark::Ankle), KNEE_RADIUS * h));
    }
    all
}
