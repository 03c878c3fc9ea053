//! Telling: a figure in words, written from the solved pose.
//! The alternative text of a picture: what touches what, how the body stands, what moves. It
//! never says more than was solved.

use crate::mechanics::joints::{LimbJoint, Side};
use crate::mechanics::marks::Mark;
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::words::contact::{Contact, Part, Surface};
use crate::mechanics::words::recipe::View;

/// The whole figure in a few sentences.
pub fn telling(figure: &SolvedFigure) -> String {
    let mut out = vec![seen_from(figure)];
    let many = figure.poses.len();
    let mut before: Option<Vec<String>> = None;
    for (i, pose) in figure.poses.iter().enumerate() {
        let name = match (i, many) {
            (0, 1) => "Held",
            (0, _) => "Start",
            (i, n) if i + 1 == n && figure.recipe.pause => "End, held still",
            (i, n) if i + 1 == n => "End",
            _ => "Then",
        };
        let facts = facts(pose);
        let fresh: Vec<String> = match &before {
            Some(old) => facts.iter().filter(|f| !old.contains(f)).cloned().collect(),
            None => facts.clone(),
        };
        let said = if fresh.is_empty() { vec!["much the same".to_string()] } else { fresh };
        out.push(format!("{name}: {}.", said.join(", ")));
        before = Some(facts);
    }
    out.join(" ")
}

fn seen_from(figure: &SolvedFigure) -> String {
    let view = match figure.recipe.view {
        View::Side => "Seen from the side",
        View::Front => "Seen from the front",
        View::Back => "Seen from behind",
        View::Corner | View::FrontCorner => "Seen from the front corner",
        View::HighCorner => "Seen from the front corner, from above",
    };
    match figure.recipe.held.as_ref().filter(|held| !held.is_nothing()) {
        Some(held) => format!("{view}, with {}.", held.words()),
        None => format!("{view}."),
    }
}

fn facts(pose: &SolvedPose) -> Vec<String> {
    let mut out = contacts(pose);
    out.push(trunk(pose));
    out.extend(bends(pose, LimbJoint::Hip, "hip", 25.0));
    out.extend(bends(pose, LimbJoint::Knee, "knee", 18.0));
    out.extend(bends(pose, LimbJoint::Elbow, "elbow", 22.0));
    out
}

fn contacts(pose: &SolvedPose) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for (contact, _) in &pose.touches {
        let both = contact.side.is_none() || pair(pose, contact);
        if both && contact.side == Some(Side::Far) {
            continue;
        }
        let who = match (both, contact.side) {
            (false, Some(side)) => format!("{} {}", side.word(), contact.part.word(false)),
            _ => contact.part.word(true).to_string(),
        };
        out.push(format!("{who} {}", place(contact)));
    }
    out
}

fn pair(pose: &SolvedPose, contact: &Contact) -> bool {
    let twin = |c: &Contact| {
        c.side != contact.side
            && c.part == contact.part
            && c.surface == contact.surface
            && c.height == contact.height
    };
    pose.touches.iter().any(|(c, _)| twin(c))
}

fn place(contact: &Contact) -> String {
    let cm = contact.height.map_or(0.0, |h| (100.0 * h).round());
    match contact.surface {
        Surface::Floor => "on the floor".into(),
        Surface::Wall if contact.part == Part::Hand => "on the wall".into(),
        Surface::Wall => "against the wall".into(),
        Surface::Straps => "in straps".into(),
        Surface::Rings => "in rings".into(),
        Surface::Bar => format!("on a bar at {cm} cm"),
        Surface::ParallelBars => format!("on parallel bars at {cm} cm"),
        Surface::Air => format!("{cm} cm in the air"),
        Surface::Slider => "on sliders".into(),
        Surface::Mat => "on a mat".into(),
        other if other.is_block() && cm < 1.0 => "on the floor".into(),
        Surface::Stairs => format!("on stairs at {cm} cm"),
        other => format!("on a {} of {cm} cm", other.word()),
    }
}

fn trunk(pose: &SolvedPose) -> String {
    let up = pose.body.mark(Mark::Shoulders) - pose.body.mark(Mark::Hips);
    let lean = up.x.hypot(up.z).atan2(up.y).to_degrees();
    let forward = up.x >= 0.0;
    let front = pose.body.frame(crate::mechanics::marks::Piece::Chest).front;
    let side = pose.body.frame(crate::mechanics::marks::Piece::Pelvis).right;
    match lean {
        l if l < 8.0 => "trunk upright".into(),
        l if l > 150.0 => "trunk upside down".into(),
        l if l > 78.0 && l < 102.0 && side.y.abs() > 0.8 => "lying on the side".into(),
        l if l > 78.0 && l < 102.0 && front.y > 0.5 => "trunk level, facing up".into(),
        l if l > 78.0 && l < 102.0 && front.y < -0.5 => "trunk level, facing down".into(),
        l if front.x.abs() < 0.3 && front.y.abs() < 0.3 => {
            format!("trunk turned {} degrees from upright", five(l))
        }
        l if up.z.abs() > 2.0 * up.x.abs() => {
            format!("trunk leaning {} degrees to the side", five(l))
        }
        l if forward => format!("trunk leaning {} degrees forward", five(l)),
        l => format!("trunk leaning {} degrees back", five(l)),
    }
}

fn five(degrees: f64) -> f64 {
    (degrees / 5.0).round() * 5.0
}

fn bends(pose: &SolvedPose, joint: LimbJoint, word: &str, from: f64) -> Vec<String> {
    let angle = |side| pose.body.posture.degrees(side, joint);
    let say = |degrees: f64| {
        if degrees < from {
            "straight".to_string()
        } else {
            format!("bent {} degrees", five(degrees))
        }
    };
    let (near, far) = (angle(Side::Near), angle(Side::Far));
    if (near - far).abs() < 12.0 {
        return vec![format!("{word}s {}", say((near + far) / 2.0))];
    }
    vec![format!("near {word} {}", say(near)), format!("far {word} {}", say(far))]
}
