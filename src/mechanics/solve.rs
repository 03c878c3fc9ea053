//! Solving a figure: each key pose in turn, each handing on its contacts to the next.
//! Always gives bodies; what could not be met comes back as problems at the author's words.

use super::carried;
use super::conditions::guess::shape_of;
use super::conditions::{
    Before, Claim, Conditions, Rope, Setting, Touch, conditions, has_width, presses, ropes_anchor,
};
use super::joints::{LimbJoint, Posture};
use super::kinematics::Body;
use super::mass::{Lump, lumps};
use super::node::{Missed, PoseCode, PoseNode, PoseProblem};
use super::reached::seat_of;
use super::segments::Table;
use super::solver::{Outcome, solve};
use super::space::{Plane, Vec3};
use super::terms::{Role, Term};
use super::words::contact::{Contact, Part, Place};
use super::words::keypose::KeyPose;
use super::words::number::{SettingValue, Settings};
use super::words::recipe::{Recipe, Shape, read};
use super::words::said::Over;
use serde::{Deserialize, Serialize};

/// For whom a figure is solved.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Person {
    /// Stature in metres.
    pub stature: f64,
    /// Body mass in kilograms: turns held weights into shares.
    pub kilograms: f64,
    /// Segment table.
    pub table: Table,
}

impl Default for Person {
    /// 1.72 m and 70 kg, Winter's table: the person the figures are drawn for.
    fn default() -> Person {
        Person { stature: 1.72, kilograms: 70.0, table: Table::Winter }
    }
}

/// One key pose, solved.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct SolvedPose {
    /// The body.
    pub body: Body,
    /// Its contacts with where they are.
    pub touches: Vec<(Contact, Vec3)>,
    /// What the centre of mass is held over.
    pub balance: Option<Over>,
    /// The solver's rounds, for the benchmark.
    pub rounds: usize,
    /// Byte offset of the block.
    pub at: usize,
}

/// A movement's figure, solved.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct SolvedFigure {
    /// What the author said.
    pub recipe: Recipe,
    /// The key poses in order.
    pub poses: Vec<SolvedPose>,
    /// The rope, where there is one.
    pub rope: Option<Rope>,
    /// The solver's first guess.
    pub shape: Shape,
    /// Body and load.
    pub lumps: Vec<Lump>,
    /// For whom.
    pub person: Person,
}

impl SolvedFigure {
    /// The plane of balance.
    pub fn plane(&self) -> Plane {
        self.recipe.balanced.unwrap_or(self.recipe.view.plane())
    }

    /// The first key pose.
    pub fn start(&self) -> &SolvedPose {
        &self.poses[0]
    }

    /// The same figure written so many bytes further on in its file.
    pub fn written_on(mut self, by: usize) -> SolvedFigure {
        self.recipe.at += by;
        for pose in &mut self.recipe.poses {
            pose.at += by;
            pose.contacts.iter_mut().for_each(|contact| contact.at += by);
            pose.said.iter_mut().for_each(|said| said.at += by);
        }
        for pose in &mut self.poses {
            pose.at += by;
            pose.touches.iter_mut().for_each(|(contact, _)| contact.at += by);
        }
        self
    }

    /// The last key pose.
    pub fn end(&self) -> &SolvedPose {
        &self.poses[self.poses.len() - 1]
    }
}

/// Read and solve a figure. No figure comes back only when there is no `start` to solve.
pub fn figure(
    node: &PoseNode,
    at: usize,
    settings: &[SettingValue],
    person: &Person,
) -> (Option<SolvedFigure>, Vec<PoseProblem>) {
    let numbers = Settings::for_stature(settings, person.stature);
    let (recipe, mut problems) = read(node, at, numbers);
    let Some(recipe) = recipe else { return (None, problems) };
    let (figure, more) = solve_recipe(recipe, person);
    problems.extend(more);
    (Some(figure), problems)
}

/// Solve what was read. Where nobody says how far apart pushing hands stand, the pose with the
/// most bent elbows decides, and all is solved once more with hands that wide.
pub fn solve_recipe(mut recipe: Recipe, person: &Person) -> (SolvedFigure, Vec<PoseProblem>) {
    // `start` and `end` of a figure always stand on something, whoever built the recipe.
    if recipe.poses.is_empty() {
        recipe.poses.push(KeyPose::default());
    }
    let first = every_pose(recipe, person);
    let Some(wide) = found_width(&first.0) else { return first };
    let second = every_pose(widened(first.0.recipe.clone(), wide), person);
    if blames_a_good_pose(&first, &second) { first } else { second }
}

/// Whether hands as wide as a pose that cannot be met wants them make another one fail: then what is
/// wrong is said of the poses as they were solved, each alone.
fn blames_a_good_pose(
    (alone, before): &(SolvedFigure, Vec<PoseProblem>),
    (_, after): &(SolvedFigure, Vec<PoseProblem>),
) -> bool {
    let starts: Vec<usize> = alone.poses.iter().map(|pose| pose.at).collect();
    let pose_of = |problem: &PoseProblem| starts.iter().filter(|at| **at <= problem.at).count();
    let fails = |problems: &[PoseProblem], pose: usize| problems.iter().any(|p| pose_of(p) == pose);
    !before.is_empty() && after.iter().any(|problem| !fails(before, pose_of(problem)))
}

