//! Parts: what falls apart and is solved part by part comes out as the whole does, tried out in full.
//! Never a puzzle in one piece: lines share nothing but the people.

use crate::dice::Dice;
use rungbook::board::puzzle::{Offered, Outcome, Puzzle, Resource, Set};

/// Two people at one to four lines, each line with a thing of its own of which there is one.
fn drawn(seed: u64) -> Puzzle {
    let mut dice = Dice(seed * 104_729 + 3);
    let lines = 1 + seed as usize % 4;
    let resources = vec![Resource { count: 1, held: false }; lines];
    let mut sets = Vec::new();
    for line in 0..lines {
        for who in 0..2 {
            let mut offer = |uses: bool, dear: u32| Offered {
                cost: dear + 10 * dice.roll(9) as u32,
                movement: Some(0),
                uses: if uses { vec![(line, 1)] } else { Vec::new() },
            };
            let offers = vec![offer(true, 0), offer(false, 40), offer(false, 70)];
            sets.push(Set { who, line, own: Some(0), offers });
        }
    }
    Puzzle { people: 2, sets, resources }
}

/// The lowest worst, and with it the lowest sum.
fn tried(puzzle: &Puzzle) -> (u32, u32) {
    let all = 3_usize.pow(puzzle.sets.len() as u32);
    let picks = |n: usize| {
        (0..puzzle.sets.len()).map(|at| n / 3_usize.pow(at as u32) % 3).collect::<Vec<usize>>()
    };
    let kept = (0..all).map(picks).filter(|picked| puzzle.is_kept(picked));
    let worth = |picked: Vec<usize>| {
        (puzzle.totals(&picked).into_iter().max().unwrap_or(0), puzzle.sum(&picked))
    };
    kept.map(worth).min().expect("a way")
}

#[test]
fn a_puzzle_that_falls_apart_comes_out_as_the_whole_does() {
    let mut shared = 0;
    for seed in 0..40 {
        let puzzle = drawn(seed);
        let Outcome::Solved(solved) = puzzle.solve() else { panic!("seed {seed}") };
        assert!(solved.is_best(), "seed {seed}: {solved:?}");
        assert_eq!((solved.worst, solved.sum), tried(&puzzle), "seed {seed}");
        let Outcome::Solved(lowest) = puzzle.lowest_sum() else { panic!("seed {seed}") };
        // Otherwise nobody gave way to the worst-off, and the limit was never asked about.
        shared += usize::from(lowest.worst > solved.worst);
    }
    assert!(shared > 10, "{shared}");
}
