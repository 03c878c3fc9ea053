//! What hands hold and bodies wear: dumbbells, kettlebells, backpacks, sticks.
//! Drawn where the grip is; never weighed, `mechanics` has counted them.

use super::camera::{Camera, Spot, spot};
use super::kit::Layers;
use super::outline::{Round, capsule, chain, circle, line, polygon, round, tube};
use super::paper::{Ink, Paper};
use super::pen::Pen;
use super::strung;
use crate::mechanics::joints::Side;
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::{Vec3, vec3};
use crate::mechanics::words::contact::Surface;
use crate::mechanics::words::props::{Held, HeldAt, Item, LineEnd};

/// Draw everything held, worn and strung into the layers.
pub fn draw(pose: &SolvedPose, figure: &SolvedFigure, camera: &Camera, layers: &mut Layers) {
    strung::draw(pose, figure, camera, layers);
    sliders(pose, camera, layers);
    if let Some(held) = figure.recipe.held.as_ref().filter(|held| !held.is_nothing()) {
        hold(held, &pose.body, camera, layers);
    }
}

/// Whether a hand closes round what is held.
pub fn in_hand(figure: &SolvedFigure, side: Side) -> bool {
    let strung = figure.recipe.lines.iter().any(|l| {
        [l.from, l.to].iter().any(|e| matches!(e, LineEnd::Hands(s) if s.is_none_or(|s| s == side)))
    });
    strung
        || figure.recipe.held.as_ref().filter(|h| !h.is_nothing()).is_some_and(|h| match h.at {
            HeldAt::EachHand | HeldAt::BothHands | HeldAt::OnHips => true,
            HeldAt::Hand(s) => s == side,
            HeldAt::OnBack | HeldAt::AlongBack => false,
        })
}

fn hold(held: &Held, body: &Body, camera: &Camera, layers: &mut Layers) {
    let grip = |side| body.limb(side, LimbMark::Grip);
    match held.at {
        HeldAt::EachHand => {
            let far = if faces(body, camera) { &mut layers.amid } else { &mut layers.behind };
            item(held.item, body, Side::Far, grip(Side::Far), camera, far);
            item(held.item, body, Side::Near, grip(Side::Near), camera, &mut layers.amid);
        }
        HeldAt::Hand(Side::Far) => {
            item(held.item, body, Side::Far, grip(Side::Far), camera, &mut layers.behind);
        }
        HeldAt::Hand(Side::Near) => {
            item(held.item, body, Side::Near, grip(Side::Near), camera, &mut layers.amid);
        }
        HeldAt::BothHands if held.item == Item::Stick => {
            stick(grip(Side::Far), grip(Side::Near), 0.25, camera, &mut layers.amid);
        }
        HeldAt::BothHands => {
            let middle = grip(Side::Near).towards(grip(Side::Far), 0.5);
            if held.item == Item::Kettlebell && elbow_bent(body) {
                // Held by the horns in front of the chest, the ball hangs between the forearms.
                let front = body.frame(Piece::Chest).front * 0.03;
                let down = vec3(0.0, -0.6, 0.0);
                kettlebell(camera, middle + front, down, Ink::Weight, &mut layers.amid);
                return;
            }
            if held.item == Item::Backpack && elbow_bent(body) {
                hugged(body, camera, &mut layers.amid);
                return;
            }
            item(held.item, body, Side::Near, middle, camera, &mut layers.amid);
        }
        HeldAt::OnHips => on_hips(held.item, body, camera, &mut layers.amid),
        HeldAt::OnBack => backpack_worn(body, camera, &mut layers.amid),
        HeldAt::AlongBack => {
            let (low, high) = along_back(body);
            stick(low, high, 0.42, camera, &mut layers.amid);
        }
    }
}

/// A stick along the back: where it lies on the tail-bone, and where on the upper back.
pub fn along_back(body: &Body) -> (Vec3, Vec3) {
    let pelvis = body.frame(Piece::Pelvis);
    let low = body.mark(Mark::Hips) - pelvis.carry(0.064, 0.03, 0.0) * body.stature;
    let high = body.mark(Mark::Back) - body.frame(Piece::Chest).front * (0.010 * body.stature);
    (low, high)
}

fn elbow_bent(body: &Body) -> bool {
    use crate::mechanics::joints::LimbJoint;
    body.posture.degrees(Side::Near, LimbJoint::Elbow) > 60.0
}

/// Whether the chest is turned to the reader, or the back is.
fn faces(body: &Body, camera: &Camera) -> bool {
    camera.depth(body.frame(Piece::Chest).front).abs() > 0.8
}

