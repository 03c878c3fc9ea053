//! Settle: where two people could trade what they take and nothing is lost, the one whose nickname
//! comes first has the better of it.
//! Never makes the worst-off worse off, nor the sum higher, nor a count wrong.

use super::puzzle::{Puzzle, Set, Solved};

/// The same answer with ties settled: people stand in the order of their nicknames.
pub fn by_nickname(puzzle: &Puzzle, solved: Solved) -> Solved {
    let mut picked = solved.picked.clone();
    let mut totals = puzzle.totals(&picked);
    // Each trade gives an earlier person the better; there are only so many, and a pass without one
    // is the last.
    for _ in 0..puzzle.sets.len() {
        if !pass(puzzle, &mut picked, (&mut totals, solved.worst)) {
            break;
        }
    }
    Solved { picked, ..solved }
}

fn pass(puzzle: &Puzzle, picked: &mut [usize], (totals, worst): (&mut [u32], u32)) -> bool {
    let mut traded = false;
    for one in 0..puzzle.sets.len() {
        for other in one + 1..puzzle.sets.len() {
            let Some((a, b)) = trade(puzzle, picked, (one, other)) else { continue };
            let (first, second) = (puzzle.sets[one].who, puzzle.sets[other].who);
            let cost = |set: &Set, at: usize| set.offers[at].cost;
            let gain = cost(&puzzle.sets[one], picked[one]) - cost(&puzzle.sets[one], a);
            if totals[second] + gain > worst {
                continue;
            }
            let before = (picked[one], picked[other]);
            let sum = puzzle.sum(picked);
            (picked[one], picked[other]) = (a, b);
            if puzzle.is_kept(picked) && puzzle.sum(picked) <= sum {
                totals[first] -= gain;
                totals[second] += gain;
                traded = true;
            } else {
                (picked[one], picked[other]) = before;
            }
        }
    }
    traded
}

/// Offers of two sets by which the first is better off by as much as the second is worse off, with the
/// things that they use changing hands.
fn trade(
    puzzle: &Puzzle,
    picked: &[usize],
    (one, other): (usize, usize),
) -> Option<(usize, usize)> {
    let (first, second) = (&puzzle.sets[one], &puzzle.sets[other]);
    if first.who >= second.who {
        return None;
    }
    let (now, theirs) = (&first.offers[picked[one]], &second.offers[picked[other]]);
    if now.uses == theirs.uses || now.cost == 0 {
        return None;
    }
    let a = first.offers.iter().position(|to| to.uses == theirs.uses && to.cost < now.cost)?;
    let gain = now.cost - first.offers[a].cost;
    let b =
        second.offers.iter().position(|to| to.uses == now.uses && to.cost == theirs.cost + gain)?;
    Some((a, b))
}
