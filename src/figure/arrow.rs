//! The arrow of movement: what moves most, which way, where there is room for it.
//! One arrow a key pose; it never lies across the body if it can stand beside it.

use super::camera::{Camera, Spot, spot};
use super::clear::{Room, Way, place, samples};
use super::outline::{Round, line, round};
use super::paper::{Ink, Paper};
use super::pen::Pen;
use crate::mechanics::joints::{LimbJoint, Side};
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::space::Vec3;
use crate::mechanics::words::recipe::{Arrow, View};

/// Shortest and longest arrow, centimetres.
const LENGTH: (f64, f64) = (20.0, 46.0);

/// Draw the arrow from one key pose to the next, clear of `blocks` (kit, as circles).
pub fn draw(arrow: &Arrow, from: &Body, to: &Body, camera: &Camera, blocks: &[Round]) -> Paper {
    let mut paper = Paper::default();
    let near = placed(arrow, (from, to), camera, blocks);
    // From before or behind the two sides do the same in opposite ways.
    let far = other_side(arrow, (from, to), camera)
        .and_then(|mark| placed_of(mark, false, (from, to), camera, blocks));
    for (way, _) in near.into_iter().chain(far) {
        paper.lay(inked(way, Head::Point));
    }
    paper
}

/// The mark of the far side, where the author means both and both are seen alike.
fn other_side(arrow: &Arrow, (from, to): (&Body, &Body), camera: &Camera) -> Option<Mark> {
    let near = moving(arrow, from, to, camera).filter(|_| both(arrow) && camera.is_level_on())?;
    match near {
        Mark::Limb(Side::Near, limb) => Some(limb.of(Side::Far)),
        _ => None,
    }
}

/// How a way ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Head {
    /// In the point of an arrow.
    Point,
    /// In a bar, and begins with one: how far something is.
    Bars,
}

/// Draw the way of one mark between two bodies, clear of `blocks`.
pub fn along(
    mark: Mark,
    head: Head,
    ways: (&Body, &Body),
    camera: &Camera,
    blocks: &[Round],
) -> Paper {
    match placed_of(mark, false, ways, camera, blocks) {
        Some((placed, _)) => inked(placed, head),
        None => Paper::default(),
    }
}

/// A short arrow at a mark of the second body, the way it came: before it, pointing at it, or else
/// beyond it, pointing on.
pub fn at(mark: Mark, before: bool, (from, to): (&Body, &Body), camera: &Camera) -> Paper {
    const LONG: f64 = 17.0;
    const GAP: f64 = 10.0;
    let (a, b) = (camera.see(from.mark(mark)), camera.see(to.mark(mark)));
    let way = a.to(b).unit();
    let start = if before { b.along(way, -GAP - LONG) } else { b.along(way, GAP) };
    inked([start, start.along(way, LONG / 2.0), start.along(way, LONG)], Head::Point)
}

fn inked(way: Way, head: Head) -> Paper {
    let mut paper = Paper::default();
    paper.reach(&way.map(|p| round(p, 5.0)));
    ink(&mut paper, way, head);
    paper
}

/// How far the arrow stands from what moves, centimetres; none where there is no arrow.
pub fn beside(
    arrow: &Arrow,
    (from, to): (&Body, &Body),
    camera: &Camera,
    blocks: &[Round],
) -> Option<f64> {
    let (way, moves) = placed(arrow, (from, to), camera, blocks)?;
    let gap =
        |r: &Round| samples(&way).map(|at| at.to(r.at).length() - r.r).fold(f64::MAX, f64::min);
    moves.iter().map(gap).reduce(f64::min)
}

/// The arrow in its place, and what moves as circles, all along its way.
fn placed(
    arrow: &Arrow,
    (from, to): (&Body, &Body),
    camera: &Camera,
    blocks: &[Round],
) -> Option<(Way, Vec<Round>)> {
    let mark = moving(arrow, from, to, camera)?;
    placed_of(mark, both(arrow), (from, to), camera, blocks)
}

