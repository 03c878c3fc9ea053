//! Kinematics: where every mark of a body is for a posture, and how it moves when a joint bends.
//! Pure geometry: it knows no floor, no contact and no weight.

use super::joints::{Joint, LimbJoint, Posture, Side};
use super::marks::{LimbMark, MARKS, Mark, PIECES, Piece};
use super::skeleton as bone;
use super::space::{Frame, Vec3, vec3};
use serde::{Deserialize, Serialize};

/// How the shoulder joint rises on the collar bone: a shrug of one degree moves it by this
/// fraction of stature (collar bone of about 0.09 of stature, from memory; drawing only).
const SHRUG_RISE: f64 = 0.09 * std::f64::consts::PI / 180.0;

/// A body of a given stature in a posture, with all its marks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(into = "Standing", try_from = "Standing")]
pub struct Body {
    /// Stature in metres.
    pub stature: f64,
    /// How it stands.
    pub posture: Posture,
    marks: [Vec3; MARKS],
    frames: [Frame; PIECES],
}

/// The line about which a joint turns, in the hall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hinge {
    /// Unit direction; the joint's angle counts right-handed about it.
    pub line: Vec3,
    /// A point on the line, metres.
    pub origin: Vec3,
}

/// All that a body is worked out from.
#[derive(Serialize, Deserialize)]
struct Standing {
    stature: f64,
    joints: Vec<f64>,
}

impl From<Body> for Standing {
    fn from(body: Body) -> Standing {
        Standing { stature: body.stature, joints: body.posture.0.to_vec() }
    }
}

impl TryFrom<Standing> for Body {
    type Error = &'static str;

    fn try_from(standing: Standing) -> Result<Body, &'static str> {
        let joints = standing.joints.try_into().map_err(|_| "another number of joints")?;
        Ok(Body::stand(Posture(joints), standing.stature))
    }
}

impl Body {
    /// Work out every mark for `posture` at `stature` metres.
    pub fn stand(posture: Posture, stature: f64) -> Body {
        let mut body =
            Body { stature, posture, marks: [Vec3::ZERO; MARKS], frames: [Frame::UPRIGHT; PIECES] };
        body.place_trunk();
        for side in Side::BOTH {
            body.place_leg(side);
            body.place_arm(side);
        }
        body
    }

    /// Where a mark is, metres.
    pub fn mark(&self, mark: Mark) -> Vec3 {
        self.marks[mark.index()]
    }

    /// Where a limb's mark is, metres.
    pub fn limb(&self, side: Side, mark: LimbMark) -> Vec3 {
        self.mark(mark.of(side))
    }

    /// How a piece stands.
    pub fn frame(&self, piece: Piece) -> Frame {
        self.frames[piece.index()]
    }

    /// Every mark with its place, in a fixed order.
    pub fn places(&self) -> &[Vec3] {
        &self.marks
    }

    fn put(&mut self, mark: Mark, at: Vec3) {
        self.marks[mark.index()] = at;
    }

    fn place_trunk(&mut self) {
        let q = self.posture;
        let h = self.stature;
        let third = bone::TRUNK * h / 3.0;
        let pelvis = Frame::UPRIGHT
            .turned(q.get(Joint::Yaw))
            .pitched(-q.get(Joint::Pitch))
            .rolled(q.get(Joint::Roll));
        let bend = q.get(Joint::SideBend) / 2.0;
        let middle = pelvis.pitched(-q.get(Joint::Waist)).rolled(bend);
        let chest =
            middle.pitched(-q.get(Joint::UpperBack)).rolled(bend).turned(-q.get(Joint::Twist));
        let head = chest.turned(-q.get(Joint::HeadTurn)).pitched(-q.get(Joint::Neck));
        for (piece, frame) in [
            (Piece::Pelvis, pelvis),
            (Piece::Middle, middle),
            (Piece::Chest, chest),
            (Piece::Head, head),
        ] {
            self.frames[piece.index()] = frame;
        }
        let hips = vec3(q.get(Joint::Forward), q.get(Joint::Height), q.get(Joint::Sideways));
        let waist = hips + pelvis.up * third;
        let upper = waist + middle.up * third;
        let shoulders = upper + chest.up * third;
        let neck = shoulders + chest.carry(-0.004, 0.030, 0.0) * h;
        self.put(Mark::Hips, hips);
        self.put(Mark::Waist, waist);
        self.put(Mark::UpperBack, upper);
        self.put(Mark::Shoulders, shoulders);
        self.put(Mark::Neck, neck);
        self.put(Mark::Head, neck + head.carry(0.012, 0.085, 0.0) * h);
        // Skin points: drawing measures of the prototype, fractions of trunk length and stature.
        self.put(
            Mark::Back,
            upper + chest.carry(-bone::BACK_RADIUS, 0.70 / 3.0 * bone::TRUNK, 0.0) * h,
        );
        self.put(Mark::Chest, upper + chest.carry(0.060, 0.46 / 3.0 * bone::TRUNK, 0.0) * h);
        self.put(Mark::Ribs, upper + chest.carry(0.030, 0.10 / 3.0 * bone::TRUNK, 0.0) * h);
        self.put(Mark::Seat, hips + pelvis.carry(-0.020, -0.9 * bone::SEAT_RADIUS, 0.0) * h);
    }

