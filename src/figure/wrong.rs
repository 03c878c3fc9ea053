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
use crate::mechanics::joints::{Joint, LimbJoint, Posture, Side};
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::{SolvedFigure, SolvedPose, solve_recipe};
use crate::mechanics::space::vec3;
use crate::mechanics::words::contact::{Part, Surface};
use crate::mechanics::words::keypose::KeyPose;
use crate::mechanics::words::recipe::{Arrow, Recipe, View};
use crate::mechanics::words::said::{Said, Word};

/// Which key pose shows a fault best.
#[derive(Clone, Copy, PartialEq)]
enum At {
    First,
    Last,
    /// Where the trunk leans most.
    Bent,
    /// Where the trunk leans least.
    Upright,
}

impl At {
    fn of(self, figure: &SolvedFigure) -> usize {
        let rise = |pose: &SolvedPose| {
            (pose.body.mark(Mark::Shoulders) - pose.body.mark(Mark::Hips)).unit().y
        };
        let by_rise =
            |a: &usize, b: &usize| rise(&figure.poses[*a]).total_cmp(&rise(&figure.poses[*b]));
        let all = 0..figure.poses.len();
        match self {
            At::First => 0,
            At::Last => figure.poses.len() - 1,
            At::Bent => all.min_by(by_rise).unwrap_or(0),
            At::Upright => all.max_by(by_rise).unwrap_or(0),
        }
    }
}

