//! Scale: the one number a ladder's rungs are drawn and compared by, with its band.
//! Never compares two families: a share of body mass and a joint's moment stand on axes of their own.

pub use super::unknown::Unknown;
use super::{Gym, Posed, pulled};
use crate::library::{Change, Counts, Movement, SettingName};
use crate::mechanics::demand::{Bearer, Borne, Demand, Moments};
use crate::mechanics::doubt::Doubts;
use crate::mechanics::joints::Side;
use crate::mechanics::published::RowKind;
use crate::mechanics::row_kind::kind_of;
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::Plane;
use crate::mechanics::words::contact::{Contact, Family, Part, Surface};

/// What a family of movements is measured by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Axis {
    /// The whole force through the arms (on hands, forearms, straps or a bar) with the arms straight,
    /// per cent of body weight, added weight included; through one arm alone it counts twice.
    Arms,
    /// Hip and knee moments of the working leg, added, N m per kg of body mass.
    Legs,
    /// Hip moment of the working leg, N m per kg of body mass.
    Hips,
    /// Hip moment and the moment that bends the knee, added, N m per kg of body mass.
    BackOfLeg,
    /// Moment at the waist, N m per kg of body mass.
    Waist,
    /// Weight carried, kilograms.
    Carried,
    /// What a band or a pulley pulls on both hands together at the end of the movement, kilograms.
    Pulled,
}

/// Scales, clothes and what the eye takes for straight: no share is surer than this, points, and no
/// moment than this, N m per kg, the least that is shown. Our judgement, no source.
const LEAST_BAND: f64 = 1.0;
const LEAST_MOMENT_BAND: f64 = 0.05;
/// Nor any pull than this, kilograms.
const LEAST_PULL_BAND: f64 = 0.1;

/// A number whose band is wider than this share of itself says too little. Our own rule.
const TOO_ROUGH: f64 = 1.0;

impl Axis {
    /// The axis of a pattern; none where nothing that is computed orders its rungs (landings,
    /// turns, crawling, mobility).
    pub fn of(pattern: &str) -> Option<Axis> {
        match pattern {
            "push-horizontal" | "push-vertical" | "pull-horizontal" | "pull-vertical" => {
                Some(Axis::Arms)
            }
            "squat" | "single-leg" => Some(Axis::Legs),
            "hinge" => Some(Axis::Hips),
            "bridge" => Some(Axis::BackOfLeg),
            "brace" => Some(Axis::Waist),
            "carry" => Some(Axis::Carried),
            _ => None,
        }
    }

    /// Whether a written pull on the hands is this axis's number, or stands in its place.
    fn is_or_may_be_a_pull(self) -> bool {
        matches!(self, Axis::Arms | Axis::Pulled)
    }

