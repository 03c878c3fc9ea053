//! Facts of a key pose: the angles, heights and shares that a trait may follow from.
//! Only measures, and never judges: what is much and what is little is for the other files.

use super::thresholds as from;
use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::Vec3;
use crate::mechanics::statics::{Support, support};
use crate::mechanics::words::contact::{Contact, Family, Part, Surface};
use crate::mechanics::words::props::HeldAt;

/// Which key pose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum KeyName {
    /// The first.
    Start,
    /// One on the way.
    Between,
    /// The last.
    End,
}

impl KeyName {
    /// The word that an author writes.
    pub fn word(self) -> &'static str {
        match self {
            KeyName::Start => "start",
            KeyName::Between => "between",
            KeyName::End => "end",
        }
    }
}

/// A key pose with the forces under it.
#[derive(Debug, Clone)]
pub struct PoseFacts<'f> {
    /// The whole figure.
    pub figure: &'f SolvedFigure,
    /// The key pose.
    pub pose: &'f SolvedPose,
    /// Which one.
    pub name: KeyName,
    support: Option<Support>,
}

/// Every key pose of a figure with its facts, in order.
pub fn facts(figure: &SolvedFigure) -> Vec<PoseFacts<'_>> {
    let last = figure.poses.len().saturating_sub(1);
    let name = |place| match place {
        0 => KeyName::Start,
        _ if place == last => KeyName::End,
        _ => KeyName::Between,
    };
    let with = |(place, pose)| PoseFacts {
        figure,
        pose,
        name: name(place),
        support: support(pose, figure),
    };
    figure.poses.iter().enumerate().map(with).collect()
}

/// The angle between two directions, degrees.
fn between(a: Vec3, b: Vec3) -> f64 {
    a.unit().dot(b.unit()).clamp(-1.0, 1.0).acos().to_degrees()
}

