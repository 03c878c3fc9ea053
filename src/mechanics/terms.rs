//! Terms: the conditions that a pose has to meet, each with its value and its slope.
//! Knows bodies and numbers, not words: `conditions` writes terms, `solver` meets them.

use super::joints::Joint;
use super::kinematics::Body;
use super::marks::{MARKS, Mark};
use super::space::{Axis, Plane, Vec3};

/// What a term looks at.
#[derive(Debug, Clone, PartialEq)]
pub enum Measure {
    /// A weighted sum of marks' coordinates, metres.
    Marks(Vec<(Mark, Axis, f64)>),
    /// A joint, radians (metres for the hips' place).
    Joint(Joint),
    /// The difference of two angles: first minus so many times the second.
    JointPair(Joint, f64, Joint),
    /// How far a shoulder is from the arm rule (see `conditions::ARM_RULE`), radians.
    ArmRule {
        /// The shoulder.
        shoulder: Joint,
        /// The rule's share.
        rule: f64,
        /// The smallest angle between arm and trunk, radians.
        least: f64,
    },
    /// The angle of the line from `foot` up to `top` against the vertical, radians.
    Slope {
        /// Lower end.
        foot: Mark,
        /// Upper end.
        top: Mark,
        /// In which plane.
        plane: Plane,
    },
    /// How far a mark is from a fixed point, in the side plane, metres.
    Reach(Mark, Vec3),
    /// How far `on` lies beside the line from `from` to a point straight over `over`, metres
    /// times metres.
    InLine {
        /// Where the line starts.
        from: Mark,
        /// What should lie on it.
        on: Mark,
        /// Under the line's end.
        over: Mark,
        /// The end is this much further forward, metres.
        ahead: f64,
        /// The end's height, metres.
        height: f64,
    },
}

impl Measure {
    /// The joint that is looked at, where it is one or a pair.
    pub fn joint(&self) -> Option<Joint> {
        match self {
            Measure::Joint(joint) | Measure::JointPair(joint, ..) => Some(*joint),
            Measure::ArmRule { shoulder, .. } => Some(*shoulder),
            _ => None,
        }
    }
}

/// Whether a term wants a value or only a lower bound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wants {
    /// Exactly this.
    Just,
    /// This or more.
    AtLeast,
}

/// What a term is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// A contact: it must hold.
    Contact,
    /// Something the author said.
    Said,
    /// Nothing may go through the floor.
    Floor,
    /// Where nothing is said, stay near the guess.
    Rest,
}

/// One condition.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// What it looks at.
    pub measure: Measure,
    /// What it wants, in the measure's unit.
    pub target: f64,
    /// Value or lower bound.
    pub wants: Wants,
    /// Square root of its weight.
    pub weight: f64,
    /// What it is for.
    pub role: Role,
    /// Which claim of the author it belongs to, if any.
    pub claim: Option<usize>,
}

/// How fast every mark moves with every free joint: the table that all slopes are read from.
pub struct Drifts {
    rows: Vec<[Vec3; MARKS]>,
}

impl Drifts {
    /// Work it out for `body` and the joints that may move.
    pub fn of(body: &Body, free: &[Joint], marks: &[Mark]) -> Drifts {
        let rows = free
            .iter()
            .map(|&joint| {
                let mut row = [Vec3::ZERO; MARKS];
                let hinge = body.hinge(joint);
                for &mark in marks {
                    row[mark.index()] = match hinge {
                        Some(h) if mark.carrier().moved_by(joint) => {
                            h.line.cross(body.mark(mark) - h.origin)
                        }
                        Some(_) => Vec3::ZERO,
                        None => body.drift(mark, joint),
                    };
                }
                row
            })
            .collect();
        Drifts { rows }
    }

    fn at(&self, joint: usize, mark: Mark) -> Vec3 {
        self.rows[joint][mark.index()]
    }
}

impl Term {
    /// Weighted distance from what it wants; 0 when met.
    pub fn miss(&self, body: &Body) -> f64 {
        self.weight * self.raw_miss(body)
    }

    /// Distance from what it wants in metres or radians, not weighted.
    pub fn raw_miss(&self, body: &Body) -> f64 {
        let miss = self.value(body) - self.target;
        let miss = if self.is_angle() { wrapped(miss) } else { miss };
        match self.wants {
            Wants::Just => miss,
            Wants::AtLeast => miss.min(0.0),
        }
    }

    /// Whether it is counted in radians.
    pub fn is_angle(&self) -> bool {
        match &self.measure {
            Measure::Joint(joint) => !joint.is_place(),
            Measure::JointPair(..) | Measure::Slope { .. } | Measure::ArmRule { .. } => true,
            _ => false,
        }
    }

