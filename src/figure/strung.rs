//! What is strung: straps and rings from a beam, bands and towels between hands, feet and anchors.
//! Drawn from end to end; how hard it pulls is nothing to it.

use super::camera::{Camera, Spot, spot};
use super::furniture;
use super::kit::Layers;
use super::outline::{circle, line, polygon, round};
use super::paper::{Ink, Paper};
use super::pen::Pen;
use crate::mechanics::joints::Side;
use crate::mechanics::marks::{LimbMark, Piece};
use crate::mechanics::pulls::{end, ways};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::{Vec3, vec3};
use crate::mechanics::words::contact::{Part, Surface};
use crate::mechanics::words::props::{Line, LineEnd};

/// Draw all that is strung into the layers.
pub fn draw(pose: &SolvedPose, figure: &SolvedFigure, camera: &Camera, layers: &mut Layers) {
    ropes(pose, figure, camera, layers);
    for line in &figure.recipe.lines {
        strung(line, pose, figure, camera, layers);
    }
}

/// Straps and rings: two ropes from an anchor to the hands.
fn ropes(pose: &SolvedPose, figure: &SolvedFigure, camera: &Camera, layers: &mut Layers) {
    let Some(rope) = figure.rope else { return };
    let rings = figure.start().touches.iter().any(|(c, _)| c.surface == Surface::Rings);
    let beam = |z: f64| rope.anchor + vec3(0.0, 0.0, z);
    ceiling(rope.anchor, camera, &mut layers.behind);
    for side in [Side::Far, Side::Near] {
        let hangs = pose
            .touches
            .iter()
            .any(|(c, _)| c.side == Some(side) && c.part == Part::Hand && c.surface.is_rope());
        if !hangs {
            continue;
        }
        let top = camera.see(beam(side.sign() * 0.03));
        let grip = camera.see(pose.body.limb(side, LimbMark::Grip));
        let (paper, ink) = match side {
            Side::Far => (&mut layers.behind, Ink::FarRope),
            Side::Near => (&mut layers.amid, Ink::Rope),
        };
        handle(top, grip, rings, ink, paper);
    }
}

/// A piece of ceiling with a hook in it: straps hang from something.
fn ceiling(anchor: Vec3, camera: &Camera, paper: &mut Paper) {
    let see = |x: f64, y: f64, z: f64| camera.see(anchor + vec3(x, y, z));
    let slab =
        [see(-0.24, 0.09, 0.0), see(0.24, 0.09, 0.0), see(0.24, 0.14, 0.0), see(-0.24, 0.14, 0.0)];
    paper.reach(&slab.map(|corner| round(corner, 1.0)));
    paper.draw(Ink::Section, polygon(&slab));
    paper.draw(Ink::KitLine, line(&[see(0.0, 0.09, 0.0), see(0.0, 0.0, 0.0)]));
}

fn handle(top: Spot, grip: Spot, ring: bool, ink: Ink, paper: &mut Paper) {
    let way = top.to(grip).unit();
    let normal = spot(-way.y, way.x);
    if ring {
        paper.draw(ink, line(&[top, grip.along(way, -18.0)]));
        paper.stroke(ink, circle(round(grip.along(way, -9.0), 9.0)), 2.6);
        return;
    }
    let fork = grip.along(way, -10.0);
    let (p, q) = (grip.along(normal, 4.8), grip.along(normal, -4.8));
    paper.draw(ink, line(&[top, fork, p, q, fork]));
    paper.stroke(ink, line(&[p, q]), 3.2);
}

/// A band or a towel between its ends: one line a side, or one from side to side.
fn strung(
    strung: &Line,
    pose: &SolvedPose,
    figure: &SolvedFigure,
    camera: &Camera,
    layers: &mut Layers,
) {
    for (a, b) in ways(strung) {
        let ends = (end(strung.from, a, pose, figure), end(strung.to, b, pose, figure));
        let (Some(from), Some(to)) = ends else { continue };
        let (from, to) = (from.at, to.at);
        let pulls = if strung.towel { [a, a] } else { [a, b] };
        let near = pulls.contains(&Side::Near) || camera.is_level_on();
        let from_bar = strung.from == LineEnd::Bar || strung.to == LineEnd::Bar;
        // From the feet up it runs outside the arms and behind them.
        let to_feet = |e| matches!(e, LineEnd::Feet(_));
        let under = camera.is_level_on() && (to_feet(strung.from) || to_feet(strung.to));
        let paper = match near {
            _ if under => &mut layers.behind,
            // Between the hands it hangs, beside the head and not across it.
            true if from_bar => &mut layers.behind,
            true if strung.towel => &mut layers.amid,
            // Along the arm that pulls it, not hidden by it.
            true => &mut layers.before,
            false => &mut layers.behind,
        };
        let ends = [camera.see(from), camera.see(to)];
        paper.reach(&ends.map(|end| round(end, 2.0)));
        if strung.towel {
            towel(ends, near, paper);
        } else if let (LineEnd::Back, _) | (_, LineEnd::Back) = (strung.from, strung.to) {
            // Round the ribs under the arm, then along it.
            let chest = pose.body.frame(Piece::Chest);
            let ribs = pose.body.limb(a, LimbMark::Shoulder) - chest.up * 0.11;
            let behind = ribs - chest.front * 0.075;
            let hand = ends[usize::from(strung.from == LineEnd::Back)];
            let path = line(&[camera.see(behind), camera.see(ribs), hand]);
            paper.stroke(if near { Ink::Band } else { Ink::FarBand }, path, 2.4);
        } else {
            paper.stroke(if near { Ink::Band } else { Ink::FarBand }, line(&ends), 2.4);
        }
        for (e, at) in [(strung.from, from), (strung.to, to)] {
            match (e, near) {
                (LineEnd::Anchor { ahead, .. }, true) if strung.is_pulley() => {
                    pulley(at, ahead.signum(), camera, &mut layers.behind);
                }
                (LineEnd::Anchor { ahead, aside, .. }, true) => {
                    anchored(at, ahead.abs() >= aside.abs(), camera, &mut layers.behind);
                }
                _ => {}
            }
        }
    }
}

