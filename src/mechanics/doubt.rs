//! Doubts: what a demand rests on that nobody measured on this person, and how far each moves it.
//! Never a fitted size and never a constant band: each doubt is one standard deviation with its
//! reason, and a band is what they come to together.

use super::joints::{Joint, LimbJoint, Side};
use super::kinematics::Body;
use super::marks::LimbMark;
use super::mass::lumps;
use super::pulls::{MAKE, PULLEY};
use super::segments::Table;
use super::solve::{Person, SolvedFigure, SolvedPose};
use super::space::{Plane, Vec3, vec3};
use super::words::said::Over;

/// What a demand rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Doubt {
    /// The first of the two segment tables that were not used.
    OneTable,
    /// The second.
    OtherTable,
    /// The direction in which the hands press.
    Direction,
    /// Past which point of a bent arm their force goes.
    Aim,
    /// Where foot, knee, seat or back press.
    Pressure,
    /// Where the hands press.
    Hands,
    /// How far the trunk leans against the legs.
    Trunk,
    /// The factor of the straps.
    Rope,
    /// What the front foot carries, where a pose says it by rule.
    FrontFoot,
    /// What one band pulls beside another of its kind, or a pulley's friction.
    Make,
    /// Along which curve a band's pull rises.
    Curve,
    /// How long a band is at rest.
    Rest,
}

/// How many there are.
pub const DOUBTS: usize = 12;

/// A small change of everything that is in doubt; nothing changed by default.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shift {
    /// Another segment table.
    pub table: Option<Table>,
    /// Added to `statics::HAND_LINE`.
    pub line: f64,
    /// Added to how far towards the elbow the line of a bent arm goes.
    pub aim: f64,
    /// Feet, knees, seat and back press this much further on, metres.
    pub pressure: f64,
    /// Hands and forearms press this much further on, metres.
    pub hands: f64,
    /// The trunk leans this much further, radians.
    pub trunk: f64,
    /// Added to `demand::ROPE_FACTOR`.
    pub rope: f64,
    /// Added to the share that the front foot carries by rule.
    pub front_foot: f64,
    /// Standard deviations by which a band or a pulley pulls harder (`pulls` has their sizes).
    pub make: f64,
    /// How far from the published curve of a band to the table from memory, 0 to 1.
    pub curve: f64,
    /// A band is longer at rest by this share.
    pub rest: f64,
}

/// A quarter of the way from straight down to along the arm. Our own judgement, no source: nobody
/// measured the direction, and elbow moments of 10 to 23 N m an arm (Donkers 1993, An 1992 in
/// `facts/measured_more.csv`) only say that it passes within some centimetres of the arm.
const LINE: f64 = 0.25;
/// Half of the way from midway to the elbow, or to the shoulder. Our judgement, as above.
const AIM: f64 = 0.25;
/// A foot, a kneecap or a seat is pressed somewhere along some centimetres; metres, our judgement.
const PRESSURE: f64 = 0.025;
/// Heel of the hand or knuckles, and the hand itself set a little nearer or further; metres, our
/// judgement.
const HANDS: f64 = 0.03;
/// Nobody stands as drawn: seven degrees are what eyes see badly, taken as two standard deviations;
/// our judgement.
const TRUNK: f64 = 3.0;
/// The whole of what the factor adds: its cause is not known, so it may be nothing. A model that never saw
/// the factor's source misses it by as much (`gym::left_out`), and of bodies that nobody measured in
/// straps nobody knows whether it is there at all.
const ROPE: f64 = 0.12;
/// Five points in a hundred: one study has 84 % on the front foot of a raised split squat (Helme 2022),
/// of lunges on the floor only the order is published. Our judgement.
const FRONT_FOOT: f64 = 0.05;
/// Two bands of one colour were 3.5 to 5.2 % apart at rest (McMaster, Cronin and McGuigan 2010,
/// `mcmaster2` in `facts/measured_more.csv`); with what a tape on rubber misreads, our judgement.
const REST: f64 = 0.04;

