//! Small puzzles by chance, solved here by trying everything, and left for scipy to solve again
//! (`tests/board.py`).
//! Never a puzzle made so that it comes out well.

use crate::dice::Dice;
use rungbook::board::puzzle::{Offered, Outcome, Puzzle, Resource, Set};
use rungbook::board::weights::ALONE;
use serde_json::{Value, json};
use std::fs;
use std::path::Path;

/// People, each with a few choices of offers; a few things, few of each. Every fourth is no more than
/// one person to one thing.
fn drawn(seed: u64) -> Puzzle {
    let mut dice = Dice(seed * 7919 + 1);
    let plain = seed.is_multiple_of(4);
    let people = 2 + dice.roll(4);
    let things = 1 + dice.roll(3);
    let resources = (0..things)
        .map(|_| Resource { count: 1 + dice.roll(2) as u32, held: !plain && dice.roll(3) == 0 })
        .collect();
    let mut sets = Vec::new();
    for who in 0..people {
        for _ in 0..if plain { 1 } else { 1 + dice.roll(2) } {
            let offers = (0..1 + dice.roll(4)).map(|_| Offered {
                cost: [0, 30, 100, 130, 200, 310, 500][dice.roll(7)],
                movement: Some(dice.roll(3)),
                uses: uses(&mut dice, things, plain),
            });
            let mut offers: Vec<Offered> = offers.collect();
            if dice.roll(3) > 0 {
                let cost = 600 + 100 * dice.roll(4) as u32;
                offers.push(Offered { cost, movement: None, uses: Vec::new() });
            }
            let own = if plain { offers[0].movement } else { Some(dice.roll(3)) };
            sets.push(Set { who, line: usize::from(!plain) * dice.roll(2), own, offers });
        }
    }
    Puzzle { people, sets, resources }
}

fn uses(dice: &mut Dice, things: usize, plain: bool) -> Vec<(usize, u32)> {
    if plain {
        return (0..dice.roll(2)).map(|_| (dice.roll(things), 1)).collect();
    }
    let mut uses: Vec<(usize, u32)> = Vec::new();
    for _ in 0..dice.roll(3) {
        let at = dice.roll(things);
        if !uses.iter().any(|(known, _)| *known == at) {
            uses.push((at, 1 + dice.roll(2) as u32));
        }
    }
    uses
}

/// People with another movement than their own that nobody else of their line does.
fn alone(puzzle: &Puzzle, picked: &[usize]) -> u32 {
    let does = |place: usize| puzzle.sets[place].offers[picked[place]].movement;
    let is_alone = |place: &usize| {
        let (place, set) = (*place, &puzzle.sets[*place]);
        let others = (0..picked.len()).filter(|other| *other != place);
        does(place).is_some()
            && does(place) != set.own
            && !others
                .into_iter()
                .any(|o| puzzle.sets[o].line == set.line && does(o) == does(place))
    };
    (0..picked.len()).filter(is_alone).count() as u32
}

/// The best worst and, with it, the best sum, by trying every answer.
fn by_trying(puzzle: &Puzzle) -> Option<(u32, u32)> {
    let mut best = None;
    let mut picked = vec![0; puzzle.sets.len()];
    loop {
        if puzzle.is_kept(&picked) {
            let totals = puzzle.totals(&picked);
            let alone = alone(puzzle, &picked);
            let worst = totals.iter().copied().max().unwrap_or(0);
            let now = (worst, totals.iter().sum::<u32>() + ALONE * alone);
            best = Some(best.map_or(now, |known: (u32, u32)| known.min(now)));
        }
        let mut at = 0;
        loop {
            if at == picked.len() {
                return best;
            }
            picked[at] += 1;
            if picked[at] < puzzle.sets[at].offers.len() {
                break;
            }
            picked[at] = 0;
            at += 1;
        }
    }
}

fn as_json(puzzle: &Puzzle, found: Option<(u32, u32)>) -> Value {
    let sets = puzzle.sets.iter().map(|set| {
        let offers: Vec<Value> = set
            .offers
            .iter()
            .map(|one| json!({"cost": one.cost, "movement": one.movement, "uses": one.uses}))
            .collect();
        json!({"who": set.who, "line": set.line, "own": set.own, "offers": offers})
    });
    let resources =
        puzzle.resources.iter().map(|one| json!({"count": one.count, "held": one.held}));
    json!({
        "people": puzzle.people,
        "alone": ALONE,
        "sets": sets.collect::<Vec<_>>(),
        "resources": resources.collect::<Vec<_>>(),
        "found": found,
    })
}

#[test]
fn small_puzzles_come_out_as_by_trying_everything_and_are_left_for_another_solver() {
    let (mut cases, mut none) = (Vec::new(), 0);
    for seed in 0..200 {
        let puzzle = drawn(seed);
        let found = match puzzle.solve() {
            Outcome::Solved(solved) => {
                assert!(puzzle.is_kept(&solved.picked), "seed {seed}");
                assert!(solved.is_best(), "seed {seed}: {solved:?}");
                Some((solved.worst, solved.sum))
            }
            Outcome::None => None,
            Outcome::TooHard => panic!("seed {seed} is too hard"),
        };
        assert_eq!(found, by_trying(&puzzle), "seed {seed}");
        none += usize::from(found.is_none());
        cases.push(as_json(&puzzle, found));
    }
    assert!((10..150).contains(&none), "{none} of 200 have no answer");
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("board");
    fs::create_dir_all(&folder).expect("a folder");
    let text = serde_json::to_string(&cases).expect("numbers");
    fs::write(folder.join("cases.json"), text).expect("the cases");
}
