//! Balance: would the figure fall, and could anybody give the forces it needs?
//! Static, never about speed; a pose in full swing says `balance: free` and is left alone.

use crate::mechanics::joints::Side;
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::mass::centre_of_mass;
use crate::mechanics::node::{PoseCode, PoseProblem};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::statics::{Refused, support};
use crate::mechanics::words::contact::{Contact, Family, Part, Surface};
use crate::mechanics::words::said::Over;

/// The centre of mass may lie this far outside the contacts, metres: feet spread, hands press.
const SLACK: f64 = 0.02;

/// Falling over, hanging from nothing, forces nobody gives.
pub fn balance(figure: &SolvedFigure, index: usize, found: &mut Vec<PoseProblem>) {
    let pose = &figure.poses[index];
    if pose.touches.is_empty() {
        found.push(PoseProblem::new(
            PoseCode::NoContact,
            pose.at,
            "Nothing touches anything in this key pose.",
            "say what rests where, such as `feet: floor`, or `toes: air 20` in a jump",
        ));
        return;
    }
    let on = |s: Surface| pose.touches.iter().any(|(c, _)| c.surface == s);
    if pose.balance == Some(Over::Nothing) || on(Surface::Air) {
        return;
    }
    if let Some(problem) = falling(pose, figure).or_else(|| hopeless(pose, figure)) {
        found.push(problem);
    }
}

fn falling(pose: &SolvedPose, figure: &SolvedFigure) -> Option<PoseProblem> {
    let feet = pose.touches.iter().any(|(c, _)| c.part.family() == Family::Leg);
    // A wall, a rope, or a bar held with the feet down keeps a body from falling.
    let held = |c: &Contact| {
        c.surface == Surface::Wall || c.surface.is_rope() || (feet && c.surface == Surface::Bar)
    };
    if pose.touches.iter().any(|(c, _)| held(c)) {
        return None;
    }
    let level = figure.plane().level();
    let edges: Vec<f64> =
        pose.touches.iter().flat_map(|(c, at)| edges(c, at.along(level), pose, figure)).collect();
    let low = edges.iter().copied().fold(f64::INFINITY, f64::min);
    let high = edges.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let centre = centre_of_mass(&figure.lumps, &pose.body).1.along(level);
    let over = (centre - high).max(low - centre);
    if over <= SLACK {
        return None;
    }
    let way = match (figure.plane(), centre > high) {
        (crate::mechanics::space::Plane::Front, _) => "sideways",
        (_, true) => "forwards",
        (_, false) => "backwards",
    };
    Some(PoseProblem::new(
        PoseCode::OffBalance,
        pose.at,
        format!(
            "The figure would fall {way}: its weight is {} cm outside what carries it.",
            (100.0 * over).round()
        ),
        "add `balance: feet`, lean the trunk the other way, or write `balance: free` for a pose in full swing",
    ))
}

/// How far a contact reaches along the level line, metres.
fn edges(contact: &Contact, at: f64, pose: &SolvedPose, figure: &SolvedFigure) -> Vec<f64> {
    let level = figure.plane().level();
    let side = contact.side.unwrap_or(Side::Near);
    let mark = |m: LimbMark| pose.body.limb(side, m).along(level);
    match contact.part {
        Part::Foot if level == crate::mechanics::space::Axis::Forward => {
            vec![mark(LimbMark::Heel), mark(LimbMark::Tip)]
        }
        Part::Foot => vec![at - 0.05, at + 0.05],
        Part::Knee => vec![at - 0.05, at + 0.05, mark(LimbMark::Ankle)],
        // A trunk laid back rests on the lower back too.
        Part::Seat if pose.body.mark(Mark::Waist).y < 0.09 * pose.body.stature => {
            vec![pose.body.mark(Mark::Waist).along(level), at + 0.14]
        }
        Part::Seat => vec![at - 0.12, at + 0.14],
        Part::Back | Part::Chest => vec![at - 0.14, at + 0.14],
        Part::Forearm => vec![mark(LimbMark::Elbow), mark(LimbMark::Wrist)],
        Part::Hand if contact.surface == Surface::Bar => vec![at - 0.12, at + 0.12],
        _ => vec![at - 0.05, at + 0.05],
    }
}

/// Near upright the feet carry everything: the hands have nothing to pull, and the moments about
/// the feet that would give their share shrink to nothing.
fn over_the_feet(pose: &SolvedPose, centre: f64) -> bool {
    let feet = pose.touches.iter().filter(|(c, _)| c.part.family() == Family::Leg);
    let reach = feet
        .filter_map(|(c, _)| c.side)
        .flat_map(|side| [LimbMark::Heel, LimbMark::Tip].map(|mark| pose.body.limb(side, mark).x));
    let (low, high) =
        reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)));
    (low - SLACK..=high + SLACK).contains(&centre)
}

/// Contacts only push, unless they grip or hang, and nothing bears far more than the body weighs.
fn hopeless(pose: &SolvedPose, figure: &SolvedFigure) -> Option<PoseProblem> {
    let s = support(pose, figure)?;
    let arms = pose.touches.iter().any(|(c, _)| bears(c, true));
    let legs = pose.touches.iter().any(|(c, _)| bears(c, false));
    // A bar or a table beside a body that is balanced by itself only steadies it.
    let steadies = pose.balance.is_some();
    if !arms || !legs || steadies || over_the_feet(pose, s.centre.along(figure.plane().level())) {
        return None;
    }
    let sentence = match s.refused? {
        Refused::Pulls(part) => format!("The {} would have to be pulled down.", part.word(true)),
        Refused::TooMuch(part) => {
            let share = s.pull(pose, part.family()) / s.weight;
            let share = (100.0 * share).round();
            format!("The {} would have to bear {share} % of the body's weight.", part.word(true))
        }
        Refused::Falls | Refused::TooMany | Refused::TooFar => return None,
    };
    Some(PoseProblem::new(
        PoseCode::NotPlausible,
        pose.at,
        sentence,
        "move hands and feet further apart, or say what the body is balanced over",
    ))
}

fn bears(contact: &Contact, arm: bool) -> bool {
    contact.surface != Surface::Air && (contact.part.family() == Family::Arm) == arm
}
