//! Arms that push: a hand that bears weight has its forearm over it.
//! Looks only at hands that press on something; hanging, pulling and empty hands are left alone.
//!
//! Shoulder and hand leave the elbow a circle to choose from. People who push choose the place on
//! it where the forearm stands square on what they push: then the elbow has least to hold and the
//! wrist bends no further than a flat hand asks. The term is weak: whatever the author says wins.

use super::{Before, Touch, Writer};
use crate::mechanics::joints::{Joint, LimbJoint, Posture, Side};
use crate::mechanics::marks::LimbMark;
use crate::mechanics::skeleton as bone;
use crate::mechanics::space::{Axis, Plane};
use crate::mechanics::terms::{Measure, Role};
use crate::mechanics::words::contact::{Contact, Family, Part, Place, Surface};
use crate::mechanics::words::keypose::KeyPose;
use crate::mechanics::words::said::{Over, Said, Slope, Word};

/// Over the comfort of every joint together, under a said angle and a height (see `conditions`).
const SQUARE: f64 = 20.0;
/// Fingers point ahead: a hand that twists on the floor as the elbows bend would slide.
const AHEAD: f64 = 1000.0;
/// Elbows bent less than this are straight arms: where they lean, the body leans.
const STRAIGHT: f64 = 10.0;
/// Where elbows set out from: "about 45 degrees from the ribs" (common practice, no source).
const ELBOW_OUT: f64 = 40.0;
/// And how far they are bent there, degrees.
const BENT: f64 = 90.0;

/// Whether a hand presses down on what it touches, rather than hanging from it or only being
/// there. Not at a wall: hands at shoulder height would lift the elbows level with the shoulders.
pub fn presses(contact: &Contact) -> bool {
    use Surface::*;
    let solid = matches!(contact.surface, Floor | Mat | Slider | ParallelBars);
    contact.part == Part::Hand && (solid || contact.surface.is_block())
}

/// The sides on which the solver chooses how far the elbow swings out: near, far. Who is balanced
/// over the feet, or stands on a whole foot with one hand down, only steadies that hand and lets
/// the elbow hang.
pub(super) fn swinging(pose: &KeyPose, before: Option<&Before>, touches: &[Touch]) -> [bool; 2] {
    use LimbJoint::{ArmOut, ArmTurn, HandTurn};
    let arm = |word| matches!(word, Word::Bend(ArmOut | ArmTurn | HandTurn, _) | Word::Arms(_));
    let stands = |over| matches!(over, Over::Feet | Over::Foot(_) | Over::Share(..));
    let balance = pose.said.iter().find_map(|s| match s.word {
        Word::Balance(over) => Some(over),
        _ => None,
    });
    let pushes =
        |side: Side| touches.iter().any(|t| t.contact.side == Some(side) && presses(&t.contact));
    let on_foot = touches.iter().any(|t| t.contact.part == Part::Foot);
    let one_hand = !Side::BOTH.into_iter().all(pushes);
    let over_feet = balance.or(before.and_then(|b| b.balance)).is_some_and(stands);
    Side::BOTH.map(|side| {
        let said = |s: &Said| s.side.is_none_or(|own| own == side) && arm(s.word);
        let steadies = over_feet || (on_foot && one_hand);
        pushes(side) && !steadies && !pose.said.iter().any(said)
    })
}