fn item(item: Item, body: &Body, side: Side, at: Vec3, camera: &Camera, paper: &mut Paper) {
    let fore = body.frame(Piece::Forearm(side));
    let pale = side == Side::Far && camera.is_shifted();
    let ink = if pale { Ink::FarWeight } else { Ink::Weight };
    // From the front a handle over the elbow lies across, palms ahead: as it is pressed.
    let across = faces(body, camera) && fore.up.y < 0.0;
    match item {
        Item::Dumbbell if across => {
            let level = |way: &Vec3| camera.aim(*way).x.abs();
            let more =
                if level(&fore.right) > level(&fore.front) { fore.right } else { fore.front };
            dumbbell(camera, at, more, ink, paper);
        }
        Item::Dumbbell => dumbbell(camera, at, fore.front, ink, paper),
        Item::Kettlebell => kettlebell(camera, at, -fore.up, ink, paper),
        Item::Backpack => bag(camera, at, ink, paper),
        Item::Bottle => bottle(camera, at, fore.front, ink, paper),
        Item::Plate => disc(camera, at, 0.10, paper),
        Item::Stick | Item::Towel => {}
    }
}

/// Two heads on a handle; seen end-on, one round head.
fn dumbbell(camera: &Camera, at: Vec3, handle: Vec3, ink: Ink, paper: &mut Paper) {
    let centre = camera.see(at);
    let along = camera.aim(handle);
    let along = spot(along.x / 100.0, along.y / 100.0);
    let r = 6.2;
    paper.reach(&[round(centre, 13.0)]);
    if along.length() < 0.35 {
        paper.draw(ink, circle(round(centre, r)));
        return;
    }
    let thin = if ink == Ink::Weight { Ink::Rope } else { Ink::FarRope };
    let end = |k: f64| centre.along(along, k);
    paper.stroke(thin, line(&[end(-8.0), end(8.0)]), 2.6);
    // Half turned to the reader, its heads show their round ends.
    if along.length() < 0.72 {
        for k in [-8.6, 8.6] {
            paper.draw(ink, capsule(round(end(k - 2.6), 5.6), round(end(k + 2.6), 5.6)));
        }
        return;
    }
    for k in [-8.6, 8.6] {
        let normal = spot(-along.y, along.x).unit();
        let corner = |a: f64, b: f64| end(k + a).along(normal, b);
        let box_ = [corner(-2.6, -r), corner(2.6, -r), corner(2.6, r), corner(-2.6, r)];
        paper.draw(ink, rounded(&box_));
    }
}

/// A polygon with its corners cut a little: heads of weights are not sharp.
fn rounded(corners: &[Spot]) -> String {
    let n = corners.len();
    let mut points = Vec::new();
    for i in 0..n {
        let (a, b, c) = (corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]);
        points.push(b.along(b.to(a).unit(), 1.3));
        points.push(b.along(b.to(c).unit(), 1.3));
    }
    polygon(&points)
}

/// A ball with a handle; `away` is the direction from the hand to the ball.
fn kettlebell(camera: &Camera, at: Vec3, away: Vec3, ink: Ink, paper: &mut Paper) {
    let ball = round(camera.see(at + away * 0.155), 9.4);
    let way = camera.see(at).to(ball.at).unit();
    let normal = spot(-way.y, way.x);
    let hand = camera.see(at);
    paper.reach(&[ball]);
    let thin = if ink == Ink::Weight { Ink::Rope } else { Ink::FarRope };
    let (a, b) = (hand.along(normal, 6.2), hand.along(normal, -6.2));
    let (c, d) = (ball.at.along(normal, 7.2), ball.at.along(normal, -7.2));
    // Before dark shorts a dark handle needs its own rim, as the ball has.
    let horns = line(&[c, a, b, d]);
    paper.stroke(Ink::ArrowHalo, horns.clone(), 5.2);
    paper.stroke(thin, horns, 3.2);
    paper.draw(ink, circle(ball));
}

fn bag(camera: &Camera, at: Vec3, ink: Ink, paper: &mut Paper) {
    let at = camera.see(at);
    let body = [round(at.plus(0.0, 13.0), 11.0), round(at.plus(0.0, 24.0), 12.5)];
    paper.reach(&body);
    paper.draw(ink, chain(&body));
    let thin = if ink == Ink::Weight { Ink::Rope } else { Ink::FarRope };
    let mut strap = Pen::at(at.plus(-5.0, 5.0));
    strap.quadratic(at.plus(0.0, -5.0), at.plus(5.0, 5.0));
    paper.draw(thin, strap.path());
}

fn bottle(camera: &Camera, at: Vec3, along: Vec3, ink: Ink, paper: &mut Paper) {
    let end = |k: f64, r: f64| round(camera.see(at + along * k), r);
    let body = [end(-0.10, 3.8), end(0.05, 3.8), end(0.11, 1.8), end(0.13, 1.8)];
    paper.reach(&body);
    paper.draw(ink, chain(&body));
}

