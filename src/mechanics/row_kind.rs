//! Row kind: which published rows speak for a figure, within the rows' own range.
//! Never lends a row to another body: what no row reaches has none.

use super::joints::{LimbJoint, Side};
use super::marks::Mark;
use super::published::RowKind;
use super::solve::SolvedFigure;
use super::words::contact::{Family, Part, Surface};

/// The greatest height that was measured, metres.
const HIGHEST: f64 = 0.61;
/// The least and the greatest lean on straps that were measured, degrees.
const LEANS: (f64, f64) = (30.0, 75.0);
/// A body counts as straight with hips bent less than this, degrees.
const STRAIGHT: f64 = 12.0;

/// The kind of published rows that speak for a figure with its arms straight; none where no row
/// reaches: bodies that are not straight, one arm, forearms, higher surfaces, other leans.
pub fn kind_of(figure: &SolvedFigure) -> Option<RowKind> {
    let start = figure.start();
    let body = &start.body;
    let both = |part: Part, on: &dyn Fn(Surface) -> bool| {
        let has = |side: Side| {
            start
                .touches
                .iter()
                .any(|(c, _)| c.part == part && c.side == Some(side) && on(c.surface))
        };
        Side::BOTH.into_iter().all(has)
    };
    let straight = Side::BOTH.iter().all(|side| {
        body.posture.degrees(*side, LimbJoint::Hip).abs() < STRAIGHT
            && body.posture.degrees(*side, LimbJoint::Elbow).abs() < STRAIGHT
    });
    let bare = figure.recipe.held.is_none();
    if !straight || !bare {
        return None;
    }
    if both(Part::Hand, &Surface::is_rope) && both(Part::Heel, &|s| s == Surface::Floor) {
        let line = body.mark(Mark::Shoulders)
            - start.touches.iter().find(|(c, _)| c.part == Part::Heel)?.1;
        let lean = line.x.abs().atan2(line.y).to_degrees();
        let measured = (LEANS.0 - 3.0..=LEANS.1 + 3.0).contains(&lean);
        return measured.then_some(RowKind::Straps);
    }
    let solid = |s: Surface| s == Surface::Floor || s.is_block();
    let height = |family: Family| {
        let heights = start.touches.iter().filter(|(c, _)| c.part.family() == family);
        heights.filter_map(|(c, _)| c.height).fold(0.0, f64::max)
    };
    let (hands, feet) = (height(Family::Arm), height(Family::Leg));
    if !both(Part::Hand, &solid) || hands.max(feet) > HIGHEST {
        return None;
    }
    let on = |part| both(part, &solid);
    match (on(Part::Toes), on(Part::Knee), hands > 0.0, feet > 0.0) {
        (false, true, false, false) => Some(RowKind::Knees),
        (true, false, true, false) => Some(RowKind::RaisedHands),
        (true, false, false, true) => Some(RowKind::RaisedFeet),
        (true, false, false, false) => Some(RowKind::Floor),
        _ => None,
    }
}
