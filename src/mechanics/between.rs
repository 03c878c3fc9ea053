//! In-betweens: the way from one key pose to the next, contact-true.
//! Never changes a key pose, and never moves a hand or a foot that stays on its surface.

use super::conditions::{free_joints, over_the_floor, presses};
use super::joints::{Joint, LimbJoint, Posture, Side};
use super::kinematics::Body;
use super::marks::{LimbMark, Mark};
use super::solve::{SolvedFigure, SolvedPose};
use super::solver::solve;
use super::space::{Axis, Plane, Vec3, vec3};
use super::terms::{Measure, Role, Term, Wants};
use super::words::contact::{Contact, Part, Surface};
use super::words::recipe::Arrow;

/// A movement from its first key pose to its last.
#[derive(Debug, Clone)]
pub struct Motion {
    /// Key poses and in-betweens in order.
    pub poses: Vec<SolvedPose>,
    /// Which of them are key poses, rising, first and last included.
    pub keys: Vec<usize>,
}

/// Parts of the way from one key pose to the next, where there are two key poses. The page draws
/// straight on between them, so six are smooth; more would only weigh more.
pub const STEPS: usize = 6;
/// And where there are more key poses: each way is shorter.
pub const SHORT_STEPS: usize = 3;

/// Rounds of the solver an in-between may take: it sets out from its neighbour, so few do.
const ROUNDS: usize = 30;

/// The motion of a figure; none for a hold, which has one key pose.
pub fn motion(figure: &SolvedFigure) -> Option<Motion> {
    if figure.poses.len() < 2 {
        return None;
    }
    let mut motion = Motion { poses: vec![figure.start().clone()], keys: vec![0] };
    let mut keys = figure.poses.clone();
    keys.extend(gathered(figure));
    let steps = if keys.len() == 2 { STEPS } else { SHORT_STEPS };
    for pair in keys.windows(2) {
        let leg = Leg::new(figure, &pair[0], &pair[1]);
        motion.poses.extend(leg.in_betweens(steps));
        motion.poses.push(pair[1].clone());
        motion.keys.push(motion.poses.len() - 1);
    }
    if figure.recipe.arrow == Arrow::Around {
        close(figure, &mut motion);
    }
    Some(motion)
}

/// Who goes on with a step out from feet side by side brings the other foot alongside before the
/// next: the first key pose again, where the foot that went now stands.
fn gathered(figure: &SolvedFigure) -> Option<SolvedPose> {
    let (first, last) = (figure.start(), figure.poses.last()?);
    let ball = |pose: &SolvedPose, side| pose.body.limb(side, LimbMark::Ball).x;
    let apart = |pose| (ball(pose, Side::Near) - ball(pose, Side::Far)).abs();
    let onward = figure.recipe.arrow == Arrow::Onward;
    (onward && apart(first) < STEP_FROM && apart(last) > STEP_FROM).then_some(())?;
    let went = Side::BOTH.map(|side| ball(last, side) - ball(first, side));
    let on = went[0].max(went[1]);
    let mut posture = first.body.posture;
    posture.set(Joint::Forward, posture.get(Joint::Forward) + on);
    let moved = |(contact, at): &(Contact, Vec3)| (contact.clone(), *at + vec3(on, 0.0, 0.0));
    Some(SolvedPose {
        touches: first.touches.iter().map(moved).collect(),
        body: Body::stand(posture, figure.person.stature),
        ..first.clone()
    })
}

/// Hands that circle on: from the last key pose out to the sides and down behind to the first. At
/// shoulder height, straight out, raising the arm ahead or not is the same place: there the way
/// changes from the one to the other.
fn close(figure: &SolvedFigure, motion: &mut Motion) {
    let (Some(last), first) = (figure.poses.last(), figure.start()) else { return };
    let out = |pose: &SolvedPose| {
        let mut posture = pose.body.posture;
        let arm_out = |side| Joint::Limb(side, LimbJoint::ArmOut);
        Side::BOTH.into_iter().for_each(|side| posture.set(arm_out(side), LEVEL.to_radians()));
        posture
    };
    let parts = |from: Posture, to: Posture| {
        (1..=SHORT_STEPS).map(move |step| from.towards(&to, step as f64 / SHORT_STEPS as f64))
    };
    let up = parts(last.body.posture, out(last));
    let down = parts(out(first), first.body.posture);
    for posture in up.chain(down) {
        let body = Body::stand(posture, figure.person.stature);
        motion.poses.push(SolvedPose { body, ..first.clone() });
    }
    motion.keys.push(motion.poses.len() - 1);
}

/// Arms straight out to the sides, degrees from hanging.
const LEVEL: f64 = 90.0;

/// The way between two key poses.
struct Leg<'a> {
    figure: &'a SolvedFigure,
    from: &'a SolvedPose,
    to: &'a SolvedPose,
    /// What touches the same surface in both.
    kept: Vec<Contact>,
    /// Marks with a way of their own.
    led: Vec<(Mark, Way)>,
    free: Vec<Joint>,
}

