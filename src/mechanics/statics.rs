//! Statics: the forces under a body that holds still.
//! Quasi-static: it says nothing about peaks while moving. Forces in body weights (mass times
//! gravity is 1). Never a number where balance does not decide one: `Support::refused` says why.
//!
//! Two supports are determinate once the direction of one force is known: ropes pull along
//! themselves; a wall behind pushes level; elsewhere the hand's direction is a choice, `HAND_LINE`.

use super::conditions::contact_mark;
use super::doubt::{Shift, forward};
use super::joints::{LimbJoint, Side};
use super::marks::LimbMark;
use super::mass::centre_of_mass;
use super::pulls::{Pull, pulls};
pub use super::refused::Refused;
use super::solve::{SolvedFigure, SolvedPose};
use super::space::{Plane, Vec3, vec3};
use super::words::contact::{Contact, Family, Part, Surface};

/// How far the force of a hand on something solid follows the arm, where hands and feet stand at
/// different heights: 0 is straight down, 1 is along the line from the hand to the shoulder of a
/// straight arm. A calibration, chosen on the two rows of Ebben 2011 with raised hands.
pub const HAND_LINE: f64 = 1.0;

/// Where the line of a bent, pushing arm ends: this part of the way from the shoulder to the elbow.
/// Midway, our judgement: measured elbow moments (10 to 23 N m an arm, `facts/measured_more.csv`)
/// say that it passes within some centimetres of the elbow, and nothing says which.
const AIM: f64 = 0.5;
/// An elbow bent this far counts as bent, degrees; from straight to here the line moves evenly.
const BENT: f64 = 90.0;
/// Surfaces closer than this in height are one level, metres: there the hands press straight down,
/// and the direction does not change what they bear.
const SAME_LEVEL: f64 = 0.02;

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
    /// Every force of what carries.
    pub pushes: Vec<Push>,
    /// Every force of bands and pulleys whose pull is written.
    pub pulls: Vec<Pull>,
    /// Why these forces may not be shown as numbers; none where they may.
    pub refused: Option<Refused>,
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

    /// Where each contact of a push is pressed, metres: side by side about the push itself.
    pub fn points<'p>(
        &self,
        push: &'p Push,
        pose: &'p SolvedPose,
    ) -> impl Iterator<Item = (usize, Vec3)> + 'p {
        let off = push.at - mean_point(pose, &push.touches);
        push.touches.iter().map(move |&i| (i, pressure_point(&pose.touches[i].0, pose) + off))
    }
}

fn is_family(push: &Push, pose: &SolvedPose, family: Family) -> bool {
    push.touches.first().is_some_and(|&i| pose.touches[i].0.part.family() == family)
}

/// Where the pressure of a contact acts, metres.
pub fn pressure_point(contact: &Contact, pose: &SolvedPose) -> Vec3 {
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

/// The forces under a key pose. None when nothing carries.
pub fn support(pose: &SolvedPose, figure: &SolvedFigure) -> Option<Support> {
    support_under(pose, figure, &Shift::default())
}

/// The same with what is in doubt shifted.
pub fn support_under(pose: &SolvedPose, figure: &SolvedFigure, shift: &Shift) -> Option<Support> {
    let (weight, centre) = centre_of_mass(&figure.lumps, &pose.body);
    let centre = centre + forward(pose, figure.plane(), shift);
    let known = pulls(pose, figure, shift);
    let too_far = known.is_none().then_some(Refused::TooFar);
    let pulls = known.unwrap_or_default();
    let scene = Scene { pose, figure, plane: figure.plane(), shift: *shift, weight, centre, pulls };
    let carrying: Vec<usize> =
        (0..pose.touches.len()).filter(|&i| pose.touches[i].0.surface != Surface::Air).collect();
    let (arms, rest): (Vec<usize>, Vec<usize>) =
        carrying.into_iter().partition(|&i| pose.touches[i].0.part.family() == Family::Arm);
    let (walls, legs): (Vec<usize>, Vec<usize>) =
        rest.into_iter().partition(|&i| pose.touches[i].0.surface == Surface::Wall);
    let mut support = match (arms.is_empty(), legs.is_empty()) {
        (true, true) => None,
        (true, false) => scene.stands(legs, &walls),
        (false, true) => scene.stands(arms, &walls),
        (false, false) => scene.arms_and_legs(arms, legs, !walls.is_empty()),
    }?;
    support.refused = support.refused.or(too_far).or_else(|| scene.impossible(&support));
    Some(support)
}

/// A key pose with all that balance needs.
struct Scene<'a> {
    pose: &'a SolvedPose,
    figure: &'a SolvedFigure,
    plane: Plane,
    shift: Shift,
    weight: f64,
    centre: Vec3,
    pulls: Vec<Pull>,
}

