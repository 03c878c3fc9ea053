//! One key pose on paper: floor, kit, body and what it holds, in the right order.
//! Draws a single moment, at most over the pale shape of the first; never side by side, that is
//! `sheet`'s.

use super::arrow;
use super::camera::Camera;
use super::ghost::moved;
use super::held;
use super::hidden::arm_over_head;
use super::kit::{gripping, layers};
use super::limbs::{arm, hip_patch, knee_first, leg, shoulder_patch};
use super::outline::{Round, round};
use super::paper::{Bounds, Ink, Paper};
use super::shadow::shadows;
use super::sitter::Sitter;
use super::tones::tones;
use super::trunk::{hair, head, neck, trunk};
use crate::mechanics::joints::Side;
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::scenery::{Piece as KitPiece, pieces};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::{Vec3, vec3};
use crate::mechanics::words::contact::{Part, Surface};
use crate::mechanics::words::props::HeldAt;
use crate::mechanics::words::recipe::{Arrow, View};

/// Draw key pose number `index`.
pub fn frame(figure: &SolvedFigure, index: usize, kit: &[KitPiece]) -> Paper {
    let camera = Camera::on(figure);
    let pose = &figure.poses[index];
    let (mut paper, kit_bounds) = standing(pose, figure, kit);
    let blocks = kit_rounds(kit, &camera);
    match (&figure.recipe.arrow, figure.poses.get(index + 1)) {
        (Arrow::Onward, _) if index == 0 => {
            paper.lay(arrow::onward(&pose.body, &camera));
        }
        (Arrow::Around, None) => {
            let first = &figure.start().body;
            paper.lay(arrow::closing(&pose.body, first, &camera));
        }
        // Who flies lands: nothing moves them on the way.
        (way, Some(next)) if !flies(pose) => {
            paper.lay(arrow::draw(way, &pose.body, &next.body, &camera, &blocks));
        }
        _ => {}
    }
    if is_held(figure, index) {
        paper.lay(held_still(paper.bounds));
    }
    let mut all = paper.bounds;
    let ghost = ghost(figure, index);
    all.join(ghost.bounds);
    let mut ground = ground(figure, all, kit_bounds);
    ground.lay(ghost);
    ground.lay(paper);
    ground
}

/// Where the first key pose stood, behind the last: what moves little is seen against it.
fn ghost(figure: &SolvedFigure, index: usize) -> Paper {
    let last = index > 0 && index + 1 == figure.poses.len();
    if figure.recipe.ghost && last { ghost_of(figure, 0) } else { Paper::default() }
}

/// A key pose as a pale shape.
fn ghost_of(figure: &SolvedFigure, index: usize) -> Paper {
    let mut paper = Paper::default();
    let camera = Camera::on(figure);
    let sitter = sitter(&figure.poses[index], figure, camera);
    body(&sitter, figure, Paper::default(), &mut paper);
    let moved = moved(&figure.poses[index].body, &figure.end().body, &camera);
    paper.shapes.retain(|shape| match shape.whose {
        2 | 11 | 12 => moved.head,
        TRUNK => moved.trunk,
        limb @ (3 | 4 | 9 | 10) => moved.arms[(limb - 3) % 2],
        limb => moved.legs[(limb - 5) % 2],
    });
    // Two legs and the shape of one are read, three legs and more are not.
    for side in Side::BOTH.into_iter().filter(|_| sitter.aside) {
        let (arm, leg) = (3 + side.index(), 5 + side.index());
        let pale = |whose| match whose {
            _ if whose == arm => sitter.pale_arm(side),
            _ if whose == leg || whose == leg + 2 => sitter.pale_leg(side),
            _ => false,
        };
        paper.shapes.retain(|shape| !pale(shape.whose));
    }
    paper.ghost()
}

/// Kit and body of a pose, without floor and arrow; and how far the kit behind it reaches.
pub fn standing(pose: &SolvedPose, figure: &SolvedFigure, kit: &[KitPiece]) -> (Paper, Bounds) {
    let camera = Camera::on(figure);
    let mut layers = layers(figure, kit, &camera);
    held::draw(pose, figure, &camera, &mut layers);
    let mut paper = shadows(pose, &camera);
    let kit_bounds = layers.behind.bounds;
    paper.lay(layers.behind);
    body(&sitter(pose, figure, camera), figure, layers.amid, &mut paper);
    paper.lay(layers.before);
    (paper, kit_bounds)
}

