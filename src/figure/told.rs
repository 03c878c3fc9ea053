//! Told: the parts of a body and its kit in plain words, without a degree.
//! One clause a part; `telling` puts them in order and never asks twice.

use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::words::props::{HeldAt, Line, LineEnd};

/// What is held and what stands about.
pub fn kit(figure: &SolvedFigure) -> Vec<String> {
    let held = figure.recipe.held.as_ref().filter(|held| !held.is_nothing());
    let held = held.map(|held| {
        let at = match held.at {
            HeldAt::EachHand => "one in each hand",
            HeldAt::BothHands => "in both hands",
            HeldAt::Hand(Side::Near) => "in the near hand",
            HeldAt::Hand(Side::Far) => "in the far hand",
            HeldAt::OnHips => "on the hips",
            HeldAt::OnBack => "worn on the back",
            HeldAt::AlongBack => "held along the back",
        };
        format!("{} {at}", held.words())
    });
    let about = figure.recipe.scene.iter().map(|item| {
        let at = if item.ahead < 0.0 { "behind" } else { "ahead" };
        format!("a {} {at}", item.surface.word())
    });
    held.into_iter().chain(about).collect()
}

/// A band or a towel, from where to where.
pub fn band(line: &Line) -> String {
    let what = match (line.towel, line.is_pulley()) {
        (true, _) => "a towel",
        (false, true) => "a strap over a pulley",
        (false, false) => "a band",
    };
    let end = |to: LineEnd| end(to, line.is_pulley());
    format!("{what} from {} to {}", end(line.from), end(line.to))
}

fn end(end: LineEnd, pulley: bool) -> String {
    let own = |side: Option<Side>, one: &str, both: &str| match side {
        Some(side) => format!("the {} {one}", side.word()),
        None => format!("the {both}"),
    };
    match end {
        LineEnd::Hands(side) => own(side, "hand", "hands"),
        LineEnd::Feet(side) => own(side, "foot", "feet"),
        LineEnd::Knee(side) => own(Some(side), "knee", "knees"),
        LineEnd::Bar => "the bar".into(),
        LineEnd::Back => "round the back".into(),
        LineEnd::Anchor { height, ahead, aside, .. } => {
            let way = match (ahead.abs() >= aside.abs(), ahead > 0.0, aside > 0.0) {
                (true, true, _) => "ahead",
                (true, false, _) => "behind",
                (false, _, true) => "on the near side",
                (false, _, false) => "on the far side",
            };
            let what = if pulley { "a post" } else { "a door" };
            format!("{what} {way}, {} cm up", (100.0 * height).round())
        }
    }
}

/// How the trunk stands.
pub fn trunk(pose: &SolvedPose) -> &'static str {
    let up = pose.body.mark(Mark::Shoulders) - pose.body.mark(Mark::Hips);
    let lean = up.x.hypot(up.z).atan2(up.y).to_degrees();
    let front = pose.body.frame(Piece::Chest).front;
    let sideways = up.z.abs() > 2.0 * up.x.abs();
    match lean {
        l if l < 8.0 => "trunk upright",
        l if l > 150.0 => "trunk upside down",
        l if l > 55.0 && pose.body.frame(Piece::Pelvis).right.y.abs() > 0.7 => "trunk on its side",
        l if l > 102.0 && front.y > 0.5 => "facing up, hips higher than the shoulders",
        l if l > 102.0 => "trunk head down",
        l if l > 78.0 && front.y > 0.5 => "trunk level, facing up",
        l if l > 78.0 => "trunk level, facing down",
        l if sideways && l < 30.0 => "trunk leaning a little to the side",
        _ if sideways => "trunk leaning far to the side",
        l if up.x < 0.0 && l < 30.0 => "trunk leaning a little back",
        _ if up.x < 0.0 => "trunk leaning far back",
        l if l < 30.0 => "trunk leaning a little forward",
        l if l < 55.0 => "trunk leaning forward",
        _ => "trunk leaning far forward",
    }
}

/// A back that is not straight, a chest that is turned, a head that looks aside.
pub fn spine(pose: &SolvedPose) -> Vec<&'static str> {
    let angle = |joint| pose.body.posture.get(joint).to_degrees();
    let mut out = Vec::new();
    match angle(Joint::Waist) + angle(Joint::UpperBack) {
        bend if bend > 15.0 => out.push("back rounded"),
        bend if bend < -12.0 => out.push("back arched"),
        _ => {}
    }
    match angle(Joint::Twist) {
        turn if turn > 12.0 => out.push("chest turned to the near side"),
        turn if turn < -12.0 => out.push("chest turned to the far side"),
        _ => {}
    }
    match angle(Joint::HeadTurn) {
        turn if turn > 15.0 => out.push("head turned to the near side"),
        turn if turn < -15.0 => out.push("head turned to the far side"),
        _ => {}
    }
    out
}

/// Where the hands are and how the elbows are bent; both arms in one clause where they do the same.
pub fn arms(pose: &SolvedPose) -> Vec<String> {
    let told = |side| {
        let bend = bend(pose.body.posture.degrees(side, LimbJoint::Elbow));
        format!("{} {}", bend, hand(pose, side))
    };
    sides("arm", "arms", Side::BOTH.map(told))
}

/// Where a hand is, by the body's own landmarks.
fn hand(pose: &SolvedPose, side: Side) -> &'static str {
    let chest = pose.body.frame(Piece::Chest);
    let from = pose.body.limb(side, LimbMark::Grip) - pose.body.limb(side, LimbMark::Shoulder);
    let h = pose.body.stature;
    let (ahead, up) = (from.dot(chest.front) / h, from.dot(chest.up) / h);
    let out = side.sign() * from.dot(chest.right) / h;
    match () {
        () if up > 0.22 => "past the head",
        () if out > 0.24 => "out to the side",
        () if ahead > 0.26 => "in front of the chest",
        () if up > -0.16 && ahead > 0.02 => "with the hand at the chest",
        () if ahead < -0.08 => "behind the body",
        () if ahead > 0.10 => "in front of the belly",
        () => "beside the body",
    }
}

/// How hips and knees are bent; both legs in one clause where they do the same.
pub fn legs(pose: &SolvedPose) -> Vec<String> {
    let told = |joint| move |side| bend(pose.body.posture.degrees(side, joint)).to_string();
    let hips = sides("hip", "hips", Side::BOTH.map(told(LimbJoint::Hip)));
    let knees = sides("knee", "knees", Side::BOTH.map(told(LimbJoint::Knee)));
    hips.into_iter().chain(knees).collect()
}

fn sides(one: &str, both: &str, [near, far]: [String; 2]) -> Vec<String> {
    if near == far {
        return vec![format!("{both} {near}")];
    }
    vec![format!("near {one} {near}"), format!("far {one} {far}")]
}

/// A bend in words.
fn bend(degrees: f64) -> &'static str {
    match degrees {
        d if d < -8.0 => "taken back",
        d if d < 18.0 => "straight",
        d if d < 45.0 => "slightly bent",
        d if d < 78.0 => "bent",
        d if d < 103.0 => "bent to a right angle",
        _ => "bent past a right angle",
    }
}