/// What the contacts have to carry at one height: straight up, along the level line, and where along it.
struct Burden {
    up: f64,
    level: f64,
    at: f64,
}

/// Supports closer than this along the level line count as one, metres.
const SAME_PLACE: f64 = 0.08;
/// One support carries what lies at most this far from its middle, metres: a foot, a grip's width.
const REACH: f64 = 0.17;
/// A push of less than this may point the wrong way: it is nothing, in body weights.
const NOTHING: f64 = 0.005;
/// Nothing bears more than this, in weights of body, load and pulls: what slopes pulls a little more.
const MOST: f64 = 1.15;

impl Scene<'_> {
    fn whole(&self, pushes: Vec<Push>, refused: Option<Refused>) -> Option<Support> {
        let (weight, centre, pulls) = (self.weight, self.centre, self.pulls.clone());
        Some(Support { weight, centre, pushes, pulls, refused })
    }

    /// Body, load and every pull, at height `y`; where nothing pulls, the weight under its centre.
    fn burden(&self, y: f64) -> Burden {
        let (mut up, mut level) = (self.weight, 0.0);
        let mut turn = -self.weight * self.level(self.centre);
        for pull in &self.pulls {
            let ((px, py), (fx, fy)) = (self.plane.flat(pull.at), self.plane.flat(pull.force));
            (up, level, turn) = (up - fy, level - fx, turn + px * fy - (py - y) * fx);
        }
        Burden { up, level, at: -turn / up }
    }

    fn level(&self, at: Vec3) -> f64 {
        at.along(self.plane.level())
    }

    fn along_level(&self, by: f64) -> Vec3 {
        match self.plane {
            Plane::Side => vec3(by, 0.0, 0.0),
            Plane::Front => vec3(0.0, 0.0, by),
        }
    }

    fn mean(&self, touches: &[usize]) -> Vec3 {
        let arm =
            touches.first().is_some_and(|&i| self.pose.touches[i].0.part.family() == Family::Arm);
        let by = if arm { self.shift.hands } else { self.shift.pressure };
        mean_point(self.pose, touches) + self.along_level(by)
    }

    /// What stands or hangs without anything to pull it aside: one place carries all, two share by
    /// moments, more by least squares, which nobody can check.
    fn stands(&self, on: Vec<usize>, walls: &[usize]) -> Option<Support> {
        if let Some(leaning) = self.leans(&on, walls) {
            return Some(leaning);
        }
        let mut groups = self.groups(&on);
        loop {
            if groups.len() == 1 {
                return self.one_place(groups.remove(0));
            }
            let points: Vec<Vec3> = groups.iter().map(|g| self.mean(g)).collect();
            let heights = || points.iter().map(|p| p.y);
            let y = heights().sum::<f64>() / points.len() as f64;
            let burden = self.burden(y);
            let arms: Vec<f64> = points.iter().map(|p| self.level(*p) - burden.at).collect();
            let forces = least_squares(&arms, burden.up)?;
            // What would have to pull does not press at all.
            let idle = (0..forces.len()).filter(|&i| forces[i] < 0.0);
            if let Some(idle) = idle.min_by(|&a, &b| forces[a].total_cmp(&forces[b])) {
                groups.remove(idle);
                continue;
            }
            // Who shares a level pull at two heights, balance does not say; on one, as each is pressed.
            let apart = burden.level != 0.0 && heights().any(|h| (h - y).abs() > SAME_LEVEL);
            let many = (groups.len() > 2 || apart).then_some(Refused::TooMany);
            let push = |((touches, at), f): ((Vec<usize>, Vec3), f64)| Push {
                touches,
                at: if burden.level == 0.0 { at } else { Vec3 { y, ..at } },
                force: vec3(0.0, f, 0.0) + self.along_level(burden.level * f / burden.up),
            };
            return self
                .whole(groups.into_iter().zip(points).zip(forces).map(push).collect(), many);
        }
    }

    /// One place carries all: the pressure lies under the centre of mass.
    fn one_place(&self, touches: Vec<usize>) -> Option<Support> {
        let at = mean_point(self.pose, &touches);
        let burden = self.burden(at.y);
        let off = burden.at - self.level(at);
        let refused = (off.abs() > REACH || burden.up < NOTHING).then_some(Refused::Falls);
        let at = at + self.along_level(off + self.shift.pressure);
        let force = vec3(0.0, burden.up, 0.0) + self.along_level(burden.level);
        self.whole(vec![Push { touches, at, force }], refused)
    }

    /// A back or heels against a wall: it pushes level, as much as keeps the body from tipping.
    fn leans(&self, on: &[usize], walls: &[usize]) -> Option<Support> {
        if walls.is_empty()
            || !self.pulls.is_empty()
            || self.plane == Plane::Front
            || self.groups(on).len() > 1
        {
            return None;
        }
        let (base, wall) = (self.mean(on), mean_point(self.pose, walls));
        let rise = wall.y - base.y;
        let push = -(self.centre.x - base.x) * self.weight / rise;
        let away = (self.centre.x - wall.x) * push >= 0.0;
        if rise.abs() < 0.05 || !away {
            return None;
        }
        let force = vec3(push, 0.0, 0.0);
        let under = Push { touches: on.to_vec(), at: base, force: vec3(-push, self.weight, 0.0) };
        self.whole(vec![under, Push { touches: walls.to_vec(), at: wall, force }], None)
    }

    /// Hands (or forearms) and one other support, by moments about the other.
    fn arms_and_legs(&self, arms: Vec<usize>, legs: Vec<usize>, walls: bool) -> Option<Support> {
        let (hand, foot) = (self.mean(&arms), self.mean(&legs));
        let line = self.force_line(&arms, hand);
        let (hx, hy) = self.plane.flat(hand - foot);
        let (dx, dy) = self.plane.flat(line);
        let (cx, _) = self.plane.flat(self.centre - foot);
        let turning = hx * dy - hy * dx;
        if turning.abs() < 1e-6 {
            return None;
        }
        let force = line * (cx * self.weight / turning);
        let other = vec3(0.0, self.weight, 0.0) - force;
        let many = walls || !self.pulls.is_empty() || self.groups(&legs).len() > 1;
        let pushes = vec![
            Push { touches: arms, at: hand, force },
            Push { touches: legs, at: foot, force: other },
        ];
        self.whole(pushes, many.then_some(Refused::TooMany))
    }

    /// The direction of the hands' force, of length one.
    fn force_line(&self, arms: &[usize], hand: Vec3) -> Vec3 {
        let flat = |v: Vec3| match self.plane {
            Plane::Side => vec3(v.x, v.y, 0.0),
            Plane::Front => vec3(0.0, v.y, v.z),
        };
        let up = vec3(0.0, 1.0, 0.0);
        let surface = self.pose.touches[arms[0]].0.surface;
        if let (true, Some(rope)) = (surface.is_rope(), self.figure.rope) {
            return flat(rope.anchor - hand).unit();
        }
        let along = flat(self.along_arms(arms)).unit();
        // A bar overhead is hung from; one ahead, or over a body on its heels, is pulled along the arm.
        let rowing = self.pose.touches.iter().any(|(c, _)| c.part == Part::Heel);
        if surface == Surface::Bar && along.y < -0.75 && !rowing {
            return up;
        }
        let k = if self.one_level(arms) { -self.shift.line } else { HAND_LINE + self.shift.line };
        let line = (up * (1.0 - k) + along * k).unit();
        // What lies on top of something pushes up, or at most level.
        let level = line.y < 0.0 && !surface.is_gripped() && surface != Surface::Wall;
        if level { vec3(line.x, 0.0, line.z).unit() } else { line }
    }

    /// Hands and feet on one level.
    fn one_level(&self, arms: &[usize]) -> bool {
        let height = |i: usize| self.pose.touches[i].0.height;
        let hands = arms.first().and_then(|&i| height(i));
        let mut others = self.pose.touches.iter().map(|(c, _)| c).filter(|c| {
            c.part.family() != Family::Arm && !matches!(c.surface, Surface::Air | Surface::Wall)
        });
        let level = |c: &Contact| Some((c.height? - hands?).abs() < SAME_LEVEL);
        others.all(|c| level(c) == Some(true))
    }

    /// From the hands to the shoulders of straight arms, towards the elbows of bent ones that push.
    fn along_arms(&self, arms: &[usize]) -> Vec3 {
        let body = &self.pose.body;
        let one = |&i: &usize| {
            let contact = &self.pose.touches[i].0;
            let side = contact.side.unwrap_or(Side::Near);
            let [shoulder, elbow] =
                [LimbMark::Shoulder, LimbMark::Elbow].map(|mark| body.limb(side, mark));
            let pushes = contact.part == Part::Hand
                && !contact.surface.is_gripped()
                && contact.surface != Surface::Wall;
            let aim = self.shift.aim + if pushes { AIM } else { 0.0 };
            let bent = (body.posture.degrees(side, LimbJoint::Elbow) / BENT).clamp(0.0, 1.0);
            shoulder.towards(elbow, aim * bent) - pressure_point(contact, self.pose)
        };
        arms.iter().map(one).fold(Vec3::ZERO, |sum, v| sum + v)
    }

    /// Contacts that lie together, in order of first mention.
    fn groups(&self, touches: &[usize]) -> Vec<Vec<usize>> {
        let level = |i: usize| self.level(pressure_point(&self.pose.touches[i].0, self.pose));
        let mut groups: Vec<Vec<usize>> = Vec::new();
        for &i in touches {
            match groups.iter_mut().find(|g| (level(g[0]) - level(i)).abs() < SAME_PLACE) {
                Some(group) => group.push(i),
                None => groups.push(vec![i]),
            }
        }
        groups
    }

    /// Contacts only push, unless they grip or hang; nothing bears far more than the body weighs.
    fn impossible(&self, support: &Support) -> Option<Refused> {
        let pulled: f64 = self.pulls.iter().map(|pull| pull.force.length()).sum();
        support.pushes.iter().find_map(|push| {
            let contact = &self.pose.touches[*push.touches.first()?].0;
            if self.pulls(contact, push) {
                return Some(Refused::Pulls(contact.part));
            }
            // Feet press level too, as hard as the hands do.
            let size = match contact.part.family() {
                Family::Arm => push.force.length(),
                _ => push.force.y,
            };
            (size > MOST * (self.weight + pulled)).then_some(Refused::TooMuch(contact.part))
        })
    }

    fn pulls(&self, contact: &Contact, push: &Push) -> bool {
        if let (true, Some(rope)) = (contact.surface.is_rope(), self.figure.rope) {
            return push.force.dot(rope.anchor - push.at) < 0.0;
        }
        let into = match contact.surface {
            Surface::Bar | Surface::ParallelBars => return false,
            Surface::Wall => push.force.x * (self.centre.x - push.at.x).signum(),
            _ => push.force.y,
        };
        into < -NOTHING * self.weight
    }
}

fn mean_point(pose: &SolvedPose, touches: &[usize]) -> Vec3 {
    let sum = touches.iter().fold(Vec3::ZERO, |s, &i| s + pressure_point(&pose.touches[i].0, pose));
    sum * (1.0 / touches.len().max(1) as f64)
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
