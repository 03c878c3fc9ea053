//! Published measurements that the model is held to.
//! Rows are copied and nothing here is fitted; what the library's own poses say to them is the
//! gym's (`gym::measured`).

use super::demand::{Bearer, Demand};
use super::segments::Table;

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
    /// Rising slowly from a seat at this height, centimetres: the moments of one leg.
    Rise(f64, LegJoint),
}

/// Whose moment a row of the legs says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LegJoint {
    /// Hip and knee at one moment, added.
    Both,
    /// The knee.
    Knee,
    /// The hip.
    Hip,
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
    /// The greatest force of one movement in motion over that of another done likewise: what motion adds
    /// is taken to be alike in both, so that two still poses may stand beside it.
    PeakOverPeak,
    /// Where rising slowly asks most of hip and knee.
    Slowly,
    /// The same with a lean of the trunk that nobody published: ours is one lean for every seat, so it
    /// counts in no coverage.
    OwnLean,
}

/// One published row: a share of body mass, upward for hands, along the strap for straps; or one number
/// over another, in per cent; or a moment of one leg in hundredths of N m per kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// What was measured.
    pub what: Measured,
    /// What it was divided by; none where it stands for itself.
    pub over: Option<Measured>,
    /// When.
    pub when: When,
    /// Share of body mass, or the ratio, per cent; hundredths of N m per kg.
    pub per_cent: f64,
    /// How near the model has to come, in the same unit.
    pub within: f64,
    /// Id of the source in `words/sources.yaml`.
    pub source: &'static str,
}

const EBBEN: &str = "ebben-2011";
const SUPRAK: &str = "suprak-2011";
const MELROSE: &str = "melrose-dawes-2015";
const YOSHIOKA: &str = "yoshioka-2007";
const BURDETT: &str = "burdett-1985";
/// Ebben's floor push-up, peak in motion: what his other rows are divided by.
const EBBEN_FLOOR: f64 = 64.0;

const fn push_up(hands: f64, feet: f64, knees: bool) -> Measured {
    Measured::PushUp { hands, feet, knees }
}

const fn row(what: Measured, when: When, per_cent: f64, source: &'static str) -> Row {
    let knees = matches!(what, Measured::PushUp { knees: true, .. });
    Row { what, over: None, when, per_cent, within: if knees { 7.0 } else { 5.0 }, source }
}

/// One of Ebben's peaks over his floor push-up's. Twice the room of one row: both may miss by 5 points.
const fn over_floor(hands: f64, feet: f64, knees: bool, per_cent: f64) -> Row {
    let (what, over) = (push_up(hands, feet, knees), Some(push_up(0.0, 0.0, false)));
    let when = When::PeakOverPeak;
    Row { what, over, when, per_cent: 100.0 * per_cent / EBBEN_FLOOR, within: 14.0, source: EBBEN }
}

/// A row of the legs: only the least sum of hip and knee is held to a tolerance, 15 hundredths.
const fn rise(seat: f64, joint: LegJoint, over: Option<f64>, per_cent: f64) -> Row {
    let over = match over {
        Some(seat) => Some(Measured::Rise(seat, joint)),
        None => None,
    };
    let source = if over.is_some() { BURDETT } else { YOSHIOKA };
    let within = if over.is_some() { f64::INFINITY } else { 15.0 };
    let when = if over.is_some() { When::OwnLean } else { When::Slowly };
    Row { what: Measured::Rise(seat, joint), over, when, per_cent, within, source }
}

/// The confirmed rows of `facts/push_up_load.csv` and `facts/suspension_load.csv`; Ebben's peaks again over
/// his floor push-up's, like by like; and `yosh07a`, `burdett1` and `burdett2` of
/// `facts/measured_more.csv`.
pub const ROWS: [Row; 22] = [
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
    over_floor(60.96, 0.0, false, 41.0),
    over_floor(0.0, 0.0, true, 49.0),
    over_floor(30.48, 0.0, false, 55.0),
    over_floor(0.0, 30.48, false, 70.0),
    over_floor(0.0, 60.96, false, 74.0),
    rise(40.0, LegJoint::Both, None, 153.0),
    rise(43.0, LegJoint::Knee, Some(64.0), 190.0),
    rise(43.0, LegJoint::Hip, Some(64.0), 240.0),
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
    /// Rising from a seat.
    Rise,
}