impl<'a> Leg<'a> {
    fn new(figure: &'a SolvedFigure, from: &'a SolvedPose, to: &'a SolvedPose) -> Leg<'a> {
        let mut leg = Leg { figure, from, to, kept: Vec::new(), led: Vec::new(), free: Vec::new() };
        for (old, _) in &from.touches {
            let family = |c: &Contact| c.side == old.side && c.part.family() == old.part.family();
            let Some((new, _)) = to.touches.iter().find(|(c, _)| family(c) && meets(c, old)) else {
                continue;
            };
            // A foot that rises onto its toes is drawn on its toes all the way.
            let kept = if new.part == Part::Toes { new } else { old };
            leg.kept.push(kept.clone());
            if old.surface.is_rope() {
                continue;
            }
            let both = marks(old).into_iter().filter(|m| marks(new).contains(m));
            let way = |m: Mark| to.body.mark(m) - from.body.mark(m);
            leg.led.extend(both.map(|mark| (mark, way_of(old, way(mark)))));
        }
        leg.led.extend(climbing(from, to));
        leg.free = free_joints(figure.plane(), Side::BOTH.map(|side| leg.pushes(side)));
        leg
    }

    fn in_betweens(&self, steps: usize) -> Vec<SolvedPose> {
        let mut poses = Vec::with_capacity(steps - 1);
        let mut before = self.from.body.posture;
        for step in 1..steps {
            let t = step as f64 / steps as f64;
            let last = self.straight((step - 1) as f64 / steps as f64);
            let here = self.straight(t);
            let mut start = here;
            for joint in &self.free {
                // The neighbour's correction is the best guess for this one's.
                let correction = before.get(*joint) - last.get(*joint);
                start.set(*joint, here.get(*joint) + correction);
            }
            let stature = self.figure.person.stature;
            let outcome = solve(&self.terms(t, &here), start, &self.free, stature, ROUNDS);
            before = outcome.body.posture;
            poses.push(self.pose(outcome.body, outcome.rounds));
        }
        poses
    }

    /// Every joint the same part of its way.
    fn straight(&self, t: f64) -> Posture {
        self.from.body.posture.towards(&self.to.body.posture, t)
    }

    fn pose(&self, body: Body, rounds: usize) -> SolvedPose {
        let place = |c: &Contact| marks(c).first().map_or(Vec3::ZERO, |m| body.mark(*m));
        let touches = self.kept.iter().map(|c| (c.clone(), place(c))).collect();
        SolvedPose { touches, balance: None, rounds, at: self.from.at, body }
    }

    fn terms(&self, t: f64, here: &Posture) -> Vec<Term> {
        let mut terms = Vec::with_capacity(64);
        for joint in &self.free {
            let weight = if joint.is_place() { PLACE } else { BEND };
            terms.push(rest(Measure::Joint(*joint), here.get(*joint), weight));
        }
        for (mark, way) in &self.led {
            let target = self.on_the_way(*mark, *way, t);
            for axis in self.axes(*mark) {
                let part = Measure::Marks(vec![(*mark, axis, 1.0)]);
                terms.push(held(part, target.along(axis)));
            }
        }
        self.ropes(&mut terms);
        let touches: Vec<&Contact> = self.kept.iter().collect();
        terms.extend(over_the_floor(&touches, self.figure.person.stature));
        terms
    }

    /// Where a led mark is at `t`.
    fn on_the_way(&self, mark: Mark, way: Way, t: f64) -> Vec3 {
        use std::f64::consts::{FRAC_PI_2, PI};
        let (from, to) = (self.from.body.mark(mark), self.to.body.mark(mark));
        let t = if way == Way::Steps { self.turn(mark, t) } else { t };
        let lift = vec3(0.0, LIFT * (PI * t).sin(), 0.0);
        match way {
            Way::Stays => from.towards(to, t),
            Way::Steps => from.towards(to, t) + lift,
            Way::Climbs => {
                // Up before across, and across before down: round the edge, not through it.
                let (early, late) = ((FRAC_PI_2 * t).sin(), 1.0 - (FRAC_PI_2 * t).cos());
                let (up, across) = if to.y > from.y { (early, late) } else { (late, early) };
                let level = from.towards(to, across);
                vec3(level.x, from.towards(to, up).y, level.z) + lift
            }
        }
    }

    /// Who goes on steps with one side, then with the other: what stands, stands still.
    fn turn(&self, mark: Mark, t: f64) -> f64 {
        let onward = self.figure.recipe.arrow == Arrow::Onward;
        match mark {
            Mark::Limb(Side::Near, _) if onward => (2.0 * t).min(1.0),
            Mark::Limb(Side::Far, _) if onward => (2.0 * t - 1.0).max(0.0),
            _ => t,
        }
    }

    /// A hand that goes on pushing: its elbow may swing out, so its place is held sideways too.
    fn pushes(&self, side: Side) -> bool {
        self.kept.iter().any(|c| c.side == Some(side) && presses(c))
    }

    fn axes(&self, mark: Mark) -> Vec<Axis> {
        let hand = |side| mark.carrier().moved_by(Joint::Limb(side, LimbJoint::ArmOut));
        let swings = |side: Side| self.pushes(side) && hand(side);
        match self.figure.plane() {
            Plane::Side if !Side::BOTH.into_iter().any(swings) => vec![Axis::Forward, Axis::Up],
            _ => vec![Axis::Forward, Axis::Up, Axis::Sideways],
        }
    }

    /// A rope stays as long as it is.
    fn ropes(&self, terms: &mut Vec<Term>) {
        let Some(rope) = self.figure.rope else { return };
        for contact in self.kept.iter().filter(|c| c.surface.is_rope()) {
            let side = contact.side.unwrap_or(Side::Near);
            let grip = LimbMark::Grip.of(side);
            terms.push(held(Measure::Reach(grip, rope.anchor), rope.length));
        }
    }
}

/// A mark that moves further than this on one surface steps, metres.
const STEP_FROM: f64 = 0.03;
/// How high it is lifted on the way, metres (a drawing measure).
const LIFT: f64 = 0.07;
/// Weights: contacts as in `conditions`; joints keep to their way a thousand times less.
const HELD: f64 = 4000.0;
const BEND: f64 = 3.0;
const PLACE: f64 = 1.0;

/// Whether a part goes on touching what it touched: the same surface at the same height.
fn meets(new: &Contact, old: &Contact) -> bool {
    let solid = old.surface != Surface::Air;
    let feet = |c: &Contact| matches!(c.part, Part::Foot | Part::Toes | Part::Heel);
    let part = new.part == old.part || (feet(new) && feet(old));
    part && solid && new.surface == old.surface && new.height == old.height
}

/// How a mark that is led gets from one key pose to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Way {
    /// It stays, or slides with its surface: a back on a wall, a slider.
    Stays,
    /// A hand or a foot changes its place on the same surface: lifted over it.
    Steps,
    /// It changes to a surface at another height: round the edge.
    Climbs,
}

