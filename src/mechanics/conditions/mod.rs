//! Conditions: a key pose's words turned into terms that the solver can meet.
//! Writes terms only; it neither solves nor judges.
//!
//! Weights (the prototype's, found by trying; metres and radians): contacts 4000, places 800,
//! balance 600, heights 2000, stated angles 40, arm shapes 10, rest 0.02 to 0.05. The order
//! matters, not the digits: a contact is never given up for an angle, nor an angle for comfort.

mod arms;
pub mod guess;
mod push;
mod speech;
mod touch;

use super::joints::{Joint, LimbJoint, Posture, Side};
use super::marks::{LimbMark, Mark};
use super::mass::Lump;
use super::space::{Axis, Plane, Vec3};
use super::terms::{Measure, Role, Term, Wants};
use super::words::contact::{Contact, Part};
use super::words::keypose::KeyPose;
use super::words::recipe::Shape;
pub use push::{has_width, presses, tilt};
pub use touch::{ARM_LEAST, ARM_RULE, Rope, contact_mark, ropes_anchor};

/// A contact as it stands in a key pose.
#[derive(Debug, Clone, PartialEq)]
pub struct Touch {
    /// What the author said.
    pub contact: Contact,
    /// Where it was in the pose before, if it stays there: metres.
    pub pinned: Option<Vec3>,
}

/// What of the author's a term belongs to.
#[derive(Debug, Clone, PartialEq)]
pub struct Claim {
    /// As written.
    pub written: String,
    /// Byte offset.
    pub at: usize,
    /// The part of the body, in plain words.
    pub who: String,
}

/// What the poses before hand on.
#[derive(Debug, Clone, PartialEq)]
pub struct Before {
    /// How the body stood.
    pub posture: Posture,
    /// Its contacts, with the places where they were.
    pub touches: Vec<(Contact, Vec3)>,
    /// The rope, once its anchor is known.
    pub rope: Option<Rope>,
    /// Whether the pose before said what to balance over.
    pub balance: Option<super::words::said::Over>,
}

/// All that the solver needs for one key pose.
#[derive(Debug, Clone)]
pub struct Conditions {
    /// What to meet.
    pub terms: Vec<Term>,
    /// What the author said, for messages.
    pub claims: Vec<Claim>,
    /// From where to set out, in order.
    pub starts: Vec<Posture>,
    /// What may move.
    pub free: Vec<Joint>,
    /// What touches what.
    pub touches: Vec<Touch>,
    /// What the centre of mass is held over.
    pub balance: Option<super::words::said::Over>,
}

/// The circumstances of one key pose.
pub struct Setting<'a> {
    /// Stature in metres.
    pub stature: f64,
    /// The plane of balance.
    pub plane: Plane,
    /// The solver's first guess.
    pub shape: Shape,
    /// Body and load.
    pub lumps: &'a [Lump],
    /// The key pose before.
    pub before: Option<&'a Before>,
}

/// Write the conditions of `pose`.
pub fn conditions(pose: &KeyPose, setting: &Setting) -> Conditions {
    let mut writer = Writer::new(pose, setting);
    writer.touches();
    writer.speech();
    writer.forearms();
    writer.rest();
    writer.floor();
    writer.finish()
}

struct Writer<'a> {
    pose: &'a KeyPose,
    setting: &'a Setting<'a>,
    out: Conditions,
    first: Posture,
}