/// The same for a mark, or for the marks of both sides.
fn placed_of(
    mark: Mark,
    both: bool,
    (from, to): (&Body, &Body),
    camera: &Camera,
    blocks: &[Round],
) -> Option<(Way, Vec<Round>)> {
    let way = way(mark, from, to, camera)?;
    let half = Body::stand(from.posture.towards(&to.posture, 0.5), from.stature);
    let mut parts = segments_of(mark);
    if let (Mark::Limb(Side::Near, limb), true) = (mark, both) {
        parts.extend(segments_of(limb.of(Side::Far)));
    }
    let moves = [from, &half, to].map(|body| rounds_of(body, camera, &parts));
    let body = &body_rounds(from, camera);
    let lying = [View::HighCorner, View::HighSide].iter().any(|v| *camera == Camera::of(*v));
    let thick = &thick_rounds(from, camera);
    let room = Room { body, thick, blocks, first: &moves[0], moves: &moves.concat(), lying };
    Some((place(way, &room), moves.concat()))
}

/// An arrow along the floor for a figure that walks on.
pub fn onward(body: &Body, camera: &Camera) -> Paper {
    let rounds = body_rounds(body, camera);
    let right = rounds.iter().map(|r| r.at.x + r.r).fold(f64::NEG_INFINITY, f64::max);
    let y = camera.see(body.mark(Mark::Hips)).y;
    let a = spot(right + 4.0, y);
    inked([a, a.plus(15.0, 0.0), a.plus(30.0, 0.0)], Head::Point)
}

/// From the last key pose back to the first, round the other side of the shoulder: hands that
/// circle on.
pub fn closing(last: &Body, first: &Body, camera: &Camera) -> Paper {
    let half = Body::stand(last.posture.towards(&first.posture, 0.5), last.stature);
    let see = |body: &Body, mark: LimbMark| camera.see(body.mark(mark.of(Side::Near)));
    let (hand, shoulder) = (see(&half, LimbMark::Grip), see(&half, LimbMark::Shoulder));
    let across = shoulder.along(hand.to(shoulder), 1.0);
    let Some(way) = arc([see(last, LimbMark::Grip), across, see(first, LimbMark::Grip)], false)
    else {
        return Paper::default();
    };
    let moves = rounds_of(last, camera, &segments_of(LimbMark::Grip.of(Side::Near)));
    let body = &body_rounds(last, camera);
    let room = Room { body, thick: &[], blocks: &[], first: &moves, moves: &moves, lying: false };
    inked(place(way, &room), Head::Point)
}

fn ink(paper: &mut Paper, [a, m, b]: Way, head: Head) {
    let across = |from: Spot, to: Spot, at: Spot, back: f64| {
        let tip = from.to(to).unit();
        let normal = spot(-tip.y, tip.x);
        let at = at.along(tip, -back);
        [at.along(normal, 4.7), at.along(normal, -4.7)]
    };
    let mut shaft = Pen::at(a);
    shaft.quadratic(m, b);
    let path = shaft.path()
        + &match head {
            Head::Point => {
                let [l, r] = across(m, b, b, 6.0);
                line(&[l, b, r])
            }
            Head::Bars => line(&across(m, b, b, 0.0)) + &line(&across(a, m, a, 0.0)),
        };
    paper.draw(Ink::ArrowHalo, path.clone());
    paper.draw(Ink::Arrow, path);
}

/// What the arrow from one key pose to the next follows.
pub fn moving(arrow: &Arrow, from: &Body, to: &Body, camera: &Camera) -> Option<Mark> {
    match arrow {
        Arrow::None | Arrow::Onward => None,
        Arrow::Follow(word) => named(word).map(|mark| ends_in(mark, from, to, camera)),
        Arrow::Around => Some(LimbMark::Grip.of(Side::Near)),
        Arrow::Chosen => chosen(from, to, camera),
    }
}

fn way(mark: Mark, from: &Body, to: &Body, camera: &Camera) -> Option<Way> {
    let half = Body::stand(from.posture.towards(&to.posture, 0.5), from.stature);
    let see = |b: &Body| camera.see(leading(b, mark));
    let straight = bends(mark, from, to);
    arc([see(from), see(&half), see(to)], straight)
}

