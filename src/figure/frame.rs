//! One key pose on paper: floor, kit, body and what it holds, in the right order.
//! Draws a single moment; never two, side by side is `sheet`'s.

use super::arrow;
use super::camera::Camera;
use super::held;
use super::kit::{gripping, layers};
use super::limbs::{Sitter, arm, leg};
use super::outline::{Round, round};
use super::paper::{Bounds, Ink, Paper};
use super::trunk::{head, hip_patch, trunk};
use crate::mechanics::joints::Side;
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::scenery::Piece as KitPiece;
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::vec3;
use crate::mechanics::words::contact::{Part, Surface};
use crate::mechanics::words::recipe::{Arrow, View};

/// Draw key pose number `index`.
pub fn frame(figure: &SolvedFigure, index: usize, kit: &[KitPiece]) -> Paper {
    let camera = Camera::of(figure.recipe.view);
    let pose = &figure.poses[index];
    let mut layers = layers(figure, kit, &camera);
    held::draw(pose, figure, &camera, &mut layers);
    let sitter = sitter(pose, figure, camera);
    let mut paper = Paper::default();
    let kit_bounds = layers.behind.bounds;
    paper.lay(layers.behind);
    body(&sitter, figure, layers.amid, &mut paper);
    paper.lay(layers.before);
    let blocks = kit_rounds(kit, &camera);
    match (&figure.recipe.arrow, figure.poses.get(index + 1)) {
        (Arrow::Onward, _) if index + 1 == figure.poses.len() => {
            paper.lay(arrow::onward(&pose.body, &camera));
        }
        (way, Some(next)) => {
            paper.lay(arrow::draw(way, &pose.body, &next.body, &camera, &blocks));
        }
        _ => {}
    }
    if figure.recipe.pause && index + 1 == figure.poses.len() {
        paper.lay(held_still(paper.bounds));
    }
    let mut ground = ground(figure, &camera, paper.bounds, kit_bounds);
    ground.lay(paper);
    ground
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
    let toes = |side| {
        pose.touches
            .iter()
            .any(|(c, _)| c.side == Some(side) && c.part == Part::Toes && c.surface != Surface::Air)
    };
    Sitter {
        body: &pose.body,
        camera,
        fists: Side::BOTH.map(fist),
        tiptoe: Side::BOTH.map(toes),
        paler: !matches!(figure.recipe.view, View::Front | View::Back | View::FrontCorner),
    }
}

/// Far limbs, trunk and head, near limbs; in other views whatever is farther comes first.
fn body(sitter: &Sitter, figure: &SolvedFigure, amid: Paper, paper: &mut Paper) {
    if matches!(figure.recipe.view, View::Side | View::Above) {
        paper.lay(arm(sitter, Side::Far));
        paper.lay(leg(sitter, Side::Far));
        paper.lay(trunk(sitter));
        paper.lay(head(sitter));
        paper.lay(leg(sitter, Side::Near));
        paper.lay(hip_patch(sitter, Side::Near));
        paper.lay(amid);
        paper.lay(arm(sitter, Side::Near));
        return;
    }
    let depth = |m: Mark| sitter.camera.depth(sitter.body.mark(m));
    let middle = (depth(Mark::Hips) + depth(Mark::Shoulders)) / 2.0;
    let limb = |s: Side, a: LimbMark, b: LimbMark| (depth(a.of(s)) + depth(b.of(s))) / 2.0 - middle;
    let mut parts: Vec<(f64, Paper)> = vec![(0.0, trunk(sitter)), (0.001, head(sitter))];
    for side in [Side::Far, Side::Near] {
        // Legs lie over the shorts' hem unless they are well behind the trunk.
        let leg_depth = limb(side, LimbMark::Knee, LimbMark::Knee) + 0.30;
        parts.push((leg_depth, leg(sitter, side)));
        parts.push((limb(side, LimbMark::Elbow, LimbMark::Wrist) + 0.01, arm(sitter, side)));
    }
    parts.sort_by(|a, b| a.0.total_cmp(&b.0));
    parts.into_iter().for_each(|(_, p)| paper.lay(p));
    paper.lay(amid);
}

/// The floor under everything that was drawn, or the mat seen from above.
fn ground(figure: &SolvedFigure, camera: &Camera, body: Bounds, kit: Bounds) -> Paper {
    let mut paper = Paper::default();
    let mut all = body;
    all.join(kit);
    if !all.min.x.is_finite() {
        return paper;
    }
    if figure.recipe.view == View::Above {
        mat(&all, &mut paper);
        // A pillow says lying where the lines alone could be kneeling.
        let head = camera.see(figure.start().body.mark(Mark::Head));
        let pillow = [-7.0, 7.0].map(|dy| round(head.plus(-5.0, dy), 12.0));
        paper.reach(&pillow);
        paper.draw(Ink::KitTop, super::outline::chain(&pillow));
        return paper;
    }
    let y = camera.see(vec3(0.0, 0.0, 0.0)).y;
    let (a, b) = (all.min.x - 3.0, all.max.x + 3.0);
    let deep = 3.6;
    let ends = [
        round(super::camera::spot(a + deep, y), deep),
        round(super::camera::spot(b - deep, y), deep),
    ];
    paper.reach(&ends);
    paper.draw(Ink::Floor, super::outline::chain(&ends));
    paper
}

/// A mat under a body seen from the ceiling.
fn mat(all: &Bounds, paper: &mut Paper) {
    let (a, b) = (all.min.plus(-6.0, -5.0), all.max.plus(6.0, 5.0));
    let corners = [a, super::camera::spot(b.x, a.y), b, super::camera::spot(a.x, b.y)];
    paper.reach(&corners.map(|c| round(c, 0.5)));
    paper.draw(Ink::Floor, super::outline::polygon(&corners));
}

/// Blocks of kit as circles, for the arrow to keep clear of.
fn kit_rounds(kit: &[KitPiece], camera: &Camera) -> Vec<Round> {
    let mut out = Vec::new();
    for piece in kit.iter().filter(|p| p.surface.is_block()) {
        let steps = |a: f64, b: f64| (0..=6).map(move |i| a + (b - a) * i as f64 / 6.0);
        for x in steps(piece.x.0, piece.x.1) {
            for y in steps(0.0, piece.height) {
                out.push(round(camera.see(vec3(x, y, 0.0)), 5.0));
            }
        }
    }
    out
}
