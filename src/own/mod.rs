//! Own: a person's own version of a line of a session or of a rung, each with its reason.
//! Never orders what does not fit: limits, kit and noise leave out before anything is chosen.
//!
//! From the own rung downward, on each rung as it stands, then changed; then swaps, as they stand,
//! then changed, each at the person's own rung of its own ladder; then "ask your coach", with why
//! and, as a last resort that no clock orders, what the cautions say in general. Never harder than
//! what the line asks. The page's scripts `own*.js` follow the same rule; a test holds them equal.

mod answer;
mod cover;
mod dose;
mod due;
mod height;
mod held;
mod line;
mod member;
mod pairs;
mod placed;
mod roster;
mod say;
mod standing;
mod versions;
mod words;

pub use answer::{of_line, of_own_rung, of_rung};
pub use cover::{LineCover, cover};
pub use dose::EachCount;
pub use due::{Due, LeftOutTwice, due, left_out_twice, notes};
pub use line::{
    Line, Work, asked_of, compared_as, dose_of, dose_words, is_descending, line_of, shown_rungs,
    stands, whose,
};
pub use member::{Member, RungThen, Tested};
pub use pairs::{DAYS_APART, pairs};
pub use placed::placed;
pub use roster::{from_roster, of_today, tested, with_its_rung, with_their_rungs};
pub use say::{as_text, line_as_text};
pub use standing::{Standing, standing, standings};
pub use versions::{Version, versions};

use crate::gym::Gym;
use crate::library::{LadderId, MovementId, Session};

/// How a person does a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A rung, an option or the movement itself, as it stands.
    Fine,
    /// The same, changed.
    Changed,
    /// Something else that does the same work.
    Swap,
    /// Nothing fits: a coach decides, and no clock orders anything.
    Ask,
}

impl Kind {
    /// The word of it.
    pub fn word(self) -> &'static str {
        match self {
            Kind::Fine => "fine",
            Kind::Changed => "changed",
            Kind::Swap => "swap",
            Kind::Ask => "ask",
        }
    }
}

/// A person's version of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Own {
    /// How it is done.
    pub kind: Kind,
    /// The movement; of `Ask` the one that was asked for.
    pub movement: MovementId,
    /// Its ladder and rung, from 1, where it stands on one.
    pub rung: Option<(LadderId, u32)>,
    /// Its setting in words, at the person's own height where they have one: `chair 45 cm`.
    pub setting: String,
    /// How it is changed, in sentences; empty where it is not.
    pub change: String,
    /// The same in a few words.
    pub change_brief: String,
    /// How much, in words; empty where nothing was asked.
    pub dose: String,
    /// What stands for each count, where a round counts and this movement is held or covers ground.
    pub each: Option<EachCount>,
    /// What to say; empty where the entry says nothing.
    pub cue: String,
    /// Why, in sentences.
    pub why: Vec<String>,
}

/// A person's version of every line of a session, block by block: as it is written, or as its week asks.
pub fn of_session(gym: &Gym, session: &Session, member: &Member) -> Vec<Vec<Own>> {
    let block = |at: usize| {
        let lines = session.blocks[at].items.iter();
        lines.map(|item| of_line(gym, &line_of(gym, session, at, item), member)).collect()
    };
    (0..session.blocks.len()).map(block).collect()
}
