//! Scale: the one number a ladder's rungs are drawn and compared by, with its band.
//! Never compares two families: a share of body mass and a joint's moment stand on axes of their own.

use super::Posed;
use crate::library::{Change, Counts, Movement, SettingName};
use crate::mechanics::demand::{Borne, Demand, Trust};
use crate::mechanics::solve::SolvedFigure;
use crate::mechanics::words::contact::{Contact, Family, Part, Surface};

/// What a family of movements is measured by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Axis {
    /// Share of body mass on hands, forearms, straps or a bar, per cent, added weight included.
    Arms,
    /// Hip and knee moments of the leg that works harder, added, N m per kg of body mass.
    Legs,
    /// Hip moment of the leg that works harder, N m per kg of body mass.
    Hips,
    /// Hip moment and the moment that bends the knee, added, N m per kg of body mass.
    BackOfLeg,
    /// Moment at the waist, N m per kg of body mass.
    Waist,
    /// Weight carried, kilograms.
    Carried,
}

/// Moments have no published row to check them: within one family a number may be off by this
/// share of itself. Common practice, no source; 1.50 to 1.98 m and three segment tables move the
/// ratios of our poses by less.
const MOMENT_BAND: f64 = 0.15;

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

    /// What the axis shows, in a coach's words.
    pub fn words(self) -> &'static str {
        match self {
            Axis::Arms => "share of body mass on the arms",
            Axis::Legs => "turning force at hip and knee of the leg that works harder",
            Axis::Hips => "turning force at the hip that works harder",
            Axis::BackOfLeg => "turning force at hip and back of the knee",
            Axis::Waist => "turning force at the waist",
            Axis::Carried => "weight carried",
        }
    }

    /// A value in the axis's own unit: `64 %`, `1.3`, `12 kg`.
    pub fn shown(self, value: f64) -> String {
        match self {
            Axis::Arms => format!("{:.0} %", value),
            Axis::Carried => format!("{:.0} kg", value),
            _ => format!("{value:.1} N m/kg"),
        }
    }

    /// Whether a step that changes this shows on the axis. A longer pause, less help or more
    /// skill asks more without moving anything here.
    pub fn measures(self, change: Change) -> bool {
        match self {
            Axis::Arms => matches!(change, Change::Share | Change::Weight),
            Axis::Carried => matches!(change, Change::Weight),
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
            _ => 0.02,
        }
    }

    /// Beyond this a step is too big. Common practice, no source: 25 points of body mass is from a
    /// counter to the floor in one go.
    pub fn too_much(self) -> f64 {
        match self {
            Axis::Arms => 25.0,
            Axis::Carried => 12.0,
            Axis::Waist => 0.9,
            _ => 1.2,
        }
    }
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
    /// How far to trust it.
    pub trust: Trust,
    /// True when a share is counted along the arm or strap rather than upward.
    pub along: bool,
    /// True when a weight was not written and the usual one was taken.
    pub usual_weight: bool,
}

/// Why a rung has no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unknown {
    /// No pose, or one that does not solve.
    NoPose,
    /// A hold among repetitions, or the other way round.
    Held,
    /// A band, a hand or the feet take what they like.
    Helped,
    /// Hands higher than the feet: the answer depends on which way they press.
    EitherWay,
    /// The pattern has no axis, or the pose does not carry it.
    NotComputed,
}

