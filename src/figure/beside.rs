//! Beside: a fault on paper, the good pose beside the wrong one, with a sign at what went wrong.
//! It only draws what `wrong` found; it changes no pose.

use super::arrow::{self, Head};
use super::camera::{Camera, spot};
use super::frame::{frame, kit_rounds};
use super::outline::{line, round};
use super::paper::{Ink, Paper};
use super::sheet::pair;
use super::wrong::{Sign, sign};
use crate::mechanics::joints::Side;
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::SolvedFigure;
use crate::mechanics::words::recipe::Arrow;

/// Good and wrong side by side, a tick over the one, a cross over the other, the wrong one before a
/// pale shape of the good; and its size, centimetres.
pub fn draw_wrong(spoilt: &SolvedFigure, fault: &str) -> (String, (f64, f64)) {
    let kit = pieces(spoilt);
    let camera = Camera::on(spoilt);
    let mut good = frame(spoilt, 0, &kit);
    let mut bad = frame(spoilt, 1, &kit);
    bad.lay(signed(spoilt, sign(fault), &camera));
    mark(&mut good, &[(-5.0, 0.0), (-1.5, 4.0), (6.0, -5.0)], &[]);
    mark(&mut bad, &[(-5.0, -5.0), (5.0, 5.0)], &[(-5.0, 5.0), (5.0, -5.0)]);
    pair([good, bad])
}

/// The sign in its place.
fn signed(spoilt: &SolvedFigure, sign: Sign, camera: &Camera) -> Paper {
    let (good, bad) = (&spoilt.poses[0].body, &spoilt.poses[1].body);
    let blocks = kit_rounds(&pieces(spoilt), camera);
    let both = |limb: LimbMark, at_end: bool| {
        let mut paper = Paper::default();
        let moved = |side| bad.limb(side, limb) - good.limb(side, limb);
        for side in Side::BOTH.into_iter().filter(|side| moved(*side).length() > 0.02) {
            paper.lay(arrow::at(limb.of(side), at_end, (good, bad), camera));
        }
        paper
    };
    match sign {
        Sign::Follows(mark) => {
            let goes = |mark| camera.see(good.mark(mark)).to(camera.see(bad.mark(mark))).length();
            // Of who hangs or holds on, what should move stays, and the body goes.
            let mark = if goes(mark) < 4.0 { Mark::Head } else { mark };
            arrow::along(mark, Head::Point, (good, bad), camera, &blocks)
        }
        Sign::Pushed(limb) => both(limb, true),
        Sign::Goes(limb) => both(limb, false),
        Sign::Lacks => lacking(bad, good, camera, &blocks),
    }
}

/// The way from where a pose stops to where it should go on to, of what would move furthest.
fn lacking(bad: &Body, good: &Body, camera: &Camera, blocks: &[super::outline::Round]) -> Paper {
    match arrow::moving(&Arrow::Chosen, bad, good, camera) {
        Some(mark) => arrow::along(mark, Head::Bars, (bad, good), camera, blocks),
        None => Paper::default(),
    }
}

/// A mark over a picture: strokes about a spot above its middle.
fn mark(paper: &mut Paper, one: &[(f64, f64)], two: &[(f64, f64)]) {
    let (x, y) = ((paper.bounds.min.x + paper.bounds.max.x) / 2.0, paper.bounds.min.y - 12.0);
    for stroke in [one, two].into_iter().filter(|stroke| !stroke.is_empty()) {
        let spots: Vec<_> = stroke.iter().map(|(dx, dy)| spot(x + dx, y + dy)).collect();
        paper.reach(&spots.iter().map(|s| round(*s, 2.0)).collect::<Vec<_>>());
        paper.draw(Ink::Arrow, line(&spots));
    }
}
