//! Named arm shapes as joint angles.
//! Looks only at arms; a coach's one word for what would be five numbers.

use super::Writer;
use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::marks::LimbMark;
use crate::mechanics::space::Plane;
use crate::mechanics::terms::{Measure, Role};
use crate::mechanics::words::said::ArmShape;

/// A shape's angles in degrees: shoulder against the trunk, or the upper arm against the
/// vertical; then out, turned, elbow.
struct Angles {
    shoulder: Option<f64>,
    upright: Option<f64>,
    out: f64,
    turned: f64,
    elbow: f64,
}

fn angles(shape: ArmShape) -> Angles {
    let trunk = |shoulder, out, turned, elbow| Angles {
        shoulder: Some(shoulder),
        upright: None,
        out,
        turned,
        elbow,
    };
    let hall =
        |slope| Angles { shoulder: None, upright: Some(slope), out: 0.0, turned: 0.0, elbow: 0.0 };
    match shape {
        ArmShape::Forward => hall(-90.0),
        ArmShape::Hang => hall(0.0),
        ArmShape::Flat => hall(-86.0),
        ArmShape::Up => hall(-180.0),
        ArmShape::Sides => trunk(0.0, 4.0, 0.0, 5.0),
        ArmShape::Overhead => trunk(178.0, 0.0, 0.0, 0.0),
        ArmShape::Goblet => trunk(22.0, 0.0, 0.0, 138.0),
        ArmShape::Rack => trunk(25.0, 8.0, 0.0, 145.0),
        ArmShape::Crossed => trunk(40.0, 0.0, -45.0, 110.0),
        ArmShape::Down => trunk(20.0, 0.0, 0.0, 0.0),
        ArmShape::Wide => trunk(0.0, 90.0, 0.0, 0.0),
        ArmShape::OpenOverhead => trunk(0.0, 150.0, 0.0, 0.0),
        ArmShape::Carry => trunk(12.0, 4.0, 0.0, 100.0),
        ArmShape::OnHips => trunk(-25.0, 30.0, -55.0, 80.0),
        ArmShape::Run => trunk(5.0, 6.0, 0.0, 95.0),
        ArmShape::AlongRope => {
            Angles { shoulder: None, upright: None, out: 0.0, turned: 0.0, elbow: 0.0 }
        }
    }
}

impl Writer<'_> {
    /// Write the terms of an arm shape for one side. Weights are light: a balance or a contact
    /// may pull the arms a little.
    pub(super) fn arm_shape(&mut self, side: Side, shape: ArmShape, claim: usize) {
        let a = angles(shape);
        let weight = if shape == ArmShape::AlongRope { 40.0 } else { 10.0 };
        let joint = |limb| Joint::Limb(side, limb);
        if let Some(shoulder) = a.shoulder {
            self.joint(joint(LimbJoint::Shoulder), shoulder, weight, Some(claim));
        }
        if let Some(slope) = a.upright {
            let upper = Measure::Slope {
                foot: LimbMark::Elbow.of(side),
                top: LimbMark::Shoulder.of(side),
                plane: Plane::Side,
            };
            self.want(upper, slope.to_radians(), weight, Role::Said, Some(claim));
            self.aim_shoulder(side, slope);
        }
        self.joint(joint(LimbJoint::ArmOut), a.out, weight, None);
        self.joint(joint(LimbJoint::ArmTurn), a.turned, weight, None);
        self.joint(joint(LimbJoint::Elbow), a.elbow, weight, Some(claim));
    }

    /// Set the first guess of a shoulder so that the solver goes the short way round.
    fn aim_shoulder(&mut self, side: Side, slope: f64) {
        let trunk = self.first.get(Joint::Pitch).to_degrees();
        let shoulder = (trunk - slope).clamp(-55.0, 180.0);
        self.first.set(Joint::Limb(side, LimbJoint::Shoulder), shoulder.to_radians());
    }
}
