//! Demand: what a rung asks of the body, in shares of body weight and in joint moments.
//! Static: peaks while moving are higher. Never a number without its doubts; moments are ratios
//! within one family only.

use super::doubt::{Doubt, Doubts, Shift, shifted};
use super::joints::{Joint, LimbJoint, Side};
use super::moments::{leg_moments, moment};
use super::pulls::{Pulled, pulled};
use super::solve::{SolvedFigure, SolvedPose};
use super::statics::{Refused, Support, support_under};
use super::words::contact::{Contact, Family, Part, Surface};
use super::words::said::Over;
use serde::{Deserialize, Serialize};

/// Strap forces are this much larger than the model's, a calibration: Melrose & Dawes 2015
/// measured 37, 53, 68 and 79 % at four leans where the model with an anchor at 2.2 m gives 35,
/// 47, 59 and 71. One factor for all leans; its cause is not known.
pub const ROPE_FACTOR: f64 = 1.12;

/// What bears the share.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Bearer {
    /// Hands on something solid.
    Hands,
    /// Hands on a wall.
    Wall,
    /// Forearms on something solid.
    Forearms,
    /// Straps or rings.
    Straps,
    /// A bar overhead or bars beside.
    Bar,
}

/// What the arms bear in one key pose.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct OnArms {
    /// The part that points straight up, per cent of body weight (held weight included).
    pub upward: f64,
    /// The whole force, along the arm or the strap, per cent of body weight.
    pub along: f64,
    /// Why neither may be shown; none where they may.
    pub refused: Option<Refused>,
}

/// A share of body weight borne by the arms.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Borne {
    /// On what.
    pub by: Bearer,
    /// True when the hand that bears is not the one that works: it holds on while the other rows.
    pub idle: bool,
    /// True when one arm bears alone.
    pub alone: bool,
    /// For each key pose, in order.
    pub at: Vec<OnArms>,
}

impl Borne {
    /// The force through the arms or the straps in the first key pose, arms straight, per cent. None
    /// where balance gives no number.
    pub fn share(&self) -> Option<f64> {
        let start = self.at.first().filter(|at| at.refused.is_none())?;
        Some(start.along)
    }

    /// A share as ladders compare it: what one arm bears alone counts twice, since two would share it.
    pub fn counted(&self, share: f64) -> f64 {
        if self.alone { 2.0 * share } else { share }
    }
}

/// The largest moments over the key poses, N m per kg of body mass, one limb.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Moments {
    /// Extending the hip of the working leg.
    pub hip: f64,
    /// Extending the knee of the working leg.
    pub knee: f64,
    /// Bending the knee: heels that are pulled towards the seat.
    pub knee_bending: f64,
    /// Extending hip and knee of the working leg at one moment, added.
    pub leg: f64,
    /// At the shoulder, either way.
    pub shoulder: f64,
    /// At the elbow, either way.
    pub elbow: f64,
    /// At the lower back, either way.
    pub waist: f64,
}

/// What a movement at its settings asks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Demand {
    /// Borne by hands, forearms, straps or bar; none when the arms bear nothing.
    pub borne: Option<Borne>,
    /// Share of body mass that goes up and down, held weight added, per cent; none when the
    /// movement has no kept contact to lift from.
    pub lifted: Option<f64>,
    /// Share on the near and the far foot in the last key pose, per cent.
    pub feet: Option<(f64, f64)>,
    /// The leg that leads; none where both do the same.
    pub lead: Option<Side>,
    /// Whether the pose says by rule how much the leading foot carries.
    pub ruled: bool,
    /// Whether the leg that leads carries less than half in some pose, by rule: the other one may push
    /// on from there, and a still pose does not say how much.
    pub back_foot: bool,
    /// Why balance gives no number in a key pose, the first reason that there is.
    pub refused: Option<Refused>,
    /// The moments in each key pose; none where balance gives no number.
    pub each: Vec<Option<Moments>>,
    /// The largest moments.
    pub moments: Moments,
    /// Held weight, kilograms.
    pub weight: f64,
    /// What a band or a pulley pulls on the hands, where that is written.
    pub pulled: Option<Pulled>,
    /// The same with each doubt shifted, in the order of `Doubt::ALL`; empty in these themselves.
    pub shifted: Vec<Demand>,
}

