//! Mass: where the weight of a body and of what it holds is.
//! Adds up centres; knows no contact and no force.

use super::joints::Side;
use super::kinematics::Body;
use super::marks::{LimbMark, Mark, Piece};
use super::segments::Table;
use super::space::Vec3;
use super::words::props::{Held, HeldAt};
use serde::{Deserialize, Serialize};

/// One lump of mass, tied to the marks of the body.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Lump {
    /// The piece it belongs to; none for what is held.
    pub piece: Option<Piece>,
    /// Fraction of body mass.
    pub mass: f64,
    /// Marks with shares that sum to one.
    pub spots: Vec<(Mark, f64)>,
}

impl Lump {
    /// Its centre, metres.
    pub fn centre(&self, body: &Body) -> Vec3 {
        self.spots.iter().fold(Vec3::ZERO, |sum, (mark, k)| sum + body.mark(*mark) * *k)
    }
}

fn lump(piece: Piece, mass: f64, a: Mark, b: Mark, t: f64) -> Lump {
    Lump { piece: Some(piece), mass, spots: vec![(a, 1.0 - t), (b, t)] }
}

/// A body's lumps by `table`, and what it holds as fractions of `body_kg` kilograms.
pub fn lumps(table: Table, held: Option<&Held>, body_kg: f64) -> Vec<Lump> {
    let s = table.segments();
    let [_, _, high] = s.trunk_centres();
    let [pelvis, middle, chest] = s.trunk_parts;
    let mut all = vec![
        lump(Piece::Pelvis, pelvis, Mark::Hips, Mark::Waist, 0.5),
        lump(Piece::Middle, middle, Mark::Waist, Mark::UpperBack, 0.5),
        lump(Piece::Chest, chest, Mark::UpperBack, Mark::Shoulders, high * 3.0 - 2.0),
        Lump { piece: Some(Piece::Head), mass: s.head.mass, spots: vec![(Mark::Head, 1.0)] },
    ];
    for side in Side::BOTH {
        let at = |m: LimbMark| m.of(side);
        use LimbMark::*;
        all.push(lump(Piece::Thigh(side), s.thigh.mass, at(Hip), at(Knee), s.thigh.centre));
        all.push(lump(Piece::Shank(side), s.shank.mass, at(Knee), at(Ankle), s.shank.centre));
        // Winter's foot runs from the ankle bone to the ball; de Leva's centre lies there too.
        all.push(lump(Piece::Foot(side), s.foot.mass, at(Ankle), at(Ball), 0.5));
        let arm = s.upper_arm;
        all.push(lump(Piece::UpperArm(side), arm.mass, at(Shoulder), at(Elbow), arm.centre));
        all.push(lump(
            Piece::Forearm(side),
            s.forearm.mass,
            at(Elbow),
            at(Wrist),
            s.forearm.centre,
        ));
        all.push(Lump {
            piece: Some(Piece::Hand(side)),
            mass: s.hand.mass,
            spots: vec![(at(Palm), 1.0)],
        });
    }
    all.extend(held.map(|h| held_lump(h, body_kg)).into_iter().flatten());
    all
}

fn held_lump(held: &Held, body_kg: f64) -> Option<Lump> {
    if held.kilograms <= 0.0 {
        return None;
    }
    let grip = |side| LimbMark::Grip.of(side);
    let spots = match held.at {
        HeldAt::EachHand | HeldAt::BothHands => Side::BOTH.map(|s| (grip(s), 0.5)).to_vec(),
        HeldAt::Hand(side) => vec![(grip(side), 1.0)],
        HeldAt::OnHips => vec![(Mark::Hips, 1.0)],
        HeldAt::OnBack | HeldAt::AlongBack => vec![(Mark::Back, 1.0)],
    };
    Some(Lump { piece: None, mass: held.total() / body_kg, spots })
}

/// Total mass (1 for the bare body) and centre of mass, metres.
pub fn centre_of_mass(lumps: &[Lump], body: &Body) -> (f64, Vec3) {
    let mass: f64 = lumps.iter().map(|l| l.mass).sum();
    let sum = lumps.iter().fold(Vec3::ZERO, |s, l| s + l.centre(body) * l.mass);
    (mass, sum * (1.0 / mass))
}

/// The centre of mass as a weighted sum of marks: the form the solver needs.
pub fn centre_as_marks(lumps: &[Lump]) -> Vec<(Mark, f64)> {
    let mass: f64 = lumps.iter().map(|l| l.mass).sum();
    let mut marks: Vec<(Mark, f64)> = Vec::new();
    for lump in lumps {
        for (mark, k) in &lump.spots {
            let share = lump.mass * k / mass;
            match marks.iter_mut().find(|(m, _)| m == mark) {
                Some((_, sum)) => *sum += share,
                None => marks.push((*mark, share)),
            }
        }
    }
    marks
}