/// Elbows bent less than this say nothing about where the hands should stand, degrees.
const BENT: f64 = 30.0;
/// From the middle out to a hand, at most: half of one and a half times the shoulder breadth of
/// 0.259 of stature. Wider than that is another exercise (common practice, no source).
const WIDEST: f64 = 0.75 * 0.259;
/// Hands that move less than this sideways from pose to pose stay, metres.
const SLIDES: f64 = 0.01;

/// How far apart the hands stand in the pose with the most bent elbows, metres; none where that
/// is said, or where they stand so from the start.
fn found_width(figure: &SolvedFigure) -> Option<f64> {
    let hands = |pose: &SolvedPose| -> Vec<(f64, f64)> {
        let open = |c: &Contact| presses(c) && !has_width(c);
        let bend = |s| pose.body.posture.degrees(s, LimbJoint::Elbow);
        let open = pose.touches.iter().filter(|(c, _)| open(c));
        open.filter_map(|(c, at)| Some((bend(c.side?), at.z.abs()))).collect()
    };
    let all: Vec<(f64, f64)> = figure.poses.iter().flat_map(hands).collect();
    let (bend, z) = all.iter().copied().max_by(|a, b| a.0.total_cmp(&b.0))?;
    let slides = all.iter().any(|(_, other)| (other - z).abs() > SLIDES);
    let wide = 2.0 * z.min(WIDEST * figure.person.stature);
    (figure.plane() == Plane::Side && bend > BENT && slides).then_some(wide)
}

/// The recipe as if the author had written how far apart the hands stand.
fn widened(mut recipe: Recipe, wide: f64) -> Recipe {
    let contacts = recipe.poses.iter_mut().flat_map(|pose| &mut pose.contacts);
    for contact in contacts.filter(|c| presses(c) && !has_width(c)) {
        contact.places.push(Place::Apart(wide));
    }
    recipe
}

fn every_pose(recipe: Recipe, person: &Person) -> (SolvedFigure, Vec<PoseProblem>) {
    let lumps = lumps(person.table, recipe.held.as_ref(), person.kilograms);
    let shape = recipe.shape.unwrap_or_else(|| shape_of(&recipe.poses[0].contacts));
    let mut figure = SolvedFigure {
        recipe,
        poses: Vec::new(),
        rope: None,
        shape,
        lumps,
        person: person.clone(),
    };
    let mut problems = Vec::new();
    let mut before: Option<Before> = None;
    for (index, pose) in figure.recipe.poses.clone().iter().enumerate() {
        let (solved, rope, mut found) = key_pose(pose, &figure, before.as_ref());
        found.iter_mut().flat_map(|one| &mut one.missed).for_each(|missed| missed.pose = index);
        let holds: Vec<Contact> = solved.touches.iter().map(|(one, _)| one.clone()).collect();
        let solves = |other: &KeyPose| key_pose(other, &figure, before.as_ref()).2.is_empty();
        problems.extend(carried::told(found, &figure.recipe.poses, index, &holds, solves));
        figure.rope = figure.rope.or(rope);
        before = Some(Before {
            posture: solved.body.posture,
            touches: solved.touches.clone(),
            rope: figure.rope,
            balance: solved.balance,
        });
        figure.poses.push(solved);
    }
    (figure, problems)
}

fn key_pose(
    pose: &KeyPose,
    figure: &SolvedFigure,
    before: Option<&Before>,
) -> (SolvedPose, Option<Rope>, Vec<PoseProblem>) {
    let setting = Setting {
        stature: figure.person.stature,
        plane: figure.plane(),
        shape: figure.shape,
        lumps: &figure.lumps,
        before,
    };
    let conditions = conditions(pose, &setting);
    let outcome = best(&conditions, figure.person.stature);
    let problems = misses(&conditions, &outcome.body);
    let touches = placed(&conditions.touches, &outcome.body);
    let rope = touches.iter().find(|(c, _)| c.part == Part::Hand && c.surface.is_rope()).map(
        |(contact, grip)| {
            let anchor = ropes_anchor(contact, &outcome.body);
            let away = *grip - anchor;
            Rope { anchor, length: away.x.hypot(away.y) }
        },
    );
    let solved = SolvedPose {
        body: outcome.body,
        touches,
        balance: conditions.balance,
        rounds: outcome.rounds,
        at: pose.at,
    };
    (solved, rope, problems)
}

/// Good enough to stop trying other starts: everything said is met within about half a
/// centimetre and a degree.
const MET: f64 = 0.02;