/// A hand that turns where it is goes by its fingertips.
fn ends_in(mark: Mark, from: &Body, to: &Body, camera: &Camera) -> Mark {
    const STAYS: f64 = 2.0;
    let moved = camera.see(from.mark(mark)).to(camera.see(to.mark(mark))).length();
    match mark {
        Mark::Limb(side, LimbMark::Grip) if moved < STAYS => LimbMark::Fingers.of(side),
        mark => mark,
    }
}

/// Where a mark leads: a head goes where its face turns.
fn leading(body: &Body, mark: Mark) -> Vec3 {
    const FACE: f64 = 0.06;
    let ahead = if mark == Mark::Head { FACE * body.stature } else { 0.0 };
    body.mark(mark) + body.frame(Piece::Head).front * ahead
}

/// A way of a length that suits an arrow, from where a mark is by its middle to where it goes.
fn arc([a, m, b]: Way, straight: bool) -> Option<Way> {
    let length = a.to(b).length();
    if length < 4.0 {
        return None;
    }
    let scale = (length.clamp(LENGTH.0, LENGTH.1)) / length;
    let shrink = |p: Spot| a.along(a.to(p), scale);
    // A quadratic curve passes half-way between its bend and the middle of its ends. A hand
    // or foot on a bending limb has no arc of its own: its arrow is straight.
    let middle = a.towards(b, 0.5);
    let bow = middle.to(m);
    let k = if straight { 0.0 } else { 2.0 * (0.3 * length / bow.length().max(1e-6)).min(1.0) };
    let bend = middle.along(bow, k);
    Some([a, shrink(bend), shrink(b)])
}

/// Whether the limb that carries a mark bends or straightens much on the way.
fn bends(mark: Mark, from: &Body, to: &Body) -> bool {
    let Mark::Limb(side, limb) = mark else { return false };
    let joint = match limb {
        LimbMark::Grip => LimbJoint::Elbow,
        LimbMark::Ball | LimbMark::Heel => LimbJoint::Knee,
        _ => return false,
    };
    let upper = match joint {
        LimbJoint::Elbow => (LimbMark::Shoulder, LimbMark::Elbow),
        _ => (LimbMark::Hip, LimbMark::Knee),
    };
    // What turns about an elbow or a knee that stays goes round it.
    let stays = [upper.0, upper.1]
        .into_iter()
        .all(|mark| (from.limb(side, mark) - to.limb(side, mark)).length() < STAYS);
    !stays && (from.posture.degrees(side, joint) - to.posture.degrees(side, joint)).abs() > 25.0
}

/// A joint that goes no further than this stays where it is, metres.
const STAYS: f64 = 0.06;

/// Whether the author's word means the limbs of both sides.
fn both(arrow: &Arrow) -> bool {
    let pairs = ["hands", "knees", "feet", "heels", "elbows"];
    matches!(arrow, Arrow::Follow(word) if pairs.contains(&word.as_str()))
}

/// Which part an author's word means.
fn named(word: &str) -> Option<Mark> {
    let (side, word) = crate::mechanics::words::contact::side_and_rest(word);
    let side = side.unwrap_or(Side::Near);
    Some(match word {
        "hands" | "hand" => LimbMark::Grip.of(side),
        "hips" | "hip" => Mark::Hips,
        "shoulders" => Mark::Shoulders,
        "chest" => Mark::Chest,
        "head" => Mark::Head,
        "knees" | "knee" => LimbMark::Knee.of(side),
        "feet" | "foot" => LimbMark::Ball.of(side),
        "heels" | "heel" => LimbMark::Heel.of(side),
        "elbows" | "elbow" => LimbMark::Elbow.of(side),
        "waist" => Mark::Waist,
        _ => return None,
    })
}

