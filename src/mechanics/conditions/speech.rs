//! What the author said besides contacts, turned into terms.
//! One word, one term or a few; never contacts, which are `touch`'s.

use super::Writer;
use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::mass::centre_as_marks;
use crate::mechanics::skeleton as bone;
use crate::mechanics::space::{Axis, Plane};
use crate::mechanics::terms::{Measure, Role};
use crate::mechanics::words::contact::Part;
use crate::mechanics::words::said::{HeightOf, Landmark, Over, Said, Slope, Word};

const ANGLE: f64 = 40.0;
const HEIGHT: f64 = 2000.0;
const BALANCE: f64 = 600.0;
const HANDS_AT: f64 = 200.0;

impl Writer<'_> {
    pub(super) fn speech(&mut self) {
        // Arm shapes come first: a single angle said beside them overrules their fixed values.
        let (shapes, others): (Vec<&Said>, Vec<&Said>) =
            self.pose.said.iter().partition(|s| matches!(s.word, Word::Arms(_)));
        for said in shapes.into_iter().chain(others) {
            let claim = self.claim(&said.written, said.at, who(said));
            self.word(said, claim);
        }
        let said_balance = self.pose.said.iter().find_map(|s| match s.word {
            Word::Balance(over) => Some(over),
            _ => None,
        });
        let handed_on = self.setting.before.and_then(|b| b.balance);
        self.out.balance = said_balance.or(handed_on);
        if let (None, Some(over)) = (said_balance, handed_on) {
            self.balance(over, None);
        }
    }

    fn word(&mut self, said: &Said, claim: usize) {
        match said.word {
            Word::Bend(limb, degrees) => {
                for side in self.sides(said) {
                    if said.side.is_none() && self.said_for(side, limb) {
                        continue;
                    }
                    self.joint(Joint::Limb(side, limb), degrees, ANGLE, Some(claim));
                }
            }
            Word::Turn(joint, degrees) => self.joint(joint, degrees, ANGLE, Some(claim)),
            Word::Slope(slope, degrees) => self.slope(said, slope, degrees, claim),
            Word::Straight => self.straight(claim),
            Word::Lean(degrees) => {
                let line = Measure::Slope {
                    foot: LimbMark::Ankle.of(Side::Near),
                    top: Mark::Shoulders,
                    plane: self.setting.plane,
                };
                self.want(line, degrees.to_radians(), 200.0, Role::Said, Some(claim));
            }
            Word::Arms(shape) => {
                for side in self.sides(said) {
                    self.arm_shape(side, shape, claim);
                }
            }
            Word::Balance(over) => self.balance(over, Some(claim)),
            Word::Height(of, metres) => self.height(said, of, metres, claim),
            Word::ChinOverBar(over) => self.chin_over_bar(over, claim),
            Word::HandsAt(side, landmark, ahead, above) => {
                for hand in self.sides(said) {
                    self.hand_at(hand, side, landmark, (ahead, above), claim);
                }
            }
        }
    }

    fn sides(&self, said: &Said) -> Vec<Side> {
        said.side.map_or(Side::BOTH.to_vec(), |s| vec![s])
    }

    /// Whether a block for one side says this joint itself.
    fn said_for(&self, side: Side, limb: LimbJoint) -> bool {
        self.pose
            .said
            .iter()
            .any(|s| s.side == Some(side) && matches!(s.word, Word::Bend(l, _) if l == limb))
    }

    fn slope(&mut self, said: &Said, slope: Slope, degrees: f64, claim: usize) {
        let plane = self.setting.plane;
        let mut want = |foot: Mark, top: Mark| {
            let line = Measure::Slope { foot, top, plane };
            self.want(line, degrees.to_radians(), ANGLE, Role::Said, Some(claim));
        };
        if slope == Slope::Trunk {
            want(Mark::Hips, Mark::Shoulders);
            self.aim_trunk(degrees);
            return;
        }
        for side in said.side.map_or(Side::BOTH.to_vec(), |s| vec![s]) {
            let (foot, top) = match slope {
                Slope::Thigh => (LimbMark::Knee, LimbMark::Hip),
                Slope::Shin => (LimbMark::Ankle, LimbMark::Knee),
                Slope::UpperArm => (LimbMark::Elbow, LimbMark::Shoulder),
                Slope::Forearm => (LimbMark::Wrist, LimbMark::Elbow),
                Slope::Foot | Slope::Trunk => (LimbMark::Heel, LimbMark::Ball),
            };
            want(foot.of(side), top.of(side));
        }
    }

    /// A trunk that is said sets the first guess too: half a turn away the search would stick.
    fn aim_trunk(&mut self, degrees: f64) {
        if self.setting.before.is_none() && self.setting.plane == Plane::Side {
            self.first.set(Joint::Pitch, degrees.to_radians());
        }
    }

    fn straight(&mut self, claim: usize) {
        let kneels = self.out.touches.iter().any(|t| t.contact.part == Part::Knee);
        for side in Side::BOTH {
            if !self.said_for(side, LimbJoint::Hip) {
                self.joint(Joint::Limb(side, LimbJoint::Hip), 0.0, ANGLE, Some(claim));
            }
            if !kneels && !self.said_for(side, LimbJoint::Knee) {
                self.joint(Joint::Limb(side, LimbJoint::Knee), 0.0, ANGLE, Some(claim));
            }
        }
    }

    fn balance(&mut self, over: Over, claim: Option<usize>) {
        let level = self.setting.plane.level();
        let base: Vec<(Mark, f64)> = match over {
            Over::Nothing => return,
            Over::Feet => Side::BOTH.map(|s| (self.stands_on(s), 0.5)).to_vec(),
            Over::Foot(side) => vec![(self.stands_on(side), 1.0)],
            Over::Hands => Side::BOTH.map(|s| (LimbMark::Grip.of(s), 0.5)).to_vec(),
            Over::Share(share, side) => {
                let back = LimbMark::Ball.of(side.other());
                vec![(LimbMark::Sole.of(side), share), (back, 1.0 - share)]
            }
        };
        let mut parts: Vec<(Mark, Axis, f64)> =
            centre_as_marks(self.setting.lumps).into_iter().map(|(m, k)| (m, level, k)).collect();
        parts.extend(base.into_iter().map(|(m, k)| (m, level, -k)));
        self.want(Measure::Marks(parts), 0.0, BALANCE, Role::Said, claim);
    }

    /// Under which point a foot carries: its ball on tiptoe, the middle of its sole else.
    fn stands_on(&self, side: Side) -> Mark {
        let tiptoe = self.touches_with(side, Part::Toes);
        if tiptoe { LimbMark::Ball.of(side) } else { LimbMark::Sole.of(side) }
    }

    fn height(&mut self, said: &Said, of: HeightOf, metres: f64, claim: usize) {
        let h = self.setting.stature;
        let mut want = |mark: Mark, below: f64| {
            let marks = Measure::Marks(vec![(mark, Axis::Up, 1.0)]);
            self.want(marks, metres + below * h, HEIGHT, Role::Said, Some(claim));
        };
        match of {
            HeightOf::Chest => want(Mark::Chest, 0.0),
            HeightOf::Hips => want(Mark::Hips, 0.0),
            HeightOf::Chin => want(Mark::Head, 0.060),
            HeightOf::Head => want(Mark::Head, bone::HEAD_RADIUS),
            HeightOf::Knee | HeightOf::Foot | HeightOf::Hand => {
                let (mark, below) = match of {
                    HeightOf::Knee => (LimbMark::Knee, bone::KNEE_RADIUS),
                    HeightOf::Foot => (LimbMark::Ball, 0.0),
                    _ => (LimbMark::Grip, 0.0),
                };
                for side in said.side.map_or(Side::BOTH.to_vec(), |s| vec![s]) {
                    want(mark.of(side), below);
                }
            }
        }
    }

    fn chin_over_bar(&mut self, over: f64, claim: usize) {
        let h = self.setting.stature;
        for side in Side::BOTH {
            self.first.set(Joint::Limb(side, LimbJoint::Elbow), 135f64.to_radians());
            self.first.set(Joint::Limb(side, LimbJoint::Shoulder), 30f64.to_radians());
        }
        self.first.set(Joint::Height, self.first.get(Joint::Height) + 0.3 * h);
        let grip = LimbMark::Grip.of(Side::Near);
        let marks = vec![(Mark::Head, Axis::Up, 1.0), (grip, Axis::Up, -1.0)];
        // The chin lies 0.055 of stature under the middle of the head.
        self.want(Measure::Marks(marks), over + 0.055 * h, HEIGHT, Role::Said, Some(claim));
    }

    fn hand_at(
        &mut self,
        hand: Side,
        side: Option<Side>,
        landmark: Landmark,
        (ahead, above): (f64, f64),
        claim: usize,
    ) {
        let side = side.unwrap_or(hand);
        let mark = match landmark {
            Landmark::Chest => Mark::Chest,
            Landmark::Hips => Mark::Hips,
            Landmark::Shoulders => Mark::Shoulders,
            Landmark::Ribs => Mark::Ribs,
            Landmark::Head => Mark::Head,
            Landmark::Knees => LimbMark::Knee.of(side),
            Landmark::Ankles => LimbMark::Ankle.of(side),
            Landmark::Toes => LimbMark::Ball.of(side),
            Landmark::Hand => LimbMark::Grip.of(hand.other()),
            Landmark::Shoulder => LimbMark::Shoulder.of(side),
        };
        let grip = LimbMark::Grip.of(hand);
        for (axis, offset) in [(Axis::Forward, ahead), (Axis::Up, above)] {
            let marks = vec![(grip, axis, 1.0), (mark, axis, -1.0)];
            self.want(Measure::Marks(marks), offset, HANDS_AT, Role::Said, Some(claim));
        }
        if self.setting.before.is_some() {
            self.first.set(Joint::Limb(hand, LimbJoint::Elbow), 100f64.to_radians());
            self.first.set(Joint::Limb(hand, LimbJoint::Shoulder), (-10f64).to_radians());
        }
    }
}

fn who(said: &Said) -> String {
    let word = said.written.split(':').next().unwrap_or("").to_string();
    match said.side {
        Some(side) => format!("{} {word}", side.word()),
        None => word,
    }
}
