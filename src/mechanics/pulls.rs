//! Pulls: bands and pulley straps between a body and an anchor, how far a band is stretched and how
//! hard it all pulls.
//! Never a force where nobody wrote what pulls, nor for a band stretched further than was measured.

use super::doubt::Shift;
use super::joints::Side;
use super::marks::{LimbMark, Mark, Piece};
use super::moments::GRAVITY;
use super::solve::{SolvedFigure, SolvedPose};
use super::space::{Vec3, vec3};
use super::statics::pressure_point;
use super::words::contact::{Family, Surface};
use super::words::props::{From, Line, LineEnd, Tension};
use serde::{Deserialize, Serialize};

/// A band at three times its length pulls this much harder than at twice: 29.8 N over 20.5 N, a
/// maker's table as quoted (`bandm2`, `bandm3` in `facts/measured_more.csv`).
const AT_THRICE: f64 = 29.8 / 20.5;

/// The same maker's table at every quarter of a length up to three lengths, as a share of the pull
/// at twice the length. From memory: used for nothing but the doubt of the curve.
const REMEMBERED: [f64; 9] = [0.0, 0.40, 0.64, 0.84, 1.0, 1.14, 1.30, 1.44, 1.58];

/// Nobody published here what a band does beyond three times its length.
const MOST_TIMES: f64 = 3.0;

/// What one band of a kind pulls beside another, one standard deviation: pairs of one colour were 8 to
/// 19 % apart (McMaster, Cronin and McGuigan 2010, `mcmaster2`, `mcmaster3`), and the mean difference of
/// two is 1.13 standard deviations.
pub const MAKE: f64 = 0.12;
/// A pulley's own friction, and a weight that is not quite what is written on it: our judgement, no source.
pub const PULLEY: f64 = 0.05;

/// The pull of a band at `times` its length at rest, as a share of what it pulls at twice that length:
/// the curve of second order through nothing at rest and the maker's two points. Of second order:
/// McMaster, Cronin and McGuigan 2010 (`mcmaster1`).
pub fn curve(times: f64) -> f64 {
    let stretch = (times - 1.0).max(0.0);
    let bend = (AT_THRICE - 2.0) / 2.0;
    stretch * (1.0 - bend) + stretch * stretch * bend
}

/// The same by the table from memory, in straight lines.
fn remembered(times: f64) -> f64 {
    let at = (4.0 * (times - 1.0)).clamp(0.0, 8.0);
    let low = (at.floor() as usize).min(7);
    REMEMBERED[low] + (REMEMBERED[low + 1] - REMEMBERED[low]) * (at - low as f64)
}

/// An end of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// The part of the body that it holds; none where it is fixed elsewhere.
    pub mark: Option<Mark>,
    /// Where it is, metres.
    pub at: Vec3,
}

/// One way of a line, stretched in one key pose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strung {
    /// Its two ends.
    pub ends: [End; 2],
    /// How many times its length at rest; none for a strap over a pulley.
    pub times: Option<f64>,
    /// How hard it pulls, kilograms; none where the band is stretched further than was measured.
    pub kilograms: Option<f64>,
}

/// A force on the body from something that pulls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pull {
    /// The part of the body that it holds.
    pub mark: Mark,
    /// Where it acts, metres.
    pub at: Vec3,
    /// In body weights.
    pub force: Vec3,
}

/// What pulls on the hands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Puller {
    /// A band: harder the further it is stretched.
    Band,
    /// A weight over a pulley: the same all the way.
    Pulley,
}

/// What pulls on the hands in one key pose.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct OnHands {
    /// Along the line, both hands together, kilograms; none where a band is stretched too far.
    pub kilograms: Option<f64>,
    /// How many times its length at rest a band is; none for a pulley.
    pub times: Option<f64>,
    /// What the pull takes off the feet, or below 0 adds, per cent of body weight; 0 where both ends
    /// hold the same body.
    pub takes_off: f64,
    /// How hard it turns the body about its feet (or what else carries it), forwards or, seen from the
    /// front, to the near side: N m per kg of body mass.
    pub turning: f64,
}

