//! Demand: what a rung asks of the body, in shares of body mass and in joint moments.
//! Static: peaks while moving are higher. Every share has a band; moments are ratios within one
//! family only.

use super::joints::{Joint, LimbJoint, Side};
use super::solve::{SolvedFigure, SolvedPose};
use super::statics::{Support, leg_moments, moment, support};
use super::words::contact::{Contact, Family, Part, Surface};

/// Strap forces are this much larger than the model's, a calibration: Melrose & Dawes 2015
/// measured 37, 53, 68 and 79 % at four leans where the model with an anchor at 2.2 m gives 35,
/// 47, 59 and 71. One factor for all leans; its cause is not known.
pub const ROPE_FACTOR: f64 = 1.12;

/// Hands higher than this share of stature: the static shares are no longer checked by any
/// published row (the highest is 61 cm), so the band widens. 0.44 is 76 cm at 1.72 m.
const CHECKED_HANDS: f64 = 0.44;

/// What bears the share.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bearer {
    /// Hands on something solid.
    Hands,
    /// Hands on a wall: nearly all of the force is level, so it is counted along the arm.
    Wall,
    /// Forearms on something solid.
    Forearms,
    /// Straps or rings.
    Straps,
    /// A bar overhead or bars beside.
    Bar,
}

/// How far a number can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trust {
    /// Published rows of this kind are met within the band.
    Checked,
    /// Follows from balance; nothing published to check it.
    Computed,
    /// Several supports share it: balance alone does not decide.
    Shared,
}

/// A share of body mass borne by the arms.
#[derive(Debug, Clone, PartialEq)]
pub struct Borne {
    /// On what.
    pub by: Bearer,
    /// For each key pose: upward share, per cent of body mass (load included).
    pub upward: Vec<f64>,
    /// For each key pose: the force along the arm or the strap, per cent of body weight.
    pub along: Vec<f64>,
    /// Give or take, points.
    pub band: f64,
    /// How far to trust it.
    pub trust: Trust,
}

impl Borne {
    /// The share to print: upward for hands on the floor or on something, along the arm for a
    /// wall, along the strap for straps. The first key pose counts: published rows are measured
    /// there.
    pub fn share(&self) -> f64 {
        let shares = if self.is_along() { &self.along } else { &self.upward };
        shares.first().copied().unwrap_or(0.0)
    }

    /// True when the share is the force along the arm or strap, false when it is the upward one.
    pub fn is_along(&self) -> bool {
        matches!(self.by, Bearer::Straps | Bearer::Wall)
    }

    /// "about 65 %": to the nearest five.
    pub fn rounded(&self) -> f64 {
        (self.share() / 5.0).round() * 5.0
    }
}

/// The largest moments over the key poses, N m per kg of body mass, one limb.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moments {
    /// Extending the hip.
    pub hip: f64,
    /// Extending the knee.
    pub knee: f64,
    /// Bending the knee: heels that are pulled towards the seat.
    pub knee_bending: f64,
    /// Extending hip and knee of one leg at one moment, added.
    pub leg: f64,
    /// At the shoulder, either way.
    pub shoulder: f64,
    /// At the elbow, either way.
    pub elbow: f64,
    /// At the lower back, either way.
    pub waist: f64,
}

/// What a movement at its settings asks.
#[derive(Debug, Clone, PartialEq)]
pub struct Demand {
    /// Borne by hands, forearms, straps or bar; none when the arms bear nothing.
    pub borne: Option<Borne>,
    /// Share of body mass that goes up and down, held weight added, per cent; none when the
    /// movement has no kept contact to lift from.
    pub lifted: Option<f64>,
    /// Share on the near and the far foot in the last key pose, per cent.
    pub feet: Option<(f64, f64)>,
    /// The largest moments.
    pub moments: Moments,
    /// Held weight, kilograms.
    pub weight: f64,
}

/// Work out the demand of a solved figure.
pub fn demand(figure: &SolvedFigure) -> Demand {
    let supports: Vec<Option<Support>> = figure.poses.iter().map(|p| support(p, figure)).collect();
    Demand {
        borne: borne(figure, &supports),
        lifted: lifted(figure),
        feet: feet(figure.end(), supports.last().and_then(|s| s.as_ref())),
        moments: moments(figure, &supports),
        weight: figure.recipe.held.as_ref().map_or(0.0, |h| h.total()),
    }
}

fn borne(figure: &SolvedFigure, supports: &[Option<Support>]) -> Option<Borne> {
    let start = figure.start();
    let arm = start.touches.iter().map(|(c, _)| c).find(|c| bears(c))?;
    let by = bearer(arm);
    let factor = if by == Bearer::Straps && has_legs(start) { ROPE_FACTOR } else { 1.0 };
    let mut upward = Vec::new();
    let mut along = Vec::new();
    let mut determinate = true;
    for (pose, support) in figure.poses.iter().zip(supports) {
        let share = support.as_ref().map_or((0.0, 0.0), |s| {
            determinate &= s.determinate;
            (s.share(pose, Family::Arm), s.pull(pose, Family::Arm))
        });
        upward.push(100.0 * share.0 * factor);
        along.push(100.0 * share.1 * factor);
    }
    let (band, trust) = trust_of(arm, by, start, figure, determinate);
    Some(Borne { by, upward, along, band, trust })
}

