//! Marks: the named points of a body that touch, reach, weigh and are drawn.
//! Only names, their order and the segment that carries each; `kinematics` says where they are.

use super::joints::{Joint, LimbJoint, Side};
use serde::{Deserialize, Serialize};

/// A point of a limb.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum LimbMark {
    /// Hip joint centre.
    Hip,
    /// Knee joint centre.
    Knee,
    /// Ankle joint centre.
    Ankle,
    /// Ball of the foot, on the sole.
    Ball,
    /// Heel, on the sole.
    Heel,
    /// Tip of the toes, on the sole.
    Tip,
    /// Half-way between heel and ball.
    Sole,
    /// Shoulder joint centre.
    Shoulder,
    /// Elbow joint centre.
    Elbow,
    /// Wrist joint centre.
    Wrist,
    /// Pressure centre of the flat palm.
    Palm,
    /// Where a handle lies in the hand.
    Grip,
    /// Fingertips.
    Fingers,
}

const LIMB_MARKS: usize = 13;
const CENTRAL: usize = 10;
/// How many marks a body has.
pub const MARKS: usize = CENTRAL + 2 * LIMB_MARKS;

/// A named point of the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Mark {
    /// Middle of the hips.
    Hips,
    /// Where the lower back bends.
    Waist,
    /// Where the upper back bends.
    UpperBack,
    /// Middle of the shoulder line.
    Shoulders,
    /// Foot of the neck.
    Neck,
    /// Middle of the head.
    Head,
    /// Skin of the upper back.
    Back,
    /// Skin of the chest.
    Chest,
    /// Lower ribs, in front.
    Ribs,
    /// Skin of the seat.
    Seat,
    /// A point of a limb.
    Limb(Side, LimbMark),
}

impl Mark {
    /// Place in a table of marks.
    pub fn index(self) -> usize {
        match self {
            Mark::Hips => 0,
            Mark::Waist => 1,
            Mark::UpperBack => 2,
            Mark::Shoulders => 3,
            Mark::Neck => 4,
            Mark::Head => 5,
            Mark::Back => 6,
            Mark::Chest => 7,
            Mark::Ribs => 8,
            Mark::Seat => 9,
            Mark::Limb(side, mark) => CENTRAL + side.index() * LIMB_MARKS + mark as usize,
        }
    }

    /// The segment that carries the mark.
    pub fn carrier(self) -> Piece {
        match self {
            Mark::Hips | Mark::Waist | Mark::Seat => Piece::Pelvis,
            Mark::UpperBack => Piece::Middle,
            Mark::Shoulders | Mark::Neck | Mark::Back | Mark::Chest | Mark::Ribs => Piece::Chest,
            Mark::Head => Piece::Head,
            Mark::Limb(side, mark) => mark.carrier(side),
        }
    }
}

impl LimbMark {
    /// On one side.
    pub fn of(self, side: Side) -> Mark {
        Mark::Limb(side, self)
    }

    fn carrier(self, side: Side) -> Piece {
        match self {
            LimbMark::Hip => Piece::Pelvis,
            LimbMark::Knee => Piece::Thigh(side),
            LimbMark::Ankle => Piece::Shank(side),
            LimbMark::Ball | LimbMark::Heel | LimbMark::Tip | LimbMark::Sole => Piece::Foot(side),
            LimbMark::Shoulder => Piece::Chest,
            LimbMark::Elbow => Piece::UpperArm(side),
            LimbMark::Wrist | LimbMark::Grip => Piece::Forearm(side),
            LimbMark::Palm | LimbMark::Fingers => Piece::Hand(side),
        }
    }
}

/// A rigid piece of the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Piece {
    /// Pelvis, up to the waist.
    Pelvis,
    /// Waist to upper back.
    Middle,
    /// Ribs and shoulders.
    Chest,
    /// The head.
    Head,
    /// Hip to knee.
    Thigh(Side),
    /// Knee to ankle.
    Shank(Side),
    /// The foot.
    Foot(Side),
    /// Shoulder to elbow.
    UpperArm(Side),
    /// Elbow to wrist.
    Forearm(Side),
    /// The hand.
    Hand(Side),
}

/// How many pieces a body has.
pub const PIECES: usize = 16;

impl Piece {
    /// Place in a table of pieces.
    pub fn index(self) -> usize {
        match self {
            Piece::Pelvis => 0,
            Piece::Middle => 1,
            Piece::Chest => 2,
            Piece::Head => 3,
            Piece::Thigh(s) => 4 + s.index(),
            Piece::Shank(s) => 6 + s.index(),
            Piece::Foot(s) => 8 + s.index(),
            Piece::UpperArm(s) => 10 + s.index(),
            Piece::Forearm(s) => 12 + s.index(),
            Piece::Hand(s) => 14 + s.index(),
        }
    }

    /// Whether bending `joint` moves this piece.
    pub fn moved_by(self, joint: Joint) -> bool {
        match joint {
            Joint::Limb(side, limb) => self.hangs_from(side, limb),
            Joint::Waist => !matches!(self, Piece::Pelvis) && !self.is_leg(),
            Joint::UpperBack | Joint::SideBend | Joint::Twist => {
                !matches!(self, Piece::Pelvis | Piece::Middle) && !self.is_leg()
            }
            Joint::Neck | Joint::HeadTurn => self == Piece::Head,
            _ => true,
        }
    }

    fn is_leg(self) -> bool {
        matches!(self, Piece::Thigh(_) | Piece::Shank(_) | Piece::Foot(_))
    }

    fn hangs_from(self, side: Side, limb: LimbJoint) -> bool {
        use LimbJoint::*;
        match self {
            Piece::Thigh(s) => s == side && matches!(limb, Hip | LegOut | LegTurn),
            Piece::Shank(s) => s == side && matches!(limb, Hip | LegOut | LegTurn | Knee),
            Piece::Foot(s) => s == side && matches!(limb, Hip | LegOut | LegTurn | Knee | Ankle),
            Piece::UpperArm(s) => s == side && matches!(limb, Shoulder | ArmOut | ArmTurn | Shrug),
            Piece::Forearm(s) => {
                s == side && matches!(limb, Shoulder | ArmOut | ArmTurn | Shrug | Elbow)
            }
            Piece::Hand(s) => {
                let of_the_arm = matches!(limb, Shoulder | ArmOut | ArmTurn | Shrug | Elbow);
                s == side && (of_the_arm || matches!(limb, HandTurn | Wrist))
            }
            _ => false,
        }
    }
}
