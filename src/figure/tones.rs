//! Tones: which limbs are drawn strong and which pale, in a side view.
//! Goes by what moves and what bears over the whole figure; it draws nothing.

use crate::mechanics::joints::Side;
use crate::mechanics::marks::LimbMark;
use crate::mechanics::solve::SolvedFigure;
use crate::mechanics::words::contact::{Family, Surface};
use crate::mechanics::words::recipe::View;

/// Whether the limbs of each side, near and far, are drawn paler.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tones {
    /// Arms: near, far.
    pub arms: [bool; 2],
    /// Legs: near, far.
    pub legs: [bool; 2],
}

/// A limb works on its own when it goes this much further than the other, metres, and half as far
/// again. Chosen by eye, no source.
const FURTHER: f64 = 0.06;

/// From the side the far limbs are pale, so that the two are told apart; but a far limb that works
/// while the near one does not is strong. What is near is never pale: it would seem to be behind.
pub fn tones(figure: &SolvedFigure) -> Tones {
    if figure.recipe.view != View::Side {
        return Tones::default();
    }
    let pair = |family, marks: [LimbMark; 2]| {
        let [near, far] = Side::BOTH.map(|side| goes(figure, side, marks));
        let [bears, far_bears] = Side::BOTH.map(|side| bears(figure, side, family));
        let further = far > 1.5 * near + FURTHER;
        let far_works = further || (far_bears && !bears);
        [false, !far_works]
    };
    Tones {
        arms: pair(Family::Arm, [LimbMark::Elbow, LimbMark::Grip]),
        legs: pair(Family::Leg, [LimbMark::Knee, LimbMark::Ball]),
    }
}

/// How far a limb goes from one key pose to any later one, metres.
fn goes(figure: &SolvedFigure, side: Side, marks: [LimbMark; 2]) -> f64 {
    let far = |mark: LimbMark| {
        let from = figure.start().body.limb(side, mark);
        figure.poses.iter().map(move |pose| (pose.body.limb(side, mark) - from).length())
    };
    marks.into_iter().flat_map(far).fold(0.0, f64::max)
}

/// Whether a limb is on something in some key pose.
fn bears(figure: &SolvedFigure, side: Side, family: Family) -> bool {
    let touches = figure.poses.iter().flat_map(|pose| &pose.touches);
    let mut own = touches.filter(|(c, _)| c.side == Some(side) && c.surface != Surface::Air);
    own.any(|(c, _)| c.part.family() == family)
}
