//! First guesses: from which posture the solver sets out.
//! A guess only starts the search; it never overrules what the author said.

use crate::mechanics::joints::{Joint, LimbJoint, Posture, Side};
use crate::mechanics::words::contact::{Contact, Part, Surface};
use crate::mechanics::words::recipe::Shape;

/// The shape that a set of contacts suggests.
pub fn shape_of(contacts: &[Contact]) -> Shape {
    let on = |part: Part| contacts.iter().find(|c| c.part == part && c.surface != Surface::Air);
    let feet_down = on(Part::Heel).is_some() || on(Part::Foot).is_some();
    if let Some(hand) = on(Part::Hand) {
        return match hand.surface {
            Surface::Straps | Surface::Rings | Surface::Bar if feet_down => Shape::LeanBack,
            Surface::Straps | Surface::Rings if on(Part::Toes).is_some() => Shape::Prone,
            Surface::Straps | Surface::Rings | Surface::Bar => Shape::Hang,
            Surface::ParallelBars => Shape::Dip,
            Surface::Wall if feet_down || on(Part::Toes).is_some() => Shape::Stand,
            _ if feet_down => Shape::Dip,
            _ => Shape::Prone,
        };
    }
    if on(Part::Forearm).is_some() {
        return Shape::Prone;
    }
    if on(Part::Flank).is_some() {
        return Shape::SideLying;
    }
    if on(Part::Chest).is_some() {
        return Shape::LieProne;
    }
    match (on(Part::Back), on(Part::Seat), on(Part::Knee)) {
        (Some(back), ..) if back.surface == Surface::Wall => Shape::Sit,
        (Some(_), ..) => Shape::Supine,
        (_, Some(_), _) => Shape::Sit,
        (.., Some(_)) if !feet_down => Shape::Kneel,
        _ => Shape::Stand,
    }
}

/// Whether a person in this shape looks ahead rather than along the trunk.
pub fn is_upright(shape: Shape) -> bool {
    use Shape::*;
    matches!(shape, Stand | Squat | Sit | Dip | LeanBack | Kneel)
}

/// The posture to set out from at `stature` metres. The angles are the prototype's, found by
/// trying: a straight limb is a singular start, so most begin a little bent.
fn posture(shape: Shape, stature: f64) -> Posture {
    use LimbJoint::*;
    let (height, pitch, limbs): (f64, f64, &[(LimbJoint, f64)]) = match shape {
        Shape::Stand => (0.53, 5.0, &[(Hip, 10.0), (Knee, 10.0), (Ankle, 5.0)]),
        Shape::Squat => (0.30, 30.0, &[(Hip, 80.0), (Knee, 80.0), (Ankle, 20.0), (Shoulder, 70.0)]),
        Shape::Prone => (0.25, 72.0, &[(Shoulder, 75.0), (Ankle, 5.0), (Wrist, 75.0)]),
        Shape::Pike => {
            (0.50, 130.0, &[(Hip, 80.0), (Shoulder, 160.0), (Wrist, 60.0), (Ankle, 15.0)])
        }
        Shape::Quad => (0.28, 88.0, &[(Hip, 90.0), (Knee, 90.0), (Shoulder, 88.0), (Wrist, 85.0)]),
        Shape::Supine => (0.10, -80.0, &[(Hip, 30.0), (Knee, 90.0)]),
        Shape::Hang => (0.70, 0.0, &[(Shoulder, 175.0), (Knee, 20.0), (Ankle, -30.0)]),
        Shape::LeanBack => (0.40, -45.0, &[(Shoulder, 80.0)]),
        Shape::Sit => (0.30, 10.0, &[(Hip, 80.0), (Knee, 90.0)]),
        Shape::Dip => (
            0.30,
            5.0,
            &[(Hip, 60.0), (Knee, 20.0), (Shoulder, -40.0), (Elbow, 40.0), (Wrist, 70.0)],
        ),
        Shape::Handstand => (0.70, 180.0, &[(Shoulder, 178.0), (Wrist, 85.0), (Ankle, -30.0)]),
        Shape::Kneel => (0.28, 2.0, &[(Knee, 88.0), (Ankle, -40.0)]),
        Shape::SideLying => (0.10, 0.0, &[(Hip, 45.0), (Knee, 60.0)]),
        Shape::LieProne => (0.08, 88.0, &[(Shoulder, 165.0), (Ankle, -50.0)]),
    };
    let mut posture = Posture::STRAIGHT;
    posture.set(Joint::Height, height * stature);
    posture.set(Joint::Pitch, pitch.to_radians());
    for side in Side::BOTH {
        posture.set(Joint::Limb(side, Elbow), 5f64.to_radians());
        for (limb, degrees) in limbs {
            posture.set(Joint::Limb(side, *limb), degrees.to_radians());
        }
    }
    posture
}

/// The posture to set out from, for a shape and what touches.
pub fn first(shape: Shape, contacts: &[Contact], stature: f64) -> Posture {
    let mut first = posture(shape, stature);
    if matches!(shape, Shape::Stand | Shape::Kneel) {
        half_kneeling(&mut first, contacts, stature);
    }
    first
}

/// One knee down and one foot ahead: the guess kneels on that knee.
fn half_kneeling(posture: &mut Posture, contacts: &[Contact], stature: f64) {
    use LimbJoint::*;
    let down = |side| contacts.iter().any(|c| c.side == Some(side) && c.part == Part::Knee);
    let Some(knee) = Side::BOTH.into_iter().find(|s| down(*s) && !down(s.other())) else { return };
    posture.set(Joint::Height, 0.28 * stature);
    posture.set(Joint::Pitch, 0.0);
    let mut bend = |side, limb, degrees: f64| {
        posture.set(Joint::Limb(side, limb), degrees.to_radians());
    };
    for (limb, degrees) in [(Hip, 0.0), (Knee, 88.0), (Ankle, 10.0)] {
        bend(knee, limb, degrees);
    }
    for (limb, degrees) in [(Hip, 88.0), (Knee, 88.0), (Ankle, 0.0)] {
        bend(knee.other(), limb, degrees);
    }
}

/// Variations of a guess: elbows bent, legs bent, elbows bent with the arms back.
/// A straight limb has no preferred way to bend, so one start is not enough.
pub fn variations(first: Posture) -> Vec<Posture> {
    use LimbJoint::*;
    let with = |from: Posture, set: &[(LimbJoint, f64)], add: f64| {
        let mut posture = from;
        for side in Side::BOTH {
            for (limb, degrees) in set {
                posture.set(Joint::Limb(side, *limb), degrees.to_radians());
            }
            let shoulder = Joint::Limb(side, Shoulder);
            posture.set(shoulder, posture.get(shoulder) + add.to_radians());
        }
        posture
    };
    let elbows = with(first, &[(Elbow, 80.0)], 0.0);
    let legs = with(first, &[(Knee, 70.0), (Hip, 60.0)], 0.0);
    let back = with(elbows, &[], -70.0);
    vec![elbows, legs, back]
}
