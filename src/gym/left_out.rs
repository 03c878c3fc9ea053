//! Left out: the model without the numbers that were chosen on one source's rows.
//! Never another number in their place that was chosen on it too: what stays comes from lengths of the
//! body, from other sources, or from what a coach says.
//!
//! Of Ebben's: the arms stand upright where the feet are raised, as coaches say ("hands under the
//! shoulders"); with the hands raised the edge meets the breastbone (`EDGE_ANGLE`, from lengths of the
//! body), and the force follows the arm, as moments of 10 to 23 N m at the elbow say by
//! others' measurements (`elbow1` to `elbow4` of `facts/measured_more.csv`). Of Melrose and Dawes': no
//! factor on the straps.

use super::{pose_person, pose_tree};
use crate::library::{Movement, Quantity};
use crate::mechanics::demand::{Demand, ROPE_FACTOR, demand};
use crate::mechanics::doubt::Doubts;
use crate::mechanics::node::PoseNode;
use crate::mechanics::published::{CALIBRATIONS, Measured, Row};
use crate::mechanics::solve::figure;

/// The angle between arm and trunk with the hands raised, degrees, from lengths of the body and no
/// measured force: the breastbone, as high as the chest (0.720 of stature, the shoulder at 0.818: Drillis
/// & Contini 1966), meets the edge at the bottom, and a straight body turns about its toes. So the edge is as far from the toes as that place of the
/// chest, and the angle of straight arms follows; the test below has the triangle.
const EDGE_ANGLE: f64 = 66.0;

/// What a model was not shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unseen {
    /// It saw everything.
    Nothing,
    /// How straight arms stand, with hands or feet raised.
    ArmRule,
    /// The factor on the straps.
    RopeFactor,
}

impl Unseen {
    /// What was chosen on the source of a row.
    pub fn of(row: &Row) -> Unseen {
        let chosen = CALIBRATIONS.iter().any(|one| one.chosen_on.contains(&row.source));
        match (chosen, row.what) {
            (true, Measured::StrapRow(_)) => Unseen::RopeFactor,
            (true, Measured::PushUp { .. }) => Unseen::ArmRule,
            _ => Unseen::Nothing,
        }
    }

    /// What a movement asks by this model.
    pub fn demand(self, movement: &Movement, at: &[(&str, Quantity)]) -> Option<Demand> {
        let mut tree = pose_tree(movement.figure.as_ref()?);
        if self == Unseen::ArmRule {
            placed(&mut tree);
        }
        let settings = super::posed::settings(movement, at);
        let (solved, _) = figure(&tree, 0, &settings, &pose_person());
        Some(demand(&solved?))
    }

    /// A number of this model that the whole one gave.
    pub fn without_factor(self, value: f64, doubts: Doubts) -> (f64, Doubts) {
        let by = if self == Unseen::RopeFactor { 1.0 / ROPE_FACTOR } else { 1.0 };
        (value * by, doubts.times(by))
    }
}

/// Hands whose place nobody says: on the floor under the shoulders, raised where the edge meets the chest.
fn placed(tree: &mut PoseNode) {
    let PoseNode::Map(entries) = tree else { return };
    let start = entries.iter_mut().find(|(key, ..)| key == "start");
    let Some((_, _, PoseNode::Map(start), _)) = start else { return };
    let mut raised = false;
    for (_, _, value, _) in start.iter_mut().filter(|(key, ..)| key == "hands") {
        let PoseNode::Text(text) = value else { continue };
        let said = ["under", "ahead", "behind", " at "].iter().any(|place| text.contains(place));
        match (text.starts_with("floor"), said) {
            (true, false) => text.push_str(", under shoulders"),
            (false, false) => raised = true,
            (_, true) => {}
        }
    }
    if raised {
        let angle = PoseNode::Text(EDGE_ANGLE.to_string());
        start.push(("shoulder".to_string(), 0, angle, 0));
    }
}

#[cfg(test)]
mod tests {
    use super::EDGE_ANGLE;
    use crate::mechanics::skeleton as bone;

    /// By hand, in shares of stature, ankle bent by 15 degrees: from ball to shoulder 0.246 + 0.245 +
    /// 0.288 + 0.039 cos 15 - 0.072 sin 15 = 0.798 along the body and 0.072 cos 15 + 0.039 sin 15 = 0.0796
    /// across; from ball to chest 0.098 less along it and 0.060 - 0.0796 across; the arm 0.332.
    #[test]
    fn the_edge_meets_the_breastbone() {
        let foot = 15f64.to_radians();
        let along = bone::SHANK + bone::THIGH + bone::TRUNK
            - bone::FOOT_SOLE * foot.cos()
            - bone::FOOT_BALL * foot.sin();
        let across = bone::FOOT_BALL * foot.cos() - bone::FOOT_SOLE * foot.sin();
        let (reach, arm) = (along.hypot(across), bone::UPPER_ARM + bone::FOREARM);
        let edge = (along - (0.818 - 0.720)).hypot(0.060 - across);
        let turned = (reach * reach + arm * arm - edge * edge) / (2.0 * reach * arm);
        let angle = turned.acos().to_degrees() + across.atan2(along).to_degrees();
        assert!((angle - EDGE_ANGLE).abs() < 0.5, "{angle}");
    }
}
