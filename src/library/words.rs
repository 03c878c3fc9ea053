//! Words: the shared vocabulary of kit, traits, cautions, faults, patterns, muscles, synonyms and sources.
//! Never a member's own data.

use super::movement::written_words;
use super::{
    Caution, CautionId, ChangeId, FaultId, KitId, KnownFault, MuscleId, PatternId, SourceId,
    TraitChange, TraitId,
};
use crate::finding::Placed;
use std::collections::BTreeMap;

written_words! {
    /// Who has a piece of kit.
    KitKind {
        /// The hall.
        Hall = "hall",
        /// A household.
        Home = "home",
        /// Nobody lacks it.
        Anywhere = "anywhere",
    }
    /// How a source was read, so that a number carries its weight.
    ReadMark {
        /// All of it.
        Full = "full",
        /// A part: a table, a chapter, a summary by its authors.
        Part = "part",
        /// Its abstract.
        Abstract = "abstract",
        /// Only on a page that quotes it.
        Quoted = "quoted",
        /// From memory.
        Memory = "memory",
        /// Common practice, no source.
        Practice = "practice",
    }
}

/// Something that looks like a piece of kit and must not be used.
#[derive(Debug, Clone)]
pub struct NeverUse {
    /// What.
    pub what: String,
    /// Why.
    pub because: String,
}

/// A piece of kit.
#[derive(Debug, Clone)]
pub struct KitItem {
    /// Its id.
    pub id: Placed<KitId>,
    /// The name shown.
    pub name: String,
    /// Who has it.
    pub kind: KitKind,
    /// What it is.
    pub about: Option<String>,
    /// What to check before use.
    pub check: Option<String>,
    /// The few words a coach would tap when it is lacking, such as `No bar`.
    pub quick: Option<String>,
    /// What can go wrong.
    pub hazards: Vec<String>,
    /// What must never stand in for it.
    pub never: Vec<NeverUse>,
    /// Other words for it.
    pub aliases: Vec<String>,
    /// Where its rules come from.
    pub sources: Vec<Placed<SourceId>>,
}

/// A property of a movement that can hurt someone.
#[derive(Debug, Clone)]
pub struct Trait {
    /// Its id.
    pub id: Placed<TraitId>,
    /// The name shown.
    pub name: String,
    /// In plain words.
    pub plain: Option<String>,
    /// The few words a coach would tap to avoid it.
    pub avoid: Option<String>,
    /// What it is.
    pub about: Option<String>,
    /// From how many levels more on it is harder work, so that no swap has them unasked.
    pub effort: Option<u8>,
    /// What people say and type.
    pub also_said: Vec<String>,
    /// Where it comes from.
    pub sources: Vec<Placed<SourceId>>,
}

/// A pattern of movement.
#[derive(Debug, Clone)]
pub struct Pattern {
    /// Its id.
    pub id: Placed<PatternId>,
    /// The name shown.
    pub name: String,
    /// What it is.
    pub about: Option<String>,
    /// The usual prime movers.
    pub prime: Vec<Placed<MuscleId>>,
    /// Other patterns and the share of the same work they do, in hundredths (0-100); common
    /// practice, no source.
    pub near: Vec<(Placed<PatternId>, u8)>,
}

/// A muscle or a group of muscles.
#[derive(Debug, Clone)]
pub struct Muscle {
    /// Its id.
    pub id: Placed<MuscleId>,
    /// The name shown.
    pub name: String,
    /// In plain words.
    pub plain: Option<String>,
    /// Where it is.
    pub where_found: Option<String>,
    /// What people say and type.
    pub also_said: Vec<String>,
}

/// Where a claim comes from.
#[derive(Debug, Clone)]
pub struct Source {
    /// Its id.
    pub id: Placed<SourceId>,
    /// Who wrote it.
    pub authors: Option<String>,
    /// Its title; its id where none is written.
    pub title: String,
    /// Whether a title is written.
    pub titled: bool,
    /// The journal, the publisher or the body that stands behind it.
    pub body: Option<String>,
    /// The year, or that it has none.
    pub year: Option<String>,
    /// Volume and pages, a table, a report's number.
    pub at: Option<String>,
    /// Its digital object identifier.
    pub doi: Option<String>,
    /// Its number in another register.
    pub number: Option<String>,
    /// How it was read.
    pub read: ReadMark,
    /// The fact that is used.
    pub supports: Option<String>,
    /// What it does not show, and what of this citation is from memory.
    pub doubts: Option<String>,
}

impl Source {
    /// In one line: authors, title, body and year, place.
    pub fn cite(&self) -> String {
        let ends = |text: &str| text.trim_end_matches('.').to_string();
        let body = [self.body.as_deref(), self.year.as_deref()].into_iter().flatten();
        let body = body.collect::<Vec<_>>().join(" ");
        let place = [Some(body.as_str()), self.at.as_deref()].into_iter().flatten();
        let place = place.filter(|part| !part.is_empty()).collect::<Vec<_>>().join("; ");
        let parts = [self.authors.as_deref(), Some(&self.title), Some(&place)];
        let parts = parts.into_iter().flatten().filter(|part| !part.is_empty()).map(ends);
        parts.collect::<Vec<_>>().join(". ")
    }
}

/// The whole vocabulary.
#[derive(Debug, Clone, Default)]
pub struct Words {
    /// Kit by id.
    pub kit: BTreeMap<KitId, KitItem>,
    /// Traits by id.
    pub traits: BTreeMap<TraitId, Trait>,
    /// Changes by id: how a trait is taken out or lessened.
    pub changes: BTreeMap<ChangeId, TraitChange>,
    /// Cautions by id.
    pub cautions: BTreeMap<CautionId, Caution>,
    /// Faults that several movements share, by id.
    pub faults: BTreeMap<FaultId, KnownFault>,
    /// Patterns by id.
    pub patterns: BTreeMap<PatternId, Pattern>,
    /// Muscles by id.
    pub muscles: BTreeMap<MuscleId, Muscle>,
    /// Groups of words that mean the same when searching.
    pub same: Vec<Vec<Placed<String>>>,
    /// Sources by id.
    pub sources: BTreeMap<SourceId, Source>,
}
