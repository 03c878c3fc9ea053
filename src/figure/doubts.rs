//! Doubts: what the eye would not read in a drawing, measured on paper.
//! Only judges; it never turns the camera nor moves a limb.

use super::arrow;
use super::camera::Camera;
use super::frame::kit_rounds;
use super::kit::BAR_HALF;
use super::strung;
use crate::mechanics::joints::{LimbJoint, Side};
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::Vec3;
use crate::mechanics::words::contact::{Contact, Part, Surface};
use crate::mechanics::words::props::{Held, HeldAt, Item};

/// What is hard to see, in which key pose, with a next step.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubt {
    /// Byte offset of the key pose.
    pub at: usize,
    /// The sentence, without its full stop.
    pub sentence: String,
    /// One next step.
    pub next: &'static str,
}

/// A limb drawn at less than this part of its length points at the reader.
const SHORT: f64 = 0.5;
/// A limb bent by more than this shows by its parts, degrees.
const BENT: f64 = 45.0;

/// A band shorter than this is a loop about both ankles, metres.
const LOOP: f64 = 0.30;

/// Straight limbs, and bands, that point at the reader.
pub fn foreshortened(figure: &SolvedFigure) -> Vec<Doubt> {
    let camera = Camera::on(figure);
    let mut doubts = Vec::new();
    for pose in &figure.poses {
        let long = |(_, from, to): &(&str, Vec3, Vec3)| (*to - *from).length() > LOOP;
        let bands = strung::spans(pose, figure).into_iter().filter(long);
        let worst = Side::BOTH
            .into_iter()
            .flat_map(|side| limbs(pose, side))
            .filter(|(_, from, to)| !stays(figure, (*from, *to)))
            .chain(bands.map(|(word, from, to)| (word.to_string(), from, to)))
            .map(|(word, from, to)| (word, seen(&camera, from, to)))
            .min_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((word, share)) = worst.filter(|(_, share)| *share < SHORT) {
            doubts.push(Doubt {
                at: pose.at,
                sentence: format!("the {word} points at the reader: {:.0} % of it is seen", 100.0 * share),
                next: "choose a view from which it is seen from its side, such as `front` or `side`",
            });
        }
    }
    doubts
}

/// The straight limbs of a side, from joint to end.
fn limbs(pose: &SolvedPose, side: Side) -> Vec<(String, Vec3, Vec3)> {
    let at = |mark| pose.body.limb(side, mark);
    let straight = |joint| pose.body.posture.degrees(side, joint) < BENT;
    let arm = (straight(LimbJoint::Elbow), "arm", at(LimbMark::Shoulder), at(LimbMark::Wrist));
    let leg = (straight(LimbJoint::Knee), "leg", at(LimbMark::Hip), at(LimbMark::Ankle));
    let named = |(_, word, from, to)| (format!("{} {word}", side.word()), from, to);
    [arm, leg].into_iter().filter(|(straight, ..)| *straight).map(named).collect()
}

/// Whether a limb of a figure that moves lies on the floor and stays there: nothing is to be seen of it.
fn stays(figure: &SolvedFigure, (from, to): (Vec3, Vec3)) -> bool {
    const LIES: f64 = 0.16;
    const STAYS: f64 = 0.02;
    let still = |at: Vec3| {
        let near = |own: &Vec3| (*own - at).length() < STAYS;
        figure.poses.iter().all(|pose| pose.body.places().iter().any(near))
    };
    figure.poses.len() > 1 && [from, to].into_iter().all(|at| at.y < LIES && still(at))
}

/// Which part of a length is seen.
fn seen(camera: &Camera, from: Vec3, to: Vec3) -> f64 {
    camera.aim(to - from).length() / (100.0 * (to - from).length()).max(1e-9)
}

/// The face, from the middle of the head: how far ahead and how far down, and its radius, as parts
/// of stature.
const FACE: (f64, f64, f64) = (0.030, -0.014, 0.030);

/// A hand, a weight or a bar across the face.
pub fn across_the_face(figure: &SolvedFigure) -> Vec<Doubt> {
    let camera = Camera::on(figure);
    let mut doubts = Vec::new();
    for pose in &figure.poses {
        let head = pose.body.frame(Piece::Head);
        let face = pose.body.mark(Mark::Head) + head.carry(FACE.0, FACE.1, 0.0) * pose.body.stature;
        // From behind there is no face to hide.
        if camera.depth(head.front) < -0.3 {
            continue;
        }
        let throat = pose.body.mark(Mark::Neck);
        let near = 50.0 * FACE.2 * pose.body.stature;
        let covers = |(word, at, r): &(&str, Vec3, f64)| {
            let over = |what: Vec3| {
                camera.depth(*at) > camera.depth(what)
                    && camera.see(*at).to(camera.see(what)).length() < near + r
            };
            // A bar across the throat reads as a bar through it.
            over(face) || (*word == "bar" && over(throat))
        };
        let bands = strung::spans(pose, figure).into_iter().flat_map(|(word, from, to)| {
            (0..=24).map(move |i| (word, from.towards(to, f64::from(i) / 24.0), 0.5))
        });
        // Hands at the face hold the band there: the hand is what covers it.
        if let Some((word, ..)) = before_it(pose, figure).into_iter().chain(bands).find(covers) {
            doubts.push(Doubt {
                at: pose.at,
                sentence: format!("the {word} is drawn across face or throat"),
                next: "choose another view, such as `back` for a bar, or move the hands",
            });
        }
    }
    doubts
}

