//! Contacts turned into terms: each part on its surface, at its place, and staying there.
//! Looks only at contacts; angles and words are `speech`'s.

use super::{Before, Touch, Writer};
use crate::mechanics::joints::Side;
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::skeleton as bone;
use crate::mechanics::space::{Axis, Vec3, vec3};
use crate::mechanics::terms::{Measure, Role};
use crate::mechanics::words::contact::{Anchor, Contact, Family, Part, Place, Surface};
use crate::mechanics::words::keypose::KeyPose;
use crate::mechanics::words::said::{ArmShape, Word};
use serde::{Deserialize, Serialize};

const CONTACT: f64 = 4000.0;
const PLACED: f64 = 800.0;

/// The arm rule, a calibration: in a straight-body support with no place for the hands said, the
/// arms stand this part of the way from vertical (0) to square with the trunk (1). It moves shares with
/// the feet raised by less than a point; with the hands raised `ARM_LEAST` decides. Chosen on Ebben's rows.
pub const ARM_RULE: f64 = 0.35;

/// The second half of the arm rule: on a raised surface people lean into their arms, so the angle
/// between arm and trunk never falls below this, degrees. Without it the rule would put hands on
/// 61 cm 4 points too high and would find no pose above 85 cm. Chosen on the two raised rows; lengths of
/// the body alone say 66 (`gym::left_out`), and 62 to 73 from one end of the breastbone's lower half to the other.
pub const ARM_LEAST: f64 = 72.0;

/// A rope from a fixed anchor to the hands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Rope {
    /// Where it hangs from, metres.
    pub anchor: Vec3,
    /// Anchor to grip, metres.
    pub length: f64,
}

/// The contacts of this pose: its own, and those of the pose before that nothing replaces.
pub fn carried_over(pose: &KeyPose, before: Option<&Before>) -> Vec<Touch> {
    let held_over = |c: &Contact| {
        // Who rises onto the toes stays on the balls of the feet.
        let rises = |o: &Contact| o.part == Part::Foot && c.part == Part::Toes;
        let goes_on = |o: &Contact| o.side == c.side && (o.part == c.part || rises(o));
        let old = before?.touches.iter().find(|(o, _)| goes_on(o))?;
        let same = old.0.surface == c.surface && old.0.height == c.height;
        // A width said again moves no hand.
        let said_again = |p: &Place| matches!(p, Place::Apart(_)) && old.0.places.contains(p);
        (same && c.places.iter().all(said_again)).then_some(old.1)
    };
    let mut touches: Vec<Touch> =
        pose.contacts.iter().map(|c| Touch { contact: c.clone(), pinned: held_over(c) }).collect();
    for (old, place) in before.map(|b| b.touches.as_slice()).unwrap_or_default() {
        let family = old.part.family();
        let replaced =
            pose.contacts.iter().any(|c| c.side == old.side && c.part.family() == family);
        let lifted = pose
            .lifted
            .iter()
            .any(|(side, f)| *f == family && (side.is_none() || *side == old.side));
        if !replaced && !lifted {
            touches.push(Touch { contact: old.clone(), pinned: Some(*place) });
        }
    }
    touches
}

/// The mark that stands for a contact, and how far it lies over the surface (fraction of stature).
pub fn contact_mark(contact: &Contact) -> (Mark, f64) {
    let side = contact.side.unwrap_or(Side::Near);
    match contact.part {
        Part::Toes | Part::Foot => (LimbMark::Ball.of(side), 0.0),
        Part::Heel => (LimbMark::Heel.of(side), 0.0),
        Part::Knee => (LimbMark::Knee.of(side), bone::KNEE_RADIUS),
        Part::Hand if contact.surface.is_gripped() => (LimbMark::Grip.of(side), 0.0),
        Part::Hand => (LimbMark::Palm.of(side), bone::PALM_THICKNESS),
        Part::Forearm => (LimbMark::Elbow.of(side), bone::ELBOW_RADIUS),
        Part::Seat => (Mark::Hips, bone::SEAT_RADIUS),
        Part::Back => (Mark::Back, 0.0),
        Part::Head => (Mark::Head, bone::HEAD_RADIUS),
        Part::Chest => (Mark::Chest, 0.0),
        // Half the hip breadth of 0.191 (Drillis & Contini).
        Part::Flank => (Mark::Hips, 0.095),
    }
}

