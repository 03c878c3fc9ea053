//! The body against solid kit: limbs that pass through a box, a bench or a chair.
//! Side views only: in the others kit stands beside or behind.

use crate::mechanics::joints::Side;
use crate::mechanics::marks::{LimbMark, Mark};
use crate::mechanics::node::{PoseCode, PoseProblem};
use crate::mechanics::scenery::{Piece, pieces};
use crate::mechanics::solve::{SolvedFigure, SolvedPose};
use crate::mechanics::space::Plane;
use crate::mechanics::words::contact::{Part, Surface};

/// Segments of the body with the words a coach would use.
fn segments() -> Vec<(&'static str, Option<Side>, Mark, Mark)> {
    use LimbMark::*;
    let mut all =
        vec![("trunk", None, Mark::Hips, Mark::Shoulders), ("head", None, Mark::Neck, Mark::Head)];
    for side in Side::BOTH {
        let m = |l: LimbMark| l.of(side);
        all.extend([
            ("thigh", Some(side), m(Hip), m(Knee)),
            ("lower leg", Some(side), m(Knee), m(Ankle)),
            ("foot", Some(side), m(Heel), m(Tip)),
            ("upper arm", Some(side), m(Shoulder), m(Elbow)),
            ("forearm", Some(side), m(Elbow), m(Wrist)),
        ]);
    }
    all
}

/// Limbs inside kit.
pub fn kit(figure: &SolvedFigure, index: usize, found: &mut Vec<PoseProblem>) {
    if figure.plane() == Plane::Front {
        return;
    }
    let pose = &figure.poses[index];
    for piece in pieces(figure).iter().filter(|p| p.surface.is_block()) {
        let beside = piece.z.1 < 0.0 || piece.z.0 > 0.0 || (piece.z.0 + piece.z.1).abs() > 0.2;
        let hit = segments().into_iter().find(|(word, side, a, b)| {
            !beside && !rests_there(piece, pose, word, *side) && inside(piece, pose, *a, *b)
        });
        if let Some((word, side, ..)) = hit {
            let who = side.map_or(word.to_string(), |s| format!("{} {word}", s.word()));
            found.push(PoseProblem::new(
                PoseCode::ThroughKit,
                pose.at,
                format!("The {who} passes through the {}.", piece.surface.word()),
                "move the contact nearer the edge, change the height, or bend the limb away",
            ));
            return;
        }
    }
}

/// What touches a piece of kit may well sink into its edge; the other side may not.
fn rests_there(piece: &Piece, pose: &SolvedPose, word: &str, side: Option<Side>) -> bool {
    let touches = pose.touches.iter().any(|(c, _)| {
        c.surface == piece.surface && (c.side.is_none() || side.is_none() || c.side == side)
    });
    touches
        && match piece.part {
            Some(Part::Hand | Part::Forearm) => word == "forearm",
            Some(Part::Toes | Part::Foot | Part::Heel) => matches!(word, "foot" | "lower leg"),
            Some(Part::Seat) => matches!(word, "thigh" | "trunk"),
            Some(Part::Back) => matches!(word, "trunk" | "head" | "upper arm" | "forearm"),
            Some(Part::Knee) => matches!(word, "thigh" | "lower leg" | "foot"),
            _ => false,
        }
}

/// Whether the middle line of a segment runs well inside the block.
fn inside(piece: &Piece, pose: &SolvedPose, a: Mark, b: Mark) -> bool {
    let solid =
        matches!(piece.surface, Surface::Box | Surface::Step | Surface::Counter | Surface::Sofa);
    let bottom = if solid { -0.05 } else { piece.height - 0.08 };
    (0..=8).any(|i| {
        let at = pose.body.mark(a).towards(pose.body.mark(b), i as f64 / 8.0);
        at.x > piece.x.0 + 0.03
            && at.x < piece.x.1 - 0.03
            && at.y < piece.height - 0.035
            && at.y > bottom
    })
}
