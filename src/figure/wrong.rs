//! Wrong: a fault of the catalogue drawn beside the pose it spoils.
//! By a change of the entry's own pose, solved anew on the same contacts; where that cannot be
//! solved, nothing is drawn. It never invents a second pose.

use super::camera::Camera;
use super::doubts::foreshortened;
use super::spoil::{arms_down, inward, steadied};
use super::telling::moved;
use crate::mechanics::between::motion;
use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::kinematics::Body;
use crate::mechanics::marks::{LimbMark, Mark, Piece};
use crate::mechanics::scenery::pieces;
use crate::mechanics::solve::{SolvedFigure, SolvedPose, solve_recipe};
use crate::mechanics::words::contact::{Part, Surface};
use crate::mechanics::words::keypose::KeyPose;
use crate::mechanics::words::recipe::{Arrow, View};
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

/// The sign at what goes wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sign {
    /// An arrow along the way of a mark.
    Follows(Mark),
    /// Arrows at both limbs, from the side that they come from.
    Pushed(LimbMark),
    /// Arrows at both limbs, on the way that they go.
    Goes(LimbMark),
    /// The way that is lacking, between two bars.
    Lacks,
}

/// A fault that geometry can show: its id, where, how, and the sign at what went wrong.
struct Fault(&'static str, At, Change, Sign);

use Bent::{Limbs, Trunk};
use Sign::{Follows, Goes, Lacks, Pushed};

/// Every fault that is drawn. How far a joint goes wrong is chosen to be seen at 160 px: common
/// practice, no source.
const FAULTS: [Fault; 14] = [
    Fault(
        "hips-sag",
        At::First,
        Change::Solved(&[(Trunk(Joint::Waist), -20.0), (Limbs(LimbJoint::Hip), -16.0)]),
        Follows(Mark::Hips),
    ),
    Fault(
        "seat-in-the-air",
        At::First,
        Change::Solved(&[(Limbs(LimbJoint::Hip), 42.0)]),
        Follows(Mark::Hips),
    ),
    Fault(
        "seat-sinks",
        At::First,
        Change::Solved(&[(Limbs(LimbJoint::Hip), 26.0)]),
        Follows(Mark::Hips),
    ),
    Fault(
        "back-rounds",
        At::Bent,
        Change::Solved(&[(Trunk(Joint::Waist), 30.0), (Trunk(Joint::UpperBack), 32.0)]),
        Follows(Mark::Waist),
    ),
    Fault(
        "back-arches",
        At::Last,
        Change::Solved(&[(Trunk(Joint::Waist), -26.0), (Trunk(Joint::UpperBack), -14.0)]),
        Follows(Mark::Waist),
    ),
    Fault("knees-fall-in", At::Last, Change::Inward, Pushed(LimbMark::Knee)),
    Fault("head-out-of-line", At::Last, Change::Turned(Joint::Neck, -42.0), Follows(Mark::Head)),
    Fault("chin-reaches", At::Last, Change::Turned(Joint::Neck, -38.0), Follows(Mark::Head)),
    Fault(
        "head-gets-there-first",
        At::Last,
        Change::Turned(Joint::Neck, 40.0),
        Follows(Mark::Head),
    ),
    Fault(
        "shoulders-shrug",
        At::Last,
        Change::Arms(LimbJoint::Shrug, 25.0),
        Follows(Mark::Limb(Side::Near, LimbMark::Shoulder)),
    ),
    Fault("elbows-flare", At::Last, Change::Arms(LimbJoint::ArmOut, 72.0), Goes(LimbMark::Elbow)),
    Fault("heels-lift", At::Last, Change::OnToes, Follows(Mark::Limb(Side::Near, LimbMark::Heel))),
    Fault("half-range", At::Last, Change::Half, Lacks),
    Fault(
        "leans-back-at-the-top",
        At::Upright,
        Change::Solved(&[(Trunk(Joint::Waist), -26.0), (Trunk(Joint::UpperBack), -16.0)]),
        Follows(Mark::Head),
    ),
];

/// The sign at what goes wrong in a fault of the catalogue.
pub(super) fn sign(fault: &str) -> Sign {
    FAULTS.iter().find(|own| own.0 == fault).map_or(Lacks, |own| own.3)
}

/// The good key pose and the same with the fault; none where the fault is not one of geometry, or
/// the pose cannot go wrong in that way.
pub fn wrong(figure: &SolvedFigure, fault: &str) -> Option<SolvedFigure> {
    let Fault(_, at, change, _) = FAULTS.iter().find(|own| own.0 == fault)?;
    let at = at.of(figure);
    let mut good = figure.poses[at].clone();
    let bad = match change {
        Change::Solved(bends) => {
            let bends = facing(&good, bends);
            from_the_side(figure).then_some(())?;
            steadied(&good, solved(figure, at, |pose| bend(pose, &bends))?)
        }
        Change::Arms(joint, degrees) => {
            let bends = [(Limbs(*joint), *degrees)];
            solved(figure, at, |pose| with_arms(pose, &bends))?
        }
        Change::Inward => {
            // From the front a wall ahead would stand before the knees, and so would a bar and the
            // arms on it.
            let before = |s: Surface| matches!(s, Surface::Wall | Surface::Bar);
            (!good.touches.iter().any(|(c, _)| before(c.surface))).then_some(())?;
            good = arms_down(good, figure);
            inward(&good)
        }
        Change::OnToes => solved(figure, at, on_toes)?,
        Change::Turned(joint, degrees) => turned(figure, &good, *joint, *degrees)?,
        Change::Half => half(figure, at)?,
    };
    // Without the wall or the box that another key pose touches nobody knows the movement.
    let mut spoilt = figure.clone();
    spoilt.poses = vec![good, bad];
    spoilt.recipe.ghost = true;
    spoilt.recipe.pause = false;
    spoilt.recipe.arrow = Arrow::None;
    let side = from_the_side(figure);
    match change {
        Change::Inward | Change::Arms(LimbJoint::ArmOut, _) => spoilt.recipe.view = View::Front,
        // Arms before the chest are seen from the side, whatever somebody pulls at.
        Change::Arms(..) if side => spoilt.recipe.view = View::Side,
        Change::Arms(..) => spoilt.recipe.view = View::Back,
        // A trunk or a head that bends is seen best from the side.
        Change::Solved(_) | Change::Turned(..) if side => spoilt.recipe.view = View::Side,
        _ => {}
    }
    let whole = pieces(&spoilt).len() == pieces(figure).len();
    (whole && seen(&spoilt) && as_named(fault, &spoilt)).then_some(spoilt)
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
        "shoulders-shrug" => {
            // Arms that point at the reader would be stumps beside what rises.
            let upright = spoilt.poses[0].body.frame(Piece::Chest).up.y > 0.93;
            upright
                && shrugs(spoilt)
                && !overhead(&spoilt.poses[0].body)
                && foreshortened(spoilt).is_empty()
        }
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
    // Of who lies face up a head that falls back only lies down.
    let up = good.body.frame(Piece::Chest).front.y > 0.3;
    (from_the_side(figure) && !up).then_some(())?;
    let mut posture = good.body.posture;
    posture.set(joint, posture.get(joint) + degrees.to_radians());
    let body = Body::stand(posture, good.body.stature);
    Some(SolvedPose { body, ..good.clone() })
}

fn half(figure: &SolvedFigure, at: usize) -> Option<SolvedPose> {
    // Half-way the hands would float beside a bar that points at the reader.
    let bar = figure.poses[at].touches.iter().any(|(c, _)| c.surface == Surface::Bar);
    (!(bar && figure.recipe.view == View::Side)).then_some(())?;
    let motion = motion(figure)?;
    let (from, to) = (motion.keys.get(at.checked_sub(1)?)?, motion.keys.get(at)?);
    motion.poses.get((from + to) / 2).cloned()
}

/// What a fault's picture shows, in words.
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
