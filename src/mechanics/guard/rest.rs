//! Joints that the search left resting on the end of their range, though nobody asked for that.
//! Looks at the solved body only; angles that were said are `limits`'.

use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::node::{PoseCode, PoseProblem};
use crate::mechanics::skeleton::joint_range;
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::words::keypose::joint_word;
use crate::mechanics::words::said::{Said, Word};

/// Nearer to the end of the range than this counts as resting on it, degrees.
const NEAR: f64 = 0.5;
/// A suggested angle stays this far inside the range, degrees: strain ends well before the stop.
const EASED: f64 = 10.0;

/// A joint on its limit; on both sides when `side` is none and the joint is a limb's.
struct Resting {
    word: &'static str,
    side: Option<Side>,
    limb: bool,
    limit: f64,
}

impl Resting {
    fn phrase(&self) -> String {
        let Resting { word, limit, .. } = self;
        match (self.side, self.limb) {
            (Some(side), _) => {
                format!("the {} `{word}` rests on its limit of {limit} degrees", side.word())
            }
            (None, true) => format!("`{word}` rests on its limit of {limit} degrees on both sides"),
            (None, false) => format!("`{word}` rests on its limit of {limit} degrees"),
        }
    }

    /// What eases it, then the angle that the author may say.
    fn next(&self) -> String {
        let eased = self.limit - EASED * self.limit.signum();
        let block =
            self.side.map_or(String::new(), |side| format!(" in the {} block", side.word()));
        format!(
            "{}, or say the angle you want, such as `{}: {eased}`{block}",
            self.cause(),
            self.word
        )
    }

    /// What mostly drives this joint so far.
    fn cause(&self) -> &'static str {
        match self.word {
            "wrist" => {
                "put the hand where the forearm stands straight over it, or on a wall no lower than \
                 the shoulder"
            }
            "elbow" | "shoulder" | "arm-out" | "arm-turn" => {
                "move the hands further from the shoulders, or let the trunk lean"
            }
            "ankle" => "bring the shin nearer upright, or stand further from what is reached",
            "hip" | "knee" | "leg-out" | "leg-turn" => {
                "change how far apart or how high the feet stand, or let the trunk lean"
            }
            _ => "spread the bend: let the hips, the waist or the upper back take part of it",
        }
    }
}

/// Joints at the end of their range that the author has not asked for, one problem a key pose.
pub fn joints(figure: &SolvedFigure, index: usize, found: &mut Vec<PoseProblem>) {
    let pose = &figure.poses[index];
    let said = &figure.recipe.poses[index].said;
    let mut resting: Vec<Resting> = Vec::new();
    for joint in Joint::all().filter(|j| !j.is_place() && !asked(*j, said)) {
        if let Some(limit) = limit_met(joint, pose) {
            note(joint, limit, &mut resting);
        }
    }
    let Some(first) = resting.first() else { return };
    let phrases: Vec<String> = resting.iter().map(Resting::phrase).collect();
    let mut sentence = phrases.join(" and ");
    if !sentence.starts_with('`') {
        sentence = sentence.replacen("the", "The", 1);
    }
    found.push(PoseProblem::new(
        PoseCode::JointAtLimit,
        pose.at,
        format!("{sentence}; nothing here asks for that."),
        first.next(),
    ));
}

/// Add a joint; the same joint of the other side at the same limit is one thing to say.
fn note(joint: Joint, limit: f64, resting: &mut Vec<Resting>) {
    let Some(word) = joint_word(joint) else { return };
    let Joint::Limb(side, _) = joint else {
        resting.push(Resting { word, side: None, limb: false, limit });
        return;
    };
    match resting.iter_mut().find(|r| r.limb && r.word == word && r.limit == limit) {
        Some(other) => other.side = None,
        None => resting.push(Resting { word, side: Some(side), limb: true, limit }),
    }
}

/// The end of the range that a joint rests on, degrees. Straight knees and elbows carry a body
/// all day, and a palm on the floor turns the forearm all the way in: those ends are no strain.
fn limit_met(joint: Joint, pose: &SolvedPose) -> Option<f64> {
    let range = joint_range(joint);
    let degrees = pose.body.posture.get(joint).to_degrees();
    use LimbJoint::{Elbow, HandTurn, Knee};
    let easy = matches!(joint, Joint::Limb(_, Knee | Elbow | HandTurn));
    if degrees > range.to - NEAR {
        return Some(range.to);
    }
    (degrees < range.from + NEAR && !easy).then_some(range.from)
}

/// Whether the author named this joint's angle.
fn asked(joint: Joint, said: &[Said]) -> bool {
    let ours = |s: &Said, side: Side| s.side.is_none_or(|own| own == side);
    said.iter().any(|s| match (joint, s.word) {
        (Joint::Limb(side, limb), Word::Bend(named, _)) => limb == named && ours(s, side),
        (_, Word::Turn(named, _)) => named == joint,
        _ => false,
    })
}
