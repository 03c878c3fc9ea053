//! Limbs: arms and legs as tapered tubes, with sleeves, shorts and shoes.
//! Widths are fractions of stature, our own drawing measures; nothing here is measured by them.

use super::ends::{shoe, sole};
use super::hands::hand;
use super::outline::{Round, capsule, cut, round, tube};
use super::paper::{Ink, Paper};
use super::sitter::Sitter;
use crate::mechanics::joints::Side;
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::space::Frame;

fn inks(pale: bool, strong: Ink, paler: Ink) -> Ink {
    if pale { paler } else { strong }
}

/// A leg: thigh, shank, shorts and shoe, over a halo that parts it from what lies behind.
pub fn leg(sitter: &Sitter, side: Side) -> Paper {
    let mut paper = Paper::default();
    let (hip, knee) = (sitter.limb(side, LimbMark::Hip), sitter.limb(side, LimbMark::Knee));
    let ankle = sitter.limb(side, LimbMark::Ankle);
    let thigh_frame = sitter.body.frame(Piece::Thigh(side));
    let shank_frame = sitter.body.frame(Piece::Shank(side));
    let narrow = narrowed(sitter, thigh_frame);
    let thigh = sitter.along(
        hip,
        knee,
        thigh_frame,
        &[(0.36, 0.006, narrow * 0.0430), (0.72, 0.004, narrow * 0.0365), (1.0, 0.0, 0.0305)],
    );
    let shank = sitter.along(
        knee,
        ankle,
        shank_frame,
        &[(0.0, 0.0, 0.0305), (0.28, -0.006, 0.0318), (0.64, -0.003, 0.0232), (1.0, 0.0, 0.0175)],
    );
    let shorts = sitter.along(
        hip,
        knee,
        thigh_frame,
        &[
            (0.0, 0.002, narrow * 0.0515),
            (0.25, 0.005, narrow * 0.0480),
            (0.52, 0.005, narrow * 0.0440),
        ],
    );
    let shoe = shoe(sitter, side, ankle);
    let skin = format!("{}{}", tube(&thigh), tube(&shank));
    [&thigh, &shank, &shorts].into_iter().for_each(|r| paper.reach(r));
    paper.reach(&shoe.rounds);
    let shoe = shoe.outline;
    let halo = sitter.along(
        hip,
        knee,
        thigh_frame,
        &[(0.42, 0.006, narrow * 0.0435), (0.72, 0.004, narrow * 0.0365), (1.0, 0.0, 0.0305)],
    );
    let pale = sitter.pale_leg(side);
    let (shorts, ink) = (cut(&shorts), inks(pale, Ink::Shorts, Ink::FarShorts));
    let skin_ink = inks(pale, Ink::Skin, Ink::FarSkin);
    if knee_first(sitter, side) {
        paper.draw(ink, shorts);
        let knee = format!("{}{}", tube(&thigh[1..]), tube(&shank));
        paper.draw(Ink::Halo, format!("{knee}{shoe}"));
        paper.draw(skin_ink, knee);
    } else {
        paper.draw(Ink::Halo, format!("{}{}{shoe}", tube(&halo), tube(&shank)));
        paper.draw(skin_ink, skin);
        paper.draw(ink, shorts);
    }
    paper.draw(inks(pale, Ink::Shoe, Ink::FarShoe), shoe);
    if !pale {
        paper.draw(Ink::Sole, sole(sitter, side, ankle));
    }
    paper
}

/// How much narrower a thigh is than deep, seen as it is: hips are 0.191 of stature broad (Drillis &
/// Contini), which leaves a thigh 0.087 of it beside the joint; its depth is a drawing measure.
fn narrowed(sitter: &Sitter, thigh: Frame) -> f64 {
    const FROM_BEFORE: f64 = 0.86;
    let aside = sitter.camera.aim(thigh.right).length() / 100.0;
    1.0 - (1.0 - FROM_BEFORE) * aside.min(1.0).powi(2)
}