fn disc(camera: &Camera, at: Vec3, radius: f64, paper: &mut Paper) {
    let c = round(camera.see(at), 100.0 * radius);
    paper.reach(&[c]);
    paper.draw(Ink::Weight, circle(c));
    paper.draw(Ink::Halo, circle(round(c.at, 1.6)));
}

/// What lies across the hips: a weight seen end-on, a kettlebell upright, a bag along the belly.
fn on_hips(item: Item, body: &Body, camera: &Camera, paper: &mut Paper) {
    let pelvis = body.frame(Piece::Pelvis);
    let at =
        |front: f64, up: f64| body.mark(Mark::Hips) + pelvis.carry(front, up, 0.0) * body.stature;
    let bag_round = |front: f64, up: f64| round(camera.see(at(front, up)), 4.6 * body.stature);
    match item {
        Item::Kettlebell => {
            kettlebell(camera, at(0.20, 0.0), -pelvis.front, Ink::Weight, paper);
        }
        Item::Backpack => {
            let bag = [bag_round(0.098, -0.035), bag_round(0.098, 0.085)];
            paper.reach(&bag);
            paper.draw(Ink::Weight, chain(&bag));
        }
        Item::Dumbbell => head_on(camera, at(0.10, 0.0), paper),
        _ => disc(camera, at(0.11, 0.0), 0.105, paper),
    }
}

/// A dumbbell seen along its handle: six flat sides.
fn head_on(camera: &Camera, at: Vec3, paper: &mut Paper) {
    let middle = camera.see(at);
    let corner = |i: usize| {
        let turn = std::f64::consts::FRAC_PI_3 * i as f64;
        middle.plus(7.4 * turn.cos(), 7.4 * turn.sin())
    };
    paper.reach(&[round(middle, 7.4)]);
    paper.draw(Ink::Weight, polygon(&[0, 1, 2, 3, 4, 5].map(corner)));
    paper.draw(Ink::Halo, circle(round(middle, 1.4)));
}

/// A bag held to the chest with both arms.
fn hugged(body: &Body, camera: &Camera, paper: &mut Paper) {
    let bag = [[0.075, 0.070, 0.040], [0.080, 0.0, 0.052], [0.075, -0.075, 0.050]];
    let pack = bag.map(|round| on_chest(body, Mark::Ribs, round, camera));
    bagged(&pack, paper);
}

/// A bag with a flap: not a ball nor a plate.
fn bagged(pack: &[Round; 3], paper: &mut Paper) {
    paper.reach(pack);
    paper.draw(Ink::Weight, tube(pack));
    let [top, middle, _] = pack;
    let way = top.at.to(middle.at).unit();
    let across = spot(-way.y, way.x);
    let at = top.at.towards(middle.at, 0.7);
    let flap =
        [at.along(across, 0.95 * middle.r), at.along(way, 2.2), at.along(across, -0.95 * middle.r)];
    paper.stroke(Ink::ArrowHalo, line(&flap), 1.1);
}

fn backpack_worn(body: &Body, camera: &Camera, paper: &mut Paper) {
    let bag = [[-0.085, -0.055, 0.044], [-0.092, 0.01, 0.050], [-0.080, 0.075, 0.038]];
    let pack = bag.map(|round| on_chest(body, Mark::UpperBack, round, camera));
    bagged(&pack, paper);
}

/// A round of a bag that moves with the chest: ahead of and above a mark, and its radius, as shares
/// of stature.
fn on_chest(body: &Body, from: Mark, [ahead, up, radius]: [f64; 3], camera: &Camera) -> Round {
    let place = body.mark(from) + body.frame(Piece::Chest).carry(ahead, up, 0.0) * body.stature;
    round(camera.see(place), 100.0 * radius * body.stature)
}

/// A stick through two points, `beyond` metres longer at each end.
fn stick(a: Vec3, b: Vec3, beyond: f64, camera: &Camera, paper: &mut Paper) {
    let way = (b - a).unit() * beyond;
    let (p, q) = (camera.see(a - way), camera.see(b + way));
    paper.reach(&[round(p, 2.0), round(q, 2.0)]);
    let path = line(&[p, q]);
    paper.stroke(Ink::ArrowHalo, path.clone(), 4.4);
    paper.stroke(Ink::Rope, path, 2.6);
}

/// Pads under whatever slides: they go along with the body.
fn sliders(pose: &SolvedPose, camera: &Camera, layers: &mut Layers) {
    for (contact, at) in pose.touches.iter().filter(|(c, _)| c.surface == Surface::Slider) {
        let edge = |dx: f64| round(camera.see(vec3(at.x + dx, 0.006, at.z)), 1.4);
        let ink = if contact.side == Some(Side::Near) { Ink::Weight } else { Ink::FarWeight };
        let ends = [edge(-0.09), edge(0.12)];
        layers.behind.reach(&ends);
        layers.behind.draw(ink, chain(&ends));
    }
}