    fn place_leg(&mut self, side: Side) {
        let (h, sign) = (self.stature, side.sign());
        let angle = |joint| self.posture.get(Joint::Limb(side, joint));
        let pelvis = self.frame(Piece::Pelvis);
        let thigh = pelvis
            .pitched(angle(LimbJoint::Hip))
            .rolled(-sign * angle(LimbJoint::LegOut))
            .turned(-sign * angle(LimbJoint::LegTurn));
        let shank = thigh.pitched(-angle(LimbJoint::Knee));
        let foot = shank.pitched(angle(LimbJoint::Ankle));
        let hip = self.mark(Mark::Hips) + pelvis.right * (sign * bone::HIP_HALF * h);
        let knee = hip - thigh.up * (bone::THIGH * h);
        let ankle = knee - shank.up * (bone::SHANK * h);
        let on_sole = |x: f64| ankle + foot.carry(x, bone::FOOT_SOLE, 0.0) * h;
        let (heel, ball) = (on_sole(bone::FOOT_HEEL), on_sole(bone::FOOT_BALL));
        let tip = on_sole(bone::FOOT_TIP);
        self.frames[Piece::Thigh(side).index()] = thigh;
        self.frames[Piece::Shank(side).index()] = shank;
        self.frames[Piece::Foot(side).index()] = foot;
        self.put(LimbMark::Hip.of(side), hip);
        self.put(LimbMark::Knee.of(side), knee);
        self.put(LimbMark::Ankle.of(side), ankle);
        self.put(LimbMark::Heel.of(side), heel);
        self.put(LimbMark::Ball.of(side), ball);
        self.put(LimbMark::Tip.of(side), tip);
        self.put(LimbMark::Sole.of(side), heel.towards(ball, 0.5));
    }

    fn place_arm(&mut self, side: Side) {
        let (h, sign) = (self.stature, side.sign());
        let angle = |joint| self.posture.get(Joint::Limb(side, joint));
        let chest = self.frame(Piece::Chest);
        let upper = chest
            .pitched(angle(LimbJoint::Shoulder))
            .rolled(-sign * angle(LimbJoint::ArmOut))
            .turned(-sign * angle(LimbJoint::ArmTurn));
        let fore = upper.pitched(angle(LimbJoint::Elbow));
        let hand = fore.turned(-sign * angle(LimbJoint::HandTurn)).pitched(angle(LimbJoint::Wrist));
        let rise = angle(LimbJoint::Shrug).to_degrees() * SHRUG_RISE;
        let shoulder =
            self.mark(Mark::Shoulders) + chest.carry(0.0, rise, sign * bone::SHOULDER_HALF) * h;
        let elbow = shoulder - upper.up * (bone::UPPER_ARM * h);
        let wrist = elbow - fore.up * (bone::FOREARM * h);
        self.frames[Piece::UpperArm(side).index()] = upper;
        self.frames[Piece::Forearm(side).index()] = fore;
        self.frames[Piece::Hand(side).index()] = hand;
        self.put(LimbMark::Shoulder.of(side), shoulder);
        self.put(LimbMark::Elbow.of(side), elbow);
        self.put(LimbMark::Wrist.of(side), wrist);
        self.put(LimbMark::Palm.of(side), wrist - hand.up * (bone::PALM * bone::HAND * h));
        self.put(LimbMark::Grip.of(side), wrist - fore.up * (bone::GRIP * bone::HAND * h));
        self.put(LimbMark::Fingers.of(side), wrist - hand.up * (0.95 * bone::HAND * h));
    }