fn way_of(contact: &Contact, way: Vec3) -> Way {
    let slides = matches!(contact.surface, Surface::Slider | Surface::Wall);
    let limb = matches!(contact.part, Part::Hand | Part::Foot | Part::Toes | Part::Heel);
    if limb && !slides && way.length() > STEP_FROM { Way::Steps } else { Way::Stays }
}

/// The balls of the feet that go up onto something solid or down from it.
fn climbing(from: &SolvedPose, to: &SolvedPose) -> Vec<(Mark, Way)> {
    let foot = |pose: &SolvedPose, side| {
        let feet =
            |c: &Contact| c.side == Some(side) && marks(c).contains(&LimbMark::Ball.of(side));
        let on = pose.touches.iter().find(|(c, _)| feet(c) && c.surface != Surface::Air);
        on.map(|(c, _)| c.height.unwrap_or(0.0))
    };
    let climbs = |side: &Side| match (foot(from, *side), foot(to, *side)) {
        (Some(a), Some(b)) => (a - b).abs() > STEP_FROM,
        _ => false,
    };
    Side::BOTH.into_iter().filter(climbs).map(|s| (LimbMark::Ball.of(s), Way::Climbs)).collect()
}

/// The marks that a contact holds in their place: two for what lies flat.
fn marks(contact: &Contact) -> Vec<Mark> {
    let side = contact.side.unwrap_or(Side::Near);
    let on_limb = |list: &[LimbMark]| list.iter().map(|m| m.of(side)).collect();
    match contact.part {
        Part::Foot => on_limb(&[LimbMark::Ball, LimbMark::Heel]),
        Part::Toes => on_limb(&[LimbMark::Ball]),
        Part::Heel => on_limb(&[LimbMark::Heel]),
        Part::Knee => on_limb(&[LimbMark::Knee]),
        Part::Hand if contact.surface.is_gripped() => on_limb(&[LimbMark::Grip]),
        Part::Hand => on_limb(&[LimbMark::Palm, LimbMark::Fingers]),
        Part::Forearm => on_limb(&[LimbMark::Elbow, LimbMark::Wrist]),
        Part::Seat | Part::Flank => vec![Mark::Hips],
        Part::Back => vec![Mark::Back],
        Part::Head => vec![Mark::Head],
        Part::Chest => vec![Mark::Chest],
    }
}

fn held(measure: Measure, target: f64) -> Term {
    term(measure, target, HELD, Role::Contact)
}

fn rest(measure: Measure, target: f64, weight: f64) -> Term {
    term(measure, target, weight, Role::Rest)
}

fn term(measure: Measure, target: f64, weight: f64, role: Role) -> Term {
    Term { measure, target, wants: Wants::Just, weight: weight.sqrt(), role, claim: None }
}