impl Doubt {
    /// All, in order.
    pub const ALL: [Doubt; DOUBTS] = [
        Doubt::OneTable,
        Doubt::OtherTable,
        Doubt::Direction,
        Doubt::Aim,
        Doubt::Pressure,
        Doubt::Hands,
        Doubt::Trunk,
        Doubt::Rope,
        Doubt::FrontFoot,
        Doubt::Make,
        Doubt::Curve,
        Doubt::Rest,
    ];

    /// One standard deviation of it for `person`.
    pub fn shift(self, person: &Person) -> Shift {
        let mut others = Table::ALL.into_iter().filter(|table| *table != person.table);
        let none = Shift::default();
        match self {
            Doubt::OneTable => Shift { table: others.next(), ..none },
            Doubt::OtherTable => Shift { table: others.nth(1), ..none },
            Doubt::Direction => Shift { line: -LINE, ..none },
            Doubt::Aim => Shift { aim: AIM, ..none },
            Doubt::Pressure => Shift { pressure: PRESSURE, ..none },
            Doubt::Hands => Shift { hands: HANDS, ..none },
            Doubt::Trunk => Shift { trunk: TRUNK.to_radians(), ..none },
            Doubt::Rope => Shift { rope: ROPE, ..none },
            Doubt::FrontFoot => Shift { front_foot: FRONT_FOOT, ..none },
            Doubt::Make => Shift { make: 1.0, ..none },
            Doubt::Curve => Shift { curve: 1.0, ..none },
            Doubt::Rest => Shift { rest: REST, ..none },
        }
    }

    /// What it is and one standard deviation of it, in a coach's words.
    pub fn words(self) -> String {
        match self {
            Doubt::OneTable | Doubt::OtherTable => {
                "the two other tables of body segments".to_string()
            }
            Doubt::Direction => format!(
                "the direction of the hands' force: {LINE} of the way from straight down to along the arm"
            ),
            Doubt::Aim => format!(
                "where the force of a bent arm passes: {AIM} of the way from shoulder to elbow"
            ),
            Doubt::Pressure => {
                format!("where feet, knees, seat or back press: {} cm", PRESSURE * 100.0)
            }
            Doubt::Hands => format!("where the hands press: {} cm", HANDS * 100.0),
            Doubt::Trunk => format!("how far the trunk leans: {TRUNK} degrees"),
            Doubt::Rope => format!("the factor of the straps: {ROPE}, the whole of what it adds"),
            Doubt::FrontFoot => format!(
                "what the front foot carries, where a rule says it: {} points",
                100.0 * FRONT_FOOT
            ),
            Doubt::Make => format!(
                "what a band of one kind pulls beside another: {} %; the friction of a pulley: {} %",
                (100.0 * MAKE).round(),
                (100.0 * PULLEY).round()
            ),
            Doubt::Curve => {
                "the curve of a band's pull: all the way from the published points to a table from memory"
                    .to_string()
            }
            Doubt::Rest => format!("how long a band is at rest: {} %", (100.0 * REST).round()),
        }
    }

    /// Whether only what pulls along a line is in this doubt.
    pub fn is_of_a_pull(self) -> bool {
        matches!(self, Doubt::Make | Doubt::Curve | Doubt::Rest)
    }

    /// How much of the change counts: the two other tables are two tries at one doubt.
    fn weight(self) -> f64 {
        match self {
            Doubt::OneTable | Doubt::OtherTable => std::f64::consts::FRAC_1_SQRT_2,
            _ => 1.0,
        }
    }

    /// The correlation of a doubt on two rungs of one ladder. One person has one body, so the table
    /// errs alike on both; habits of pressing go along mostly, the trunk and the place of the hands
    /// by half. Our judgement, no source.
    pub fn shared(self) -> f64 {
        match self {
            Doubt::OneTable | Doubt::OtherTable | Doubt::Rope => 1.0,
            // One and the same band, stretched further.
            Doubt::Make | Doubt::Curve | Doubt::Rest => 0.8,
            Doubt::Direction | Doubt::Aim | Doubt::Pressure | Doubt::FrontFoot => 0.8,
            Doubt::Hands | Doubt::Trunk => 0.5,
        }
    }
}

