//! The skeleton: lengths of a person of a given stature, and how far each joint goes.
//! Only numbers and their sources; it neither bends nor draws.

use super::joints::{JOINTS, Joint, LimbJoint};

/// Lengths as fractions of stature: Drillis & Contini 1966 as drawn in Winter 2009, figure 4.1
/// (`facts/lengths_drillis_contini.csv`).
pub const SHANK: f64 = 0.246;
/// Hip to knee.
pub const THIGH: f64 = 0.245;
/// Hip to shoulder line.
pub const TRUNK: f64 = 0.288;
/// Shoulder to elbow.
pub const UPPER_ARM: f64 = 0.186;
/// Elbow to wrist.
pub const FOREARM: f64 = 0.146;
/// Wrist to fingertip.
pub const HAND: f64 = 0.108;
/// Half of the hip breadth 0.191 is the body's edge; the joint centre lies about half-way in
/// (drawing and front view only).
pub const HIP_HALF: f64 = 0.052;
/// Half of the shoulder breadth 0.259, less the radius of the arm.
pub const SHOULDER_HALF: f64 = 0.108;

/// The foot, from the ankle along the sole: heel behind, ball and tip ahead, sole below. Ankle
/// height 0.039 and foot length 0.152 from the table; ball at 72 % of the foot from the heel is
/// common anatomy, from memory.
pub const FOOT_HEEL: f64 = -0.038;
/// Ankle to ball, along the sole.
pub const FOOT_BALL: f64 = 0.072;
/// Ankle to toe tip, along the sole.
pub const FOOT_TIP: f64 = 0.114;
/// Ankle to sole, downwards.
pub const FOOT_SOLE: f64 = -0.039;

/// Pressure centre of a flat palm beyond the wrist, as a fraction of the hand (the prototype's
/// choice; a hand 3 cm further forward is worth 1.6 points of demand).
pub const PALM: f64 = 0.25;
/// A gripped handle lies here beyond the wrist, fraction of the hand.
pub const GRIP: f64 = 0.40;

/// How thick the body is where it touches something, fractions of stature (drawing measures).
pub const KNEE_RADIUS: f64 = 0.030;
/// Elbow to surface.
pub const ELBOW_RADIUS: f64 = 0.020;
/// Spine line to the skin of the back.
pub const BACK_RADIUS: f64 = 0.062;
/// Hip joint to seat.
pub const SEAT_RADIUS: f64 = 0.058;
/// Middle of the head to its skin.
pub const HEAD_RADIUS: f64 = 0.058;
/// Wrist over a surface when the palm is flat.
pub const PALM_THICKNESS: f64 = 0.012;

/// A joint's range in degrees, smaller end first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Smallest angle.
    pub from: f64,
    /// Largest angle.
    pub to: f64,
}

const fn range(from: f64, to: f64) -> Range {
    Range { from, to }
}

/// How far a limb's joint goes, degrees. Free-moving ranges of `facts/joint_rom.csv`, opened where
/// body weight pushes further than an examiner's hand: hip flexion 134 (CDC 20-44 y), extension 30
/// (VA); knee 142 free, 150 with the calf pressed on the thigh; ankle dorsiflexion 20 free, 38
/// under load (knee-to-wall practice), plantarflexion 62 (CDC); shoulder 180 and -60 (AAOS);
/// elbow 150; wrist extension 86 free (Macedo & Magee), 95 under load; flexion 93; forearm 92 and
/// 96 either way from thumb ahead (Macedo & Magee), counted here from palm back.
pub fn limb_range(joint: LimbJoint) -> Range {
    match joint {
        LimbJoint::Hip => range(-30.0, 134.0),
        LimbJoint::LegOut => range(-25.0, 60.0),
        LimbJoint::LegTurn => range(-45.0, 60.0),
        LimbJoint::Knee => range(0.0, 150.0),
        LimbJoint::Ankle => range(-62.0, 38.0),
        LimbJoint::Shoulder => range(-60.0, 185.0),
        LimbJoint::ArmOut => range(-45.0, 180.0),
        LimbJoint::ArmTurn => range(-90.0, 108.0),
        LimbJoint::Elbow => range(0.0, 150.0),
        LimbJoint::Wrist => range(-93.0, 95.0),
        LimbJoint::Shrug => range(-20.0, 25.0),
        LimbJoint::HandTurn => range(-2.0, 186.0),
    }
}

/// The range of any joint, degrees; the whole body's place and turn are free. Waist and upper
/// back together reach the thoracolumbar 80 of flexion (AAOS), 35 of extension (Magee), 35 of
/// side bend and 45 of rotation (AAOS); neck 55 each way (common practice, from memory).
pub fn joint_range(joint: Joint) -> Range {
    match joint {
        Joint::Forward | Joint::Height | Joint::Sideways => range(-900.0, 900.0),
        Joint::Pitch | Joint::Roll | Joint::Yaw => range(-190.0, 190.0),
        Joint::Waist => range(-30.0, 50.0),
        Joint::UpperBack => range(-25.0, 45.0),
        Joint::SideBend => range(-35.0, 35.0),
        Joint::Twist => range(-50.0, 50.0),
        Joint::Neck => range(-55.0, 55.0),
        Joint::HeadTurn => range(-80.0, 80.0),
        Joint::Limb(_, limb) => limb_range(limb),
    }
}

/// Lower and upper bounds of every joint, in solver units (radians; metres for the body's place).
pub fn bounds() -> ([f64; JOINTS], [f64; JOINTS]) {
    let (mut low, mut high) = ([0.0; JOINTS], [0.0; JOINTS]);
    for joint in Joint::all() {
        let (r, i) = (joint_range(joint), joint.index());
        let k = if joint.is_place() { 0.01 } else { std::f64::consts::PI / 180.0 };
        (low[i], high[i]) = (r.from * k, r.to * k);
    }
    (low, high)
}