/// Whether a key pose is in the air.
fn flies(pose: &SolvedPose) -> bool {
    !pose.touches.is_empty() && pose.touches.iter().all(|(c, _)| c.surface == Surface::Air)
}

/// Whether a key pose is held: the last one where the entry says so, or the only one, unless the
/// figure walks on.
fn is_held(figure: &SolvedFigure, index: usize) -> bool {
    let alone = figure.poses.len() == 1 && figure.recipe.arrow != Arrow::Onward;
    alone || (figure.recipe.pause && index + 1 == figure.poses.len())
}

/// Two short bars over a key pose that is held for a moment.
fn held_still(body: Bounds) -> Paper {
    let mut paper = Paper::default();
    let (x, y) = ((body.min.x + body.max.x) / 2.0, body.min.y - 20.0);
    for side in [-4.0, 4.0] {
        let ends = [super::camera::spot(x + side, y), super::camera::spot(x + side, y + 14.0)];
        paper.reach(&ends.map(|end| round(end, 2.0)));
        paper.draw(Ink::Arrow, super::outline::line(&ends));
    }
    paper
}

fn sitter<'a>(pose: &'a SolvedPose, figure: &SolvedFigure, camera: Camera) -> Sitter<'a> {
    let fist = |side| gripping(pose, side) || held::in_hand(figure, side);
    let palm =
        |side| pose.touches.iter().any(|(c, _)| c.side == Some(side) && c.part == Part::Hand);
    let toes = |side| {
        pose.touches
            .iter()
            .any(|(c, _)| c.side == Some(side) && c.part == Part::Toes && c.surface != Surface::Air)
    };
    Sitter {
        body: &pose.body,
        camera,
        fists: Side::BOTH.map(fist),
        palms: Side::BOTH.map(palm),
        tiptoe: Side::BOTH.map(toes),
        aside: figure.recipe.view == View::Side,
        tones: tones(figure),
    }
}

/// Whose a shape is (see `Paper::of`): nobody's, the trunk's; the other parts have the numbers
/// after it.
pub const KIT: usize = 0;
/// See [`KIT`].
pub const TRUNK: usize = 1;