/// Where the ropes hang from once a body stands: straight over the reference the author named.
pub fn ropes_anchor(contact: &Contact, body: &Body) -> Vec3 {
    let (over, ahead) = anchor_over(contact);
    vec3(body.mark(over).x + ahead, contact.height.unwrap_or(2.2), 0.0)
}

fn anchor_over(contact: &Contact) -> (Mark, f64) {
    let said = contact.places.iter().find_map(|p| match p {
        Place::AnchorOver(anchor, ahead) => Some((*anchor, *ahead)),
        _ => None,
    });
    let (anchor, ahead) = said.unwrap_or((Anchor::Heels, 0.0));
    (reference_mark(anchor, Side::Near), ahead)
}

fn reference_mark(anchor: Anchor, side: Side) -> Mark {
    match anchor {
        Anchor::Foot => LimbMark::Sole.of(side),
        Anchor::Toes => LimbMark::Ball.of(side),
        Anchor::Heels => LimbMark::Heel.of(side),
        Anchor::Hips => Mark::Hips,
        Anchor::Shoulders => Mark::Shoulders,
        Anchor::Hands => LimbMark::Palm.of(side),
        Anchor::Knees => LimbMark::Knee.of(side),
        Anchor::Head => Mark::Head,
    }
}

impl Writer<'_> {
    pub(super) fn touches(&mut self) {
        for touch in self.out.touches.clone() {
            let both = touch.contact.side.is_none();
            let who = touch.contact.part.word(both).to_string();
            let who = touch.contact.side.map_or(who.clone(), |s| format!("{} {who}", s.word()));
            let written = format!("{}: {}", touch.contact.part.word(true), touch.contact.written);
            let claim = self.claim(&written, touch.contact.at, who);
            self.rest_on(&touch, claim);
            self.place(&touch, claim);
        }
        self.one_wall();
        self.arm_rule();
    }

    fn rest_on(&mut self, touch: &Touch, claim: usize) {
        let contact = &touch.contact;
        let (mark, over) = contact_mark(contact);
        if contact.surface.is_rope() {
            return self.hang(touch, claim);
        }
        if contact.surface == Surface::Wall {
            return self.lean_on(touch, claim);
        }
        let height = contact.height.unwrap_or(0.0);
        let up = over * self.setting.stature;
        self.contact(vec![(mark, Axis::Up, 1.0)], height + up, CONTACT, claim);
        self.pin(touch, mark, claim);
        self.lay_flat(contact, height, claim);
    }

    /// What touches along a length touches at both ends.
    fn lay_flat(&mut self, contact: &Contact, height: f64, claim: usize) {
        let Some(side) = contact.side else { return };
        let up = |mark: LimbMark| (mark.of(side), Axis::Up, 1.0);
        let h = self.setting.stature;
        match contact.part {
            Part::Foot => self.contact(vec![up(LimbMark::Heel)], height, CONTACT, claim),
            Part::Forearm => {
                let wrist = height + 0.8 * bone::ELBOW_RADIUS * h;
                self.contact(vec![up(LimbMark::Wrist)], wrist, CONTACT, claim);
            }
            Part::Hand if !contact.surface.is_gripped() && contact.surface != Surface::Air => {
                let level = vec![up(LimbMark::Fingers), (LimbMark::Wrist.of(side), Axis::Up, -1.0)];
                // A hand is a tenth of a metre: a weight of 300 on its slope is this on its rise.
                self.contact(level, 0.0, 30_000.0, claim);
            }
            _ => {}
        }
    }

    /// A contact that was there before stays where it was; sliders slide and air holds nothing.
    fn pin(&mut self, touch: &Touch, mark: Mark, claim: usize) {
        let Some(place) = touch.pinned else { return };
        if matches!(touch.contact.surface, Surface::Slider | Surface::Air) {
            return;
        }
        for axis in self.level_axes() {
            self.contact(vec![(mark, axis, 1.0)], place.along(axis), CONTACT, claim);
        }
        if self.keeps_its_width(&touch.contact) {
            self.contact(vec![(mark, Axis::Sideways, 1.0)], place.z, CONTACT, claim);
        }
    }

    fn level_axes(&self) -> Vec<Axis> {
        match self.setting.plane {
            crate::mechanics::space::Plane::Side => vec![Axis::Forward],
            crate::mechanics::space::Plane::Front => vec![Axis::Forward, Axis::Sideways],
        }
    }

    fn hang(&mut self, touch: &Touch, claim: usize) {
        let Some(side) = touch.contact.side else { return };
        let grip = LimbMark::Grip.of(side);
        if let Some(rope) = self.setting.before.and_then(|b| b.rope) {
            let reach = Measure::Reach(grip, rope.anchor);
            self.want(reach, rope.length, CONTACT, Role::Contact, Some(claim));
            return;
        }
        let straight = self.pose.said.iter().all(|s| {
            !matches!(s.word, Word::Arms(shape) if shape != ArmShape::AlongRope)
                && !matches!(s.word, Word::HandsAt(..))
        });
        if straight {
            let (over, ahead) = anchor_over(&touch.contact);
            let height = touch.contact.height.unwrap_or(2.2);
            let line = Measure::InLine { from: Mark::Shoulders, on: grip, over, ahead, height };
            self.want(line, 0.0, PLACED, Role::Contact, Some(claim));
        }
    }

    /// Against a wall: a palm stands flat, fingers up; anything else only touches.
    fn lean_on(&mut self, touch: &Touch, claim: usize) {
        let contact = &touch.contact;
        let (mark, _) = contact_mark(contact);
        if let Some(height) = contact.height {
            self.contact(vec![(mark, Axis::Up, 1.0)], height, CONTACT, claim);
        }
        if let (Part::Hand, Some(side)) = (contact.part, contact.side) {
            let (wrist, tips) = (LimbMark::Wrist.of(side), LimbMark::Fingers.of(side));
            let flat = vec![(tips, Axis::Forward, 1.0), (wrist, Axis::Forward, -1.0)];
            self.contact(flat, 0.0, 6_000.0, claim);
            let rise = 0.95 * bone::HAND * self.setting.stature;
            let up = vec![(tips, Axis::Up, 1.0), (wrist, Axis::Up, -1.0)];
            self.contact(up, rise, 6_000.0, claim);
            if self.setting.before.is_none() {
                use crate::mechanics::joints::{Joint, LimbJoint};
                self.first.set(Joint::Limb(side, LimbJoint::Wrist), 80f64.to_radians());
                self.first.set(Joint::Limb(side, LimbJoint::Shoulder), 90f64.to_radians());
            }
        }
        if let (Part::Forearm, Some(side)) = (contact.part, contact.side) {
            let wrist = (LimbMark::Wrist.of(side), Axis::Forward, 1.0);
            self.contact(vec![wrist, (mark, Axis::Forward, -1.0)], 0.0, CONTACT, claim);
        }
        if let Some(place) = touch.pinned {
            self.contact(vec![(mark, Axis::Forward, 1.0)], place.x, CONTACT, claim);
            // A back or a forearm slides up and down a wall; a hand, a heel or a foot stays.
            let slides = contact.side.is_none() || contact.part == Part::Forearm;
            if !slides && contact.height.is_none() {
                self.contact(vec![(mark, Axis::Up, 1.0)], place.y, CONTACT, claim);
            }
        }
    }

    /// Everything that touches a wall behind touches the same wall.
    fn one_wall(&mut self) {
        let h = self.setting.stature;
        let behind: Vec<(Mark, f64, usize)> = self
            .out
            .touches
            .iter()
            .enumerate()
            .filter(|(_, t)| {
                t.contact.surface == Surface::Wall && t.contact.part.family() != Family::Arm
            })
            .filter(|(_, t)| t.pinned.is_none())
            .map(|(i, t)| {
                let (mark, radius) = contact_mark(&t.contact);
                (mark, radius * h, i)
            })
            .collect();
        let Some(((first, radius, _), others)) = behind.split_first() else { return };
        for (mark, r, claim) in others {
            let apart = vec![(*mark, Axis::Forward, 1.0), (*first, Axis::Forward, -1.0)];
            self.contact(apart, r - radius, CONTACT, *claim);
        }
    }

    fn place(&mut self, touch: &Touch, claim: usize) {
        let contact = &touch.contact;
        if touch.pinned.is_some() {
            return;
        }
        let level = self.setting.plane.level();
        let mark = placed_mark(contact);
        for place in &contact.places {
            match place {
                Place::Under(anchor, ahead) => {
                    let under = (reference_mark(*anchor, Side::Near), level, -1.0);
                    let own = if contact.part == Part::Hand { wrist_of(contact) } else { mark };
                    self.contact(vec![(own, level, 1.0), under], *ahead, PLACED, claim);
                }
                Place::From(ahead, side, anchor) => {
                    let side = side.unwrap_or(Side::Near);
                    let from = (from_mark(*anchor, side), Axis::Forward, -1.0);
                    let own = (from_own(contact), Axis::Forward, 1.0);
                    self.contact(vec![own, from], *ahead, PLACED, claim);
                }
                Place::Beside(aside, side, anchor) => {
                    let own_side = contact.side.unwrap_or(Side::Near);
                    let from = reference_mark(*anchor, side.unwrap_or(own_side.other()));
                    let parts = vec![(mark, Axis::Sideways, 1.0), (from, Axis::Sideways, -1.0)];
                    self.contact(parts, own_side.sign() * aside, PLACED, claim);
                }
                Place::At(x) => {
                    self.contact(vec![(mark, level, 1.0)], *x, PLACED, claim);
                }
                Place::Apart(wide) => {
                    let sign = contact.side.map_or(0.0, Side::sign);
                    let centre = (Mark::Hips, Axis::Sideways, -1.0);
                    let own = (mark, Axis::Sideways, 1.0);
                    self.contact(vec![own, centre], sign * wide / 2.0, PLACED, claim);
                }
                Place::AnchorOver(..) => {}
            }
        }
    }

    fn lowest_leg(&self) -> f64 {
        self.out
            .touches
            .iter()
            .filter(|t| t.contact.part.family() == Family::Leg)
            .filter_map(|t| t.contact.height)
            .fold(f64::INFINITY, f64::min)
    }

    /// See `ARM_RULE`.
    fn arm_rule(&mut self) {
        use crate::mechanics::joints::{Joint, LimbJoint};
        use crate::mechanics::words::said::Slope;
        let straight = self.pose.said.iter().any(|s| s.word == Word::Straight);
        let arm_said = self.pose.said.iter().any(|s| {
            matches!(
                s.word,
                Word::Bend(LimbJoint::Shoulder, _)
                    | Word::Slope(Slope::UpperArm, _)
                    | Word::Lean(_)
            )
        });
        let legs = self.out.touches.iter().any(|t| t.contact.part.family() == Family::Leg);
        if !straight || arm_said || !legs {
            return;
        }
        for (i, touch) in self.out.touches.clone().iter().enumerate() {
            let c = &touch.contact;
            // A width says nothing about how far ahead the hands stand.
            let only_wide = c.places.iter().all(|p| matches!(p, Place::Apart(_)));
            let open = c.part == Part::Hand && touch.pinned.is_none() && only_wide;
            let solid = c.surface == Surface::Floor || c.surface.is_block();
            if let (true, true, Some(side)) = (open, solid, c.side) {
                let raised = c.height.unwrap_or(0.0) > self.lowest_leg() + 1e-9;
                let rule = Measure::ArmRule {
                    shoulder: Joint::Limb(side, LimbJoint::Shoulder),
                    rule: ARM_RULE,
                    least: if raised { ARM_LEAST.to_radians() } else { 0.0 },
                };
                self.want(rule, 0.0, 40.0, Role::Said, Some(i));
            }
        }
    }
}

/// "Under the shoulders" is said of the wrist: the palm lies ahead of it.
fn wrist_of(contact: &Contact) -> Mark {
    LimbMark::Wrist.of(contact.side.unwrap_or(Side::Near))
}

fn placed_mark(contact: &Contact) -> Mark {
    match contact.part {
        Part::Foot => LimbMark::Sole.of(contact.side.unwrap_or(Side::Near)),
        _ => contact_mark(contact).0,
    }
}

/// Distances from a foot are measured heel to heel, as a tape on the floor would.
fn from_mark(anchor: Anchor, side: Side) -> Mark {
    match anchor {
        Anchor::Foot => LimbMark::Heel.of(side),
        other => reference_mark(other, side),
    }
}

fn from_own(contact: &Contact) -> Mark {
    match contact.part {
        Part::Foot => LimbMark::Heel.of(contact.side.unwrap_or(Side::Near)),
        _ => contact_mark(contact).0,
    }
}