/// Whether a thigh points at the reader: its knee is seen before its shorts.
pub fn knee_first(sitter: &Sitter, side: Side) -> bool {
    let thigh = sitter.limb(side, LimbMark::Knee) - sitter.limb(side, LimbMark::Hip);
    sitter.camera.depth(thigh) > 0.75 * thigh.length()
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
    // From the side a far shoulder would peep out under the chin as a thing of its own: sleeves
    // begin lower, both, so that a moving far arm is written in the near one's numbers.
    let top = if sitter.aside { (0.12, 0.0, 0.0235) } else { (0.02, 0.0, 0.0225) };
    let sleeve = sitter.along(
        shoulder,
        elbow,
        upper_frame,
        &[top, (0.24, 0.0, 0.0300), (0.48, 0.0, 0.0272)],
    );
    let hand = hand(sitter, side, wrist);
    [&upper, &fore, &sleeve, &hand.rounds].into_iter().for_each(|r| paper.reach(r));
    let pale = sitter.pale_arm(side);
    let skin = inks(pale, Ink::Skin, Ink::FarSkin);
    let sleeve_rounds = sleeve;
    let (sleeve, shirt) = (cut(&sleeve_rounds), inks(pale, Ink::Shirt, Ink::FarShirt));
    let forearm = format!("{}{}", tube(&fore), hand.outline);
    if hand_first(sitter, side) {
        // Out of the sleeve towards the reader: one arm from its hem to the hand.
        let arm = out_of(&sleeve_rounds, &upper) + &forearm;
        paper.draw(shirt, sleeve);
        paper.draw(Ink::Halo, arm.clone());
        paper.draw(skin, arm);
    } else {
        let arm = tube(&upper) + &forearm;
        paper.draw(Ink::Halo, arm.clone());
        paper.draw(skin, arm);
        paper.draw(shirt, sleeve);
    }
    if !pale && !hand.creases.is_empty() {
        paper.stroke(Ink::ArrowHalo, hand.creases, CREASE);
    }
    paper
}

/// The upper arm from the hem of its sleeve on.
fn out_of(sleeve: &[Round], upper: &[Round]) -> String {
    let hem = sleeve.last().map(|hem| round(hem.at, 0.86 * hem.r));
    tube(&hem.into_iter().chain(upper[1..].iter().copied()).collect::<Vec<Round>>())
}

/// Between the fingers of a fist, centimetres.
const CREASE: f64 = 0.7;

/// Whether an arm points at the reader: its hand is seen before its sleeve.
fn hand_first(sitter: &Sitter, side: Side) -> bool {
    let arm = sitter.limb(side, LimbMark::Wrist) - sitter.limb(side, LimbMark::Shoulder);
    sitter.camera.depth(arm) > 0.75 * arm.length()
}

/// The shoulder belongs to the trunk: shirt from the side of the neck down over the shoulder, and
/// from the chest to the armpit. A raised arm takes its shoulder along, towards the ear.
pub fn shoulder_patch(sitter: &Sitter, side: Side) -> Paper {
    let mut paper = Paper::default();
    let h = sitter.body.stature;
    let chest = sitter.body.frame(Piece::Chest);
    let middle = sitter.body.mark(Mark::Shoulders);
    let (shoulder, elbow) =
        (sitter.limb(side, LimbMark::Shoulder), sitter.limb(side, LimbMark::Elbow));
    let arm = (elbow - shoulder).unit();
    let raised = arm.dot(chest.up).max(0.0);
    let (out, up) = (chest.right * (side.sign() * h), chest.up * h);
    let neck = middle + out * 0.016 + up * 0.034;
    let slope = shoulder + up * (0.034 * raised) - out * (0.012 * raised + ROUNDED);
    let breast = middle + out * 0.045 - up * 0.020;
    let round = |at, r| sitter.round(at, r);
    let patch = [
        capsule(round(neck, 0.0180), round(slope, 0.0225)),
        capsule(round(breast, 0.0420), round(shoulder, 0.0235)),
    ];
    paper.draw(inks(sitter.pale_arm(side), Ink::Shirt, Ink::FarShirt), patch.concat());
    paper
}

/// How far inward the slope from the neck ends, part of stature: a shoulder falls off roundly.
const ROUNDED: f64 = 0.007;

/// The hip of a leg and the seat belong together: shorts over the seam, and from leg to leg where
/// both are seen.
pub fn hip_patch(sitter: &Sitter, side: Side) -> Paper {
    let mut paper = Paper::default();
    let pelvis = sitter.body.frame(Piece::Pelvis).up;
    let (hip, knee) = (sitter.limb(side, LimbMark::Hip), sitter.limb(side, LimbMark::Knee));
    let up = pelvis * (0.020 * sitter.body.stature);
    let (top, low) =
        (sitter.round(hip + up, 0.0380), sitter.round(hip.towards(knee, 0.15), 0.0425));
    let mut patch = capsule(top, low);
    if !sitter.aside {
        let middle = sitter.body.mark(Mark::Hips) + up;
        patch += &capsule(sitter.round(middle, 0.0400), top);
    }
    paper.draw(inks(sitter.pale_leg(side), Ink::Shorts, Ink::FarShorts), patch);
    paper
}
