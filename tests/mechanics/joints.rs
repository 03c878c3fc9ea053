//! Joint ranges against published ones: a pose may not ask for more than people have.
//! Never a mean: the largest adult group of the tables is the outer limit.

use super::facts::{number, table};
use rungbook::mechanics::joints::LimbJoint;
use rungbook::mechanics::skeleton::limb_range;

/// Body weight pushes five joints further than an examiner's hand does, degrees: the ankle in a
/// knee-to-wall lunge and on tiptoe, the wrist under a flat palm, knee and hip in a deep squat.
/// From memory (for hip, knee and tiptoe: Soucie et al. 2011, 20 to 44 years: 134, 142, 62).
fn under_weight(joint: &str, motion: &str) -> f64 {
    match (joint, motion) {
        ("ankle", "dorsiflexion") => 18.0,
        ("ankle", "plantarflexion") => 12.0,
        ("wrist", "extension") => 9.0,
        ("knee", "flexion") => 10.0,
        ("hip", "flexion") => 9.0,
        _ => 0.0,
    }
}

/// How far the solver may go in the direction of the motion, degrees.
fn ours(joint: &str, motion: &str) -> f64 {
    let limb = match joint {
        "shoulder" if motion == "abduction" => LimbJoint::ArmOut,
        "shoulder" if motion == "lateral rotation" => LimbJoint::ArmTurn,
        "shoulder" => LimbJoint::Shoulder,
        "elbow" => LimbJoint::Elbow,
        "wrist" => LimbJoint::Wrist,
        "hip" => LimbJoint::Hip,
        "knee" => LimbJoint::Knee,
        _ => LimbJoint::Ankle,
    };
    let range = limb_range(limb);
    // Bending counts up; for the wrist it is the extended side that does.
    match (joint, motion) {
        ("wrist", "flexion") | (_, "plantarflexion") => -range.from,
        ("shoulder" | "hip", "extension") => -range.from,
        _ => range.to,
    }
}

#[test]
fn no_joint_goes_further_than_the_tables_say() {
    for row in table("joint_ranges") {
        let (joint, motion) = (row["joint"].as_str(), row["motion"].as_str());
        let most = number(&row, "degrees") + under_weight(joint, motion);
        let ours = ours(joint, motion);
        assert!(ours <= most.ceil(), "{joint} {motion}: {ours}, published {most}");
        // And not so little that ordinary movements would be refused.
        assert!(ours >= 0.7 * number(&row, "degrees"), "{joint} {motion}: only {ours}");
    }
}