/// A pull on the hands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Pulled {
    /// By what.
    pub by: Puller,
    /// For each key pose, in order.
    pub at: Vec<OnHands>,
}

/// From which side to which a line goes: one a side, or one from side to side.
pub fn ways(line: &Line) -> Vec<(Side, Side)> {
    match (side_of(line.from), side_of(line.to)) {
        (Some(a), Some(b)) => vec![(a, b)],
        // Both hands pull on what goes round one foot.
        (None, Some(a)) if line.towel => vec![(Side::Far, a), (Side::Near, a)],
        (Some(a), None) | (None, Some(a)) => vec![(a, a)],
        (None, None) => vec![(Side::Far, Side::Far), (Side::Near, Side::Near)],
    }
}

/// The side an end names; none where it comes on both sides or in the middle.
fn side_of(end: LineEnd) -> Option<Side> {
    match end {
        LineEnd::Hands(side) | LineEnd::Feet(side) => side,
        LineEnd::Knee(side) => Some(side),
        LineEnd::Bar | LineEnd::Back | LineEnd::Anchor { .. } => None,
    }
}

/// One end on one side; none where this side has no such end.
pub fn end(end: LineEnd, side: Side, pose: &SolvedPose, figure: &SolvedFigure) -> Option<End> {
    let limb = |mark: LimbMark| {
        let mark = mark.of(side);
        Some(End { mark: Some(mark), at: pose.body.mark(mark) })
    };
    let fixed = |at: Vec3| Some(End { mark: None, at });
    match end {
        LineEnd::Hands(_) => limb(LimbMark::Grip),
        LineEnd::Feet(_) => limb(LimbMark::Sole),
        LineEnd::Knee(_) => limb(LimbMark::Knee),
        LineEnd::Back => {
            let wide = pose.body.frame(Piece::Chest).right * (0.06 * side.sign());
            Some(End { mark: Some(Mark::Back), at: pose.body.mark(Mark::Back) + wide })
        }
        LineEnd::Bar => {
            let bar = figure.start().touches.iter().find(|(c, _)| c.surface == Surface::Bar);
            bar.and_then(|(c, at)| fixed(vec3(at.x, c.height.unwrap_or(at.y), side.sign() * 0.03)))
        }
        LineEnd::Anchor { height, ahead, aside, from } => {
            let start = &figure.start().body;
            let hips = start.mark(Mark::Hips);
            let x = match from {
                From::Hips => hips.x,
                From::Heels => {
                    let heels = Side::BOTH.map(|side| start.limb(side, LimbMark::Heel).x);
                    (heels[0] + heels[1]) / 2.0
                }
            };
            fixed(vec3(x + ahead, height, hips.z + aside))
        }
    }
}

/// Every line whose pull is written, stretched as in `pose`.
pub fn strung(pose: &SolvedPose, figure: &SolvedFigure, shift: &Shift) -> Vec<Strung> {
    let one = |line: &Line| {
        let tension = line.tension?;
        let ways = ways(line);
        let share = 1.0 / ways.len() as f64;
        let ends = ways.into_iter().filter_map(|(a, b)| {
            Some([end(line.from, a, pose, figure)?, end(line.to, b, pose, figure)?])
        });
        Some(ends.map(|ends| one_way(tension, share, ends, shift)).collect::<Vec<_>>())
    };
    figure.recipe.lines.iter().filter_map(one).flatten().collect()
}

fn one_way(tension: Tension, share: f64, ends: [End; 2], shift: &Shift) -> Strung {
    match tension {
        Tension::Weight(kilograms) => {
            let pull = share * kilograms * (1.0 + PULLEY * shift.make);
            Strung { ends, times: None, kilograms: Some(pull) }
        }
        Tension::Band { rest, at_twice } => {
            let length = (ends[1].at - ends[0].at).length() + shift.hands;
            let times = length / (rest * (1.0 + shift.rest));
            let pull = (1.0 - shift.curve) * curve(times) + shift.curve * remembered(times);
            let pull = share * at_twice * pull * (1.0 + MAKE * shift.make);
            Strung { ends, times: Some(times), kilograms: (times <= MOST_TIMES).then_some(pull) }
        }
    }
}

