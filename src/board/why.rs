//! Why: one sentence for every choice, for the coach alone.
//! Never part of what hangs on a wall: it tells what somebody leaves out.

use super::Board;
use super::offers::Offer;
use super::weights::{self, RUNG};
use crate::gym::Gym;
use crate::own::Kind;
use crate::swap::kit_name;

/// Why somebody does for a line what they do; nothing where it is what the session asks of everybody.
pub fn why(gym: &Gym, board: &Board, (block, line): (usize, usize), who: usize) -> Option<String> {
    let taken = board.offer(block, line, who);
    of_two(gym, &board.class.blocks[block].offers[line][who][0], taken)
}

/// Why somebody does what they do, where their own version would be the first.
pub(super) fn of_two(gym: &Gym, first: &Offer, taken: &Offer) -> Option<String> {
    let reasons = || taken.own.why.join(" ");
    let shared = taken.misfit.total() > first.misfit.total();
    if taken.own.kind == Kind::Ask || !shared {
        return Some(reasons()).filter(|said| !said.is_empty());
    }
    let gone = gone(gym, first, taken);
    let lower = (taken.misfit.below - first.misfit.below.min(taken.misfit.below)) / RUNG;
    Some(match taken.own.kind {
        Kind::Swap => format!("{gone}: another movement. {}", reasons()),
        _ if lower == 1 => format!("{gone}: one rung below what they would do."),
        _ if lower > 1 => format!("{gone}: {lower} rungs below what they would do."),
        _ => format!("{gone}: done another way."),
    })
}

/// `The straps go round`.
pub(super) fn gone(gym: &Gym, first: &Offer, taken: &Offer) -> String {
    let mut left = taken.kit.clone();
    let mut names: Vec<String> = Vec::new();
    for id in &first.kit {
        match left.iter().position(|other| other == id) {
            Some(at) => drop(left.remove(at)),
            None => names.push(kit_name(gym, id)),
        }
    }
    match names.is_empty() {
        true => "The kit goes round".to_string(),
        false => format!("Others have the {}", names.join(" and the ")),
    }
}

/// How far a person is from their own over the class. `is_left`: whether something is left to the coach;
/// many small differences may add up to as much.
pub fn misfit(total: u32, is_left: bool) -> String {
    match is_left {
        true => "something is left to the coach".to_string(),
        false => weights::said(total),
    }
}
