//! Published measurements that the model is held to.
//! Rows are copied and nothing here is fitted; what the library's own poses say to them is the
//! gym's (`gym::measured`).

use super::demand::{Bearer, Demand};
use super::joints::{LimbJoint, Side};
use super::marks::Mark;
use super::segments::Table;
use super::solve::SolvedFigure;
use super::words::contact::{Family, Part, Surface};

/// What was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measured {
    /// A push-up with hands and feet at these heights, centimetres.
    PushUp {
        /// Height under the hands.
        hands: f64,
        /// Height under the feet.
        feet: f64,
        /// On the knees, shins raised.
        knees: bool,
    },
    /// A straight body leaning back on straps by this angle from upright, degrees.
    StrapRow(f64),
}

/// At which instant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// Held with the arms straight.
    Straight,
    /// Held at the bottom.
    Bottom,
    /// The greatest force of a repetition in motion. No still pose is the same instant: it is set
    /// beside the arms straight, which asks least, and counts in no coverage.
    MovingPeak,
}

/// One published row: a share of body mass, upward for hands, along the strap for straps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// What was measured.
    pub what: Measured,
    /// When.
    pub when: When,
    /// Share of body mass, per cent.
    pub per_cent: f64,
    /// How near the model has to come, points.
    pub within: f64,
    /// Id of the source in `words/sources.yaml`.
    pub source: &'static str,
}

const EBBEN: &str = "ebben-2011";
const SUPRAK: &str = "suprak-2011";
const MELROSE: &str = "melrose-dawes-2015";

const fn push_up(hands: f64, feet: f64, knees: bool) -> Measured {
    Measured::PushUp { hands, feet, knees }
}

const fn row(what: Measured, when: When, per_cent: f64, source: &'static str) -> Row {
    let knees = matches!(what, Measured::PushUp { knees: true, .. });
    Row { what, when, per_cent, within: if knees { 7.0 } else { 5.0 }, source }
}

/// The confirmed rows of `facts/push_up_load.csv` and `facts/suspension_load.csv`.
pub const ROWS: [Row; 14] = [
    row(push_up(60.96, 0.0, false), When::MovingPeak, 41.0, EBBEN),
    row(push_up(0.0, 0.0, true), When::MovingPeak, 49.0, EBBEN),
    row(push_up(30.48, 0.0, false), When::MovingPeak, 55.0, EBBEN),
    row(push_up(0.0, 0.0, false), When::MovingPeak, 64.0, EBBEN),
    row(push_up(0.0, 30.48, false), When::MovingPeak, 70.0, EBBEN),
    row(push_up(0.0, 60.96, false), When::MovingPeak, 74.0, EBBEN),
    row(push_up(0.0, 0.0, false), When::Straight, 69.0, SUPRAK),
    row(push_up(0.0, 0.0, false), When::Bottom, 75.0, SUPRAK),
    row(push_up(0.0, 0.0, true), When::Straight, 54.0, SUPRAK),
    row(push_up(0.0, 0.0, true), When::Bottom, 62.0, SUPRAK),
    row(Measured::StrapRow(30.0), When::Straight, 37.44, MELROSE),
    row(Measured::StrapRow(45.0), When::Straight, 52.88, MELROSE),
    row(Measured::StrapRow(60.0), When::Straight, 68.08, MELROSE),
    row(Measured::StrapRow(75.0), When::Straight, 79.38, MELROSE),
];

/// Rows of one kind speak for poses of that kind only, and only within the rows' own range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RowKind {
    /// Hands and toes on the floor.
    Floor,
    /// Hands on the floor, on the knees.
    Knees,
    /// Hands on something up to 61 cm.
    RaisedHands,
    /// Feet on something up to 61 cm.
    RaisedFeet,
    /// Leaning back on straps by 30 to 75 degrees.
    Straps,
}

impl RowKind {
    /// All, in order.
    pub const ALL: [RowKind; 5] = [
        RowKind::Floor,
        RowKind::Knees,
        RowKind::RaisedHands,
        RowKind::RaisedFeet,
        RowKind::Straps,
    ];

    /// In a coach's words.
    pub fn words(self) -> &'static str {
        match self {
            RowKind::Floor => "Push-ups, hands and toes on the floor",
            RowKind::Knees => "Push-ups on the knees",
            RowKind::RaisedHands => "Push-ups, hands raised",
            RowKind::RaisedFeet => "Push-ups, feet raised",
            RowKind::Straps => "Strap rows",
        }
    }
}

/// The greatest height that was measured, metres.
const HIGHEST: f64 = 0.61;
/// The least and the greatest lean on straps that were measured, degrees.
const LEANS: (f64, f64) = (30.0, 75.0);
/// A body counts as straight with hips bent less than this, degrees.
const STRAIGHT: f64 = 12.0;

impl Measured {
    /// Of which kind the row is.
    pub fn kind(&self) -> RowKind {
        match self {
            Measured::StrapRow(_) => RowKind::Straps,
            Measured::PushUp { knees: true, .. } => RowKind::Knees,
            Measured::PushUp { hands, .. } if *hands > 0.0 => RowKind::RaisedHands,
            Measured::PushUp { feet, .. } if *feet > 0.0 => RowKind::RaisedFeet,
            Measured::PushUp { .. } => RowKind::Floor,
        }
    }

