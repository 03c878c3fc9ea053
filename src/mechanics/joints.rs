//! Joints: the numbers that say how a body stands, each with a name a coach would use.
//! Only names and order; limits live in `skeleton`, movement in `kinematics`.

use serde::{Deserialize, Serialize};

/// One side of the body. The figure faces right, so its own right side is the near one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Side {
    /// The side towards the reader: the figure's right.
    Near,
    /// The other side: the figure's left.
    Far,
}

impl Side {
    /// Both, near first.
    pub const BOTH: [Side; 2] = [Side::Near, Side::Far];

    /// 0 for near, 1 for far.
    pub fn index(self) -> usize {
        self as usize
    }

    /// +1 for near, -1 for far: the sign of `z`.
    pub fn sign(self) -> f64 {
        match self {
            Side::Near => 1.0,
            Side::Far => -1.0,
        }
    }

    /// The word in a pose and in a message.
    pub fn word(self) -> &'static str {
        match self {
            Side::Near => "near",
            Side::Far => "far",
        }
    }

    /// The other one.
    pub fn other(self) -> Side {
        match self {
            Side::Near => Side::Far,
            Side::Far => Side::Near,
        }
    }
}

/// The joints that each side has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum LimbJoint {
    /// Flexion of the hip: thigh towards the chest.
    Hip,
    /// Leg away from the midline.
    LegOut,
    /// Toes turned out.
    LegTurn,
    /// Flexion of the knee.
    Knee,
    /// Dorsiflexion of the ankle: toes towards the shin.
    Ankle,
    /// Arm lifted forwards.
    Shoulder,
    /// Arm away from the midline.
    ArmOut,
    /// Upper arm turned out.
    ArmTurn,
    /// Flexion of the elbow.
    Elbow,
    /// Extension of the wrist: hand bent back.
    Wrist,
    /// Shoulder lifted towards the ear, in degrees of the collar bone.
    Shrug,
    /// Forearm turned so that the thumb goes out: 0 is palm back, 90 thumb ahead.
    HandTurn,
}

/// How many joints a side has.
pub const LIMB_JOINTS: usize = 12;
const CENTRAL: usize = 12;
/// How many numbers a posture has.
pub const JOINTS: usize = CENTRAL + 2 * LIMB_JOINTS;

impl LimbJoint {
    /// All, in order.
    pub const ALL: [LimbJoint; LIMB_JOINTS] = [
        LimbJoint::Hip,
        LimbJoint::LegOut,
        LimbJoint::LegTurn,
        LimbJoint::Knee,
        LimbJoint::Ankle,
        LimbJoint::Shoulder,
        LimbJoint::ArmOut,
        LimbJoint::ArmTurn,
        LimbJoint::Elbow,
        LimbJoint::Wrist,
        LimbJoint::Shrug,
        LimbJoint::HandTurn,
    ];

    /// Shoulder, elbow and the turns between: what bends an arm from the trunk to the wrist.
    pub fn is_of_the_arm(self) -> bool {
        use LimbJoint::*;
        matches!(self, Shoulder | ArmOut | ArmTurn | Elbow | HandTurn)
    }

    /// The word an author writes.
    pub fn word(self) -> &'static str {
        match self {
            LimbJoint::Hip => "hip",
            LimbJoint::LegOut => "leg-out",
            LimbJoint::LegTurn => "leg-turn",
            LimbJoint::Knee => "knee",
            LimbJoint::Ankle => "ankle",
            LimbJoint::Shoulder => "shoulder",
            LimbJoint::ArmOut => "arm-out",
            LimbJoint::ArmTurn => "arm-turn",
            LimbJoint::Elbow => "elbow",
            LimbJoint::Wrist => "wrist",
            LimbJoint::Shrug => "shrug",
            LimbJoint::HandTurn => "hand-turn",
        }
    }
}

/// Everything that a posture is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Joint {
    /// Where the hips are, forwards.
    Forward,
    /// Where the hips are, upwards.
    Height,
    /// Where the hips are, sideways.
    Sideways,
    /// Pelvis leaning forwards from upright.
    Pitch,
    /// Pelvis leaning towards the near side.
    Roll,
    /// The whole body turned about the vertical.
    Yaw,
    /// Bending forwards in the lower back.
    Waist,
    /// Bending forwards in the upper back.
    UpperBack,
    /// Trunk bent towards the near side.
    SideBend,
    /// Chest turned towards the near side against the pelvis.
    Twist,
    /// Chin towards the chest.
    Neck,
    /// Face turned towards the near side.
    HeadTurn,
    /// A joint of one side.
    Limb(Side, LimbJoint),
}

impl Joint {
    /// Place in a posture.
    pub fn index(self) -> usize {
        match self {
            Joint::Forward => 0,
            Joint::Height => 1,
            Joint::Sideways => 2,
            Joint::Pitch => 3,
            Joint::Roll => 4,
            Joint::Yaw => 5,
            Joint::Waist => 6,
            Joint::UpperBack => 7,
            Joint::SideBend => 8,
            Joint::Twist => 9,
            Joint::Neck => 10,
            Joint::HeadTurn => 11,
            Joint::Limb(side, limb) => CENTRAL + side.index() * LIMB_JOINTS + limb as usize,
        }
    }

    /// Every joint, in order.
    pub fn all() -> impl Iterator<Item = Joint> {
        let central = [
            Joint::Forward,
            Joint::Height,
            Joint::Sideways,
            Joint::Pitch,
            Joint::Roll,
            Joint::Yaw,
            Joint::Waist,
            Joint::UpperBack,
            Joint::SideBend,
            Joint::Twist,
            Joint::Neck,
            Joint::HeadTurn,
        ];
        let limbs = Side::BOTH
            .into_iter()
            .flat_map(|s| LimbJoint::ALL.into_iter().map(move |l| Joint::Limb(s, l)));
        central.into_iter().chain(limbs)
    }

    /// Where the body is rather than how it bends: counted in metres.
    pub fn is_place(self) -> bool {
        matches!(self, Joint::Forward | Joint::Height | Joint::Sideways)
    }
}

/// How a body stands: radians, and metres for the hips' place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Posture(pub [f64; JOINTS]);

impl Posture {
    /// Upright, straight, hips at the origin.
    pub const STRAIGHT: Posture = Posture([0.0; JOINTS]);

    /// The value of a joint in radians (metres for the hips' place).
    pub fn get(&self, joint: Joint) -> f64 {
        self.0[joint.index()]
    }

    /// Set a joint, radians (metres for the hips' place).
    pub fn set(&mut self, joint: Joint, value: f64) {
        self.0[joint.index()] = value;
    }

    /// A limb joint in degrees.
    pub fn degrees(&self, side: Side, limb: LimbJoint) -> f64 {
        self.get(Joint::Limb(side, limb)).to_degrees()
    }

    /// The posture a fraction `t` of the way to `other`, joint by joint.
    pub fn towards(&self, other: &Posture, t: f64) -> Posture {
        let mut mixed = *self;
        for (mine, theirs) in mixed.0.iter_mut().zip(other.0) {
            *mine += (theirs - *mine) * t;
        }
        mixed
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn indices_are_in_order() {
        let order: Vec<usize> = Joint::all().map(Joint::index).collect();
        assert_eq!(order, (0..JOINTS).collect::<Vec<_>>());
    }
}