fn best(conditions: &Conditions, stature: f64) -> Outcome {
    let mut best: Option<Outcome> = None;
    let mut rounds = 0;
    for start in &conditions.starts {
        let mut outcome = solve(&conditions.terms, *start, &conditions.free, stature, 80);
        rounds += outcome.rounds;
        outcome.rounds = rounds;
        let met = outcome.unmet < MET;
        let better = best.as_ref().is_none_or(|b| outcome.cost < b.cost - 1e-3 * b.cost.max(1.0));
        if better {
            best = Some(outcome);
        }
        if met {
            break;
        }
    }
    let nowhere = || {
        let start = conditions.starts.first().copied().unwrap_or(Posture::STRAIGHT);
        solve(&conditions.terms, start, &conditions.free, stature, 1)
    };
    best.unwrap_or_else(nowhere)
}

fn placed(touches: &[Touch], body: &Body) -> Vec<(Contact, Vec3)> {
    use super::conditions::contact_mark;
    touches.iter().map(|t| (t.contact.clone(), body.mark(contact_mark(&t.contact).0))).collect()
}

/// A contact may miss by this many metres before it is said.
const REACH: f64 = 0.012;
/// A stated height may.
const HEIGHT: f64 = 0.02;
/// A stated angle may, radians: eyes see less than seven degrees badly.
const ANGLE: f64 = 0.122;

/// Claims that were not met, the worst miss of each, said in centimetres or degrees.
fn misses(conditions: &Conditions, body: &Body) -> Vec<PoseProblem> {
    let mut worst: Vec<Option<(&Term, f64)>> = vec![None; conditions.claims.len()];
    for term in &conditions.terms {
        let Some(claim) = term.claim else { continue };
        let miss = term.raw_miss(body);
        let tolerance = match (term.role, term.is_angle()) {
            (_, true) => ANGLE,
            (Role::Contact, false) => REACH,
            _ => HEIGHT,
        };
        let over = miss.abs() / tolerance;
        if over > 1.0 && worst[claim].is_none_or(|(t, m)| over > m.abs() / tolerance_of(t)) {
            worst[claim] = Some((term, miss));
        }
    }
    let floored =
        conditions.terms.iter().any(|t| t.role == Role::Floor && t.raw_miss(body) < -0.004);
    let said: Vec<PoseProblem> = conditions
        .claims
        .iter()
        .zip(worst)
        .filter_map(|(claim, miss)| {
            let (term, by) = miss?;
            Some(PoseProblem { missed: missed(term, by), ..not_met(claim, term, by, floored) })
        })
        .collect();
    without_repeats(said)
}

fn tolerance_of(term: &Term) -> f64 {
    match (term.role, term.is_angle()) {
        (_, true) => ANGLE,
        (Role::Contact, false) => REACH,
        _ => HEIGHT,
    }
}

/// Where on the body a term is missed, and by how much; the key pose is put in by who knows it.
fn missed(term: &Term, by: f64) -> Option<Missed> {
    let mut marks = Vec::new();
    term.marks(&mut marks);
    let is_angle = term.is_angle();
    let by = if is_angle { by.to_degrees().abs() } else { by.abs() * 100.0 };
    let mark = marks.first().copied().or_else(|| term.measure.joint().map(seat_of))?;
    Some(Missed { pose: 0, mark, by, is_angle })
}

/// One claim that was not met; `floored` when the floor holds the body up.
fn not_met(claim: &Claim, term: &Term, miss: f64, floored: bool) -> PoseProblem {
    let centimetres = (miss.abs() * 100.0).round().max(1.0);
    let said = &claim.written;
    if said.starts_with("balance") {
        return PoseProblem::new(
            PoseCode::OffBalance,
            claim.at,
            format!("The figure would fall: its weight stays {centimetres} cm from `{said}`."),
            "lean the trunk or move the arms the other way, or leave out an angle that stops them",
        );
    }
    let in_the_way = "the floor is in the way: raise what is held or stood on, or bend the legs";
    if term.is_angle() {
        let degrees = miss.to_degrees().abs().round();
        let next =
            "leave this angle out, or give up what holds it: a contact, a height or another angle";
        return PoseProblem::new(
            PoseCode::AngleNotMet,
            claim.at,
            format!(
                "`{said}` is missed by {degrees} degrees: the rest of the pose does not allow it."
            ),
            if floored { in_the_way } else { next },
        );
    }
    let next = match term.role {
        _ if floored => in_the_way,
        Role::Contact => "bring the surface nearer, change its height, or let the body bend more",
        _ => "change this height or distance, or let the body bend more",
    };
    PoseProblem::new(
        PoseCode::OutOfReach,
        claim.at,
        format!("`{said}` is out of reach by {centimetres} cm."),
        next,
    )
}

/// Both sides say the same: once is enough.
fn without_repeats(problems: Vec<PoseProblem>) -> Vec<PoseProblem> {
    let mut kept: Vec<PoseProblem> = Vec::new();
    for problem in problems {
        if !kept.iter().any(|k| k.at == problem.at && k.code == problem.code) {
            kept.push(problem);
        }
    }
    kept
}