impl Unknown {
    /// Why, in a coach's words.
    pub fn words(self) -> &'static str {
        match self {
            Unknown::NoPose => "no pose, no number",
            Unknown::Held => "a hold among repetitions: no number",
            Unknown::Helped => "helped: no number",
            Unknown::EitherWay => {
                "no number: hands higher than the feet may press down or back along the arms"
            }
            Unknown::NotComputed => "no number from a still pose",
        }
    }

    /// The same beside a drawn rung, where there is room for a few words only.
    pub fn brief(self) -> &'static str {
        match self {
            Unknown::EitherWay => "no number",
            other => other.words(),
        }
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
    if helped(axis, movement, figure) {
        return Err(Unknown::Helped);
    }
    let weighed = movement.settings.iter().any(|(name, _)| name.value.as_str() == "weight");
    let usual_weight = weighed && !given.iter().any(|name| name.as_str() == "weight");
    if axis == Axis::Waist && lies(figure) {
        return Err(Unknown::NotComputed);
    }
    if raised_hands(axis, figure) {
        return Err(Unknown::EitherWay);
    }
    let (value, band, trust) = measured(axis, demand).ok_or(Unknown::NotComputed)?;
    let along = axis == Axis::Arms && demand.borne.as_ref().is_some_and(Borne::is_along);
    Ok(Reading { axis, value, band, trust, along, usual_weight })
}

fn measured(axis: Axis, demand: &Demand) -> Option<(f64, f64, Trust)> {
    let moment =
        |value: f64| (value > 0.01).then_some((value, MOMENT_BAND * value, Trust::Computed));
    // The hamstrings cross hip and knee: adding the two moments is rougher than either.
    let rough = |value: f64| moment(value).map(|(value, _, trust)| (value, 0.25 * value, trust));
    match axis {
        Axis::Arms => demand.borne.as_ref().map(|b| (b.share(), b.band, b.trust)),
        Axis::Legs => moment(demand.moments.leg),
        Axis::Hips => moment(demand.moments.hip),
        Axis::BackOfLeg => rough(demand.moments.hip + demand.moments.knee_bending),
        Axis::Waist => moment(demand.moments.waist),
        Axis::Carried => (demand.weight > 0.0).then_some((demand.weight, 0.0, Trust::Checked)),
    }
}

/// On the back the floor takes what it likes: balance alone does not give the waist's part.
fn lies(figure: &SolvedFigure) -> bool {
    let on = |part| figure.start().touches.iter().any(|(contact, _)| contact.part == part);
    on(Part::Back) || on(Part::Seat)
}

/// Hands higher than the feet may press straight down or back along the arm, and the moment at
/// the waist follows: at 90 cm the two answers differ by more than either of them.
fn raised_hands(axis: Axis, figure: &SolvedFigure) -> bool {
    let high = |c: &Contact| c.part.family() == Family::Arm && c.height.is_some_and(|h| h > 0.1);
    axis == Axis::Waist && figure.start().touches.iter().any(|(contact, _)| high(contact))
}

/// A band, a hand on a table or feet on a box take as much as the person lets them.
fn helped(axis: Axis, movement: &Movement, figure: &SolvedFigure) -> bool {
    let banded = movement.kit.iter().any(|need| need.0.iter().any(|k| k.value.as_str() == "band"));
    let touches = || figure.start().touches.iter().map(|(contact, _)| contact);
    let on_bar = touches().any(|c| matches!(c.surface, Surface::Bar | Surface::ParallelBars));
    let feet = touches().any(|c| c.part == Part::Foot && c.surface != Surface::Air);
    let hands = touches().any(|c| c.part.family() == Family::Arm && c.surface != Surface::Air);
    banded || (axis == Axis::Arms && on_bar && feet) || (axis == Axis::Legs && hands)
}

/// Whether a movement is held where the ladder moves, or the other way round.
pub fn held_among(movement: &Movement, most: Counts) -> bool {
    (movement.counts == Counts::Seconds) != (most == Counts::Seconds)
}

/// What a share was measured on and which way: `of body mass on the hands`.
pub fn bearing_words(borne: &Borne) -> &'static str {
    use crate::mechanics::demand::Bearer;
    match borne.by {
        Bearer::Wall => "of body weight along the arms",
        Bearer::Hands => "of body mass on the hands",
        Bearer::Forearms => "of body mass on the forearms",
        Bearer::Straps => "of body mass in the straps",
        Bearer::Bar => "of body mass on the bar",
    }
}
