//! Limbs: arms and legs as tapered tubes, with sleeves, shorts and shoes.
//! Widths are fractions of stature, our own drawing measures; nothing here is measured by them.

use super::camera::Camera;
use super::outline::{Round, chain, round, tube};
use super::paper::{Ink, Paper};
use crate::mechanics::joints::Side;
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Piece};
use crate::mechanics::skeleton::HAND;
use crate::mechanics::space::{Frame, Vec3, vec3};

/// What a body is drawn with: the body, the camera and what the hands and feet are doing.
pub struct Sitter<'a> {
    /// The body.
    pub body: &'a Body,
    /// The camera.
    pub camera: Camera,
    /// Hands that close round something: near, far.
    pub fists: [bool; 2],
    /// Feet that stand on their toes: near, far.
    pub tiptoe: [bool; 2],
    /// Whether the far side is drawn paler.
    pub paler: bool,
}

impl Sitter<'_> {
    /// A circle round a point of the hall; the radius is a fraction of stature.
    pub fn round(&self, at: Vec3, r: f64) -> Round {
        round(self.camera.see(at), 100.0 * r * self.body.stature)
    }

    fn limb(&self, side: Side, mark: LimbMark) -> Vec3 {
        self.body.limb(side, mark)
    }

    /// Points along a segment, pushed to its front by a fraction of stature.
    fn along(&self, a: Vec3, b: Vec3, frame: Frame, spots: &[(f64, f64, f64)]) -> Vec<Round> {
        spots
            .iter()
            .map(|(t, front, r)| {
                let at = a.towards(b, *t) + frame.front * (front * self.body.stature);
                self.round(at, *r)
            })
            .collect()
    }
}

fn inks(sitter: &Sitter, side: Side, near: Ink, far: Ink) -> Ink {
    match side {
        Side::Far if sitter.paler => far,
        _ => near,
    }
}

/// A leg: thigh, shank, shorts and shoe, over a halo that parts it from what lies behind.
pub fn leg(sitter: &Sitter, side: Side) -> Paper {
    let mut paper = Paper::default();
    let (hip, knee) = (sitter.limb(side, LimbMark::Hip), sitter.limb(side, LimbMark::Knee));
    let ankle = sitter.limb(side, LimbMark::Ankle);
    let thigh_frame = sitter.body.frame(Piece::Thigh(side));
    let shank_frame = sitter.body.frame(Piece::Shank(side));
    let thigh = sitter.along(
        hip,
        knee,
        thigh_frame,
        &[(0.36, 0.006, 0.0430), (0.72, 0.004, 0.0365), (1.0, 0.0, 0.0305)],
    );
    let shank = sitter.along(
        knee,
        ankle,
        shank_frame,
        &[
            (0.0, 0.0, 0.0305),
            (0.14, -0.002, 0.0305),
            (0.32, -0.006, 0.0315),
            (0.62, -0.003, 0.0240),
            (0.85, 0.0, 0.0180),
            (1.0, 0.0, 0.0175),
        ],
    );
    let shorts = sitter.along(
        hip,
        knee,
        thigh_frame,
        &[(0.0, 0.002, 0.0515), (0.25, 0.005, 0.0480), (0.52, 0.005, 0.0440)],
    );
    let shoe = shoe(sitter, side, ankle);
    let skin = format!("{}{}", tube(&thigh), tube(&shank));
    [&thigh, &shank, &shorts].into_iter().for_each(|r| paper.reach(r));
    shoe.iter().for_each(|r| paper.reach(r));
    let shoe: String = shoe.iter().map(|r| chain(r)).collect();
    let halo = sitter.along(
        hip,
        knee,
        thigh_frame,
        &[(0.42, 0.006, 0.0435), (0.72, 0.004, 0.0365), (1.0, 0.0, 0.0305)],
    );
    paper.draw(Ink::Halo, format!("{}{}{shoe}", tube(&halo), tube(&shank)));
    paper.draw(inks(sitter, side, Ink::Skin, Ink::FarSkin), skin);
    paper.draw(inks(sitter, side, Ink::Shorts, Ink::FarShorts), tube(&shorts));
    paper.draw(inks(sitter, side, Ink::Shoe, Ink::FarShoe), shoe);
    paper
}