impl<'a> Writer<'a> {
    fn new(pose: &'a KeyPose, setting: &'a Setting<'a>) -> Writer<'a> {
        let first = match setting.before {
            Some(before) => before.posture,
            None => guess::first(setting.shape, &pose.contacts, setting.stature),
        };
        let touches = touch::carried_over(pose, setting.before);
        let out = Conditions {
            terms: Vec::with_capacity(96),
            claims: Vec::new(),
            starts: Vec::new(),
            free: free_joints(setting.plane, push::swinging(pose, setting.before, &touches)),
            touches,
            balance: None,
        };
        Writer { pose, setting, out, first }
    }

    fn claim(&mut self, written: &str, at: usize, who: impl Into<String>) -> usize {
        self.out.claims.push(Claim { written: written.to_string(), at, who: who.into() });
        self.out.claims.len() - 1
    }

    /// A term that wants `measure` to be `target`.
    fn want(
        &mut self,
        measure: Measure,
        target: f64,
        weight: f64,
        role: Role,
        claim: Option<usize>,
    ) {
        self.out.terms.push(Term {
            measure,
            target,
            wants: Wants::Just,
            weight: weight.sqrt(),
            role,
            claim,
        });
    }

    fn contact(&mut self, marks: Vec<(Mark, Axis, f64)>, target: f64, weight: f64, claim: usize) {
        self.want(Measure::Marks(marks), target, weight, Role::Contact, Some(claim));
    }

    /// A joint at so many degrees: a term if the solver may move it, a fixed value if not.
    fn joint(&mut self, joint: Joint, degrees: f64, weight: f64, claim: Option<usize>) {
        if self.out.free.contains(&joint) {
            self.want(Measure::Joint(joint), degrees.to_radians(), weight, Role::Said, claim);
        } else {
            self.first.set(joint, degrees.to_radians());
        }
    }

    /// Stay near the guess where nothing is said. A foot on its toes keeps its ankle: else the
    /// heel would wander.
    fn rest(&mut self) {
        let near_rest = if self.setting.before.is_some() { 0.05 } else { 0.02 };
        for joint in self.out.free.clone() {
            let weight = match joint {
                Joint::Forward | Joint::Sideways => 0.001,
                Joint::Height => continue,
                Joint::Limb(side, LimbJoint::Ankle) if self.touches_with(side, Part::Toes) => 3.0,
                Joint::Limb(side, LimbJoint::Ankle) if !self.leg_touches(side) => 0.5,
                Joint::Limb(side, LimbJoint::Wrist) if !self.flat_hand(side) => 2.0,
                Joint::Limb(side, limb) if limb.is_of_the_arm() && self.bends(side) => 0.002,
                Joint::Roll | Joint::Limb(_, LimbJoint::LegOut | LimbJoint::ArmOut) => 0.05,
                _ => near_rest,
            };
            let target = self.rest_of(joint);
            self.want(Measure::Joint(joint), target, weight, Role::Rest, None);
        }
        if !self.says_neck() {
            self.rest_neck();
        }
    }

    /// Free ankles and wrists hang as in standing, whatever the guess or the pose before did; a
    /// fist round a bar is straight too.
    fn rest_of(&self, joint: Joint) -> f64 {
        match joint {
            Joint::Limb(side, LimbJoint::Wrist) if !self.flat_hand(side) => 0.0,
            _ => self.first.get(joint),
        }
    }

    /// Upright people look ahead while the trunk tips; the others look along the trunk, chin a
    /// little lifted.
    fn rest_neck(&mut self) {
        if guess::is_upright(self.setting.shape) {
            let follow = Measure::JointPair(Joint::Neck, -0.45, Joint::Pitch);
            self.want(follow, 0.0, 0.5, Role::Rest, None);
        } else {
            self.want(Measure::Joint(Joint::Neck), -0.12, 0.5, Role::Rest, None);
        }
    }

    fn says_neck(&self) -> bool {
        use super::words::said::Word;
        self.pose.said.iter().any(|s| matches!(s.word, Word::Turn(Joint::Neck, _)))
    }

    fn touches_with(&self, side: Side, part: Part) -> bool {
        self.out.touches.iter().any(|t| t.contact.side == Some(side) && t.contact.part == part)
    }

    fn flat_hand(&self, side: Side) -> bool {
        let flat = |c: &Contact| c.part == Part::Hand && !c.surface.is_gripped();
        self.out.touches.iter().any(|t| t.contact.side == Some(side) && flat(&t.contact))
    }

    fn leg_touches(&self, side: Side) -> bool {
        use super::words::contact::Family;
        self.out
            .touches
            .iter()
            .any(|t| t.contact.side == Some(side) && t.contact.part.family() == Family::Leg)
    }

    /// Nothing goes below the floor.
    fn floor(&mut self) {
        let touches: Vec<&Contact> = self.out.touches.iter().map(|t| &t.contact).collect();
        let terms = over_the_floor(&touches, self.setting.stature);
        self.out.terms.extend(terms);
    }

    fn finish(mut self) -> Conditions {
        let mut starts: Vec<Posture> = self.elbows_bent().into_iter().collect();
        starts.extend([self.first, self.aimed()]);
        starts.extend(guess::variations(self.first));
        if self.setting.before.is_some() {
            // Far from the pose before, the shape's own guess is the better start.
            let fresh = guess::first(self.setting.shape, &self.pose.contacts, self.setting.stature);
            let mut fresh_aimed = Writer { first: self.with_fixed(fresh), ..self };
            starts.push(fresh_aimed.aimed());
            fresh_aimed.out.starts = starts;
            return fresh_aimed.out;
        }
        self.out.starts = starts;
        self.out
    }

    /// The guess with every angle that the author said already in place.
    fn aimed(&self) -> Posture {
        let mut aimed = self.first;
        for term in self.out.terms.iter().filter(|t| t.role == Role::Said) {
            if let Measure::Joint(joint) = term.measure {
                aimed.set(joint, term.target);
            }
        }
        aimed
    }

    /// A posture that keeps this guess's stated joints: those that the solver may not move.
    fn with_fixed(&self, mut posture: Posture) -> Posture {
        for joint in Joint::all().filter(|j| !self.out.free.contains(j)) {
            posture.set(joint, self.first.get(joint));
        }
        posture
    }
}

/// Nothing goes below the floor; what touches it with less than its whole length may dip a little.
/// Thickness of the parts as fractions of stature.
pub fn over_the_floor(touches: &[&Contact], stature: f64) -> Vec<Term> {
    let touched = |side, part| touches.iter().any(|c| c.side == Some(side) && c.part == part);
    let mut parts: Vec<(Mark, f64)> =
        vec![(Mark::Head, 0.058), (Mark::Hips, 0.055), (Mark::Shoulders, 0.045)];
    for side in Side::BOTH {
        use LimbMark::*;
        parts.extend([
            (Knee.of(side), 0.028),
            (Elbow.of(side), 0.018),
            (Wrist.of(side), 0.010),
            (Heel.of(side), 0.0),
            (Ball.of(side), 0.0),
        ]);
        if !touched(side, Part::Toes) {
            parts.push((Tip.of(side), -0.006));
        }
        if !touched(side, Part::Hand) {
            parts.push((Fingers.of(side), 0.004));
        }
    }
    let term = |(mark, radius): (Mark, f64)| Term {
        measure: Measure::Marks(vec![(mark, Axis::Up, 1.0)]),
        target: radius * stature,
        wants: Wants::AtLeast,
        weight: 1500f64.sqrt(),
        role: Role::Floor,
        claim: None,
    };
    parts.into_iter().map(term).collect()
}

/// What the solver may move: the joints of the plane, and the elbow about the line from shoulder
/// to hand on the sides that `swing`. Everything else is stated or straight.
pub fn free_joints(plane: Plane, swing: [bool; 2]) -> Vec<Joint> {
    use LimbJoint::*;
    let front = plane == Plane::Front;
    let mut free = vec![Joint::Forward, Joint::Height, Joint::Pitch, Joint::Neck];
    if front {
        free.extend([Joint::Sideways, Joint::Roll]);
    }
    for side in Side::BOTH {
        free.extend([Hip, Knee, Ankle, Shoulder, Elbow, Wrist].map(|l| Joint::Limb(side, l)));
        if front {
            free.push(Joint::Limb(side, LegOut));
        }
        if front || swing[side.index()] {
            free.push(Joint::Limb(side, ArmOut));
        }
        if swing[side.index()] {
            free.extend([ArmTurn, HandTurn].map(|l| Joint::Limb(side, l)));
        }
    }
    free
}