/// The forces of all that pulls on a body, at both ends where both hold it. None where one of them is
/// not known.
pub fn pulls(pose: &SolvedPose, figure: &SolvedFigure, shift: &Shift) -> Option<Vec<Pull>> {
    let body = figure.person.kilograms;
    let both = |one: &Strung| {
        let size = one.kilograms? / body;
        let [a, b] = one.ends;
        let pull = |from: End, to: End| {
            Some(Pull { mark: from.mark?, at: from.at, force: (to.at - from.at).unit() * size })
        };
        Some([pull(a, b), pull(b, a)].into_iter().flatten().collect::<Vec<_>>())
    };
    let each: Option<Vec<Vec<Pull>>> = strung(pose, figure, shift).iter().map(both).collect();
    Some(each?.into_iter().flatten().collect())
}

/// What pulls on the hands in every key pose; none where nothing does whose pull is written.
pub fn pulled(figure: &SolvedFigure, shift: &Shift) -> Option<Pulled> {
    let in_hand = |e: LineEnd| matches!(e, LineEnd::Hands(_));
    let lines = figure.recipe.lines.iter();
    let by = lines.filter(|l| in_hand(l.from) || in_hand(l.to)).find_map(|l| l.tension)?;
    let by = if matches!(by, Tension::Weight(_)) { Puller::Pulley } else { Puller::Band };
    let at = figure.poses.iter().map(|pose| on_hands(pose, figure, shift)).collect();
    Some(Pulled { by, at })
}

fn on_hands(pose: &SolvedPose, figure: &SolvedFigure, shift: &Shift) -> OnHands {
    let grips = Side::BOTH.map(|side| LimbMark::Grip.of(side));
    let held = |e: &End| e.mark.is_some_and(|mark| grips.contains(&mark));
    let all = strung(pose, figure, shift);
    let held: Vec<&Strung> = all.iter().filter(|one| one.ends.iter().any(held)).collect();
    let kilograms = held.iter().map(|one| one.kilograms).sum();
    let most = |a: f64, b: f64| a.max(b);
    let times = held.iter().filter_map(|one| one.times).reduce(most);
    let forces = pulls(pose, figure, shift).unwrap_or_default();
    let plane = figure.plane();
    let (x, y) = plane.flat(base(pose));
    let turn = |pull: &Pull| {
        let ((at, up), (fx, fy)) = (plane.flat(pull.at), plane.flat(pull.force));
        (up - y) * fx - (at - x) * fy
    };
    OnHands {
        kilograms,
        times,
        takes_off: 100.0 * forces.iter().map(|pull| pull.force.y).sum::<f64>(),
        turning: GRAVITY * forces.iter().map(turn).sum::<f64>(),
    }
}

/// Middle of what carries the body, arms aside.
fn base(pose: &SolvedPose) -> Vec3 {
    let carries = pose.touches.iter().map(|(contact, _)| contact);
    let carries = carries.filter(|c| c.part.family() != Family::Arm && c.surface != Surface::Air);
    let points: Vec<Vec3> = carries.map(|contact| pressure_point(contact, pose)).collect();
    let sum = points.iter().fold(Vec3::ZERO, |sum, at| sum + *at);
    sum * (1.0 / points.len().max(1) as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: nothing at rest, 1 at twice, 29.8 / 20.5 = 1.4537 at three times the length. Half way to
    /// twice: 0.5 * 1.27317 - 0.25 * 0.27317 = 0.5683. The table from memory has 0.64 there.
    #[test]
    fn the_curve_goes_through_the_published_points() {
        for (times, by_hand) in [(0.8, 0.0), (1.0, 0.0), (1.5, 0.5683), (2.0, 1.0), (3.0, 1.4537)] {
            assert!((curve(times) - by_hand).abs() < 1e-4, "{times}: {}", curve(times));
        }
        assert!((remembered(1.5) - 0.64).abs() < 1e-12);
        assert!((remembered(3.0) - 1.58).abs() < 1e-12);
        let steps: Vec<f64> = (0..=20).map(|n| curve(1.0 + f64::from(n) / 10.0)).collect();
        assert!(steps.windows(2).all(|pair| pair[0] < pair[1]), "{steps:?}");
    }
}
