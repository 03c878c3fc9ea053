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
    /// What it rests on, in our own words.
    pub because: Option<String>,
    /// The guideline it rests on.
    pub source: Option<Placed<SourceId>>,
}

/// A sign that cannot wait, and what to do at once.
#[derive(Debug, Clone)]
pub struct Emergency {
    /// What is seen or felt.
    pub sign: String,
    /// What to do now: `Ring the emergency number now.`
    pub act: String,
    /// Where the sign comes from.
    pub source: Option<Placed<SourceId>>,
}

/// That whoever has no result yet starts on the lowest rung, and not in the middle.
#[derive(Debug, Clone, Default)]
pub struct StartLowest {
    /// What it rests on, in our own words.
    pub because: Option<String>,
    /// The guideline it rests on.
    pub source: Option<Placed<SourceId>>,
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
    /// What stays, so that nobody gives up more than they must.
    pub keeps: Option<String>,
    /// Whether somebody of whom nothing else is known starts on the lowest rung, and why.
    pub start: Option<StartLowest>,
    /// Traits to leave out unless a clinician has cleared them.
    pub leave_out: Vec<Precaution>,
    /// Traits to change.
    pub change: Vec<Precaution>,
    /// The wording.
    pub says: Option<String>,
    /// When to ask a clinician.
    pub clinician: Option<String>,
    /// Signs that cannot wait.
    pub emergency: Vec<Emergency>,
    /// Signs at which to end the session.
    pub stop: Vec<String>,
    /// Where it comes from.
    pub sources: Vec<Placed<SourceId>>,
}

impl Caution {
    /// Every precaution, those to leave out first.
    pub fn precautions(&self) -> impl Iterator<Item = &Precaution> {
        self.leave_out.iter().chain(&self.change)
    }

    /// Signs at which to end the session, without those that an emergency sign says already: what has to
    /// be done there goes further, and a sign is said once.
    pub fn stop_besides(&self) -> Vec<&str> {
        let urgent: Vec<String> =
            self.emergency.iter().flat_map(|one| parts_of(&one.sign)).collect();
        let is_said = |sign: &str| parts_of(sign).iter().all(|part| urgent.contains(part));
        self.stop.iter().map(String::as_str).filter(|sign| !is_said(sign)).collect()
    }

    /// Every source that it names: its own, those of its start and its rows, those of its emergency signs.
    pub fn all_sources(&self) -> impl Iterator<Item = &Placed<SourceId>> {
        let rows = self.precautions().filter_map(|row| row.source.as_ref());
        let signs = self.emergency.iter().filter_map(|sign| sign.source.as_ref());
        let start = self.start.iter().filter_map(|start| start.source.as_ref());
        self.sources.iter().chain(start).chain(rows).chain(signs)
    }
}

/// `Chest pain, or weakness of face, arm or speech`: each sign that a line names. `signs.js` splits likewise.
fn parts_of(sign: &str) -> Vec<String> {
    let lower = sign.to_lowercase().replace([';', ':'], ",").replace(" or ", ",");
    let parts = lower.split(',').map(|part| part.trim().trim_start_matches("or ").to_string());
    parts.filter(|part| !part.is_empty()).collect()
}