fn bears(contact: &Contact) -> bool {
    contact.part.family() == Family::Arm && contact.surface != Surface::Air
}

fn has_legs(pose: &SolvedPose) -> bool {
    pose.touches.iter().any(|(c, _)| c.part.family() == Family::Leg && c.surface != Surface::Air)
}

fn bearer(contact: &Contact) -> Bearer {
    match (contact.part, contact.surface) {
        (Part::Forearm, _) => Bearer::Forearms,
        (_, s) if s.is_rope() => Bearer::Straps,
        (_, Surface::Wall) => Bearer::Wall,
        (_, Surface::Bar | Surface::ParallelBars) => Bearer::Bar,
        _ => Bearer::Hands,
    }
}

/// Bands in points: 5 where published rows of the kind are met within 5 (hands on floor or up to
/// about 76 cm, feet raised, straps at 30 to 75 degrees), 7 on the knees, 10 where nothing is
/// published, 15 where supports share.
fn trust_of(
    arm: &Contact,
    by: Bearer,
    start: &SolvedPose,
    figure: &SolvedFigure,
    determinate: bool,
) -> (f64, Trust) {
    if !determinate {
        return (15.0, Trust::Shared);
    }
    if !has_legs(start) {
        return (1.0, Trust::Computed);
    }
    let knees = start.touches.iter().any(|(c, _)| c.part == Part::Knee);
    let high = arm.height.unwrap_or(f64::INFINITY) > CHECKED_HANDS * figure.person.stature;
    match by {
        Bearer::Hands if high => (10.0, Trust::Computed),
        Bearer::Hands if knees => (7.0, Trust::Checked),
        Bearer::Hands | Bearer::Straps => (5.0, Trust::Checked),
        Bearer::Forearms | Bearer::Bar | Bearer::Wall => (10.0, Trust::Computed),
    }
}

/// 100 % less the parts that stay on a contact kept from start to end (a foot keeps its lower
/// leg, a hand its forearm), plus the held weight: the arithmetic of `facts/lift_fractions.csv`.
fn lifted(figure: &SolvedFigure) -> Option<f64> {
    let segments = figure.person.table.segments();
    let (start, end) = (figure.start(), figure.end());
    let kept = |c: &&Contact| {
        c.surface != Surface::Air
            && end
                .touches
                .iter()
                .any(|(e, _)| e.side == c.side && e.part.family() == c.part.family())
    };
    let mut stays = 0.0;
    let mut any = false;
    for contact in start.touches.iter().map(|(c, _)| c).filter(kept) {
        stays += match contact.part.family() {
            Family::Leg => segments.lower_leg(),
            Family::Arm => segments.lower_arm(),
            _ => return None,
        };
        any = true;
    }
    let held: f64 = figure.lumps.iter().filter(|l| l.piece.is_none()).map(|l| l.mass).sum();
    any.then(|| 100.0 * (1.0 - stays + held))
}

fn feet(pose: &SolvedPose, support: Option<&Support>) -> Option<(f64, f64)> {
    let support = support?;
    let mut shares = [0.0; 2];
    let mut any = false;
    for push in &support.pushes {
        for &i in &push.touches {
            let contact = &pose.touches[i].0;
            if let (Family::Leg, Some(side)) = (contact.part.family(), contact.side) {
                shares[side.index()] += 100.0 * push.force.y / push.touches.len() as f64;
                any = true;
            }
        }
    }
    any.then_some((shares[0], shares[1]))
}

fn moments(figure: &SolvedFigure, supports: &[Option<Support>]) -> Moments {
    let mut most = Moments::default();
    for (pose, support) in figure.poses.iter().zip(supports) {
        let Some(support) = support else { continue };
        let size = |joint| moment(joint, pose, figure, support).abs();
        most.waist = most.waist.max(size(Joint::Waist));
        for side in Side::BOTH {
            let (hip, knee) = leg_moments(side, pose, figure, support);
            most.hip = most.hip.max(hip);
            most.knee = most.knee.max(knee);
            most.knee_bending = most.knee_bending.max(-knee);
            most.leg = most.leg.max(hip.max(0.0) + knee.max(0.0));
            most.shoulder = most.shoulder.max(size(Joint::Limb(side, LimbJoint::Shoulder)));
            most.elbow = most.elbow.max(size(Joint::Limb(side, LimbJoint::Elbow)));
        }
    }
    most
}