    /// What the axis shows, in a coach's words.
    pub fn words(self) -> &'static str {
        match self {
            Axis::Arms => "body weight through straight arms",
            Axis::Legs => "turning force at hip and knee of the working leg",
            Axis::Hips => "turning force at the hip of the working leg",
            Axis::BackOfLeg => "turning force at hip and back of the knee",
            Axis::Waist => "turning force at the waist",
            Axis::Carried => "weight carried",
            Axis::Pulled => "pull on the hands at the end of the movement",
        }
    }

    /// A value in the axis's own unit: `64 %`, `1.3`, `12 kg`.
    pub fn shown(self, value: f64) -> String {
        match self {
            Axis::Arms => format!("{} %", whole(value)),
            Axis::Carried => format!("{} kg", whole(value)),
            Axis::Pulled => format!("{value:.1} kg"),
            _ => format!("{value:.1} N m/kg"),
        }
    }

    /// Give or take as printed everywhere: `4 points`, `0.2`, `0 kg`.
    pub fn band_shown(self, band: f64) -> String {
        match self {
            Axis::Arms if whole(band) == 1.0 => "1 point".to_string(),
            Axis::Arms => format!("{} points", whole(band)),
            Axis::Carried => format!("{} kg", whole(band)),
            Axis::Pulled => format!("{band:.1} kg"),
            _ => format!("{band:.1}"),
        }
    }

    /// Give or take of a number with these doubts: the one band that is printed anywhere.
    pub fn band(self, doubts: Doubts) -> f64 {
        match self {
            Axis::Arms => doubts.band().max(LEAST_BAND),
            Axis::Carried => doubts.band(),
            Axis::Pulled => doubts.band().max(LEAST_PULL_BAND),
            _ => doubts.band().max(LEAST_MOMENT_BAND),
        }
    }

    /// What a demand asks on this axis in its first or its last key pose.
    pub fn in_pose(self, demand: &Demand, last: bool) -> Option<f64> {
        let pick = |n: usize| if last { n.checked_sub(1) } else { (n > 0).then_some(0) };
        if self == Axis::Arms {
            let borne = demand.borne.as_ref()?;
            let at = borne.at.get(pick(borne.at.len())?).filter(|at| at.refused.is_none())?;
            return Some(borne.counted(at.along));
        }
        if self == Axis::Pulled {
            return pulled::on_hands(demand, last)?.kilograms;
        }
        let moments = demand.each.get(pick(demand.each.len())?)?.as_ref()?;
        self.of_moments(moments)
    }

    /// The same with its give or take; none where the doubts are greater than the number.
    pub fn known_in_pose(self, demand: &Demand, last: bool) -> Option<(f64, f64)> {
        let (value, doubts) = demand.doubtful(|demand| self.in_pose(demand, last))?;
        let band = self.band(doubts);
        (band <= value).then_some((value, band))
    }

    /// A joint's moment on this axis; none where the pose asks nothing there.
    fn of_moments(self, moments: &Moments) -> Option<f64> {
        let size = match self {
            Axis::Legs => moments.leg,
            Axis::Hips => moments.hip,
            Axis::BackOfLeg => moments.hip + moments.knee_bending,
            Axis::Waist => moments.waist,
            Axis::Arms | Axis::Carried | Axis::Pulled => return None,
        };
        (size > 0.05).then_some(size)
    }

    /// Whether a step that changes this shows on the axis. A longer pause, less help or more
    /// skill asks more without moving anything here.
    pub fn measures(self, change: Change) -> bool {
        match self {
            Axis::Arms => matches!(change, Change::Share | Change::Weight),
            Axis::Carried | Axis::Pulled => matches!(change, Change::Weight),
            Axis::Waist => {
                matches!(change, Change::Share | Change::Weight | Change::Lever | Change::Range)
            }
            _ => matches!(
                change,
                Change::Share | Change::Weight | Change::Lever | Change::Range | Change::Limbs
            ),
        }
    }

    /// Below this a step is no step: two points of body mass, or half a hundredth of what the
    /// hardest rungs ask. Common practice, no source.
    pub fn too_little(self) -> f64 {
        match self {
            Axis::Arms => 2.0,
            Axis::Carried => 0.5,
            Axis::Pulled => 0.1,
            _ => 0.02,
        }
    }

    /// Beyond this a step is too big. Common practice, no source: 25 points of body mass is from a
    /// counter to the floor in one go.
    pub fn too_much(self) -> f64 {
        match self {
            Axis::Arms => 25.0,
            Axis::Carried => 12.0,
            Axis::Pulled => 8.0,
            Axis::Waist => 0.9,
            _ => 1.2,
        }
    }
}

/// The nearest whole number of tenths, a half upward: tables keep tenths, and scripts round the same way.
pub fn whole(value: f64) -> f64 {
    (tenth(value) + 0.5).floor()
}

/// A tenth of a point is the least that any table keeps of a share.
fn tenth(value: f64) -> f64 {
    (10.0 * value).round() / 10.0
}

/// A number on an axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// On which axis.
    pub axis: Axis,
    /// In the axis's unit.
    pub value: f64,
    /// Give or take.
    pub band: f64,
    /// What the band comes from.
    pub doubts: Doubts,
    /// What the arms bear in the last key pose, and its give or take; none where balance does not
    /// decide it, where it is too rough, or where other parts bear then.
    pub at_end: Option<(f64, f64)>,
    /// The published rows that speak for it; none where no row reaches.
    pub rows: Option<RowKind>,
    /// Whether the same parts bear the body in the last key pose as in the first.
    pub as_it_starts: bool,
    /// True when the pose says by rule what the leading foot carries.
    pub ruled: bool,
    /// True when a weight was not written and the usual one was taken.
    pub usual_weight: bool,
    /// True when one arm bears alone, and so counts twice.
    pub alone: bool,
}