/// How a pose goes wrong.
enum Change {
    /// Joints of the trunk or limbs at other degrees, the line of the body given up, solved anew.
    Solved(&'static [(Bent, f64)]),
    /// A joint of both arms at other degrees, solved anew; seen from any side, and elbows that swing
    /// out from the front.
    Arms(LimbJoint, f64),
    /// A joint that carries nothing but the head, turned further by so many degrees.
    Turned(Joint, f64),
    /// Whole feet on the floor stand on their toes.
    OnToes,
    /// Half of the way to the key pose.
    Half,
    /// Knees turned inward over feet that stay, seen from the front.
    Inward,
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
const FAULTS: [Fault; 14] = [
    Fault(
        "hips-sag",
        At::First,
        Change::Solved(&[(Trunk(Joint::Waist), -20.0), (Limbs(LimbJoint::Hip), -16.0)]),
        "hips",
    ),
    Fault("seat-in-the-air", At::First, Change::Solved(&[(Limbs(LimbJoint::Hip), 42.0)]), "hips"),
    Fault("seat-sinks", At::First, Change::Solved(&[(Limbs(LimbJoint::Hip), 26.0)]), "hips"),
    Fault(
        "back-rounds",
        At::Bent,
        Change::Solved(&[(Trunk(Joint::Waist), 30.0), (Trunk(Joint::UpperBack), 32.0)]),
        "waist",
    ),
    Fault(
        "back-arches",
        At::Last,
        Change::Solved(&[(Trunk(Joint::Waist), -26.0), (Trunk(Joint::UpperBack), -14.0)]),
        "waist",
    ),
    Fault("knees-fall-in", At::Last, Change::Inward, "none"),
    Fault("head-out-of-line", At::Last, Change::Turned(Joint::Neck, -42.0), "head"),
    Fault("chin-reaches", At::Last, Change::Turned(Joint::Neck, -38.0), "head"),
    Fault("head-gets-there-first", At::Last, Change::Turned(Joint::Neck, 40.0), "head"),
    Fault("shoulders-shrug", At::Last, Change::Arms(LimbJoint::Shrug, 24.0), "shoulders"),
    Fault("elbows-flare", At::Last, Change::Arms(LimbJoint::ArmOut, 72.0), "none"),
    Fault("heels-lift", At::Last, Change::OnToes, "heels"),
    Fault("half-range", At::Last, Change::Half, "none"),
    Fault(
        "leans-back-at-the-top",
        At::Upright,
        Change::Solved(&[(Trunk(Joint::Waist), -24.0)]),
        "shoulders",
    ),
];

/// The good key pose and the same with the fault; none where the fault is not one of geometry, or
/// the pose cannot go wrong in that way.
pub fn wrong(figure: &SolvedFigure, fault: &str) -> Option<SolvedFigure> {
    let Fault(_, at, change, follows) = FAULTS.iter().find(|own| own.0 == fault)?;
    let at = at.of(figure);
    let good = figure.poses[at].clone();
    let bad = match change {
        Change::Solved(bends) => {
            let bends = facing(&good, bends);
            from_the_side(figure).then_some(())?;
            solved(figure, at, |pose| bend(pose, &bends))?
        }
        Change::Arms(joint, degrees) => {
            let bends = [(Limbs(*joint), *degrees)];
            solved(figure, at, |pose| with_arms(pose, &bends))?
        }
        Change::Inward => {
            // From the front a wall or a counter ahead would stand before the knees.
            let ahead = good.touches.iter().any(|(c, _)| c.surface == Surface::Wall);
            (!ahead).then(|| inward(&good))?
        }
        Change::OnToes => solved(figure, at, on_toes)?,
        Change::Turned(joint, degrees) => turned(figure, &good, *joint, *degrees)?,
        Change::Half => half(figure, at)?,
    };
    let mut spoilt = figure.clone();
    spoilt.poses = vec![good, bad];
    spoilt.recipe.ghost = true;
    spoilt.recipe.pause = false;
    spoilt.recipe.arrow =
        if *follows == "none" { Arrow::None } else { Arrow::Follow((*follows).into()) };
    match change {
        Change::Inward | Change::Arms(LimbJoint::ArmOut, _) => spoilt.recipe.view = View::Front,
        // Beside the neck, where whatever somebody pulls at stands behind them.
        Change::Arms(LimbJoint::Shrug, _) => spoilt.recipe.view = View::Back,
        _ => {}
    }
    (seen(&spoilt) && as_named(fault, &spoilt)).then_some(spoilt)
}

/// What bends forward or back is seen from the side.
fn from_the_side(figure: &SolvedFigure) -> bool {
    matches!(figure.recipe.view, View::Side | View::Corner | View::WideCorner)
}

/// Of somebody who faces up, hips sag by folding, not by hollowing.
fn facing(good: &SolvedPose, bends: &[(Bent, f64)]) -> Vec<(Bent, f64)> {
    let up = good.body.frame(Piece::Chest).front.y > 0.1;
    let sags = matches!(bends, [(Trunk(Joint::Waist), _), (Limbs(LimbJoint::Hip), _)]);
    if up && sags { vec![(Limbs(LimbJoint::Hip), 30.0)] } else { bends.to_vec() }
}

/// Whether the body went the way that the fault's name says: a solver may find another.
fn as_named(fault: &str, spoilt: &SolvedFigure) -> bool {
    let moved = |mark: Mark| spoilt.poses[1].body.mark(mark) - spoilt.poses[0].body.mark(mark);
    let rounded = |at: usize| {
        let angle = |joint| spoilt.poses[at].body.posture.get(joint).to_degrees();
        angle(Joint::Waist) + angle(Joint::UpperBack)
    };
    let knees = |at: usize| {
        let [near, far] = Side::BOTH.map(|s| spoilt.poses[at].body.limb(s, LimbMark::Knee).z);
        (near - far).abs()
    };
    match fault {
        "hips-sag" | "seat-sinks" => moved(Mark::Hips).y < -0.03,
        "seat-in-the-air" => moved(Mark::Hips).y > 0.04,
        "back-rounds" => rounded(1) > rounded(0) + 30.0,
        "back-arches" => rounded(1) < rounded(0) - 20.0,
        "knees-fall-in" => knees(1) < knees(0) - 0.05,
        "shoulders-shrug" => shrugs(spoilt) && !overhead(&spoilt.poses[0].body),
        "elbows-flare" => flares(spoilt) && hands_stay(spoilt),
        _ => true,
    }
}

/// Whether the shoulders come nearer the ears, by more than a finger's breadth.
fn shrugs(spoilt: &SolvedFigure) -> bool {
    let raised = |pose: &SolvedPose| {
        let [near, far] = Side::BOTH.map(|side| pose.body.limb(side, LimbMark::Shoulder));
        let middle = near.towards(far, 0.5) - pose.body.mark(Mark::Shoulders);
        middle.dot(pose.body.frame(Piece::Chest).up)
    };
    raised(&spoilt.poses[1]) > raised(&spoilt.poses[0]) + 0.025
}

/// Arms that reach up carry the shoulders with them: no fault.
fn overhead(body: &Body) -> bool {
    let head = body.mark(Mark::Head).y;
    Side::BOTH.into_iter().any(|side| body.limb(side, LimbMark::Grip).y > head)
}

/// Whether the elbows go apart, by more than a hand's breadth.
fn flares(spoilt: &SolvedFigure) -> bool {
    let apart = |pose: &SolvedPose| {
        let [near, far] = Side::BOTH.map(|side| pose.body.limb(side, LimbMark::Elbow));
        (near - far).length()
    };
    apart(&spoilt.poses[1]) > apart(&spoilt.poses[0]) + 0.12
}

/// Whether both hands hold what they held: elbows that take the hands along are another movement.
fn hands_stay(spoilt: &SolvedFigure) -> bool {
    let at = |pose: usize, side| spoilt.poses[pose].body.limb(side, LimbMark::Grip);
    Side::BOTH.into_iter().all(|side| (at(1, side) - at(0, side)).length() < 0.12)
}

/// Less than this on paper nobody sees, centimetres.
const SEEN: f64 = 4.0;

fn seen(spoilt: &SolvedFigure) -> bool {
    let camera = Camera::on(spoilt);
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

/// The same for the arms alone: the body keeps its line.
fn with_arms(pose: &mut KeyPose, bends: &[(Bent, f64)]) {
    for (bent, degrees) in bends {
        let Limbs(joint) = bent else { continue };
        pose.said.retain(|said| !matches!(said.word, Word::Bend(own, _) if own == *joint));
        pose.said.push(said(Word::Bend(*joint, *degrees)));
    }
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

/// The same body with a joint turned further that carries nothing but the head.
fn turned(
    figure: &SolvedFigure,
    good: &SolvedPose,
    joint: Joint,
    degrees: f64,
) -> Option<SolvedPose> {
    from_the_side(figure).then_some(())?;
    let mut posture = good.body.posture;
    posture.set(joint, posture.get(joint) + degrees.to_radians());
    let body = Body::stand(posture, good.body.stature);
    Some(SolvedPose { body, ..good.clone() })
}

/// How far inward a knee falls, as a part of stature: about 7 cm.
const FALLS: f64 = 0.042;

/// Knees fallen inward over feet that stay: of each leg the turn at the hip that brings the knee
/// there and leaves the ankle, found step by smaller step.
fn inward(good: &SolvedPose) -> SolvedPose {
    let (mut posture, h) = (good.body.posture, good.body.stature);
    for side in Side::BOTH {
        let at = |body: &Body, mark| body.limb(side, mark);
        let ankle = at(&good.body, LimbMark::Ankle);
        let knee = at(&good.body, LimbMark::Knee) - vec3(0.0, 0.0, side.sign() * FALLS * h);
        let off = |posture: &Posture| {
            let body = Body::stand(*posture, h);
            (at(&body, LimbMark::Knee) - knee).length()
                + 2.0 * (at(&body, LimbMark::Ankle) - ankle).length()
        };
        for step in [6.0, 3.0, 1.5, 0.7_f64] {
            descend(&mut posture, side, step.to_radians(), &off);
        }
    }
    SolvedPose { body: Body::stand(posture, h), ..good.clone() }
}

/// Turn the joints of a leg by `step` each way, together in every way, as long as that comes nearer:
/// one at a time would never move the knee and leave the ankle.
fn descend(posture: &mut Posture, side: Side, step: f64, off: &impl Fn(&Posture) -> f64) {
    const JOINTS: [LimbJoint; 4] =
        [LimbJoint::Hip, LimbJoint::LegOut, LimbJoint::LegTurn, LimbJoint::Knee];
    const WAYS: usize = 81;
    let turned = |posture: &Posture, way: usize| {
        let mut turned = *posture;
        let mut rest = way;
        for joint in JOINTS.map(|limb| Joint::Limb(side, limb)) {
            turned.set(joint, turned.get(joint) + step * ((rest % 3) as f64 - 1.0));
            rest /= 3;
        }
        turned
    };
    for _ in 0..30 {
        let tries = (0..WAYS).map(|way| turned(posture, way)).map(|tried| (off(&tried), tried));
        match tries.min_by(|a, b| a.0.total_cmp(&b.0)) {
            Some((better, tried)) if better < off(posture) - 1e-9 => *posture = tried,
            _ => return,
        }
    }
}

fn half(figure: &SolvedFigure, at: usize) -> Option<SolvedPose> {
    let motion = motion(figure)?;
    let (from, to) = (motion.keys.get(at.checked_sub(1)?)?, motion.keys.get(at)?);
    motion.poses.get((from + to) / 2).cloned()
}

/// Good and wrong side by side, a tick over the one, a cross over the other, the wrong one before a
/// pale shape of the good; and its size, centimetres.
pub fn draw_wrong(spoilt: &SolvedFigure) -> (String, (f64, f64)) {
    let kit = pieces(spoilt);
    let camera = Camera::on(spoilt);
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
    let arms = match (shrugs(spoilt), flares(spoilt) && hands_stay(spoilt)) {
        (true, _) => Some("shoulders up at the ears".to_string()),
        (_, true) => Some("elbows out to the sides".to_string()),
        _ => None,
    };
    match arms.or_else(|| moved(&spoilt.poses[0], &spoilt.poses[1])) {
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
