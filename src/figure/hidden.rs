//! Hidden arms: an arm that does something of its own, and that the body hides from the reader.
//! Only judges, by circles along the body; it never turns the camera nor moves a limb.

use super::arrow::arm_segments;
use super::camera::{Camera, Spot};
use super::doubts::Doubt;
use crate::mechanics::joints::{LimbJoint, Side};
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::solve::SolvedFigure;
use crate::mechanics::space::Vec3;

/// Arms whose joints differ by more than this do different things, degrees.
const DIFFERS: f64 = 25.0;
/// An arm of which less than this is seen from the elbow on is not drawn, for who looks.
const SEEN: f64 = 0.25;

/// Arms that nobody sees though they do not do what the other one does.
pub fn hidden_arms(figure: &SolvedFigure) -> Vec<Doubt> {
    let camera = Camera::on(figure);
    let mut doubts = Vec::new();
    for pose in figure.poses.iter().filter(|pose| arms_differ(&pose.body)) {
        for side in Side::BOTH {
            if seen(&pose.body, side, &camera) < SEEN {
                doubts.push(Doubt {
                    at: pose.at,
                    sentence: format!("the {} arm is hidden behind the body", side.word()),
                    next: "choose another view, such as `corner`, or move that arm",
                });
            }
        }
    }
    doubts
}

fn arms_differ(body: &Body) -> bool {
    let of = |side, joint| body.posture.degrees(side, joint);
    [LimbJoint::Shoulder, LimbJoint::ArmOut, LimbJoint::Elbow]
        .into_iter()
        .any(|joint| (of(Side::Near, joint) - of(Side::Far, joint)).abs() > DIFFERS)
}

/// Where a head is hidden, from its middle: so far ahead, so far down, and by an arm whose edge comes
/// this near; parts of stature. The face, and the ear.
const HEAD: [(f64, f64, f64); 2] = [(0.030, -0.014, 0.012), (0.0, 0.0, 0.020)];

/// Whether an arm as it stands is seen before the head.
pub fn arm_over_head(body: &Body, side: Side, camera: &Camera) -> bool {
    let head = body.frame(Piece::Head);
    let h = body.stature;
    let upper_arm_and_forearm = &arm_segments(side)[..2];
    HEAD.into_iter().any(|(ahead, up, near)| {
        let spot = body.mark(Mark::Head) + head.carry(ahead, up, 0.0) * h;
        let on = camera.see(spot);
        upper_arm_and_forearm.iter().any(|(a, b, r)| {
            let (from, to) = (body.mark(*a), body.mark(*b));
            let hides = |at: Vec3| {
                let before = camera.depth(at) > camera.depth(spot);
                before && camera.see(at).to(on).length() < 100.0 * (r + near) * h
            };
            (0..=10).any(|i| hides(from.towards(to, f64::from(i) / 10.0)))
        })
    })
}

/// Something that can hide: a place, and how far it reaches on paper, centimetres.
type Cover = (Vec3, f64);

/// Which part of an arm is seen, from the elbow to the grip.
fn seen(body: &Body, side: Side, camera: &Camera) -> f64 {
    const STEPS: i32 = 8;
    let at = |mark| body.limb(side, mark);
    let forearm = [(LimbMark::Elbow, LimbMark::Wrist), (LimbMark::Wrist, LimbMark::Fingers)];
    let spots = forearm.into_iter().flat_map(|(a, b)| {
        (0..=STEPS).map(move |i| at(a).towards(at(b), f64::from(i) / f64::from(STEPS)))
    });
    let covers = covers(body, side, camera);
    let hides = |spot: Vec3, on: Spot| {
        let nearer = |at: Vec3| camera.depth(at) > camera.depth(spot);
        covers.iter().any(|(at, r)| nearer(*at) && camera.see(*at).to(on).length() < *r)
    };
    let spots: Vec<Vec3> = spots.collect();
    let open = spots.iter().filter(|spot| !hides(**spot, camera.see(**spot))).count();
    open as f64 / spots.len() as f64
}

/// Trunk, thighs and the other arm.
fn covers(body: &Body, side: Side, camera: &Camera) -> Vec<Cover> {
    let h = 100.0 * body.stature;
    let mut all = Vec::new();
    let mut along = |a: Vec3, b: Vec3, r: f64| {
        all.extend((0..=10).map(|i| (a.towards(b, f64::from(i) / 10.0), r * h)));
    };
    // Half depth and half width of a trunk as it is drawn.
    let chest = body.frame(Piece::Chest);
    let broad = |way: Vec3, half: f64| half * camera.aim(way).x.abs() / 100.0;
    let trunk = broad(chest.front, 0.054).hypot(broad(chest.right, 0.083)).max(0.045);
    along(body.mark(Mark::Hips), body.mark(Mark::Waist), trunk);
    along(body.mark(Mark::Waist), body.mark(Mark::Shoulders), trunk);
    for leg in Side::BOTH {
        along(body.limb(leg, LimbMark::Hip), body.limb(leg, LimbMark::Knee), 0.042);
    }
    for (a, b, r) in arm_segments(side.other()) {
        along(body.mark(a), body.mark(b), r);
    }
    all
}
