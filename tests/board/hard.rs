//! Hard: a class that the solver cannot deal out at once.
//! Never a silent end: block by block with an open bound, or the block that is too hard.

use crate::drawn::{GYM, TODAY};
use crate::{choices, demo};
use rungbook::board::puzzle::{Outcome, Puzzle};
use rungbook::board::{self, Class, NoBoard, View};
use rungbook::library::SessionId;
use rungbook::plan::Day;

fn class() -> Class {
    let session = &GYM.library.sessions[&SessionId::from("push-and-pull")];
    Class::of(&GYM, session, board::class(&GYM, &demo(), Day::read(TODAY)))
}

#[test]
fn what_is_too_hard_at_once_is_dealt_out_block_by_block_and_says_so() {
    let most = class().blocks.iter().map(|block| block.offers.len()).max().expect("blocks") * 7;
    // A solver that gives up on more than the longest block has.
    let tired = |puzzle: &Puzzle| match puzzle.sets.len() > most {
        true => Outcome::TooHard,
        false => puzzle.solve(),
    };
    let whole = board::board(class()).expect("a board");
    let parts = board::board_with(class(), tired).expect("a board");
    assert!(parts.by_block && !whole.by_block);
    // Nobody is left without a line, and the bound is below what the best board has.
    assert_eq!(choices(&parts).len(), choices(&whole).len());
    assert!(parts.solved.worst >= whole.solved.worst && parts.solved.sum >= parts.solved.sum_bound);
    assert!(parts.solved.worst_bound <= whole.solved.worst);
    assert!(parts.solved.sum_bound <= whole.solved.sum && !parts.solved.is_best());
    let session = &GYM.library.sessions[&SessionId::from("push-and-pull")];
    let view = View::of(&GYM, session, &parts, None);
    let text = board::as_text(&GYM, (&parts, &view), false);
    assert!(text.contains("each block was dealt out for itself"), "{text}");
}

#[test]
fn a_block_that_is_too_hard_is_named() {
    let never = |_: &Puzzle| Outcome::TooHard;
    let found = board::board_with(class(), never);
    assert!(matches!(found, Err(NoBoard::TooHard(1, name)) if name == "Warm-up"));
    let none = board::board_with(class(), |_: &Puzzle| Outcome::None);
    assert!(matches!(none, Err(NoBoard::TooLittle(_))));
}