impl PoseFacts<'_> {
    /// Contacts that carry something: everything but the air.
    pub fn contacts(&self) -> impl Iterator<Item = &Contact> {
        self.pose.touches.iter().map(|(contact, _)| contact).filter(|c| c.surface != Surface::Air)
    }

    /// The contact of this part on this side (or of the part that comes once).
    pub fn contact(&self, part: Part, side: Option<Side>) -> Option<&Contact> {
        self.contacts().find(|c| c.part == part && (side.is_none() || c.side == side))
    }

    /// Whether the part rests on or holds something.
    pub fn on(&self, part: Part) -> bool {
        self.contact(part, None).is_some()
    }

    /// Per cent of body mass on the contacts that `wanted` picks: upward, but along the arm for a
    /// wall, which takes hardly anything upward.
    pub fn share(&self, wanted: impl Fn(&Contact) -> bool) -> f64 {
        let Some(support) = &self.support else { return 0.0 };
        let mut sum = 0.0;
        for push in &support.pushes {
            let each = 100.0 / push.touches.len().max(1) as f64;
            for &touch in &push.touches {
                let contact = &self.pose.touches[touch].0;
                let wall = contact.surface == Surface::Wall;
                let size = if wall { push.force.length() } else { push.force.y };
                if wanted(contact) {
                    sum += each * size;
                }
            }
        }
        sum
    }

    /// Per cent of body mass on one leg, foot or knee.
    pub fn on_leg(&self, side: Side) -> f64 {
        self.share(|c| c.part.family() == Family::Leg && c.side == Some(side))
    }

    /// Per cent of body mass on hands and forearms.
    pub fn on_arms(&self) -> f64 {
        self.share(|c| c.part.family() == Family::Arm)
    }

    /// Per cent of body mass on the hand or forearm of one side.
    pub fn on_arm(&self, side: Side) -> f64 {
        self.share(|c| c.part.family() == Family::Arm && c.side == Some(side))
    }

    /// A flat hand: on something that is pressed, not gripped.
    pub fn flat_hand(&self, side: Side) -> Option<&Contact> {
        self.contact(Part::Hand, Some(side)).filter(|c| !c.surface.is_gripped())
    }

    /// How far the wrist is bent back: 0 with the palm in line with the forearm, 90 when the
    /// forearm stands upright on a flat palm, degrees. Measured between the marks, not taken from
    /// the joint, so that it holds for whatever the solver does with the elbow.
    pub fn wrist_bend(&self, side: Side) -> f64 {
        let at = |mark: LimbMark| self.pose.body.limb(side, mark);
        let forearm = at(LimbMark::Wrist) - at(LimbMark::Elbow);
        between(forearm, at(LimbMark::Fingers) - at(LimbMark::Wrist))
    }

    /// How far the elbow is bent, degrees.
    pub fn elbow(&self, side: Side) -> f64 {
        self.pose.body.posture.degrees(side, LimbJoint::Elbow)
    }

    /// How far the knee is bent, degrees.
    pub fn knee(&self, side: Side) -> f64 {
        self.pose.body.posture.degrees(side, LimbJoint::Knee)
    }

    /// How far the hip is bent: 0 standing, 90 with the thigh square to the pelvis, degrees.
    pub fn hip(&self, side: Side) -> f64 {
        self.pose.body.posture.degrees(side, LimbJoint::Hip)
    }

    /// How far the chest is from upright: 0 standing, 90 lying, 180 upside down, degrees.
    pub fn tilt(&self) -> f64 {
        let body = &self.pose.body;
        let trunk = body.mark(Mark::Shoulders) - body.mark(Mark::Hips);
        between(trunk, Vec3 { x: 0.0, y: 1.0, z: 0.0 })
    }

    /// How far the front of the trunk faces upward: 1 flat on the back, -1 face down, 0 standing or
    /// on the side. Chest and pelvis count alike, so that a turn of the chest alone is no lying.
    pub fn faces_up(&self) -> f64 {
        let body = &self.pose.body;
        (body.frame(Piece::Chest).front.y + body.frame(Piece::Pelvis).front.y) / 2.0
    }

    /// Whether the trunk lies or leans on its side.
    pub fn on_its_side(&self) -> bool {
        self.pose.body.frame(Piece::Chest).right.y.abs() > 0.5
    }

    /// Bending of lower and upper back together, forward positive, degrees.
    pub fn rounding(&self) -> f64 {
        let posture = &self.pose.body.posture;
        (posture.get(Joint::Waist) + posture.get(Joint::UpperBack)).to_degrees()
    }

    /// Chest turned against the pelvis, either way, degrees.
    pub fn twist(&self) -> f64 {
        self.pose.body.posture.get(Joint::Twist).to_degrees().abs()
    }

    /// How much lower the head is than the heart, metres; negative when it is higher. The heart is
    /// taken half-way between the upper back's bend and the shoulder line, in front of the spine.
    pub fn head_drop(&self) -> f64 {
        let body = &self.pose.body;
        let heart = body.mark(Mark::UpperBack).towards(body.mark(Mark::Shoulders), 0.5);
        heart.y - body.mark(Mark::Head).y
    }

    fn upper_arm(&self, side: Side) -> Vec3 {
        let at = |mark: LimbMark| self.pose.body.limb(side, mark);
        (at(LimbMark::Elbow) - at(LimbMark::Shoulder)).unit()
    }

    /// How far the upper arm is raised from the line of the trunk: 0 hanging, 90 at shoulder height,
    /// 180 beside the ear, whichever way it goes, degrees. The line runs from hips to shoulders: a
    /// rounded back alone raises no arm.
    pub fn raised(&self, side: Side) -> f64 {
        let body = &self.pose.body;
        between(self.upper_arm(side), body.mark(Mark::Hips) - body.mark(Mark::Shoulders))
    }

    /// How much higher the elbow is than its shoulder, metres.
    pub fn elbow_above_shoulder(&self, side: Side) -> f64 {
        self.height(LimbMark::Elbow.of(side)) - self.height(LimbMark::Shoulder.of(side))
    }

    /// How far the elbow is behind the trunk: the upper arm's angle behind the plane of the
    /// shoulders, degrees; negative in front.
    pub fn behind(&self, side: Side) -> f64 {
        let front = self.pose.body.frame(Piece::Chest).front;
        self.upper_arm(side).dot(-front).clamp(-1.0, 1.0).asin().to_degrees()
    }

    /// How far the forearm points where the chest looks: 1 straight ahead of it, -1 backward; 0 for
    /// an arm that is straight out to the side.
    pub fn forearm_ahead(&self, side: Side) -> f64 {
        let at = |mark: LimbMark| self.pose.body.limb(side, mark);
        let forearm = (at(LimbMark::Wrist) - at(LimbMark::Elbow)).unit();
        forearm.dot(self.pose.body.frame(Piece::Chest).front)
    }

    /// How far the upper arm is out to the side of the trunk, degrees.
    pub fn aside(&self, side: Side) -> f64 {
        let right = self.pose.body.frame(Piece::Chest).right;
        (self.upper_arm(side).dot(right) * side.sign()).clamp(-1.0, 1.0).asin().to_degrees()
    }

    /// Whether the upper arm just hangs: straight down and on nothing.
    pub fn hangs(&self, side: Side) -> bool {
        let free = self.contacts().all(|c| c.part.family() != Family::Arm || c.side != Some(side));
        free && between(self.upper_arm(side), Vec3 { x: 0.0, y: -1.0, z: 0.0 }) < 30.0
    }

    /// Kilograms in the hand of this side; half of what both hold.
    pub fn in_hand(&self, side: Side) -> f64 {
        let Some(held) = &self.figure.recipe.held else { return 0.0 };
        match held.at {
            HeldAt::EachHand => held.kilograms,
            HeldAt::BothHands => held.kilograms / 2.0,
            HeldAt::Hand(own) if own == side => held.kilograms,
            _ => 0.0,
        }
    }

    /// Whether the hand hangs below the shoulder with the arm nearly long: a weight in it pulls on
    /// the fingers. A racked or pressed weight lies in the palm.
    pub fn hand_hangs(&self, side: Side) -> bool {
        let at = |mark: LimbMark| self.pose.body.limb(side, mark);
        let (shoulder, wrist) = (at(LimbMark::Shoulder), at(LimbMark::Wrist));
        let arm =
            (at(LimbMark::Elbow) - shoulder).length() + (wrist - at(LimbMark::Elbow)).length();
        shoulder.y - wrist.y > 0.75 * arm
    }

    /// Kilograms that the trunk has to hold up: in the hands or on the back of a body that neither
    /// lies nor hangs from its hands.
    pub fn held_by_trunk(&self) -> f64 {
        let Some(held) = &self.figure.recipe.held else { return 0.0 };
        let stands = Side::BOTH.into_iter().any(|side| self.stands_on(side)) || self.on(Part::Seat);
        let free = held.at == HeldAt::OnHips || self.lies();
        if free || !stands { 0.0 } else { held.total() }
    }

    /// Whether a foot or knee of this side is on something.
    pub fn stands_on(&self, side: Side) -> bool {
        self.contacts().any(|c| {
            c.part.family() == Family::Leg && c.side == Some(side) && c.surface != Surface::Wall
        })
    }

    /// Whether nothing but feet holds the body up.
    pub fn only_on_feet(&self) -> bool {
        let feet = |c: &Contact| matches!(c.part, Part::Foot | Part::Toes | Part::Heel);
        self.contacts().all(|c| feet(c) || c.surface == Surface::Wall)
    }

    /// Whether the back lies on something that is no wall.
    pub fn lies_on_back(&self) -> bool {
        self.contact(Part::Back, None).is_some_and(|back| back.surface != Surface::Wall)
    }

    fn lies(&self) -> bool {
        self.lies_on_back() || self.lies_on_front() || self.on(Part::Flank)
    }

    /// Whether the front lies on the floor: the chest, or with a lifted chest the thighs.
    pub fn lies_on_front(&self) -> bool {
        let thighs = self.height(Mark::Hips) <= from::LIES && self.on(Part::Knee);
        let down = self.faces_up() <= -from::FACES && self.on_arms() <= 0.0;
        self.on(Part::Chest) || (thighs && down)
    }

    /// Whether the trunk itself rests on something: nothing can tip.
    pub fn rests(&self) -> bool {
        self.lies() || self.on(Part::Seat) || self.contact(Part::Back, None).is_some()
    }

    /// Where the foot of this side touches, metres.
    pub fn foot_at(&self, side: Side) -> Option<Vec3> {
        let own = |c: &Contact| c.part.family() == Family::Leg && c.side == Some(side);
        let solid = |c: &Contact| c.surface != Surface::Air;
        self.pose.touches.iter().find(|(c, _)| own(c) && solid(c)).map(|(_, at)| *at)
    }

    /// Height of a mark over the floor, metres.
    pub fn height(&self, mark: Mark) -> f64 {
        self.pose.body.mark(mark).y
    }
}
