//! Weights: every number by which a board is judged, in one place. All are hundredths of a rung.
//! Never a filter: what a person must not do is settled before any weight counts.
//!
//! Misfit is counted in rungs because that is what a coach can picture: a board of 3 is as if somebody
//! stood three rungs below their own. How much each part counts is common practice, no source; the
//! order of the parts is that of a person's own version, so that the board and `rungbook own` agree:
//! a rung lower before another movement, as it stands before changed.

/// A rung below the person's own.
pub const RUNG: u32 = 100;

/// A change that is made: three of them are less than a rung, as a changed rung comes before the next
/// one down.
pub const CHANGE: u32 = 30;

/// What is not alike in a swap: all of it would be five rungs. A swap itself counts as the rung below
/// the lowest.
pub const UNLIKE: u32 = 500;

/// A swap that is changed, beside its changes: all that are fine as they stand come before it.
pub const CHANGED_SWAP: u32 = 200;

/// A piece of kit more than the person's own version needs: somebody fetches it and sets it up.
pub const FETCH: u32 = 10;

/// So many seconds that a set takes over its time count as a rung.
pub const OVER_S: u32 = 30;

/// Alone in a line with another movement than one's own version: it counts for the class, not for the
/// person, so that nobody is kept lower for company; and less than a change.
pub const ALONE: u32 = 25;

/// Nothing fits and the coach decides: more than any rung or swap.
pub const NOTHING: u32 = 2000;

/// Something else than what stands, once class is on: whoever has begun is not sent elsewhere for anybody's
/// rung or swap, as all that is not alike in one comes to less. Less than half of nothing, so that two make
/// room where somebody would else be left with nothing, and not three: then the coach, who stands beside
/// them, decides.
pub const MOVED: u32 = 900;

/// In two halves a coach watches two movements at once, and calls each change: for each person, only
/// to choose how a block is run.
pub const HALVES: u32 = 25;

/// At stations likewise, and everybody is somewhere else.
pub const STATIONS: u32 = 50;

/// The misfit in words: `1.3 rungs`.
pub fn said(hundredths: u32) -> String {
    match hundredths {
        0 => "nothing".to_string(),
        100 => "1 rung".to_string(),
        // Tenths are enough to compare two people, and nobody is told that a little is nothing.
        n => format!("{}.{} rungs", n.max(10) / 100, n.max(10) % 100 / 10),
    }
}