impl Demand {
    /// A number that `of` reads, with what its doubts come to.
    pub fn doubtful(&self, of: impl Fn(&Demand) -> Option<f64>) -> Option<(f64, Doubts)> {
        let value = of(self)?;
        let under = |doubt: Doubt| self.shifted.get(doubt as usize).and_then(&of);
        Some((value, Doubts::of(value, under)))
    }
}

/// Work out the demand of a solved figure, and how far each doubt moves it.
pub fn demand(figure: &SolvedFigure) -> Demand {
    let still = under_shift(figure, &Shift::default());
    let pulls = figure.recipe.lines.iter().any(|line| line.tension.is_some());
    let under = |doubt: Doubt| {
        if doubt.is_of_a_pull() && !pulls {
            return still.clone();
        }
        let shift = doubt.shift(&figure.person);
        under_shift(&shifted(figure, &shift), &shift)
    };
    let shifted = Doubt::ALL.into_iter().map(under).collect();
    Demand { shifted, ..still }
}

fn under_shift(figure: &SolvedFigure, shift: &Shift) -> Demand {
    let supports: Vec<Option<Support>> =
        figure.poses.iter().map(|p| support_under(p, figure, shift)).collect();
    let lead = lead(figure);
    let each: Vec<Option<Moments>> = figure
        .poses
        .iter()
        .zip(&supports)
        .map(|(pose, support)| {
            let support = support.as_ref().filter(|s| s.refused.is_none())?;
            Some(moments(pose, figure, support, lead))
        })
        .collect();
    Demand {
        borne: borne(figure, &supports, shift),
        lifted: lifted(figure),
        feet: feet(figure.end(), supports.last().and_then(|s| s.as_ref())),
        lead,
        back_foot: figure.poses.iter().any(|pose| on_the_back_foot(pose, lead)),
        refused: supports.iter().flatten().find_map(|support| support.refused),
        ruled: figure.poses.iter().any(|p| matches!(p.balance, Some(Over::Share(..)))),
        moments: each.iter().flatten().fold(Moments::default(), largest),
        each,
        weight: figure.recipe.held.as_ref().map_or(0.0, |h| h.total()),
        pulled: pulled(figure, shift),
        shifted: Vec::new(),
    }
}

/// The leg that leads: the one the author names, by `leads` or by what the body is balanced over;
/// else the only one with its whole foot down; none where both stand alike.
pub fn lead(figure: &SolvedFigure) -> Option<Side> {
    let named = |pose: &SolvedPose| match pose.balance {
        Some(Over::Foot(side)) => Some(side),
        Some(Over::Share(share, side)) if share >= 0.5 => Some(side),
        Some(Over::Share(_, side)) => Some(side.other()),
        _ => None,
    };
    let stands = |pose: &SolvedPose, side: Side| {
        pose.touches
            .iter()
            .any(|(c, _)| c.side == Some(side) && c.part == Part::Foot && c.surface != Surface::Air)
    };
    let alone = |pose: &SolvedPose| {
        let [near, far] = Side::BOTH.map(|side| stands(pose, side));
        (near != far).then_some(if near { Side::Near } else { Side::Far })
    };
    let last_first = || figure.poses.iter().rev();
    let by_pose = || last_first().find_map(named).or_else(|| last_first().find_map(alone));
    figure.recipe.leads.or_else(by_pose)
}

/// Whether a pose says that the leg that leads carries less than half.
fn on_the_back_foot(pose: &SolvedPose, lead: Option<Side>) -> bool {
    match pose.balance {
        Some(Over::Share(share, side)) if share < 0.5 => lead == Some(side),
        Some(Over::Share(share, side)) if share > 0.5 => lead == Some(side.other()),
        _ => false,
    }
}