/// Far limbs, trunk and head, near limbs; in other views whatever is farther comes first.
fn body(sitter: &Sitter, figure: &SolvedFigure, amid: Paper, paper: &mut Paper) {
    // Who lies and is seen from the front has the collar over the neck: it would lie on the chest. And
    // so has whoever is seen from behind.
    let lies = sitter.body.frame(Piece::Pelvis).up.y.abs() < 0.6;
    let behind = sitter.camera.depth(sitter.body.frame(Piece::Chest).front) < -0.5;
    let collar_over = (lies && figure.recipe.view != View::Side) || behind;
    let mut head = head(sitter).of(2);
    let mut trunk = trunk(sitter).of(TRUNK);
    let neck = neck(sitter).of(11);
    if collar_over {
        trunk = laid(neck, trunk);
    } else {
        head.lay(neck);
    }
    head.lay(hair(sitter).of(12));
    let arm = |side: Side| arm(sitter, side).of(3 + side.index());
    let leg = |side: Side| leg(sitter, side).of(5 + side.index());
    let hip = |side: Side| hip_patch(sitter, side).of(7 + side.index());
    if figure.recipe.view == View::Side {
        let near = if between_the_legs(sitter, figure) {
            [amid, arm(Side::Near), leg(Side::Near), hip(Side::Near)]
        } else {
            [leg(Side::Near), hip(Side::Near), amid, arm(Side::Near)]
        };
        let far = [arm(Side::Far), leg(Side::Far), trunk];
        // An arm along the head goes behind it on paper: a figure without a face is nobody.
        let parts = if arm_over_head(sitter.body, Side::Near, &sitter.camera) {
            far.into_iter().chain(near).chain([head]).collect::<Vec<Paper>>()
        } else {
            far.into_iter().chain([head]).chain(near).collect()
        };
        parts.into_iter().for_each(|part| paper.lay(part));
        return;
    }
    let depth = |m: Mark| sitter.camera.depth(sitter.body.mark(m));
    let middle = (depth(Mark::Hips) + depth(Mark::Shoulders)) / 2.0;
    let limb = |s: Side, a: LimbMark, b: LimbMark| (depth(a.of(s)) + depth(b.of(s))) / 2.0 - middle;
    // From above a head is nearer than the arms of who stands under it.
    let above = if figure.recipe.view.is_high() { depth(Mark::Head) - middle } else { 0.0 };
    let mut parts: Vec<(f64, Paper)> = vec![(0.0, trunk), (above.max(0.001), head)];
    let mut held_at: Option<f64> = None;
    for side in [Side::Far, Side::Near] {
        // Legs lie over the shorts' hem unless they are well behind the trunk; of somebody lying
        // they are never behind it.
        let lift = if lies { 0.60 } else { 0.30 };
        let leg_depth = limb(side, LimbMark::Knee, LimbMark::Knee) + lift;
        parts.push((leg_depth, leg(side)));
        // The seams at hip and shoulder are covered, whichever of the two lies over the other; of a
        // thigh that points at the reader the knee lies over both.
        let before = if knee_first(sitter, side) { -1e-6 } else { 1e-6 };
        parts.push((leg_depth.max(0.0) + before, hip(side)));
        // An arm beside the trunk lies over its edge: only one well behind it is hidden by it.
        let arm_depth = limb(side, LimbMark::Elbow, LimbMark::Wrist) + BESIDE;
        let arm_depth =
            if hangs_beside(sitter, side) { arm_depth.max(leg_depth + 2e-6) } else { arm_depth };
        let over_head = arm_over_head(sitter.body, side, &sitter.camera);
        let arm_depth = if over_head { arm_depth.min(0.0009) } else { arm_depth };
        parts.push((arm_depth, arm(side)));
        // A hand closes over what it holds.
        if sitter.fists[side.index()] && (side == Side::Near || sitter.camera.is_level_on()) {
            held_at = Some(arm_depth.min(held_at.unwrap_or(arm_depth)));
        }
        let seam = shoulder_patch(sitter, side).of(9 + side.index());
        parts.push((arm_depth.clamp(0.0005, 0.0009), seam));
    }
    let held = held_at.unwrap_or(f64::INFINITY);
    parts.push((held - 1e-9, amid));
    parts.sort_by(|a, b| a.0.total_cmp(&b.0));
    parts.into_iter().for_each(|(_, p)| paper.lay(p));
}

/// Whether both hands swing something back between the thighs: the near leg is before it.
fn between_the_legs(sitter: &Sitter, figure: &SolvedFigure) -> bool {
    let both = figure.recipe.held.as_ref().is_some_and(|held| held.at == HeldAt::BothHands);
    let limb = |mark| sitter.limb(Side::Near, mark);
    let (hip, knee) = (limb(LimbMark::Hip), limb(LimbMark::Knee));
    let (ankle, grip) = (limb(LimbMark::Ankle), limb(LimbMark::Grip));
    let (top, low) = if grip.y > knee.y { (hip, knee) } else { (knee, ankle) };
    let down = (top.y - grip.y) / (top.y - low.y).max(1e-6);
    both && (0.0..1.0).contains(&down) && grip.x < top.towards(low, down).x
}

/// One drawing under another.
fn laid(mut under: Paper, over: Paper) -> Paper {
    under.lay(over);
    under
}

/// Whether a hand hangs beside the thigh on the side that is turned to the reader.
fn hangs_beside(sitter: &Sitter, side: Side) -> bool {
    let out = sitter.body.frame(Piece::Pelvis).right * side.sign();
    let place = |mark| sitter.limb(side, mark);
    let (wrist, hip) = (place(LimbMark::Wrist), place(LimbMark::Hip));
    sitter.camera.depth(out) > 0.3 && (wrist - hip).dot(out) > 0.05 && wrist.y < hip.y + 0.10
}

/// How much nearer an arm counts than it is, metres: half a trunk's depth.
const BESIDE: f64 = 0.09;

