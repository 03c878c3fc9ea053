//! Wrong: a fault of the catalogue drawn beside the pose it spoils.
//! By a change of the entry's own pose, solved anew on the same contacts; where that cannot be
//! solved, nothing is drawn. It never invents a second pose.

use super::arrow;
use super::camera::{Camera, spot};
use super::frame::frame;
use super::outline::{line, round};
use super::paper::{Ink, Paper};
use super::sheet::pair;
use super::telling::moved;
use crate::mechanics::between::motion;
use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::kinematics::Body;
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::{SolvedFigure, SolvedPose, solve_recipe};
use crate::mechanics::words::contact::{Contact, Part, Surface};
use crate::mechanics::words::keypose::KeyPose;
use crate::mechanics::words::recipe::{Arrow, Recipe, View};
use crate::mechanics::words::said::{Said, Word};

/// Which key pose shows a fault best.
#[derive(Clone, Copy, PartialEq)]
enum At {
    First,
    Last,
}

/// How a pose goes wrong.
enum Change {
    /// Joints of the trunk or limbs at other degrees, the line of the body given up, solved anew.
    Solved(&'static [(Bent, f64)]),
    /// Joints that carry nothing turned further by so many degrees: a head, a shrug.
    Turned(&'static [(Bent, f64)]),
    /// Whole feet on the floor stand on their toes.
    OnToes,
    /// Half of the way to the key pose.
    Half,
}

/// A joint of the trunk, or of both limbs.
#[derive(Clone, Copy)]
enum Bent {
    Trunk(Joint),
    Limbs(LimbJoint),
}

/// A fault that geometry can show: its id, where, how, and what the arrow follows.
struct Fault(&'static str, At, Change, &'static str);

use Bent::{Limbs, Trunk};

/// Every fault that is drawn. How far a joint goes wrong is chosen to be seen at 160 px: common
/// practice, no source.
const FAULTS: [Fault; 12] = [
    Fault(
        "hips-sag",
        At::First,
        Change::Solved(&[(Trunk(Joint::Waist), -20.0), (Limbs(LimbJoint::Hip), -16.0)]),
        "hips",
    ),
    Fault("seat-in-the-air", At::First, Change::Solved(&[(Limbs(LimbJoint::Hip), 42.0)]), "hips"),
    Fault("seat-sinks", At::Last, Change::Solved(&[(Limbs(LimbJoint::Hip), 26.0)]), "hips"),
    Fault(
        "back-rounds",
        At::Last,
        Change::Solved(&[(Trunk(Joint::Waist), 30.0), (Trunk(Joint::UpperBack), 32.0)]),
        "waist",
    ),
    Fault(
        "back-arches",
        At::Last,
        Change::Solved(&[(Trunk(Joint::Waist), -26.0), (Trunk(Joint::UpperBack), -14.0)]),
        "waist",
    ),
    Fault(
        "shoulders-shrug",
        At::Last,
        Change::Turned(&[(Limbs(LimbJoint::Shrug), 25.0)]),
        "shoulders",
    ),
    Fault("head-out-of-line", At::Last, Change::Turned(&[(Trunk(Joint::Neck), -42.0)]), "head"),
    Fault("chin-reaches", At::Last, Change::Turned(&[(Trunk(Joint::Neck), -38.0)]), "head"),
    Fault("head-gets-there-first", At::Last, Change::Turned(&[(Trunk(Joint::Neck), 40.0)]), "head"),
    Fault("heels-lift", At::Last, Change::OnToes, "heels"),
    Fault("half-range", At::Last, Change::Half, "none"),
    Fault(
        "leans-back-at-the-top",
        At::Last,
        Change::Solved(&[(Trunk(Joint::Waist), -24.0)]),
        "shoulders",
    ),
];

/// The good key pose and the same with the fault; none where the fault is not one of geometry, or
/// the pose cannot go wrong in that way.
pub fn wrong(figure: &SolvedFigure, fault: &str) -> Option<SolvedFigure> {
    let Fault(_, at, change, follows) = FAULTS.iter().find(|own| own.0 == fault)?;
    let at = if *at == At::First { 0 } else { figure.poses.len() - 1 };
    let good = figure.poses[at].clone();
    let bad = match change {
        Change::Solved(bends) => solved(figure, at, |pose| bend(pose, bends))?,
        Change::OnToes => solved(figure, at, on_toes)?,
        Change::Turned(bends) => turned(figure, &good, bends)?,
        Change::Half => half(figure, at)?,
    };
    let mut spoilt = figure.clone();
    spoilt.poses = vec![good, bad];
    spoilt.recipe.ghost = true;
    spoilt.recipe.pause = false;
    spoilt.recipe.arrow =
        if *follows == "none" { Arrow::None } else { Arrow::Follow((*follows).into()) };
    seen(&spoilt).then_some(spoilt)
}

/// Less than this on paper nobody sees, centimetres.
const SEEN: f64 = 4.0;

fn seen(spoilt: &SolvedFigure) -> bool {
    let camera = Camera::of(spoilt.recipe.view);
    let places = |at: usize| spoilt.poses[at].body.places().iter().map(|p| camera.see(*p));
    places(0).zip(places(1)).any(|(a, b)| a.to(b).length() > SEEN)
}

fn solved(figure: &SolvedFigure, at: usize, spoil: impl Fn(&mut KeyPose)) -> Option<SolvedPose> {
    let mut recipe = figure.recipe.clone();
    spoil(&mut recipe.poses[at]);
    let (spoilt, problems) = solve_recipe(recipe, &figure.person);
    problems.is_empty().then(|| spoilt.poses[at].clone())
}

/// The line of the body is given up for these angles.
fn bend(pose: &mut KeyPose, bends: &[(Bent, f64)]) {
    let same = |word: &Word, bent: &Bent| match (word, bent) {
        (Word::Turn(own, _), Trunk(joint)) => own == joint,
        (Word::Bend(own, _), Limbs(joint)) => own == joint,
        _ => false,
    };
    pose.said.retain(|said| {
        said.word != Word::Straight && !bends.iter().any(|(bent, _)| same(&said.word, bent))
    });
    pose.said.extend(bends.iter().map(|(bent, degrees)| {
        said(match bent {
            Trunk(joint) => Word::Turn(*joint, *degrees),
            Limbs(joint) => Word::Bend(*joint, *degrees),
        })
    }));
}

fn said(word: Word) -> Said {
    Said { word, side: None, written: String::new(), at: 0 }
}

fn on_toes(pose: &mut KeyPose) {
    for contact in pose.contacts.iter_mut().filter(|c| c.surface == Surface::Floor) {
        if contact.part == Part::Foot {
            contact.part = Part::Toes;
        }
    }
    pose.said.push(said(Word::Bend(LimbJoint::Ankle, 0.0)));
}

/// The same body with joints turned further, as far as nothing that touches moves.
fn turned(figure: &SolvedFigure, good: &SolvedPose, bends: &[(Bent, f64)]) -> Option<SolvedPose> {
    let mut posture = good.body.posture;
    let mut further = |joint: Joint, degrees: f64| {
        posture.set(joint, posture.get(joint) + degrees.to_radians());
    };
    for (bent, degrees) in bends {
        match bent {
            Trunk(joint) => further(*joint, *degrees),
            Limbs(joint) => {
                let held = |c: &(Contact, _)| c.0.part == Part::Hand || c.0.part == Part::Forearm;
                if good.touches.iter().any(held) {
                    return None;
                }
                Side::BOTH.iter().for_each(|side| further(Joint::Limb(*side, *joint), *degrees));
            }
        }
    }
    // From behind a head that tips is not seen.
    if figure.recipe.view == View::Back && matches!(bends[0].0, Trunk(_)) {
        return None;
    }
    let body = Body::stand(posture, good.body.stature);
    Some(SolvedPose { body, ..good.clone() })
}

fn half(figure: &SolvedFigure, at: usize) -> Option<SolvedPose> {
    let motion = motion(figure)?;
    let (from, to) = (motion.keys.get(at.checked_sub(1)?)?, motion.keys.get(at)?);
    motion.poses.get((from + to) / 2).cloned()
}

/// Good and wrong side by side, a tick over the one, a cross over the other, the wrong one before a
/// pale shape of the good.
pub fn draw_wrong(spoilt: &SolvedFigure) -> String {
    let kit = pieces(spoilt);
    let camera = Camera::of(spoilt.recipe.view);
    let plain = SolvedFigure {
        recipe: Recipe { arrow: Arrow::None, ..spoilt.recipe.clone() },
        ..spoilt.clone()
    };
    let mut good = frame(&plain, 0, &kit);
    let mut bad = frame(&plain, 1, &kit);
    let (from, to) = (&spoilt.poses[0].body, &spoilt.poses[1].body);
    bad.lay(arrow::draw(&spoilt.recipe.arrow, from, to, &camera, &[]));
    mark(&mut good, &[(-5.0, 0.0), (-1.5, 4.0), (6.0, -5.0)], &[]);
    mark(&mut bad, &[(-5.0, -5.0), (5.0, 5.0)], &[(-5.0, 5.0), (5.0, -5.0)]);
    pair([good, bad])
}

/// The same in words.
pub fn tell_wrong(spoilt: &SolvedFigure) -> String {
    match moved(&spoilt.poses[0], &spoilt.poses[1]) {
        Some(how) => format!("As it should be, and wrong: {how}"),
        None => "As it should be, and wrong".into(),
    }
}

/// A mark over a picture: strokes about a spot above its middle.
fn mark(paper: &mut Paper, one: &[(f64, f64)], two: &[(f64, f64)]) {
    let (x, y) = ((paper.bounds.min.x + paper.bounds.max.x) / 2.0, paper.bounds.min.y - 12.0);
    for stroke in [one, two].into_iter().filter(|stroke| !stroke.is_empty()) {
        let spots: Vec<_> = stroke.iter().map(|(dx, dy)| spot(x + dx, y + dy)).collect();
        paper.reach(&spots.iter().map(|s| round(*s, 2.0)).collect::<Vec<_>>());
        paper.draw(Ink::Arrow, line(&spots));
    }
}
