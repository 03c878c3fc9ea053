//! Forearms under weight: where they stand, against what a person with paper and a ruler gets.

use rungbook::gym::Gym;
use rungbook::library::reader;
use rungbook::mechanics::conditions::presses;
use rungbook::mechanics::joints::{LimbJoint, Side};
use rungbook::mechanics::kinematics::Body;
use rungbook::mechanics::marks::{LimbMark, Mark};
use std::path::Path;

fn lean(body: &Body, side: Side) -> f64 {
    let up = body.limb(side, LimbMark::Elbow) - body.limb(side, LimbMark::Wrist);
    up.x.hypot(up.z).atan2(up.y).to_degrees()
}

#[test]
fn print_forearms() {
    if let Ok(poses) = std::env::var("POSES") {
        for text in poses.lines().filter(|l| !l.trim().is_empty()) {
            println!("## {text}");
            let (f, p) = rungbook::mechanics::guard::checked(
                &super::facts::pose(text),
                0,
                &[],
                &rungbook::mechanics::solve::Person {
                    stature: std::env::var("ST").map_or(1.72, |s| s.parse().unwrap()),
                    ..Default::default()
                },
            );
            let f = f.unwrap();
            show("", &f);
            for p in p {
                println!("  !! {} {}", p.code.name(), p.sentence);
            }
            let d = rungbook::mechanics::demand::demand(&f);
            if let Some(bb) = d.borne {
                println!("   borne {:?} up {:.1?} along {:.1?}", bb.by, bb.upward, bb.along);
            }
        }
        return;
    }
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let gym = Gym::open(reader::read(&content).expect("the starter library is there"));
    for (id, posed) in &gym.posed {
        let Some(f) = posed.figure.as_ref() else { continue };
        show(id.as_str(), f);
        let n: Vec<_> =
            posed.problems.iter().map(|p| format!("{} {}", p.code.name(), p.sentence)).collect();
        if !n.is_empty() {
            println!("   !! {id} {n:?}");
        }
        if let Some(bb) = posed.demand.as_ref().and_then(|d| d.borne.as_ref()) {
            println!("   {id} borne {:?} up {:.1?} along {:.1?}", bb.by, bb.upward, bb.along);
        }
    }
}

fn show(id: &str, f: &rungbook::mechanics::solve::SolvedFigure) {
    for (i, pose) in f.poses.iter().enumerate() {
        for (c, at) in pose.touches.iter().filter(|(c, _)| presses(c)) {
            let side = c.side.unwrap();
            let b = &pose.body;
            let j = |l| b.posture.degrees(side, l);
            let arm = b.limb(side, LimbMark::Elbow) - b.limb(side, LimbMark::Shoulder);
            let spine = b.mark(Mark::UpperBack) - b.mark(Mark::Shoulders);
            let ribs = (arm.unit().dot(spine.unit())).acos().to_degrees();
            let sh = b.limb(side, LimbMark::Shoulder);
            let w = b.limb(side, LimbMark::Wrist);
            println!(
                "{id:22} {i} {:4} lean {:3.0} fwd {:4.0} elbow {:4.0} ribs {:3.0} wrist {:4.0} sh {:4.0} out {:3.0} turn {:4.0} hand {:4.0} | wrist-sh x {:5.1} z {:5.1} sh.y {:5.1} palm z {:5.1} ankle {:4.0} {:?} trunk {:.0} hip {:.0}",
                side.word(),
                lean(b, side),
                (b.limb(side, LimbMark::Wrist).x - b.limb(side, LimbMark::Elbow).x)
                    .atan2(b.limb(side, LimbMark::Elbow).y - b.limb(side, LimbMark::Wrist).y)
                    .to_degrees(),
                j(LimbJoint::Elbow),
                ribs,
                j(LimbJoint::Wrist),
                j(LimbJoint::Shoulder),
                j(LimbJoint::ArmOut),
                j(LimbJoint::ArmTurn),
                j(LimbJoint::HandTurn),
                100.0 * (w.x - sh.x),
                100.0 * (w.z - sh.z),
                100.0 * sh.y,
                100.0 * at.z,
                j(LimbJoint::Ankle),
                c.surface,
                b.posture.get(rungbook::mechanics::joints::Joint::Pitch).to_degrees(),
                j(LimbJoint::Hip)
            );
        }
    }
}