impl Writer<'_> {
    /// Forearms square on what the hands press on, fingers ahead.
    pub(super) fn forearms(&mut self) {
        for touch in self.out.touches.clone() {
            let (contact, Some(side)) = (&touch.contact, touch.contact.side) else { continue };
            if !presses(contact) || !self.swings(side) {
                continue;
            }
            if !contact.surface.is_gripped() {
                self.level_with(side, (LimbMark::Fingers, LimbMark::Wrist), Axis::Sideways, AHEAD);
            }
            if !self.straight_arm(side) {
                self.square(contact, side);
            }
        }
    }

    fn square(&mut self, contact: &Contact, side: Side) {
        let touches: Vec<&Contact> = self.out.touches.iter().map(|t| &t.contact).collect();
        let (sin, cos) = tilt(self.pose, &touches, contact, self.setting.stature).sin_cos();
        let (elbow, wrist) = (LimbMark::Elbow.of(side), LimbMark::Wrist.of(side));
        let along_the_body = [(Axis::Forward, cos), (Axis::Up, sin)];
        let apart =
            along_the_body.into_iter().flat_map(|(axis, k)| [(elbow, axis, k), (wrist, axis, -k)]);
        self.want(Measure::Marks(apart.collect()), 0.0, SQUARE, Role::Rest, None);
        self.level_with(side, (LimbMark::Elbow, LimbMark::Wrist), Axis::Sideways, SQUARE);
    }

    /// The pose before with elbows bent and pointing out, forearms as they were: a straight arm has
    /// no swing to improve, so the search would not find one by itself.
    pub(super) fn elbows_bent(&self) -> Option<Posture> {
        let sides: Vec<Side> = Side::BOTH.into_iter().filter(|side| self.bends(*side)).collect();
        self.setting.before.filter(|_| !sides.is_empty())?;
        let mut bent = self.first;
        for side in sides {
            let mut turn = |limb, degrees: f64| {
                let joint = Joint::Limb(side, limb);
                bent.set(joint, bent.get(joint) + degrees.to_radians());
            };
            turn(LimbJoint::Elbow, BENT);
            turn(LimbJoint::Shoulder, -BENT);
            turn(LimbJoint::ArmOut, ELBOW_OUT);
        }
        Some(bent)
    }

    /// Whether the forearm's place decides how this arm bends, so that its joints want no rest.
    pub(super) fn bends(&self, side: Side) -> bool {
        self.swings(side) && !self.straight_arm(side)
    }

    fn swings(&self, side: Side) -> bool {
        self.out.free.contains(&Joint::Limb(side, LimbJoint::HandTurn))
    }

    fn level_with(&mut self, side: Side, (a, b): (LimbMark, LimbMark), axis: Axis, weight: f64) {
        let apart = vec![(a.of(side), axis, 1.0), (b.of(side), axis, -1.0)];
        self.want(Measure::Marks(apart), 0.0, weight, Role::Rest, None);
    }

    /// Arms said to be straight, or a forearm whose slope the author says.
    fn straight_arm(&self, side: Side) -> bool {
        let said = |word: Word| match word {
            Word::Bend(LimbJoint::Elbow, degrees) => degrees <= STRAIGHT,
            Word::Slope(slope, _) => slope == Slope::Forearm,
            _ => false,
        };
        self.pose.said.iter().any(|s| s.side.is_none_or(|own| own == side) && said(s.word))
    }

    /// Hands that stay where they are stay as wide as they are, where a width was said or the kit
    /// has one; else the width is still to be found (`solve::found_width`).
    pub(super) fn keeps_its_width(&self, contact: &Contact) -> bool {
        let swings = contact.side.is_some_and(|side| self.swings(side));
        presses(contact) && swings && self.setting.plane == Plane::Side && has_width(contact)
    }
}

/// How far a straight body that comes down onto hands above its feet stays from level, radians.
/// On an edge people push square to the body rather than straight down.
pub fn tilt(pose: &KeyPose, touches: &[&Contact], hand: &Contact, stature: f64) -> f64 {
    if !pose.said.iter().any(|s| s.word == Word::Straight) {
        return 0.0;
    }
    let legs = touches.iter().filter(|c| c.part.family() == Family::Leg);
    let lowest = legs.filter_map(|c| c.height).fold(f64::INFINITY, f64::min);
    let knees = touches.iter().any(|c| c.part == Part::Knee);
    let legs = if knees { bone::THIGH } else { bone::THIGH + bone::SHANK };
    let rise = hand.height.unwrap_or(0.0) - lowest;
    (rise / ((legs + bone::TRUNK) * stature)).clamp(0.0, 1.0).asin()
}

/// Whether it is known how far apart the hands stand.
pub fn has_width(contact: &Contact) -> bool {
    contact.surface.is_gripped()
        || contact.places.iter().any(|p| matches!(p, Place::Apart(_) | Place::Beside(..)))
}