fn borne(figure: &SolvedFigure, supports: &[Option<Support>], shift: &Shift) -> Option<Borne> {
    let start = figure.start();
    let arm = start.touches.iter().map(|(c, _)| c).find(|c| bears(c))?;
    let by = bearer(arm);
    let standing = by == Bearer::Straps && has_legs(start);
    // Measured leaning back on the heels. Of other bodies nobody knows whether it is there at all, so
    // the whole of it is in doubt.
    let factor = match (standing, on_heels(start)) {
        (true, true) => ROPE_FACTOR + shift.rope,
        (true, false) => 1.0 + shift.rope,
        (false, _) => 1.0,
    };
    let pairs = figure.poses.iter().zip(supports);
    let at = |(pose, support): (&SolvedPose, &Option<Support>)| match support {
        Some(s) => OnArms {
            upward: 100.0 * s.share(pose, Family::Arm) * factor,
            along: 100.0 * s.pull(pose, Family::Arm) * factor,
            refused: s.refused,
        },
        None => OnArms { upward: 0.0, along: 0.0, refused: Some(Refused::Falls) },
    };
    Some(Borne { by, idle: idle(figure), alone: alone(start), at: pairs.map(at).collect() })
}

/// One hand bears while the other holds a weight.
fn idle(figure: &SolvedFigure) -> bool {
    use super::words::props::HeldAt;
    let works = match figure.recipe.held.as_ref().map(|held| held.at) {
        Some(HeldAt::Hand(side)) => side,
        _ => return false,
    };
    let bearing =
        |side| figure.start().touches.iter().any(|(c, _)| bears(c) && c.side == Some(side));
    bearing(works.other()) && !bearing(works)
}

/// Whether the arm of one side bears and the other's does not.
fn alone(pose: &SolvedPose) -> bool {
    let on = |side| pose.touches.iter().any(|(c, _)| bears(c) && c.side == Some(side));
    on(Side::Near) != on(Side::Far)
}

fn bears(contact: &Contact) -> bool {
    contact.part.family() == Family::Arm && contact.surface != Surface::Air
}

fn has_legs(pose: &SolvedPose) -> bool {
    pose.touches.iter().any(|(c, _)| c.part.family() == Family::Leg && c.surface != Surface::Air)
}

fn on_heels(pose: &SolvedPose) -> bool {
    pose.touches.iter().any(|(c, _)| c.part == Part::Heel && c.surface != Surface::Air)
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
    any.then_some(100.0 * (1.0 - stays + held))
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

/// The moments in one key pose: of the working leg where one leads, of the harder one elsewhere.
fn moments(
    pose: &SolvedPose,
    figure: &SolvedFigure,
    support: &Support,
    lead: Option<Side>,
) -> Moments {
    let size = |joint| moment(joint, pose, figure, support).abs();
    let mut most = Moments { waist: size(Joint::Waist), ..Moments::default() };
    for side in Side::BOTH {
        most.shoulder = most.shoulder.max(size(Joint::Limb(side, LimbJoint::Shoulder)));
        most.elbow = most.elbow.max(size(Joint::Limb(side, LimbJoint::Elbow)));
        if lead.is_some_and(|lead| lead != side) {
            continue;
        }
        let (hip, knee) = leg_moments(side, pose, figure, support);
        most.hip = most.hip.max(hip);
        most.knee = most.knee.max(knee);
        most.knee_bending = most.knee_bending.max(-knee);
        most.leg = most.leg.max(hip.max(0.0) + knee.max(0.0));
    }
    most
}

fn largest(a: Moments, b: &Moments) -> Moments {
    Moments {
        hip: a.hip.max(b.hip),
        knee: a.knee.max(b.knee),
        knee_bending: a.knee_bending.max(b.knee_bending),
        leg: a.leg.max(b.leg),
        shoulder: a.shoulder.max(b.shoulder),
        elbow: a.elbow.max(b.elbow),
        waist: a.waist.max(b.waist),
    }
}
