//! Statics: the forces under a body that holds still, and the moments they leave at its joints.
//! Quasi-static: it says nothing about peaks while moving. Forces in body weights (mass times
//! gravity is 1), moments in body weights times metres.
//!
//! Two supports are determinate once the direction of one force is known: ropes pull along
//! themselves; on the level of the feet the direction does not matter; elsewhere it is a choice,
//! `HAND_LINE`. More than two level supports share by least squares and are marked.

use super::conditions::contact_mark;
use super::joints::{Joint, LimbJoint, Side};
use super::marks::{Mark, Piece};
use super::mass::{Lump, centre_of_mass};
use super::solve::{SolvedFigure, SolvedPose};
use super::space::{Plane, Vec3, vec3};
use super::words::contact::{Contact, Family, Part, Surface};

/// How far the force of a hand on something solid follows the line from hand to shoulder: 0 is
/// vertical, 1 leaves no net moment at the shoulder. A calibration, chosen on
/// `facts/push_up_load.csv`; it matters only where hands and feet stand at different heights.
pub const HAND_LINE: f64 = 1.0;

/// Gravity, m/s2: turns body weights times metres into N m per kg.
pub const GRAVITY: f64 = 9.81;

/// One force on the body.
#[derive(Debug, Clone, PartialEq)]
pub struct Push {
    /// The contacts that share it equally, as indices into the pose's touches.
    pub touches: Vec<usize>,
    /// Where it acts, metres.
    pub at: Vec3,
    /// In body weights.
    pub force: Vec3,
}

/// The forces under a still body.
#[derive(Debug, Clone, PartialEq)]
pub struct Support {
    /// Body and load, in body weights.
    pub weight: f64,
    /// Centre of mass of body and load, metres.
    pub centre: Vec3,
    /// Every force.
    pub pushes: Vec<Push>,
    /// Whether the forces follow from balance alone (and the hand's direction).
    pub determinate: bool,
}

impl Support {
    /// The upward share on contacts of this family, in body weights.
    pub fn share(&self, pose: &SolvedPose, family: Family) -> f64 {
        self.pushes.iter().filter(|p| is_family(p, pose, family)).map(|p| p.force.y).sum()
    }

    /// The size of the force on contacts of this family, in body weights.
    pub fn pull(&self, pose: &SolvedPose, family: Family) -> f64 {
        let sum = self
            .pushes
            .iter()
            .filter(|p| is_family(p, pose, family))
            .fold(Vec3::ZERO, |s, p| s + p.force);
        sum.length()
    }
}

fn is_family(push: &Push, pose: &SolvedPose, family: Family) -> bool {
    push.touches.first().is_some_and(|&i| pose.touches[i].0.part.family() == family)
}

/// Where the pressure of a contact acts, metres.
pub fn pressure_point(contact: &Contact, pose: &SolvedPose) -> Vec3 {
    use super::marks::LimbMark;
    let side = contact.side.unwrap_or(Side::Near);
    match contact.part {
        Part::Foot => pose.body.limb(side, LimbMark::Sole),
        _ => {
            let (mark, over) = contact_mark(contact);
            let at = pose.body.mark(mark);
            if contact.surface == Surface::Wall {
                at
            } else {
                at - vec3(0.0, over * pose.body.stature, 0.0)
            }
        }
    }
}

/// The forces under a key pose. None when nothing carries, or when the supports cannot hold it.
pub fn support(pose: &SolvedPose, figure: &SolvedFigure) -> Option<Support> {
    let (weight, centre) = centre_of_mass(&figure.lumps, &pose.body);
    let plane = figure.plane();
    let carrying: Vec<usize> =
        (0..pose.touches.len()).filter(|&i| pose.touches[i].0.surface != Surface::Air).collect();
    let (arms, rest): (Vec<usize>, Vec<usize>) =
        carrying.into_iter().partition(|&i| pose.touches[i].0.part.family() == Family::Arm);
    // A wall behind a back or a heel gives no upward force to share.
    let legs: Vec<usize> =
        rest.into_iter().filter(|&i| pose.touches[i].0.surface != Surface::Wall).collect();
    match (arms.is_empty(), legs.is_empty()) {
        (true, true) => None,
        (true, false) => level_supports(pose, &groups(pose, &legs, plane), weight, centre, plane),
        (false, true) => {
            let at = mean_point(pose, &arms);
            let push = Push { touches: arms, at, force: vec3(0.0, weight, 0.0) };
            Some(Support { weight, centre, pushes: vec![push], determinate: true })
        }
        (false, false) => arms_and_legs(pose, figure, (arms, legs), weight, centre),
    }
}