/// Every band and towel in the near view, from end to end, with its word; what hangs from a bar
/// hangs behind the head.
pub fn spans(pose: &SolvedPose, figure: &SolvedFigure) -> Vec<(&'static str, Vec3, Vec3)> {
    let hangs = |line: &&Line| ![line.from, line.to].contains(&LineEnd::Bar);
    let ends = |line: &Line, (a, b)| {
        let word = match (line.towel, line.is_pulley()) {
            (true, _) => "towel",
            (false, true) => "strap",
            (false, false) => "band",
        };
        Some((word, end(line.from, a, pose, figure)?.at, end(line.to, b, pose, figure)?.at))
    };
    let lines = figure.recipe.lines.iter().filter(hangs);
    lines.flat_map(|line| ways(line).into_iter().filter_map(|way| ends(line, way))).collect()
}

/// A band's anchor: the door that it is shut into, behind everything else, and its knot.
fn anchored(at: Vec3, along: bool, camera: &Camera, behind: &mut Paper) {
    let mut door = Paper::default();
    furniture::door(at, along, camera, &mut door);
    let knot = round(camera.see(at), 3.2);
    door.reach(&[knot]);
    door.draw(Ink::Weight, circle(knot));
    door.lay(std::mem::take(behind));
    *behind = door;
}

/// A pulley on its post: the wheel, and the weight that hangs from it.
fn pulley(at: Vec3, away: f64, camera: &Camera, paper: &mut Paper) {
    let see = |x: f64, y: f64| camera.see(vec3(at.x + away * x, y, at.z));
    let wheel = round(camera.see(at), 4.2);
    let (top, low) = (0.55 * at.y, 0.25 * at.y);
    let weight = [see(0.02, top), see(0.18, top), see(0.18, low), see(0.02, low)];
    paper.reach(&weight.map(|corner| round(corner, 1.0)));
    paper.reach(&[wheel]);
    paper.draw(Ink::KitLine, line(&[see(0.24, 0.0), see(0.24, at.y + 0.1)]));
    paper.draw(Ink::Rope, line(&[see(0.1, at.y), see(0.1, top)]));
    paper.draw(Ink::Weight, polygon(&weight));
    paper.draw(Ink::KitLine, circle(wheel));
}

/// Lines aslant across a twisted cloth: no plank has them.
fn twist(end: Spot, foot: Spot) -> String {
    let way = end.to(foot).unit();
    let across = spot(-way.y, way.x);
    let turns = (end.to(foot).length() / 6.0) as usize;
    let turn = |i: usize| {
        let at = end.towards(foot, (i as f64 + 0.5) / turns as f64);
        let corner = |side: f64| at.along(across, 2.3 * side).along(way, 1.8 * side);
        line(&[corner(-1.0), corner(1.0)])
    };
    (0..turns).map(turn).collect()
}

/// A towel: a strip of cloth from the foot to the fist, a little slack, with a short end over the fist.
fn towel([hand, foot]: [Spot; 2], near: bool, paper: &mut Paper) {
    // It goes round under the arch: its end is not seen.
    let way = foot.to(hand).unit();
    let foot = foot.along(way, 4.0);
    let end = hand.along(way, 12.0);
    let sag = hand.towards(foot, 0.5).plus(-1.5, 2.5);
    let mut strip = Pen::at(end);
    strip.line(hand);
    strip.quadratic(sag, foot);
    paper.reach(&[round(end, 5.0), round(hand, 6.0), round(foot, 5.0)]);
    let cloth = strip.path();
    paper.stroke(Ink::ArrowHalo, cloth.clone(), 6.8);
    paper.stroke(if near { Ink::Band } else { Ink::FarBand }, cloth, 4.8);
    if near {
        paper.stroke(Ink::ArrowHalo, twist(end, foot), 0.9);
    }
}
