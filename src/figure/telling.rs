//! Telling: a figure in words, written from the solved pose.
//! The alternative text of a picture: the standard, the kit, what touches what, how the body stands,
//! what moves; degrees last. It never says more than was solved, nor less than is drawn.

use super::told::{arms, band, kit, legs, spine, trunk};
use crate::mechanics::joints::{LimbJoint, Side};
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::{Vec3, vec3};
use crate::mechanics::words::contact::{Contact, Part, Surface};
use crate::mechanics::words::recipe::View;

/// What a picture is called, and what counts in it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Caption<'a> {
    /// The movement's name.
    pub name: &'a str,
    /// Its standard, for who does not see the picture; empty where there is none.
    pub standard: &'a str,
}

impl<'a> From<&'a str> for Caption<'a> {
    fn from(name: &'a str) -> Caption<'a> {
        Caption { name, standard: "" }
    }
}

/// The whole figure in a few sentences, degrees last.
pub fn telling(figure: &SolvedFigure, standard: &str) -> String {
    format!("{} {}", in_plain_words(figure, standard), degrees(figure))
}

/// The same without degrees, for cards.
pub fn in_plain_words(figure: &SolvedFigure, standard: &str) -> String {
    let mut out = Vec::new();
    if !standard.is_empty() {
        out.push(format!("{}.", standard.trim_end_matches('.')));
    }
    out.push(seen_from(figure));
    let mut before: Option<(&SolvedPose, Vec<String>)> = None;
    for (i, pose) in figure.poses.iter().enumerate() {
        let facts = facts(pose);
        let said = match &before {
            Some((earlier, old)) => {
                let fresh = facts.iter().filter(|f| !old.contains(f)).cloned();
                moved(earlier, pose).into_iter().chain(fresh).collect()
            }
            None => facts.clone(),
        };
        let said = if said.is_empty() { "much the same".to_string() } else { said.join(", ") };
        out.push(format!("{}: {said}.", named(figure, i)));
        before = Some((pose, facts));
    }
    out.join(" ")
}

fn named(figure: &SolvedFigure, i: usize) -> &'static str {
    match (i, figure.poses.len()) {
        (0, 1) => "Held",
        (0, _) => "Start",
        (i, n) if i + 1 == n && figure.recipe.pause => "End, held still",
        (i, n) if i + 1 == n => "End",
        _ => "Then",
    }
}

/// What moves furthest, which way, and how far.
pub(super) fn moved(from: &SolvedPose, to: &SolvedPose) -> Option<String> {
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
    let (what, way, sideways) = furthest.filter(|(_, way, _)| way.length() >= 0.02)?;
    Some(format!("{what} {}", by(way, sideways)))
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
        View::Corner | View::WideCorner | View::FrontCorner => "Seen from the front corner",
        View::HighCorner => "Seen from the front corner, from above",
        View::HighSide => "Seen from the side, from above",
    };
    let with: Vec<String> =
        kit(figure).into_iter().chain(figure.recipe.lines.iter().map(band)).collect();
    if with.is_empty() { format!("{view}.") } else { format!("{view}, with {}.", with.join(", ")) }
}

fn facts(pose: &SolvedPose) -> Vec<String> {
    let mut out = contacts(pose);
    out.push(trunk(pose).to_string());
    out.extend(spine(pose).into_iter().map(str::to_string));
    out.extend(arms(pose));
    out.extend(legs(pose));
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

/// The angles of every key pose, for who wants to set it up to the degree.
fn degrees(figure: &SolvedFigure) -> String {
    let joints =
        [(LimbJoint::Hip, "hips"), (LimbJoint::Knee, "knees"), (LimbJoint::Elbow, "elbows")];
    let told = |pose: &SolvedPose| {
        let up = pose.body.mark(Mark::Shoulders) - pose.body.mark(Mark::Hips);
        let lean = five(up.x.hypot(up.z).atan2(up.y).to_degrees());
        let bends = joints.map(|(joint, word)| {
            let [near, far] = Side::BOTH.map(|side| five(pose.body.posture.degrees(side, joint)));
            if near == far { format!("{word} {near}") } else { format!("{word} {near} and {far}") }
        });
        format!("trunk {lean} from upright, {}", bends.join(", "))
    };
    let all: Vec<String> = figure.poses.iter().map(told).collect();
    format!("In degrees: {}.", all.join("; then "))
}

fn five(degrees: f64) -> f64 {
    // Never minus nought.
    (degrees / 5.0).round() * 5.0 + 0.0
}
