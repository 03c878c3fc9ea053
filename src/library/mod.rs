//! The library: what the coach wrote, as typed values that remember their place.
//! Never judges: reading only reports what cannot be understood; checks do the rest.

mod caution;
pub mod cells;
mod club;
pub mod colour;
mod coming;
mod done;
mod dose;
mod fault;
pub(crate) mod id;
pub mod keys;
mod ladder;
mod movement;
pub mod named;
pub(crate) mod quantity;
pub mod reader;
pub mod rename;
pub mod reworded;
mod roster;
pub mod roster_lines;
mod session;
pub mod tidy;
mod traits;
mod words;

pub use caution::{Caution, Emergency, Precaution, StartLowest};
pub use club::{AcrossRungs, Club, Silenced};
pub use coming::{Coming, OfToday, Trains};
pub use done::Done;
pub use dose::{Amount, Count, Dose};
pub use fault::{Fault, FaultIn, KnownFault, Then};
pub use id::{
    CautionId, ChangeId, CycleId, FaultId, KitId, LadderId, MovementId, MuscleId, Nickname,
    PatternId, SessionId, SettingName, SourceId, TraitId,
};
pub use ladder::{Change, Ladder, LadderTest, Rung};
pub use movement::{
    Beside, Body, Counts, Cue, Harder, IN_EACH_HAND, KitNeed, Movement, Muscles, Noise, Plane,
    Purpose, Room, Setting, Sides,
};
pub use named::Formerly;
pub use quantity::{Quantity, Unit};
pub use roster::{Member, MemberResult, OwnRung, Roster, RungWas};
pub use session::{
    Block, Cycle, CycleWeek, Format, InWeek, Item, ItemWork, Session, Spread, WeekKind,
};
pub use traits::{ChangeOf, End, LevelAt, TraitChange, TraitOf};
pub use words::{KitItem, KitKind, Muscle, NeverUse, Pattern, ReadMark, Source, Trait, Words};

use crate::finding::{Finding, Sources};
use std::collections::BTreeMap;

/// The form of libraries and rosters that is read here, as `format` in club.yaml has it. It goes up when a
/// file that was fine would be read otherwise; the earlier ones are then read on, or said how to mend.
pub const FORMAT: u32 = 1;

/// Everything that was read, in the order of ids.
#[derive(Debug, Clone, Default)]
pub struct Library {
    /// Facts of the club itself.
    pub club: Club,
    /// The shared vocabulary.
    pub words: Words,
    /// Movements by id.
    pub movements: BTreeMap<MovementId, Movement>,
    /// Ladders by id.
    pub ladders: BTreeMap<LadderId, Ladder>,
    /// Sessions by id.
    pub sessions: BTreeMap<SessionId, Session>,
    /// Cycles by id.
    pub cycles: BTreeMap<CycleId, Cycle>,
    /// Ids that entries had before, in the order read.
    pub formerly: Vec<Formerly>,
    /// The files, for words and places in findings.
    pub sources: Sources,
    /// What could not be understood while reading.
    pub findings: Vec<Finding>,
}