impl Reading {
    /// Give or take of the difference of two readings of one ladder: what they err in alike cancels
    /// (see `Doubt::shared`).
    pub fn apart(&self, other: &Reading) -> f64 {
        self.doubts.apart(other.doubts)
    }
}

/// The number of a movement on an axis. `given` are the settings that are written out; `counts`
/// is what the ladder counts.
pub fn reading(
    axis: Axis,
    movement: &Movement,
    posed: Option<&Posed>,
    given: &[&SettingName],
) -> Result<Reading, Unknown> {
    let Some(Posed { figure: Some(figure), demand: Some(demand), .. }) = posed else {
        return Err(Unknown::NoPose);
    };
    if axis.is_or_may_be_a_pull() && demand.pulled.is_some() {
        return pulled::reading(demand);
    }
    if let Some(why) = helped(axis, movement, figure) {
        return Err(why);
    }
    let weighed = movement.settings.iter().any(|(name, _)| name.value.as_str() == "weight");
    let usual_weight = weighed && !given.iter().any(|name| name.as_str() == "weight");
    if axis == Axis::Waist && lies(figure) {
        return Err(Unknown::Lies);
    }
    if matches!(axis, Axis::Legs | Axis::Hips | Axis::BackOfLeg) {
        not_of_one_leg(demand, figure)?;
    }
    if raised_hands(axis, figure) {
        return Err(Unknown::EitherWay);
    }
    let (value, doubts) = measured(axis, demand)?;
    let band = axis.band(doubts);
    if band > TOO_ROUGH * value {
        return Err(if value > 0.0 { Unknown::TooRough } else { Unknown::NotComputed });
    }
    let rows = (axis == Axis::Arms).then(|| kind_of(figure)).flatten();
    let as_it_starts = ends_as_it_starts(figure);
    let on_arms = axis == Axis::Arms && as_it_starts;
    let at_end = on_arms.then(|| axis.known_in_pose(demand, true)).flatten();
    let ruled = demand.ruled;
    let alone = axis == Axis::Arms && demand.borne.as_ref().is_some_and(|borne| borne.alone);
    Ok(Reading {
        axis,
        value,
        band,
        doubts,
        at_end,
        rows,
        as_it_starts,
        ruled,
        usual_weight,
        alone,
    })
}

/// Whether the last key pose is borne by the same parts as the first: who goes down on the toes and
/// comes up on the knees ends as somebody else's row.
fn ends_as_it_starts(figure: &SolvedFigure) -> bool {
    let borne = |pose: &SolvedPose| -> Vec<(Part, Option<Side>)> {
        let bears = pose.touches.iter().map(|(c, _)| c).filter(|c| c.surface != Surface::Air);
        let mut parts: Vec<_> = bears.map(|c| (c.part, c.side)).collect();
        parts.sort_by_key(|(part, side)| (*part, side.map(Side::index)));
        parts
    };
    borne(figure.start()) == borne(figure.end())
}

/// Feet on what slides: friction and the pull back in are not in a body that holds still.
fn slides(figure: &SolvedFigure) -> bool {
    let feet = |c: &Contact| c.part.family() == Family::Leg && c.surface == Surface::Slider;
    figure.poses.iter().any(|pose| pose.touches.iter().any(|(contact, _)| feet(contact)))
}

/// Why a leg's moments say nothing of the leg that works.
fn not_of_one_leg(demand: &Demand, figure: &SolvedFigure) -> Result<(), Unknown> {
    match figure.plane() {
        Plane::Front => Err(Unknown::Sideways),
        Plane::Side if demand.back_foot => Err(Unknown::BackFoot),
        Plane::Side if slides(figure) => Err(Unknown::Slides),
        Plane::Side => Ok(()),
    }
}

