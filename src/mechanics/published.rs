//! Published measurements that the model is held to, and how far it is from each.
//! Nothing here is fitted: rows are copied, and the two calibrations stand in `statics` and `demand`.

use super::demand::demand;
use super::node::PoseNode;
use super::solve::{Person, figure};

/// What lies under hands and feet in a measured row.
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
        /// Chest near the floor rather than arms straight.
        lowered: bool,
    },
    /// A straight body leaning back on straps by this angle from upright, degrees.
    StrapRow(f64),
}

/// One published row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// What was measured.
    pub what: Measured,
    /// Share of body mass, per cent.
    pub per_cent: f64,
    /// How near the model has to come, points.
    pub within: f64,
    /// Id of the source in `words/sources.yaml`.
    pub source: &'static str,
}

/// A row and what the model says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residual {
    /// The row.
    pub row: Row,
    /// The model's share, per cent of body mass.
    pub computed: f64,
}

impl Residual {
    /// Computed less measured, points.
    pub fn miss(&self) -> f64 {
        self.computed - self.row.per_cent
    }
}

const fn push_up(hands: f64, feet: f64, knees: bool, lowered: bool) -> Measured {
    Measured::PushUp { hands, feet, knees, lowered }
}

const fn row(what: Measured, per_cent: f64, source: &'static str) -> Row {
    let knees = matches!(what, Measured::PushUp { knees: true, .. });
    Row { what, per_cent, within: if knees { 7.0 } else { 5.0 }, source }
}

const EBBEN: &str = "ebben-2011";
const SUPRAK: &str = "suprak-2011";
const MELROSE: &str = "melrose-dawes-2015";

/// Ebben et al. 2011 (23 people, largest vertical force under the hands), Suprak et al. 2011 (28
/// men, held still), Melrose & Dawes 2015 (40 people, force in the strap).
pub const ROWS: [Row; 14] = [
    row(push_up(60.96, 0.0, false, false), 41.0, EBBEN),
    row(push_up(0.0, 0.0, true, false), 49.0, EBBEN),
    row(push_up(30.48, 0.0, false, false), 55.0, EBBEN),
    row(push_up(0.0, 0.0, false, false), 64.0, EBBEN),
    row(push_up(0.0, 30.48, false, false), 70.0, EBBEN),
    row(push_up(0.0, 60.96, false, false), 74.0, EBBEN),
    row(push_up(0.0, 0.0, false, false), 69.0, SUPRAK),
    row(push_up(0.0, 0.0, false, true), 75.0, SUPRAK),
    row(push_up(0.0, 0.0, true, false), 54.0, SUPRAK),
    row(push_up(0.0, 0.0, true, true), 62.0, SUPRAK),
    row(Measured::StrapRow(30.0), 37.44, MELROSE),
    row(Measured::StrapRow(45.0), 52.88, MELROSE),
    row(Measured::StrapRow(60.0), 68.08, MELROSE),
    row(Measured::StrapRow(75.0), 79.38, MELROSE),
];

/// What the model says to every row, for the person that figures are drawn for.
pub fn residuals() -> Vec<Residual> {
    ROWS.iter().filter_map(|row| Some(Residual { row: *row, computed: computed(row)? })).collect()
}

fn computed(row: &Row) -> Option<f64> {
    let (solved, _) = figure(&row.what.pose(), 0, &[], &Person::default());
    let borne = demand(&solved?).borne?;
    match row.what {
        Measured::PushUp { lowered: true, .. } => borne.upward.last().copied(),
        _ => Some(borne.share()),
    }
}

impl Measured {
    /// In a coach's words.
    pub fn words(&self) -> String {
        match self {
            Measured::StrapRow(lean) => format!("strap row held, leaning {lean} degrees"),
            Measured::PushUp { hands, feet, knees, lowered } => {
                let name = if *knees { "knee push-up" } else { "push-up" };
                let raised = match (*hands > 0.0, *feet > 0.0) {
                    (true, _) => format!(", hands on {hands} cm"),
                    (_, true) => format!(", feet on {feet} cm"),
                    _ => String::new(),
                };
                format!("{name}{raised}, {}", if *lowered { "lowered" } else { "arms straight" })
            }
        }
    }

    /// The pose, as an author would write it.
    fn pose(&self) -> PoseNode {
        let (start, end) = match self {
            Measured::StrapRow(lean) => (strap_row(*lean), None),
            Measured::PushUp { hands, feet, knees, .. } => {
                let legs = if *knees {
                    vec![("knees", "floor".to_string()), ("knee", "90".to_string())]
                } else {
                    vec![("toes", on(*feet))]
                };
                let mut start = vec![("hands", on(*hands)), ("body", "straight".to_string())];
                start.extend(legs.clone());
                start.push(("elbow", "0".to_string()));
                (start, Some(lowered(*hands, *feet, *knees)))
            }
        };
        let mut keys = vec![("start".to_string(), 0, block(start), 0)];
        keys.extend(end.map(|end| ("end".to_string(), 0, block(end), 0)));
        PoseNode::Map(keys)
    }
}

fn strap_row(lean: f64) -> Vec<(&'static str, String)> {
    vec![
        ("heels", "floor".to_string()),
        ("hands", "straps 220, anchor over heels".to_string()),
        ("body", format!("straight, lean -{lean}")),
    ]
}

/// The chest 9 cm over the hands' surface; with the feet high the head comes down first, so a
/// little more.
fn lowered(hands: f64, feet: f64, knees: bool) -> Vec<(&'static str, String)> {
    let mut end = vec![("body", "straight".to_string())];
    if knees {
        end.push(("knee", "90".to_string()));
    }
    end.push(("chest", format!("{}", hands + 9.0 + feet / 15.0)));
    end
}

fn on(height: f64) -> String {
    if height > 0.0 { format!("box {height}") } else { "floor".to_string() }
}

fn block(entries: Vec<(&'static str, String)>) -> PoseNode {
    PoseNode::Map(
        entries
            .into_iter()
            .map(|(key, value)| (key.to_string(), 0, PoseNode::Text(value), 0))
            .collect(),
    )
}