/// From a standard deviation to a band that nine of ten fall in, were the doubts normal.
pub const NINE_OF_TEN: f64 = 1.645;

/// How far one standard deviation of each doubt moves a number, in the number's unit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Doubts(pub [f64; DOUBTS]);

impl Doubts {
    /// The changes of a number: `under` gives it with a doubt shifted, or nothing where the shifted
    /// pose has none. A change that cannot be worked out counts as the whole number.
    pub fn of(value: f64, under: impl Fn(Doubt) -> Option<f64>) -> Doubts {
        let change = |doubt: Doubt| under(doubt).map_or(value, |other| other - value);
        Doubts(Doubt::ALL.map(|doubt| change(doubt) * doubt.weight()))
    }

    /// The same in another unit.
    pub fn times(self, factor: f64) -> Doubts {
        Doubts(self.0.map(|change| change * factor))
    }

    /// Give or take: nine of ten, were the doubts independent and normal.
    pub fn band(self) -> f64 {
        NINE_OF_TEN * self.0.iter().map(|change| change * change).sum::<f64>().sqrt()
    }

    /// Give or take of the difference of two numbers, whose doubts go along by `Doubt::shared`.
    pub fn apart(self, other: Doubts) -> f64 {
        let one =
            |((a, b), doubt): ((&f64, &f64), Doubt)| a * a + b * b - 2.0 * doubt.shared() * a * b;
        let pairs = self.0.iter().zip(&other.0).zip(Doubt::ALL);
        NINE_OF_TEN * pairs.map(one).sum::<f64>().max(0.0).sqrt()
    }
}

/// How far the weight comes forward when the front foot carries more than its rule says, metres.
pub fn forward(pose: &SolvedPose, plane: Plane, shift: &Shift) -> Vec3 {
    let Some(Over::Share(_, front)) = pose.balance else { return Vec3::ZERO };
    let foot = |side| pose.body.limb(side, LimbMark::Sole).along(plane.level());
    let by = shift.front_foot * (foot(front) - foot(front.other()));
    match plane {
        Plane::Side => vec3(by, 0.0, 0.0),
        Plane::Front => vec3(0.0, 0.0, by),
    }
}

/// The figure with body and posture shifted; where it presses is `statics`'.
pub fn shifted(figure: &SolvedFigure, shift: &Shift) -> SolvedFigure {
    let mut other = figure.clone();
    if let Some(table) = shift.table {
        other.lumps = lumps(table, figure.recipe.held.as_ref(), figure.person.kilograms);
    }
    if shift.trunk != 0.0 {
        let plane = figure.plane();
        other.poses.iter_mut().for_each(|pose| lean(pose, plane, shift.trunk));
    }
    other
}

/// The trunk leans about the hips while the legs stay; seen from the front it bends to the side.
fn lean(pose: &mut SolvedPose, plane: Plane, by: f64) {
    let mut posture = pose.body.posture;
    let mut add = |joint: Joint| posture.set(joint, posture.get(joint) + by);
    match plane {
        Plane::Side => {
            add(Joint::Pitch);
            Side::BOTH.into_iter().for_each(|side| add(Joint::Limb(side, LimbJoint::Hip)));
        }
        Plane::Front => add(Joint::SideBend),
    }
    pose.body = Body::stand(posture, pose.body.stature);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn doubts_that_go_along_leave_only_their_difference() {
        let alone = |doubt: Doubt, change: f64| {
            let mut all = [0.0; DOUBTS];
            all[doubt as usize] = change;
            Doubts(all)
        };
        let table = |change| alone(Doubt::OneTable, change);
        assert!(table(2.0).apart(table(2.0)) < 1e-9);
        assert!((table(3.0).apart(table(2.0)) - NINE_OF_TEN).abs() < 1e-9);
        let hands = |change| alone(Doubt::Hands, change);
        assert!((hands(2.0).apart(hands(2.0)) - NINE_OF_TEN * 2.0).abs() < 1e-9);
    }
}
