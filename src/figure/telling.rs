//! Telling: a figure in words, written from the solved pose.
//! The alternative text of a picture: what touches what, how the body stands, what moves. It
//! never says more than was solved.

use crate::mechanics::joints::{LimbJoint, Side};
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::{Vec3, vec3};
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
        let said = match i.checked_sub(1).filter(|_| fresh.is_empty()) {
            Some(earlier) => vec![moved(&figure.poses[earlier], pose)],
            None => fresh,
        };
        out.push(format!("{name}: {}.", said.join(", ")));
        before = Some(facts);
    }
    out.join(" ")
}

/// Where no contact and no bend changes: what moves furthest, which way, and how far.
fn moved(from: &SolvedPose, to: &SolvedPose) -> String {
    let way = |mark: Mark| to.body.mark(mark) - from.body.mark(mark);
    let [near, far] = Side::BOTH.map(|side| way(LimbMark::Grip.of(side)));
    let alike = |a: Vec3, b: Vec3| (a - b).length() < 0.3 * near.length().max(far.length());
    let apart = ["further apart", "closer together"];
    let aside = ["towards the near side", "towards the far side"];
    let mut ways =
        vec![("hips", way(Mark::Hips), aside), ("shoulders", way(Mark::Shoulders), aside)];
    if alike(near, far) {
        ways.push(("hands", near.towards(far, 0.5), aside));
    } else if alike(near, vec3(far.x, far.y, -far.z)) {
        ways.push(("hands", vec3(near.x, near.y, near.z - far.z), apart));
    } else {
        ways.extend([("near hand", near, aside), ("far hand", far, aside)]);
    }
    let furthest = ways.into_iter().max_by(|a, b| a.1.length().total_cmp(&b.1.length()));
    match furthest.filter(|(_, way, _)| way.length() >= 0.02) {
        Some((what, way, sideways)) => format!("{what} {}", by(way, sideways)),
        None => "much the same".into(),
    }
}

/// The largest part of a way, in words.
fn by(way: Vec3, sideways: [&str; 2]) -> String {
    let parts = [
        (way.y, ["higher", "lower"]),
        (way.x, ["further forward", "further back"]),
        (way.z, sideways),
    ];
    let first = parts[0];
    let (along, words) =
        parts.into_iter().fold(first, |a, b| if b.0.abs() > a.0.abs() { b } else { a });
    let word = if along > 0.0 { words[0] } else { words[1] };
    format!("{} cm {word}", (100.0 * along.abs()).round())
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