/// The floor under everything that was drawn: a strip, or a mat where the reader looks down on it.
pub fn ground(figure: &SolvedFigure, body: Bounds, kit: Bounds) -> Paper {
    let camera = Camera::on(figure);
    let mut paper = Paper::default();
    let mut all = body;
    all.join(kit);
    if !all.min.x.is_finite() {
        return paper;
    }
    if figure.recipe.view.is_high() {
        mat(figure, &camera, &mut paper);
        return paper;
    }
    if hangs_high(figure) {
        return paper;
    }
    let (a, b) = (all.min.x - 3.0, all.max.x + 3.0);
    let (top, bottom) = strip(figure, &camera);
    let (middle, deep) = ((top + bottom) / 2.0, (bottom - top) / 2.0);
    let ends = [
        round(super::camera::spot(a + deep, middle), deep),
        round(super::camera::spot(b - deep, middle), deep),
    ];
    paper.reach(&ends);
    paper.draw(Ink::Floor, super::outline::chain(&ends));
    paper
}

/// Whether a body hangs with nothing under it in any key pose: a floor far below would only make it
/// small.
fn hangs_high(figure: &SolvedFigure) -> bool {
    const CLEAR: f64 = 0.06;
    let clear = |pose: &SolvedPose| pose.body.places().iter().all(|place| place.y > CLEAR);
    let overhead = |piece: &KitPiece| piece.surface == Surface::Bar && piece.height > 1.5;
    let kit = pieces(figure);
    // Who holds on to nothing lies.
    let hangs = !kit.is_empty() && kit.iter().all(overhead) && figure.rope.is_none();
    hangs && figure.poses.iter().all(clear)
}

/// Top and bottom of the floor's strip: a foot or a forearm that points at the reader lies on it too.
/// Its upper edge is where things touch it, so that what hovers is seen to hover.
fn strip(figure: &SolvedFigure, camera: &Camera) -> (f64, f64) {
    const ABOVE: f64 = 1.4;
    const BELOW: f64 = 3.8;
    let marks = figure.poses.iter().flat_map(|pose| pose.body.places());
    let lowest = marks.map(|mark| camera.see(*mark).y).fold(f64::MIN, f64::max);
    let floor = camera.see(vec3(0.0, 0.0, 0.0)).y;
    (floor - ABOVE, (floor + BELOW).max(lowest + 3.2))
}

/// A mat as large as what is near the floor in any key pose: nobody's hand rests beside it.
fn mat(figure: &SolvedFigure, camera: &Camera, paper: &mut Paper) {
    const ROOM: f64 = 0.05;
    const HIGH: f64 = 0.40;
    let places = || figure.poses.iter().flat_map(|p| p.body.places()).filter(|p| p.y < HIGH);
    let ends = |along: fn(&Vec3) -> f64| {
        let all = places().map(along);
        let (a, b) = all.fold((f64::MAX, f64::MIN), |(a, b), v| (a.min(v), b.max(v)));
        (a - ROOM, b + ROOM)
    };
    let (x, z) = (ends(|p| p.x), ends(|p| p.z));
    let corners =
        [(x.0, z.0), (x.1, z.0), (x.1, z.1), (x.0, z.1)].map(|(x, z)| camera.see(vec3(x, 0.0, z)));
    paper.reach(&corners.map(|c| round(c, 0.5)));
    paper.draw(Ink::Floor, super::outline::polygon(&corners));
}

/// Up to where an arrow keeps clear of a wall, metres.
const WALL_HIGH: f64 = 2.1;

/// Blocks of kit and the cut edge of a wall as circles, for the arrow to keep clear of.
pub fn kit_rounds(kit: &[KitPiece], camera: &Camera) -> Vec<Round> {
    let steps = |a: f64, b: f64| {
        let n = ((b - a) / 0.08).ceil().max(1.0) as i32;
        (0..=n).map(move |i| a + (b - a) * f64::from(i) / f64::from(n))
    };
    let mut out = Vec::new();
    for piece in kit {
        let (tall, z, x, r) = match piece.surface {
            // The middle of its edge, which is 7 cm thick.
            Surface::Wall => {
                let middle = piece.x.0 + 0.035 * piece.ahead;
                (WALL_HIGH, super::kit::WALL.1, (middle, middle), 3.0)
            }
            surface if surface.is_block() => (piece.height, 0.0, piece.x, 5.0),
            _ => continue,
        };
        for x in steps(x.0, x.1) {
            out.extend(steps(0.0, tall).map(|y| round(camera.see(vec3(x, y, z)), r)));
        }
    }
    out
}
