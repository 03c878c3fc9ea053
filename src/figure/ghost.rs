//! Ghost: which parts of the first key pose are worth a pale shape behind the last.
//! Only measures on paper, by circles along the body; it draws nothing.

use super::arrow::{Segment, TRUNK, arm_segments, leg_segments, rounds_of};
use super::camera::Camera;
use crate::mechanics::joints::Side;
use crate::mechanics::kinematics::Body;

/// A part is worth a pale shape where some of it goes further than this part of its radius and so many
/// centimetres: of less only scraps would show. Chosen by eye, no source.
const CLEARS: (f64, f64) = (0.8, 3.2);

/// The parts of the first body that stand clear of themselves in the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moved {
    /// Head and neck.
    pub head: bool,
    /// The trunk.
    pub trunk: bool,
    /// Arms: near, far.
    pub arms: [bool; 2],
    /// Legs: near, far.
    pub legs: [bool; 2],
}

/// What moved far enough to be seen beside where it was.
pub fn moved(first: &Body, last: &Body, camera: &Camera) -> Moved {
    let clear = |segments: &[Segment]| {
        let (from, to) = (rounds_of(first, camera, segments), rounds_of(last, camera, segments));
        from.iter().any(|was| {
            let nearest = to.iter().map(|is| was.at.to(is.at).length()).fold(f64::MAX, f64::min);
            nearest > CLEARS.0 * was.r + CLEARS.1
        })
    };
    let head = clear(&TRUNK[2..]);
    Moved {
        head,
        // A head alone would float.
        trunk: head || clear(&TRUNK[..2]),
        arms: Side::BOTH.map(|side| clear(&arm_segments(side))),
        legs: Side::BOTH.map(|side| clear(&leg_segments(side))),
    }
}