/// Hips and shoulders first; limbs count half, because they always move with them.
fn chosen(from: &Body, to: &Body, camera: &Camera) -> Option<Mark> {
    let marks = [
        (Mark::Hips, 1.0),
        (Mark::Shoulders, 1.0),
        (LimbMark::Grip.of(Side::Near), 0.5),
        (LimbMark::Knee.of(Side::Near), 0.5),
        (LimbMark::Knee.of(Side::Far), 0.5),
        (LimbMark::Grip.of(Side::Far), 0.45),
        (LimbMark::Ball.of(Side::Near), 0.4),
        (LimbMark::Ball.of(Side::Far), 0.4),
    ];
    let moved = |m: Mark| camera.see(from.mark(m)).to(camera.see(to.mark(m))).length();
    let mut best: Option<(Mark, f64)> = None;
    for (mark, k) in marks {
        let d = k * moved(mark);
        if best.is_none_or(|(_, b)| d > b + 1e-9) {
            best = Some((mark, d));
        }
    }
    best.filter(|(_, d)| *d > 2.0).map(|(m, _)| m)
}

/// A stretch of the body between two marks, with its thickness as a fraction of stature.
pub(super) type Segment = (Mark, Mark, f64);

/// The stretches of trunk, neck and head.
pub(super) const TRUNK: [Segment; 3] = [
    (Mark::Hips, Mark::Waist, 0.060),
    (Mark::Waist, Mark::Shoulders, 0.060),
    (Mark::Shoulders, Mark::Head, 0.058),
];

/// The stretches of a leg with their thickness.
pub(super) fn leg_segments(side: Side) -> [Segment; 3] {
    use LimbMark::*;
    let m = |l: LimbMark| l.of(side);
    [(m(Hip), m(Knee), 0.045), (m(Knee), m(Ankle), 0.028), (m(Heel), m(Tip), 0.022)]
}

/// The stretches of an arm with their thickness.
pub(super) fn arm_segments(side: Side) -> [Segment; 3] {
    use LimbMark::*;
    let m = |l: LimbMark| l.of(side);
    [(m(Shoulder), m(Elbow), 0.028), (m(Elbow), m(Wrist), 0.021), (m(Wrist), m(Fingers), 0.016)]
}

/// The stretches that move with a mark: the end of its limb, or the trunk.
fn segments_of(mark: Mark) -> Vec<Segment> {
    use LimbMark::*;
    match mark {
        Mark::Limb(side, Knee) => leg_segments(side)[..2].to_vec(),
        Mark::Limb(side, Ankle | Ball | Heel | Tip | Sole) => leg_segments(side)[1..].to_vec(),
        Mark::Limb(side, Elbow) => arm_segments(side)[..2].to_vec(),
        Mark::Limb(side, Wrist | Palm | Grip | Fingers) => arm_segments(side)[1..].to_vec(),
        Mark::Hips | Mark::Seat => {
            let thighs = Side::BOTH.map(|side| leg_segments(side)[0]);
            [TRUNK[0], thighs[0], thighs[1]].to_vec()
        }
        Mark::Head | Mark::Neck => TRUNK[2..].to_vec(),
        _ => TRUNK.to_vec(),
    }
}

/// The body as circles along its segments.
pub fn body_rounds(body: &Body, camera: &Camera) -> Vec<Round> {
    let limbs =
        Side::BOTH.into_iter().flat_map(|s| leg_segments(s).into_iter().chain(arm_segments(s)));
    let all: Vec<Segment> = TRUNK.into_iter().chain(limbs).collect();
    rounds_of(body, camera, &all)
}

/// Trunk and legs as circles: what parts an arrow from a hand.
fn thick_rounds(body: &Body, camera: &Camera) -> Vec<Round> {
    let legs = Side::BOTH.into_iter().flat_map(leg_segments);
    rounds_of(body, camera, &TRUNK.into_iter().chain(legs).collect::<Vec<Segment>>())
}

/// Circles along stretches of a body.
pub(super) fn rounds_of(body: &Body, camera: &Camera, segments: &[Segment]) -> Vec<Round> {
    let along = |(a, b, r): &Segment| {
        let (a, b, r) = (body.mark(*a), body.mark(*b), 100.0 * r * body.stature);
        (0..=6).map(move |i| round(camera.see(a.towards(b, i as f64 / 6.0)), r))
    };
    segments.iter().flat_map(along).collect()
}
