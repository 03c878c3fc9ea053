//! Traits of a movement: how much of what can hurt someone it has, and where a setting decides that.
//! Never asks who is moving; limits and changes are the swap room's business.

use super::{ChangeId, KitNeed, Quantity, SettingName, SourceId, TraitId};
use crate::finding::{Placed, Span};

/// How much of one trait a movement has.
#[derive(Debug, Clone)]
pub struct TraitOf {
    /// The trait.
    pub id: Placed<TraitId>,
    /// Its levels; the first whose ends all hold counts, and none means 0.
    pub levels: Vec<LevelAt>,
    /// Why the author says less than the drawn pose shows.
    pub because: Option<String>,
}

/// A level and the settings at which it holds; without ends it always holds.
#[derive(Debug, Clone)]
pub struct LevelAt {
    /// 0 none, 1 some, 2 a lot.
    pub level: u8,
    /// The ends of its reach, one a setting.
    pub ends: Vec<(Placed<SettingName>, End)>,
    /// Where it is written.
    pub span: Span,
}

/// One end of a setting's reach.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// `up to 45 cm`.
    UpTo(Quantity),
    /// `from 60 deg`.
    From(Quantity),
}

impl End {
    /// Whether `value` is within reach.
    pub fn holds(self, value: Quantity) -> bool {
        match self {
            End::UpTo(most) => value <= most,
            End::From(least) => value >= least,
        }
    }
}

impl TraitOf {
    /// The level where settings have the values that `value_of` gives. A setting that nobody knows
    /// is taken to be within reach: what is not known is not assumed harmless.
    pub fn level(&self, value_of: impl Fn(&str) -> Option<Quantity>) -> u8 {
        let holds = |(name, end): &(Placed<SettingName>, End)| {
            value_of(name.as_str()).is_none_or(|value| end.holds(value))
        };
        self.levels.iter().find(|at| at.ends.iter().all(holds)).map_or(0, |at| at.level)
    }
}

/// How a trait is taken out of a movement or lessened: on fists, a hand on the wall.
#[derive(Debug, Clone)]
pub struct TraitChange {
    /// Its id.
    pub id: Placed<ChangeId>,
    /// A few words: `on fists or handles`.
    pub name: String,
    /// What to do, to the person who does it.
    pub how: Option<String>,
    /// The part of the body, or of the doing, that it changes: `hands`, `breath`.
    pub part: Option<Placed<String>>,
    /// What remains of each trait that it lessens, however much there was.
    pub leaves: Vec<(Placed<TraitId>, u8)>,
    /// Traits that it takes one level off: of a lot, some remains.
    pub eases: Vec<Placed<TraitId>>,
    /// Traits that it brings in, and how much of each.
    pub brings: Vec<(Placed<TraitId>, u8)>,
    /// Settings that it takes away or replaces: they are not said of what is changed.
    pub takes: Vec<Placed<SettingName>>,
    /// What it needs besides the movement's own kit.
    pub kit: Vec<KitNeed>,
    /// Other changes of the same part that may be made together with it.
    pub with: Vec<Placed<ChangeId>>,
    /// Where it comes from.
    pub sources: Vec<Placed<SourceId>>,
}

/// A change that a movement allows, with what is particular to it.
#[derive(Debug, Clone)]
pub struct ChangeOf {
    /// The change in `words/changes.yaml`.
    pub id: Placed<ChangeId>,
    /// What to do here, in place of the general words.
    pub how: Option<String>,
    /// What remains here, in place of what generally does, of what it eases too.
    pub leaves: Option<Vec<(Placed<TraitId>, u8)>>,
    /// What it takes one level off here, in place of what it generally eases.
    pub eases: Option<Vec<Placed<TraitId>>>,
    /// What it brings in here, in place of what it generally does.
    pub brings: Option<Vec<(Placed<TraitId>, u8)>>,
    /// Settings that it takes away here, in place of those that it generally does.
    pub takes: Option<Vec<Placed<SettingName>>>,
    /// What it needs here, in place of what it generally needs.
    pub kit: Option<Vec<KitNeed>>,
}