fn measured(axis: Axis, demand: &Demand) -> Result<(f64, Doubts), Unknown> {
    if axis == Axis::Carried {
        let some = demand.weight > 0.0;
        return some.then_some((demand.weight, Doubts::default())).ok_or(Unknown::NothingCarried);
    }
    if let (Axis::Arms, Some(borne)) = (axis, demand.borne.as_ref()) {
        if borne.idle {
            return Err(Unknown::IdleHand);
        }
        if let Some(refused) = borne.at.first().and_then(|at| at.refused) {
            return Err(Unknown::Undecided(refused));
        }
    }
    demand.doubtful(|demand| on(axis, demand)).ok_or_else(|| why_not(axis, demand))
}

/// Why nothing was measured on an axis.
fn why_not(axis: Axis, demand: &Demand) -> Unknown {
    match (axis, demand.refused) {
        (Axis::Arms, _) => Unknown::HoldsOnly,
        (_, Some(refused)) => Unknown::Undecided(refused),
        _ => Unknown::NotComputed,
    }
}

/// The number of a demand on an axis; none where the pose carries nothing there.
fn on(axis: Axis, demand: &Demand) -> Option<f64> {
    match axis {
        Axis::Arms => demand.borne.as_ref().and_then(|b| Some(b.counted(b.share()?))),
        _ => axis.of_moments(&demand.moments),
    }
}

/// On the back the floor takes what it likes: balance alone does not give the waist's part.
fn lies(figure: &SolvedFigure) -> bool {
    let on = |part| figure.start().touches.iter().any(|(contact, _)| contact.part == part);
    on(Part::Back) || on(Part::Seat)
}

/// Hands higher than the feet may press straight down or back along the arm, and the moment at
/// the waist follows: the pose alone does not say which.
fn raised_hands(axis: Axis, figure: &SolvedFigure) -> bool {
    let high = |c: &Contact| c.part.family() == Family::Arm && c.height.is_some_and(|h| h > 0.1);
    axis == Axis::Waist && figure.start().touches.iter().any(|(contact, _)| high(contact))
}

/// A band, a hand on a table or feet on a box take as much as the person lets them.
fn helped(axis: Axis, movement: &Movement, figure: &SolvedFigure) -> Option<Unknown> {
    let banded = movement.kit.iter().any(|need| need.0.iter().any(|k| k.value.as_str() == "band"));
    let touches = || figure.start().touches.iter().map(|(contact, _)| contact);
    let on_bar = touches().any(|c| matches!(c.surface, Surface::Bar | Surface::ParallelBars));
    let feet = touches().any(|c| c.part == Part::Foot && c.surface != Surface::Air);
    let hands = touches().any(|c| c.part.family() == Family::Arm && c.surface != Surface::Air);
    let shared = (axis == Axis::Arms && on_bar && feet) || (axis == Axis::Legs && hands);
    banded.then_some(Unknown::Banded).or_else(|| shared.then_some(Unknown::Helped))
}

/// Whether a movement is held where the ladder moves, or the other way round.
pub fn held_among(movement: &Movement, most: Counts) -> bool {
    (movement.counts == Counts::Seconds) != (most == Counts::Seconds)
}

/// What the axis of these rungs shows, in a coach's words.
pub fn axis_words<'a>(axis: Axis, readings: impl IntoIterator<Item = &'a Reading>) -> &'static str {
    match readings.into_iter().any(|read| read.alone) {
        true => "body weight, one arm alone counted twice",
        false => axis.words(),
    }
}

/// The same of a movement as it is usually done; of the arms where it has no pose.
pub fn bearing_of(gym: &Gym, movement: &Movement) -> &'static str {
    let posed = gym.posed.get(&movement.id).and_then(|posed| posed.demand.as_ref());
    let borne = posed.and_then(|demand| demand.borne.as_ref());
    borne.map_or("of body weight through the arms", bearing_words)
}

/// Through what a share goes: `of body weight through the arms`.
pub fn bearing_words(borne: &Borne) -> &'static str {
    if borne.alone {
        return "of body weight, one arm alone counted twice";
    }
    match borne.by {
        Bearer::Wall | Bearer::Hands => "of body weight through the arms",
        Bearer::Forearms => "of body weight on the forearms",
        Bearer::Straps => "of body weight in the straps",
        Bearer::Bar => "of body weight on the bar",
    }
}
