//! Blockwise: a class that is too hard to deal out all at once, each block for itself.
//! Never a bound that is not proved: nobody's misfit is less than the least of each of their choices.

use super::class::Class;
use super::puzzle::{Outcome, Puzzle, Solved};
use super::rota::Rota;
use super::share::Shared;

/// Why nothing was dealt out.
pub(super) enum Undealt {
    /// The kit is too little.
    TooLittle,
    /// Nothing was found for the block of this place, and nothing ruled out.
    TooHard(usize),
}

/// The answer for the whole class; where none is found, block by block, and that it was so.
pub(super) fn deal(
    (class, rotas): (&Class, &[Rota]),
    shared: &Shared,
    solve: impl Fn(&Puzzle) -> Outcome,
) -> Result<(Solved, bool), Undealt> {
    match solve(&shared.puzzle) {
        Outcome::Solved(solved) => return Ok((solved, false)),
        Outcome::None => return Err(Undealt::TooLittle),
        Outcome::TooHard => {}
    }
    let mut picked = Vec::new();
    for (block, rota) in rotas.iter().enumerate() {
        // What is shared is counted block by block, so that the parts make a whole.
        match solve(&Shared::of(class, &[(block, rota)]).puzzle) {
            Outcome::Solved(found) => picked.extend(found.picked),
            Outcome::None => return Err(Undealt::TooLittle),
            Outcome::TooHard => return Err(Undealt::TooHard(block)),
        }
    }
    Ok((judged(&shared.puzzle, picked), true))
}

fn judged(puzzle: &Puzzle, picked: Vec<usize>) -> Solved {
    let mut least = vec![0; puzzle.people];
    for set in &puzzle.sets {
        least[set.who] += set.offers.iter().map(|offer| offer.cost).min().unwrap_or(0);
    }
    Solved {
        worst: puzzle.totals(&picked).into_iter().max().unwrap_or(0),
        sum: puzzle.sum(&picked),
        worst_bound: least.iter().copied().max().unwrap_or(0),
        sum_bound: least.iter().sum(),
        picked,
    }
}