    /// The line about which `joint` turns; none for the hips' place and for joints that the
    /// solver never frees (those are stated, not solved).
    pub fn hinge(&self, joint: Joint) -> Option<Hinge> {
        let pelvis = self.frame(Piece::Pelvis);
        let level = Frame::UPRIGHT.turned(self.posture.get(Joint::Yaw));
        let (line, at) = match joint {
            Joint::Pitch => (-level.right, Mark::Hips),
            Joint::Roll => (pelvis.front, Mark::Hips),
            Joint::Waist => (-pelvis.right, Mark::Waist),
            Joint::UpperBack => (-self.frame(Piece::Middle).right, Mark::UpperBack),
            Joint::Neck => (-self.frame(Piece::Head).right, Mark::Neck),
            Joint::Limb(side, limb) => self.limb_hinge(side, limb)?,
            _ => return None,
        };
        Some(Hinge { line, origin: self.mark(at) })
    }

    fn limb_hinge(&self, side: Side, limb: LimbJoint) -> Option<(Vec3, Mark)> {
        let out = -side.sign();
        Some(match limb {
            LimbJoint::Hip => (self.frame(Piece::Pelvis).right, LimbMark::Hip.of(side)),
            LimbJoint::LegOut => {
                let lifted = self
                    .frame(Piece::Pelvis)
                    .pitched(self.posture.get(Joint::Limb(side, LimbJoint::Hip)));
                (lifted.front * out, LimbMark::Hip.of(side))
            }
            LimbJoint::Knee => (-self.frame(Piece::Thigh(side)).right, LimbMark::Knee.of(side)),
            LimbJoint::Ankle => (self.frame(Piece::Shank(side)).right, LimbMark::Ankle.of(side)),
            LimbJoint::Shoulder => (self.frame(Piece::Chest).right, LimbMark::Shoulder.of(side)),
            LimbJoint::ArmOut => {
                let lifted = self
                    .frame(Piece::Chest)
                    .pitched(self.posture.get(Joint::Limb(side, LimbJoint::Shoulder)));
                (lifted.front * out, LimbMark::Shoulder.of(side))
            }
            LimbJoint::Elbow => (self.frame(Piece::UpperArm(side)).right, LimbMark::Elbow.of(side)),
            LimbJoint::Wrist => (self.frame(Piece::Hand(side)).right, LimbMark::Wrist.of(side)),
            LimbJoint::ArmTurn => {
                (self.frame(Piece::UpperArm(side)).up * out, LimbMark::Shoulder.of(side))
            }
            LimbJoint::HandTurn => {
                (self.frame(Piece::Forearm(side)).up * out, LimbMark::Wrist.of(side))
            }
            LimbJoint::LegTurn | LimbJoint::Shrug => return None,
        })
    }

    /// How fast a mark moves when `joint` changes, metres per radian (or per metre).
    pub fn drift(&self, mark: Mark, joint: Joint) -> Vec3 {
        match joint {
            Joint::Forward => vec3(1.0, 0.0, 0.0),
            Joint::Height => vec3(0.0, 1.0, 0.0),
            Joint::Sideways => vec3(0.0, 0.0, 1.0),
            _ if !mark.carrier().moved_by(joint) => Vec3::ZERO,
            _ => match self.hinge(joint) {
                Some(hinge) => hinge.line.cross(self.mark(mark) - hinge.origin),
                None => Vec3::ZERO,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every free joint's analytic movement against a small finite step.
    #[test]
    fn drift_is_the_derivative() {
        let mut posture = Posture::STRAIGHT;
        for (i, value) in posture.0.iter_mut().enumerate() {
            *value = ((i * 37 % 11) as f64 - 5.0) * 0.06;
        }
        let body = Body::stand(posture, 1.7);
        for joint in Joint::all().filter(|&j| j.is_place() || body.hinge(j).is_some()) {
            let step = 1e-6;
            let mut moved = posture;
            moved.set(joint, posture.get(joint) + step);
            let after = Body::stand(moved, 1.7);
            for mark in [
                Mark::Head,
                Mark::Seat,
                LimbMark::Tip.of(Side::Far),
                LimbMark::Fingers.of(Side::Near),
            ] {
                let numeric = (after.mark(mark) - body.mark(mark)) * (1.0 / step);
                let analytic = body.drift(mark, joint);
                assert!(
                    (numeric - analytic).length() < 1e-5,
                    "{joint:?} {mark:?}: {numeric:?} {analytic:?}"
                );
            }
        }
    }

    #[test]
    fn standing_reaches_full_stature() {
        let body = Body::stand(Posture::STRAIGHT, 1.0);
        let sole = body.limb(Side::Near, LimbMark::Heel).y;
        let top = body.mark(Mark::Head).y + bone::HEAD_RADIUS;
        assert!((top - sole - 1.0).abs() < 0.03, "{}", top - sole);
    }
}