/// A shoe as chains of circles; on tiptoe it bends at the ball.
fn shoe(sitter: &Sitter, side: Side, ankle: Vec3) -> Vec<Vec<Round>> {
    let h = sitter.body.stature;
    let foot = sitter.body.frame(Piece::Foot(side));
    let at = |x: f64, y: f64, r: f64| sitter.round(ankle + foot.carry(x, y, 0.0) * h, r);
    let top = sitter.round(ankle, 0.0175);
    if sitter.tiptoe[side.index()] {
        let ball = sitter.limb(side, LimbMark::Ball);
        // Under an upright foot the toes bend towards its upper side, wherever the heel is.
        let toward = if foot.front.y < -0.9 { foot.up } else { foot.front };
        let level = vec3(toward.x, 0.0, toward.z).unit();
        let ahead = if foot.front.y < 0.95 { level } else { -level };
        let tip = ball + ahead * (0.040 * h) + vec3(0.0, 0.012 * h, 0.0);
        let sole = vec![
            at(-0.022, -0.018, 0.0205),
            at(0.030, -0.021, 0.0185),
            at(0.068, -0.025, 0.0145),
            sitter.round(ball + vec3(0.0, 0.0135 * h, 0.0), 0.0135),
            sitter.round(tip, 0.011),
        ];
        return vec![sole, vec![top, at(-0.016, -0.016, 0.021)]];
    }
    vec![
        vec![at(-0.020, -0.0185, 0.0205), at(0.040, -0.0215, 0.0175), at(0.098, -0.0265, 0.0125)],
        vec![top, at(-0.012, -0.016, 0.021)],
        vec![sitter.round(ankle, 0.0165), at(0.032, -0.020, 0.0175)],
    ]
}

/// An arm: upper arm, forearm, hand and sleeve, over a halo.
pub fn arm(sitter: &Sitter, side: Side) -> Paper {
    let mut paper = Paper::default();
    let shoulder = sitter.limb(side, LimbMark::Shoulder);
    let (elbow, wrist) = (sitter.limb(side, LimbMark::Elbow), sitter.limb(side, LimbMark::Wrist));
    let upper_frame = sitter.body.frame(Piece::UpperArm(side));
    let fore_frame = sitter.body.frame(Piece::Forearm(side));
    let upper = sitter.along(
        shoulder,
        elbow,
        upper_frame,
        &[(0.36, 0.0, 0.0258), (0.75, 0.0, 0.0220), (1.0, 0.0, 0.0205)],
    );
    let fore = sitter.along(
        elbow,
        wrist,
        fore_frame,
        &[(0.0, 0.0, 0.0205), (0.22, 0.0, 0.0220), (0.6, 0.0, 0.0180), (1.0, 0.0, 0.0140)],
    );
    let sleeve = sitter.along(
        shoulder,
        elbow,
        upper_frame,
        &[(0.0, 0.0, 0.0300), (0.25, 0.0, 0.0300), (0.48, 0.0, 0.0272)],
    );
    let hand = hand(sitter, side, wrist);
    [&upper, &fore, &sleeve, &hand].into_iter().for_each(|r| paper.reach(r));
    let skin = format!("{}{}{}", tube(&upper), tube(&fore), chain(&hand));
    paper.draw(Ink::Halo, skin.clone());
    paper.draw(inks(sitter, side, Ink::Skin, Ink::FarSkin), skin);
    paper.draw(inks(sitter, side, Ink::Shirt, Ink::FarShirt), tube(&sleeve));
    paper
}

fn hand(sitter: &Sitter, side: Side, wrist: Vec3) -> Vec<Round> {
    if sitter.fists[side.index()] {
        let grip = sitter.limb(side, LimbMark::Grip);
        return vec![sitter.round(wrist, 0.0145), sitter.round(grip, 0.0185)];
    }
    let down = sitter.body.frame(Piece::Hand(side)).up * (-HAND * sitter.body.stature);
    vec![
        sitter.round(wrist, 0.0140),
        sitter.round(wrist + down * 0.30, 0.0152),
        sitter.round(wrist + down * 0.66, 0.0105),
    ]
}
