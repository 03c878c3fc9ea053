//! Forearms that lie off upright while the elbows are bent and weight is on the hands.
//! Looks at hands that push down and at weights that hang from a bent-over body, never at straight
//! arms, which lean with the body, nor at hanging, pulling and steadying hands.

use crate::mechanics::conditions::{presses, tilt};
use crate::mechanics::joints::{LimbJoint, Side};
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::node::{PoseCode, PoseProblem};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::vec3;
use crate::mechanics::statics::support;
use crate::mechanics::words::contact::{Contact, Family};
use crate::mechanics::words::keypose::KeyPose;
use crate::mechanics::words::props::HeldAt;
use crate::mechanics::words::said::{Said, Slope, Word};

/// Further off upright than this is said, degrees. At 30 the hand's force passes the elbow at half
/// the length of the forearm (sin 30 = 1/2): the elbow holds half of what a forearm flat on the
/// floor would ask of it, and the eye takes the push for a rest on the forearms.
const FAR_OFF: f64 = 30.0;
/// Elbows bent less than this are straight arms, degrees.
const BENT: f64 = 30.0;
/// Hands that bear less than this share of the body only steady it (the model's shares are out by
/// five points or more).
const WEIGHT: f64 = 0.10;

/// What a forearm does with its weight.
#[derive(Clone, Copy, PartialEq)]
enum Bears {
    /// The hand pushes down on something.
    Push,
    /// The hand rows a weight up.
    Row,
}

/// Forearms far off upright, one problem a key pose: the worse side's.
pub fn forearms(figure: &SolvedFigure, index: usize, found: &mut Vec<PoseProblem>) {
    let (pose, said) = (&figure.poses[index], &figure.recipe.poses[index]);
    let bent = |side: &Side| pose.body.posture.degrees(*side, LimbJoint::Elbow) > BENT;
    let lying = Side::BOTH
        .into_iter()
        .filter(|side| bent(side) && !asked(*side, said))
        .filter_map(|side| under_weight(side, figure, index).map(|(bears, off)| (side, bears, off)))
        .filter(|(.., off)| *off > FAR_OFF)
        .max_by(|a, b| a.2.total_cmp(&b.2));
    let Some((side, bears, off)) = lying else { return };
    let (what, next) = match bears {
        Bears::Push => (
            "on the hands, the forearms stand",
            "set the hands further apart, or nearer the hips, such as `under shoulders -5`",
        ),
        Bears::Row => (
            "in the hand, the forearm stands",
            "say `forearm: vertical` and the elbow's angle instead of where the hand goes",
        ),
    };
    found.push(PoseProblem::new(
        PoseCode::ForearmOffUpright,
        word_at(side, pose, said),
        format!("With weight {what} {} degrees off upright.", off.round()),
        next,
    ));
}

/// How far the forearm of a side is from the direction it should bear its weight in, degrees.
fn under_weight(side: Side, figure: &SolvedFigure, index: usize) -> Option<(Bears, f64)> {
    let pose = &figure.poses[index];
    let pushing = pose.touches.iter().find(|(c, _)| c.side == Some(side) && presses(c));
    if let Some((contact, _)) = pushing {
        let touches: Vec<&Contact> = pose.touches.iter().map(|(c, _)| c).collect();
        let edge = tilt(&figure.recipe.poses[index], &touches, contact, pose.body.stature) > 0.0;
        let most = if edge { short_of_level(pose) } else { 0.0 };
        return bears(figure, pose).then(|| (Bears::Push, off(side, pose, most)));
    }
    let empty = !pose.touches.iter().any(|(c, _)| c.side == Some(side) && is_arm(c));
    (empty && hangs(side, figure, pose)).then(|| (Bears::Row, off(side, pose, 0.0)))
}

/// How far the trunk is from level, radians: on an edge, square to the body is as good as upright.
fn short_of_level(pose: &SolvedPose) -> f64 {
    let trunk = pose.body.mark(Mark::Shoulders) - pose.body.mark(Mark::Hips);
    trunk.y.atan2(trunk.x).clamp(0.0, std::f64::consts::FRAC_PI_2)
}

fn is_arm(contact: &Contact) -> bool {
    contact.part.family() == Family::Arm
}

fn bears(figure: &SolvedFigure, pose: &SolvedPose) -> bool {
    support(pose, figure).is_some_and(|s| s.share(pose, Family::Arm) >= WEIGHT * s.weight)
}

/// A weight hangs from this hand of a body bent over with its chest towards the floor: a row.
fn hangs(side: Side, figure: &SolvedFigure, pose: &SolvedPose) -> bool {
    let held = figure.recipe.held.as_ref().filter(|held| held.kilograms > 0.0);
    let in_hand = held.is_some_and(|held| match held.at {
        HeldAt::Hand(own) => own == side,
        HeldAt::EachHand | HeldAt::BothHands => true,
        HeldAt::OnHips | HeldAt::OnBack | HeldAt::AlongBack => false,
    });
    let hand = pose.body.limb(side, LimbMark::Grip).y;
    let under = hand < pose.body.limb(side, LimbMark::Shoulder).y;
    in_hand && under && pose.body.frame(Piece::Chest).front.y < -BENT_OVER
}

/// The chest looks down by 45 degrees or more.
const BENT_OVER: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// The angle, degrees, between a forearm and the nearest direction from upright to `most` radians
/// back from it.
fn off(side: Side, pose: &SolvedPose, most: f64) -> f64 {
    let forearm = pose.body.limb(side, LimbMark::Elbow) - pose.body.limb(side, LimbMark::Wrist);
    let (sin, cos) = (-forearm.x).atan2(forearm.y).clamp(0.0, most).sin_cos();
    forearm.unit().dot(vec3(-sin, cos, 0.0)).clamp(-1.0, 1.0).acos().to_degrees()
}

/// Whether the author says how this forearm stands.
fn asked(side: Side, said: &KeyPose) -> bool {
    let own = |s: &Said| s.side.is_none_or(|own| own == side);
    said.said.iter().any(|s| own(s) && matches!(s.word, Word::Slope(Slope::Forearm, _)))
}

/// The word to change: what this key pose says of the arm, else where the hand stands.
fn word_at(side: Side, pose: &SolvedPose, said: &KeyPose) -> usize {
    use LimbJoint::{ArmOut, ArmTurn, Elbow, Shoulder};
    let of_the_arm = |s: &&Said| {
        let arm = matches!(
            s.word,
            Word::HandsAt(..)
                | Word::Arms(_)
                | Word::Bend(ArmOut | ArmTurn | Elbow | Shoulder, _)
                | Word::Slope(Slope::UpperArm, _)
        );
        arm && s.side.is_none_or(|own| own == side)
    };
    let hand = |(c, _): &&(Contact, _)| c.side == Some(side) && is_arm(c);
    let placed = pose.touches.iter().find(hand).map(|(c, _)| c.at);
    said.said.iter().find(of_the_arm).map(|s| s.at).or(placed).unwrap_or(said.at)
}