    /// The movement of the starter library that does it, and the setting at which.
    pub fn entry(&self) -> (&'static str, Option<(&'static str, f64)>) {
        match (self.kind(), self) {
            (_, Measured::StrapRow(lean)) => ("strap-row", Some(("lean", *lean))),
            (RowKind::Knees, _) => ("knee-push-up", None),
            (RowKind::RaisedHands, Measured::PushUp { hands, .. }) => {
                ("incline-push-up", Some(("hands", *hands)))
            }
            (RowKind::RaisedFeet, Measured::PushUp { feet, .. }) => {
                ("feet-raised-push-up", Some(("feet", *feet)))
            }
            _ => ("push-up", None),
        }
    }

    /// In a coach's words.
    pub fn words(&self) -> String {
        match self {
            Measured::StrapRow(lean) => format!(
                "strap row with the feet under the anchor (ours stand short of it), leaning {lean} degrees"
            ),
            Measured::PushUp { hands, feet, knees } => {
                let name = if *knees { "knee push-up" } else { "push-up" };
                match (*hands > 0.0, *feet > 0.0) {
                    (true, _) => format!("{name}, hands on {hands} cm"),
                    (_, true) => format!("{name}, feet on {feet} cm"),
                    _ => name.to_string(),
                }
            }
        }
    }
}

impl When {
    /// In a coach's words.
    pub fn words(self) -> &'static str {
        match self {
            When::Straight => "held, arms straight",
            When::Bottom => "held at the bottom",
            When::MovingPeak => "peak in motion",
        }
    }
}

impl Row {
    /// What a demand says to this row: at the bottom the last key pose, else the first.
    pub fn read(&self, demand: &Demand) -> Option<f64> {
        let borne = demand.borne.as_ref()?;
        let at = match self.when {
            When::Bottom => borne.at.last(),
            _ => borne.at.first(),
        };
        let at = at.filter(|at| at.refused.is_none())?;
        Some(if borne.by == Bearer::Straps { at.along } else { at.upward })
    }
}

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

/// How much a repetition in motion asks at its peak, as a multiple of holding still.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InMotion {
    /// Of whom: the person's segment table; the default person is neither.
    pub table: Table,
    /// For which rows of still poses.
    pub rows: RowKind,
    /// The multiple.
    pub times: f64,
    /// One standard deviation among people.
    pub spread: f64,
    /// How it was done and measured, in a coach's words.
    pub when: &'static str,
    /// Id of the source in `words/sources.yaml`.
    pub source: &'static str,
}

const ROZENEK: &str = "rozenek-2022";

/// Rozenek et al. 2022: the whole-body factor of push-ups at 60 a minute (1 when still), 44 people.
/// For the one person that is neither, the middle of both, and a spread that holds both.
pub const IN_MOTION: [InMotion; 3] = [
    in_motion(Table::DeLevaMen, 1.58, 0.14, "push-ups at 60 a minute, men"),
    in_motion(Table::DeLevaWomen, 1.33, 0.08, "push-ups at 60 a minute, women"),
    in_motion(Table::Winter, 1.46, 0.17, "push-ups at 60 a minute, between women and men"),
];

const fn in_motion(table: Table, times: f64, spread: f64, when: &'static str) -> InMotion {
    InMotion { table, rows: RowKind::Floor, times, spread, when, source: ROZENEK }
}

/// A number that was set on published rows, and on which.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Calibration {
    /// What it is, in a coach's words.
    pub what: &'static str,
    /// Its value, with its unit.
    pub value: &'static str,
    /// Ids of the sources whose rows it was chosen on.
    pub chosen_on: &'static [&'static str],
    /// On which rows, in words.
    pub rows: &'static str,
}

/// Every number in the model that was chosen on the rows above.
pub const CALIBRATIONS: [Calibration; 4] = [
    Calibration {
        what: "How far the force of the hands follows the arm, from 0 (straight down) to 1",
        value: "1",
        chosen_on: &[EBBEN],
        rows: "hands on 30 and 61 cm",
    },
    Calibration {
        what: "How far straight arms stand from upright towards square to the body",
        value: "0.35 of the way",
        chosen_on: &[EBBEN],
        rows: "hands on 30 and 61 cm, feet on 30 and 61 cm",
    },
    Calibration {
        what: "The least angle between arm and trunk with the hands raised",
        value: "72 degrees",
        chosen_on: &[EBBEN],
        rows: "hands on 30 and 61 cm",
    },
    Calibration {
        what: "The factor on the force in straps; its cause is not known",
        value: "1.12",
        chosen_on: &[MELROSE],
        rows: "all four leans",
    },
];

#[cfg(test)]
mod tests {
    use super::super::conditions::{ARM_LEAST, ARM_RULE};
    use super::super::demand::ROPE_FACTOR;
    use super::super::statics::HAND_LINE;
    use super::*;

    #[test]
    fn the_list_of_calibrations_says_what_the_model_uses() {
        let said: Vec<String> = CALIBRATIONS.iter().map(|c| c.value.to_string()).collect();
        let used = [
            format!("{HAND_LINE}"),
            format!("{ARM_RULE} of the way"),
            format!("{ARM_LEAST} degrees"),
            format!("{ROPE_FACTOR}"),
        ];
        assert_eq!(said, used);
    }
}
