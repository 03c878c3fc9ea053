//! What an author can say about a pose besides its contacts: angles, slopes, words and heights.
//! Only the meanings; `keypose` reads them and `terms` turns them into conditions.

use crate::mechanics::joints::{Joint, LimbJoint, Side};
use serde::{Deserialize, Serialize};

/// One thing said, with its place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Said {
    /// What it means.
    pub word: Word,
    /// For which side; none means both, or the trunk.
    pub side: Option<Side>,
    /// As written, `knee: 60`, for messages.
    pub written: String,
    /// Byte offset of the value.
    pub at: usize,
}

/// The meaning of one entry of a pose.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Word {
    /// A limb's joint at so many degrees; 0 is straight.
    Bend(LimbJoint, f64),
    /// A joint of the trunk or the head at so many degrees.
    Turn(Joint, f64),
    /// A segment so many degrees from the vertical, leaning forward counted positive.
    Slope(Slope, f64),
    /// Hips (and knees, where they carry nothing) straight.
    Straight,
    /// The line from ankles to shoulders so many degrees from upright, forward positive.
    Lean(f64),
    /// The arms in a named shape.
    Arms(ArmShape),
    /// The centre of mass over something.
    Balance(Over),
    /// A mark so many metres over the floor.
    Height(HeightOf, f64),
    /// The chin this many metres over the bar.
    ChinOverBar(f64),
    /// The hands at a landmark, metres forward and up of it.
    HandsAt(Option<Side>, Landmark, f64, f64),
}

/// A segment whose angle against the vertical can be said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)] // each is the word it stands for
pub enum Slope {
    Trunk,
    Thigh,
    Shin,
    UpperArm,
    Forearm,
    Foot,
}

/// A named shape of the arms.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum ArmShape {
    /// Straight ahead, level.
    Forward,
    /// Along the trunk.
    Sides,
    /// Straight down to the floor.
    Hang,
    /// Beside the ears.
    Overhead,
    /// Straight, in line with the rope.
    AlongRope,
    /// Both hands at the breastbone.
    Goblet,
    /// Weights at the shoulders.
    Rack,
    /// Crossed on the chest.
    Crossed,
    /// Lying beside the body.
    Flat,
    /// Slightly ahead of the thighs.
    Down,
    /// Straight up, whatever the trunk does.
    Up,
    /// Straight out to the sides.
    Wide,
    /// Straight up and open like a V.
    OpenOverhead,
    /// Forearms level in front, as if carrying a box.
    Carry,
    /// Hands on the hips.
    OnHips,
    /// Elbows bent at the sides, as in running.
    Run,
}

/// The arm shapes with their words.
pub const ARM_SHAPES: [(&str, ArmShape); 16] = [
    ("forward", ArmShape::Forward),
    ("sides", ArmShape::Sides),
    ("hang", ArmShape::Hang),
    ("overhead", ArmShape::Overhead),
    ("along rope", ArmShape::AlongRope),
    ("goblet", ArmShape::Goblet),
    ("rack", ArmShape::Rack),
    ("crossed", ArmShape::Crossed),
    ("flat", ArmShape::Flat),
    ("down", ArmShape::Down),
    ("up", ArmShape::Up),
    ("wide", ArmShape::Wide),
    ("open overhead", ArmShape::OpenOverhead),
    ("carry", ArmShape::Carry),
    ("on hips", ArmShape::OnHips),
    ("run", ArmShape::Run),
];

/// What the centre of mass is held over.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Over {
    /// Midway between the feet.
    Feet,
    /// One foot.
    Foot(Side),
    /// The hands (hanging or propped).
    Hands,
    /// This share (0 to 1) of the weight on one foot, the rest on the other.
    Share(f64, Side),
    /// Nothing: the author leaves balance out.
    Nothing,
}

/// What a height in cm is measured to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum HeightOf {
    /// Skin of the chest.
    Chest,
    /// Middle of the hips.
    Hips,
    /// Chin.
    Chin,
    /// Lowest point of the head.
    Head,
    /// Underside of the knee.
    Knee,
    /// Underside of the foot, at the ball.
    Foot,
    /// Hand, at the grip.
    Hand,
}

/// A point of the own body that a hand goes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)] // each is the word it stands for
pub enum Landmark {
    Chest,
    Hips,
    Shoulders,
    Ribs,
    Head,
    Knees,
    Ankles,
    Toes,
    Hand,
    Shoulder,
}

/// The landmarks with their words.
pub const LANDMARKS: [(&str, Landmark); 14] = [
    ("chest", Landmark::Chest),
    ("hips", Landmark::Hips),
    ("shoulders", Landmark::Shoulders),
    ("shoulder", Landmark::Shoulder),
    ("ribs", Landmark::Ribs),
    ("head", Landmark::Head),
    ("knees", Landmark::Knees),
    ("knee", Landmark::Knees),
    ("ankles", Landmark::Ankles),
    ("ankle", Landmark::Ankles),
    ("toes", Landmark::Toes),
    ("foot", Landmark::Ankles),
    ("feet", Landmark::Ankles),
    ("hand", Landmark::Hand),
];