    fn value(&self, body: &Body) -> f64 {
        match &self.measure {
            Measure::Marks(parts) => {
                parts.iter().map(|(mark, axis, k)| k * body.mark(*mark).along(*axis)).sum()
            }
            Measure::Joint(joint) => body.posture.get(*joint),
            Measure::JointPair(a, k, b) => body.posture.get(*a) - k * body.posture.get(*b),
            Measure::ArmRule { shoulder, rule, least } => {
                body.posture.get(*shoulder) - arm_rule(body, *rule).max(*least)
            }
            Measure::Slope { foot, top, plane } => {
                let (level, up) = plane.flat(body.mark(*top) - body.mark(*foot));
                level.atan2(up)
            }
            Measure::Reach(mark, to) => {
                let d = body.mark(*mark) - *to;
                d.x.hypot(d.y)
            }
            Measure::InLine { from, on, over, ahead, height } => {
                let (a, b) = in_line(body, *from, *on, *over, *ahead, *height);
                (a.0 * b.1 - a.1 * b.0) / body.stature
            }
        }
    }

    /// Add the weighted slope against every free joint to `row`.
    pub fn slope(&self, body: &Body, free: &[Joint], drifts: &Drifts, row: &mut [f64]) {
        if self.wants == Wants::AtLeast && self.raw_miss(body) >= 0.0 {
            return;
        }
        for (i, joint) in free.iter().enumerate() {
            row[i] = self.weight * self.slope_of(body, *joint, i, drifts);
        }
    }

    fn slope_of(&self, body: &Body, joint: Joint, i: usize, drifts: &Drifts) -> f64 {
        let hit = |j: &Joint| if *j == joint { 1.0 } else { 0.0 };
        match &self.measure {
            Measure::Marks(parts) => {
                parts.iter().map(|(mark, axis, k)| k * drifts.at(i, *mark).along(*axis)).sum()
            }
            Measure::Joint(j) => hit(j),
            Measure::JointPair(a, k, b) => hit(a) - k * hit(b),
            Measure::ArmRule { shoulder, rule, least } => {
                let leans = if arm_rule(body, *rule) > *least { 1.0 - rule } else { 0.0 };
                hit(shoulder) - leans * hit(&Joint::Pitch)
            }
            Measure::Slope { foot, top, plane } => {
                let (x, y) = plane.flat(body.mark(*top) - body.mark(*foot));
                let (dx, dy) = plane.flat(drifts.at(i, *top) - drifts.at(i, *foot));
                (dx * y - dy * x) / (x * x + y * y).max(1e-9)
            }
            Measure::Reach(mark, to) => {
                let (d, v) = (body.mark(*mark) - *to, drifts.at(i, *mark));
                (d.x * v.x + d.y * v.y) / d.x.hypot(d.y).max(1e-9)
            }
            Measure::InLine { from, on, over, ahead, height } => {
                let (a, b) = in_line(body, *from, *on, *over, *ahead, *height);
                let (vf, von, vo) = (drifts.at(i, *from), drifts.at(i, *on), drifts.at(i, *over));
                let da = (von.x - vf.x, von.y - vf.y);
                let db = (vo.x - vf.x, -vf.y);
                (da.0 * b.1 + a.0 * db.1 - da.1 * b.0 - a.1 * db.0) / body.stature
            }
        }
    }

    /// The marks it looks at.
    pub fn marks(&self, into: &mut Vec<Mark>) {
        match &self.measure {
            Measure::Marks(parts) => into.extend(parts.iter().map(|(m, ..)| *m)),
            Measure::Slope { foot, top, .. } => into.extend([*foot, *top]),
            Measure::Reach(mark, _) => into.push(*mark),
            Measure::InLine { from, on, over, .. } => into.extend([*from, *on, *over]),
            Measure::Joint(_) | Measure::JointPair(..) | Measure::ArmRule { .. } => {}
        }
    }
}

/// The angle between arm and trunk that is `rule` of the way from vertical arms to square ones.
fn arm_rule(body: &Body, rule: f64) -> f64 {
    (1.0 - rule) * body.posture.get(Joint::Pitch) + rule * std::f64::consts::FRAC_PI_2
}

fn in_line(
    body: &Body,
    from: Mark,
    on: Mark,
    over: Mark,
    ahead: f64,
    height: f64,
) -> ((f64, f64), (f64, f64)) {
    let (f, o, v) = (body.mark(from), body.mark(on), body.mark(over));
    ((o.x - f.x, o.y - f.y), (v.x + ahead - f.x, height - f.y))
}

/// An angle brought to between minus and plus half a turn.
pub fn wrapped(angle: f64) -> f64 {
    let turn = std::f64::consts::TAU;
    let a = (angle + turn / 2.0).rem_euclid(turn) - turn / 2.0;
    if a.is_finite() { a } else { 0.0 }
}