impl RowKind {
    /// All, in order.
    pub const ALL: [RowKind; 6] = [
        RowKind::Floor,
        RowKind::Knees,
        RowKind::RaisedHands,
        RowKind::RaisedFeet,
        RowKind::Straps,
        RowKind::Rise,
    ];

    /// In a coach's words.
    pub fn words(self) -> &'static str {
        match self {
            RowKind::Floor => "Push-ups, hands and toes on the floor",
            RowKind::Knees => "Push-ups on the knees",
            RowKind::RaisedHands => "Push-ups, hands raised",
            RowKind::RaisedFeet => "Push-ups, feet raised",
            RowKind::Straps => "Strap rows",
            RowKind::Rise => "Rising from a seat, hundredths",
        }
    }
}

impl Measured {
    /// Of which kind the row is.
    pub fn kind(&self) -> RowKind {
        match self {
            Measured::StrapRow(_) => RowKind::Straps,
            Measured::Rise(..) => RowKind::Rise,
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
            (_, Measured::Rise(seat, _)) => ("squat-to-box", Some(("seat", *seat))),
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
            Measured::Rise(seat, joint) => {
                let of = match joint {
                    LegJoint::Both => "hip and knee",
                    LegJoint::Knee => "knee",
                    LegJoint::Hip => "hip",
                };
                format!("rising from {seat} cm, {of} of one leg")
            }
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
            When::PeakOverPeak => "peak over peak in motion",
            When::Slowly => "slowly, where it asks most",
            When::OwnLean => "slowly, each with their own lean",
        }
    }
}

impl When {
    /// Whether a still pose is what was measured, or may stand for it on both sides of a ratio.
    pub fn compares(self) -> bool {
        !matches!(self, When::MovingPeak | When::OwnLean)
    }
}

impl Row {
    /// In a coach's words, without the instant.
    pub fn words(&self) -> String {
        let over = self.over.map(|over| format!(", over {}", over.words()));
        self.what.words() + &over.unwrap_or_default()
    }

    /// What a demand says to one side of this row: at the bottom the last key pose, else the first; of
    /// the legs the largest moment.
    pub fn read(&self, demand: &Demand) -> Option<f64> {
        if let Measured::Rise(_, joint) = self.what {
            let moments = &demand.moments;
            return Some(match joint {
                LegJoint::Both => 100.0 * moments.leg,
                LegJoint::Knee => 100.0 * moments.knee,
                LegJoint::Hip => 100.0 * moments.hip,
            });
        }
        let borne = demand.borne.as_ref()?;
        let at = match self.when {
            When::Bottom => borne.at.last(),
            _ => borne.at.first(),
        };
        let at = at.filter(|at| at.refused.is_none())?;
        Some(if borne.by == Bearer::Straps { at.along } else { at.upward })
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
        rows: "hands on 30 and 61 cm; moments of 10 to 23 N m at the elbow, by others, say it too",
    },
    Calibration {
        what: "How far straight arms stand from upright towards square to the body, feet raised",
        value: "0.35 of the way",
        chosen_on: &[EBBEN],
        rows: "feet on 30 and 61 cm",
    },
    Calibration {
        what: "The least angle between arm and trunk with the hands raised",
        value: "72 degrees",
        chosen_on: &[EBBEN],
        rows: "hands on 30 and 61 cm; lengths of the body alone say 66",
    },
    Calibration {
        what: "The factor on the force in straps; its cause is not known",
        value: "1.12",
        chosen_on: &[MELROSE],
        rows: "all four leans; with an anchor lower than ours, which is not published, most of it would go",
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