/// Hands (or forearms) and one other support, by moments about the other.
fn arms_and_legs(
    pose: &SolvedPose,
    figure: &SolvedFigure,
    (arms, legs): (Vec<usize>, Vec<usize>),
    weight: f64,
    centre: Vec3,
) -> Option<Support> {
    let plane = figure.plane();
    let (hand, foot) = (mean_point(pose, &arms), mean_point(pose, &legs));
    let line = force_line(pose, figure, &arms, hand, foot);
    let (hx, hy) = plane.flat(hand - foot);
    let (dx, dy) = plane.flat(line);
    let (cx, _) = plane.flat(centre - foot);
    let turning = hx * dy - hy * dx;
    if turning.abs() < 1e-6 {
        return None;
    }
    let size = cx * weight / turning;
    let force = line * size;
    let other = vec3(0.0, weight, 0.0) - force;
    let pushes = vec![
        Push { touches: arms, at: hand, force },
        Push { touches: legs, at: foot, force: other },
    ];
    Some(Support { weight, centre, pushes, determinate: true })
}

/// The direction of the hands' force, of length one.
fn force_line(
    pose: &SolvedPose,
    figure: &SolvedFigure,
    arms: &[usize],
    hand: Vec3,
    foot: Vec3,
) -> Vec3 {
    let flat = |v: Vec3| match figure.plane() {
        Plane::Side => vec3(v.x, v.y, 0.0),
        Plane::Front => vec3(0.0, v.y, v.z),
    };
    let up = vec3(0.0, 1.0, 0.0);
    let surface = pose.touches[arms[0]].0.surface;
    if let (true, Some(rope)) = (surface.is_rope(), figure.rope) {
        return flat(rope.anchor - hand).unit();
    }
    let to_shoulder = flat(pose.body.mark(Mark::Shoulders) - hand).unit();
    // A bar overhead is hung from; one ahead, or over a body on its heels, is pulled along the arm.
    let rowing = pose.touches.iter().any(|(c, _)| c.part == Part::Heel);
    if surface == Surface::Bar && to_shoulder.y < -0.75 && !rowing {
        return up;
    }
    if (hand.y - foot.y).abs() < SAME_LEVEL {
        return up;
    }
    (up * (1.0 - HAND_LINE) + to_shoulder * HAND_LINE).unit()
}

/// Hands and feet closer than this in height stand on one level, metres: there the hands press
/// straight down and the direction does not change their share.
const SAME_LEVEL: f64 = 0.02;

fn mean_point(pose: &SolvedPose, touches: &[usize]) -> Vec3 {
    let sum = touches.iter().fold(Vec3::ZERO, |s, &i| s + pressure_point(&pose.touches[i].0, pose));
    sum * (1.0 / touches.len().max(1) as f64)
}

/// Supports closer than this along the level line count as one, metres.
const SAME_PLACE: f64 = 0.08;

/// Contacts that lie together, in order of first mention.
fn groups(pose: &SolvedPose, touches: &[usize], plane: Plane) -> Vec<Vec<usize>> {
    let level = |i: usize| pressure_point(&pose.touches[i].0, pose).along(plane.level());
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for &i in touches {
        match groups.iter_mut().find(|g| (level(g[0]) - level(i)).abs() < SAME_PLACE) {
            Some(group) => group.push(i),
            None => groups.push(vec![i]),
        }
    }
    groups
}

/// Upward forces on supports without hands: one carries all, two by moments, more by least squares.
fn level_supports(
    pose: &SolvedPose,
    groups: &[Vec<usize>],
    weight: f64,
    centre: Vec3,
    plane: Plane,
) -> Option<Support> {
    let points: Vec<Vec3> = groups.iter().map(|g| mean_point(pose, g)).collect();
    let arm = |p: &Vec3| p.along(plane.level()) - centre.along(plane.level());
    let forces = match points.as_slice() {
        [_] => vec![weight],
        _ => least_squares(&points.iter().map(arm).collect::<Vec<_>>(), weight)?,
    };
    let pushes = groups
        .iter()
        .zip(&points)
        .zip(&forces)
        .map(|((g, at), f)| Push { touches: g.clone(), at: *at, force: vec3(0.0, *f, 0.0) })
        .collect();
    Some(Support { weight, centre, pushes, determinate: points.len() < 3 })
}

/// The smallest forces f with sum f = weight and sum f arm = 0: f = a + b arm.
fn least_squares(arms: &[f64], weight: f64) -> Option<Vec<f64>> {
    let n = arms.len() as f64;
    let (s1, s2): (f64, f64) = arms.iter().fold((0.0, 0.0), |(a, b), x| (a + x, b + x * x));
    let det = n * s2 - s1 * s1;
    if det.abs() < 1e-9 {
        return None;
    }
    let (a, b) = (weight * s2 / det, -weight * s1 / det);
    Some(arms.iter().map(|x| a + b * x).collect())
}

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
        for &i in &push.touches {
            let contact = &pose.touches[i].0;
            if contact_mark(contact).0.carrier().moved_by(joint) {
                sum += turn(pressure_point(contact, pose), each);
            }
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