/// What could hide a face: its word, its place, its radius in centimetres.
fn before_it(pose: &SolvedPose, figure: &SolvedFigure) -> Vec<(&'static str, Vec3, f64)> {
    let mut all = Vec::new();
    for side in Side::BOTH {
        let grip = pose.body.limb(side, LimbMark::Grip);
        all.push(("hand", grip, 2.5));
        if figure.recipe.held.as_ref().is_some_and(|held| in_hand(held, side)) {
            all.push(("weight", grip, 6.0));
        }
    }
    for (contact, at) in pose.touches.iter().filter(|(c, _)| c.surface == Surface::Bar) {
        let level = |z: f64| Vec3 { y: contact.height.unwrap_or(at.y), z, ..*at };
        all.extend((-12..=12).map(|i| ("bar", level(0.05 * f64::from(i)), 1.0)));
    }
    all
}

fn in_hand(held: &Held, side: Side) -> bool {
    !held.is_nothing()
        && match held.at {
            HeldAt::EachHand => true,
            HeldAt::Hand(own) => own == side,
            HeldAt::BothHands | HeldAt::OnHips | HeldAt::OnBack | HeldAt::AlongBack => false,
        }
}

/// Hands further apart than this do not hold one thing, metres.
const ONE_THING: f64 = 0.24;
/// A bag is wider, metres.
const BAG: f64 = 0.42;
/// A hand further from a stick than this does not hold it, metres: the width of a hand.
const BESIDE: f64 = 0.10;

/// Kit that nothing holds: a weight between hands apart, a stick beside the hand, a hand past the
/// end of a bar.
pub fn floating(figure: &SolvedFigure) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    let mut say = |at: usize, sentence: String, next: &'static str| {
        doubts.push(Doubt { at, sentence, next });
    };
    let held = figure.recipe.held.as_ref().filter(|held| !held.is_nothing());
    for pose in &figure.poses {
        let [near, far] = Side::BOTH.map(|side| pose.body.limb(side, LimbMark::Grip));
        let apart = (near - far).length();
        if let Some(held) = held.filter(|held| held.at == HeldAt::BothHands) {
            let most = if held.item == Item::Backpack { BAG } else { ONE_THING };
            if held.item != Item::Stick && apart > most {
                let far = (100.0 * apart).round();
                say(
                    pose.at,
                    format!("{} floats between hands {far} cm apart", held.words()),
                    "bring the hands together, such as `arms: goblet` or `arm-out: -10`",
                );
            }
        }
        let along = held.is_some_and(|held| held.at == HeldAt::AlongBack);
        let off = off_the_stick(pose).filter(|off| along && *off > BESIDE);
        if let Some(off) = off {
            say(
                pose.at,
                format!("the stick floats: a hand is {} cm beside it", (100.0 * off).round()),
                "bend that arm until its hand meets the stick",
            );
        }
        let past = |(c, at): &(Contact, Vec3)| {
            c.surface == Surface::Bar && c.part == Part::Hand && at.z.abs() > BAR_HALF
        };
        if pose.touches.iter().any(past) {
            say(pose.at, "a hand is past the end of the bar".into(), "bring the hands closer");
        }
    }
    doubts
}

/// How far the hand that is furthest from a stick along the back is from it, metres.
fn off_the_stick(pose: &SolvedPose) -> Option<f64> {
    let (low, high) = super::held::along_back(&pose.body);
    let way = (high - low).unit();
    let off = |side| {
        let from = pose.body.limb(side, LimbMark::Grip) - low;
        (from - way * from.dot(way)).length()
    };
    Side::BOTH.map(off).into_iter().reduce(f64::max)
}

/// An arrow further than this from what it speaks of, centimetres: the length of a hand.
const HAND: f64 = 19.0;

/// An arrow far from what moves.
pub fn stray_arrow(figure: &SolvedFigure) -> Vec<Doubt> {
    let camera = Camera::on(figure);
    let blocks = kit_rounds(&pieces(figure), &camera);
    let mut doubts = Vec::new();
    for pair in figure.poses.windows(2) {
        let ways = (&pair[0].body, &pair[1].body);
        let far = arrow::beside(&figure.recipe.arrow, ways, &camera, &blocks);
        if let Some(far) = far.filter(|far| *far > HAND) {
            doubts.push(Doubt {
                at: pair[0].at,
                sentence: format!("the arrow stands {} cm from what moves", far.round()),
                next: "say what it follows, such as `arrow: hips`, or choose another view",
            });
        }
    }
    doubts
}
