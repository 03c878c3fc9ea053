//! Cautions: a situation and what it says about traits.
//! Never advice for a person; a clinician gives that.

use super::{CautionId, SourceId, TraitId};
use crate::finding::Placed;

/// One trait that a caution leaves out or changes.
#[derive(Debug, Clone)]
pub struct Precaution {
    /// The trait.
    pub about: Placed<TraitId>,
    /// From which level of it, 1 or 2.
    pub from: u8,
    /// How to change the movement; nothing when it is left out.
    pub how: Option<String>,
}

/// A situation and what it says about traits.
#[derive(Debug, Clone)]
pub struct Caution {
    /// Its id.
    pub id: Placed<CautionId>,
    /// The name shown.
    pub name: String,
    /// What people say and type.
    pub also_said: Vec<String>,
    /// Traits to leave out unless a clinician has cleared them.
    pub leave_out: Vec<Precaution>,
    /// Traits to change.
    pub change: Vec<Precaution>,
    /// The wording.
    pub says: Option<String>,
    /// When to ask a clinician.
    pub clinician: Option<String>,
    /// Stop signs particular to it.
    pub stop: Vec<String>,
    /// Where it comes from.
    pub sources: Vec<Placed<SourceId>>,
}

impl Caution {
    /// Every precaution, those to leave out first.
    pub fn precautions(&self) -> impl Iterator<Item = &Precaution> {
        self.leave_out.iter().chain(&self.change)
    }
}
