//! Joints: which of them a muscle moves, so that a warm-up can be held against the work.
//! Never where a joint hurts; cautions do that.

use crate::library::{Movement, MuscleId};
use std::collections::BTreeSet;
use std::fmt;

/// A joint as a coach names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Joint {
    /// Shoulder and shoulder blade.
    Shoulder,
    /// Elbow.
    Elbow,
    /// Wrist and hand.
    Wrist,
    /// The spine from the hips to the neck.
    Trunk,
    /// Hip.
    Hip,
    /// Knee.
    Knee,
    /// Ankle.
    Ankle,
}

impl fmt::Display for Joint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Joint::Shoulder => "shoulder",
            Joint::Elbow => "elbow",
            Joint::Wrist => "wrist",
            Joint::Trunk => "trunk",
            Joint::Hip => "hip",
            Joint::Knee => "knee",
            Joint::Ankle => "ankle",
        })
    }
}

/// The joint that each muscle of the vocabulary chiefly moves: textbook anatomy, from memory.
/// Muscles that cross two joints stand here with the one they are trained for.
const MOVES: [(&str, Joint); 27] = [
    ("pectorals", Joint::Shoulder),
    ("front-deltoids", Joint::Shoulder),
    ("side-deltoids", Joint::Shoulder),
    ("rear-deltoids", Joint::Shoulder),
    ("lats", Joint::Shoulder),
    ("upper-trapezius", Joint::Shoulder),
    ("mid-trapezius", Joint::Shoulder),
    ("lower-trapezius", Joint::Shoulder),
    ("rhomboids", Joint::Shoulder),
    ("serratus", Joint::Shoulder),
    ("rotator-cuff", Joint::Shoulder),
    ("biceps", Joint::Elbow),
    ("triceps", Joint::Elbow),
    ("grip", Joint::Wrist),
    ("erectors", Joint::Trunk),
    ("abdominals", Joint::Trunk),
    ("obliques", Joint::Trunk),
    ("quadratus-lumborum", Joint::Trunk),
    ("glutes", Joint::Hip),
    ("adductors", Joint::Hip),
    ("hip-abductors", Joint::Hip),
    ("hip-flexors", Joint::Hip),
    ("hamstrings", Joint::Hip),
    ("hamstrings", Joint::Knee),
    ("quadriceps", Joint::Knee),
    ("calves", Joint::Ankle),
    ("shins", Joint::Ankle),
];

fn moved_by(muscle: &MuscleId) -> impl Iterator<Item = Joint> {
    MOVES.iter().filter(|(name, _)| *name == muscle.as_str()).map(|(_, joint)| *joint)
}

/// The joints that a movement works hard: those of its prime movers.
pub(super) fn worked(movement: &Movement) -> BTreeSet<Joint> {
    let prime = movement.muscles.prime.iter();
    // A muscle that moves two joints works hard at the one it is trained for.
    prime.filter_map(|muscle| moved_by(&muscle.value).next()).collect()
}

/// The joints that a movement moves at all: those of its helpers too.
pub(super) fn moved(movement: &Movement) -> BTreeSet<Joint> {
    let muscles = movement.muscles.prime.iter().chain(&movement.muscles.assist);
    muscles.flat_map(|muscle| moved_by(&muscle.value)).collect()
}
