//! Stated angles against how far joints go (`facts/joint_rom.csv`, by way of `skeleton`).
//! Looks at words, not at the solved body: the solver never passes a limit.

use crate::mechanics::joints::{Joint, LimbJoint};
use crate::mechanics::node::{PoseCode, PoseProblem};
use crate::mechanics::skeleton::{Range, joint_range, limb_range};
use crate::mechanics::solve::SolvedFigure;
use crate::mechanics::words::said::{Said, Word};

/// Angles beyond the joint, and joints bent the way they do not go.
pub fn stated_angles(figure: &SolvedFigure, index: usize, found: &mut Vec<PoseProblem>) {
    for said in &figure.recipe.poses[index].said {
        let (range, degrees, hinge) = match said.word {
            Word::Bend(limb, degrees) => {
                (limb_range(limb), degrees, matches!(limb, LimbJoint::Knee | LimbJoint::Elbow))
            }
            Word::Turn(joint, degrees)
                if !matches!(joint, Joint::Pitch | Joint::Roll | Joint::Yaw) =>
            {
                (joint_range(joint), degrees, false)
            }
            _ => continue,
        };
        if (range.from - 0.5..=range.to + 0.5).contains(&degrees) {
            continue;
        }
        found.push(if hinge && degrees < 0.0 && -degrees <= range.to {
            bent_backwards(said, degrees)
        } else {
            too_far(said, range, degrees)
        });
    }
}

fn bent_backwards(said: &Said, degrees: f64) -> PoseProblem {
    PoseProblem::new(
        PoseCode::Mirrored,
        said.at,
        format!("`{}` bends the joint the wrong way.", said.written),
        format!(
            "write {} without the minus: bending counts up from 0, which is straight",
            -degrees
        ),
    )
}

fn too_far(said: &Said, range: Range, degrees: f64) -> PoseProblem {
    let (word, limit) =
        if degrees > range.to { ("at most", range.to) } else { ("at least", range.from) };
    PoseProblem::new(
        PoseCode::JointLimit,
        said.at,
        format!(
            "`{}` is further than this joint goes ({} to {} degrees).",
            said.written, range.from, range.to
        ),
        format!("write {word} {limit}"),
    )
}
