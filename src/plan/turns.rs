//! Turns: what one person does next in a block that nobody else paces, set by set.
//! Never says when: whoever works moves on when they are done.

use super::line::{Line, SlotKind};
use super::pieces::{self, Piece};
use crate::library::{Block, Format};

/// A turn of a self-paced block.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turn {
    /// In words.
    pub what: String,
    /// Which line of the block, from 0.
    pub item: usize,
    /// Seconds it takes, at the most.
    pub work_s: u32,
    /// Seconds to rest after it, at the most; nothing after the last.
    pub rest_s: u32,
}

/// Whether each person moves on by themselves, within the window or cap if there is one. In the
/// other formats the clock moves everybody on.
pub fn self_paced(format: Format) -> bool {
    matches!(format, Format::TimedSets | Format::MostRounds | Format::ForTime | Format::Descending)
}

/// The turns of a self-paced block in order: all of them, or one round where the rounds are what
/// is counted. Empty where the clock paces.
pub(super) fn turns(
    block: &Block,
    format: Format,
    lines: &[Line<'_>],
    pieces: &[Piece],
) -> Vec<Turn> {
    if !self_paced(format) || lines.is_empty() {
        return Vec::new();
    }
    if format == Format::MostRounds {
        return of_pieces(&pieces::in_rounds(block, format, lines, &[None]));
    }
    of_pieces(pieces)
}

fn of_pieces(pieces: &[Piece]) -> Vec<Turn> {
    let mut turns: Vec<Turn> = Vec::new();
    for piece in pieces {
        match (piece.kind, turns.last_mut()) {
            (SlotKind::Work, _) => {
                let (what, work_s) = (piece.what.clone(), piece.time.most);
                turns.push(Turn { what, item: piece.item, work_s, rest_s: 0 });
            }
            (SlotKind::Rest, Some(turn)) => turn.rest_s = piece.time.most,
            (SlotKind::Rest, None) => {}
        }
    }
    turns
}
