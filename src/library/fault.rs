//! Faults: what is seen to go wrong, as a movement has it and as the catalogue says it once.
//! Never asks whether what it names exists; checks do.

use super::{FaultId, PatternId, SourceId};
use crate::finding::{Placed, Span, small};
use std::collections::BTreeMap;

/// Something seen to go wrong in a movement, its likely cause, one cue, and what to do then. What
/// the entry leaves to the catalogue has been taken over from there.
#[derive(Debug, Clone)]
pub struct Fault {
    /// The fault of the catalogue that this is, if it is one of those.
    pub of: Option<Placed<FaultId>>,
    /// What the coach sees.
    pub see: Placed<String>,
    /// The likely cause.
    pub cause: Option<String>,
    /// The cue.
    pub say: Option<Placed<String>>,
    /// What to change if the cue does not mend it.
    pub then: Option<Placed<Then>>,
}

impl Fault {
    /// True for what the entry itself says. What the catalogue says stands at the catalogue's id in
    /// the entry: there the coach chose it.
    pub fn is_own(&self, span: Span) -> bool {
        self.of.as_ref().is_none_or(|of| of.span != span)
    }
}

/// What to do when a cue does not mend a fault.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Then {
    /// The part before the first comma: `rung below`, `stop`, a movement id, or a setting and how.
    pub names: String,
    /// Plain words after it.
    pub plain: Option<String>,
}

/// A fault of the catalogue, `words/faults.yaml`: what many movements share.
#[derive(Debug, Clone)]
pub struct KnownFault {
    /// Its id.
    pub id: Placed<FaultId>,
    /// The name shown.
    pub name: String,
    /// What people say and type.
    pub also_said: Vec<String>,
    /// What holds in every pattern that says nothing else.
    pub general: FaultIn,
    /// What differs by pattern.
    pub patterns: BTreeMap<PatternId, FaultIn>,
    /// The patterns as written, for findings.
    pub written_patterns: Vec<Placed<PatternId>>,
    /// Where it comes from.
    pub sources: Vec<Placed<SourceId>>,
}

/// What a fault looks like and asks for, in general or in one pattern.
#[derive(Debug, Clone, Default)]
pub struct FaultIn {
    /// What the coach sees.
    pub see: Option<Placed<String>>,
    /// The usual causes, the likeliest first.
    pub causes: Vec<String>,
    /// The cue.
    pub say: Option<Placed<String>>,
    /// What to change if the cue does not mend it.
    pub then: Option<Placed<Then>>,
}

impl FaultIn {
    /// The causes as one line; nothing where none is written.
    pub fn cause(&self) -> Option<String> {
        let mut causes = self.causes.iter();
        let first = causes.next()?.clone();
        Some(causes.fold(first, |line, cause| format!("{line}; {}", small(cause))))
    }
}

impl KnownFault {
    /// What it is in a pattern: the pattern's own words, and the general ones where it has none.
    pub fn within(&self, pattern: &PatternId) -> FaultIn {
        let general = &self.general;
        let Some(own) = self.patterns.get(pattern) else { return general.clone() };
        FaultIn {
            see: own.see.clone().or_else(|| general.see.clone()),
            causes: if own.causes.is_empty() { &general.causes } else { &own.causes }.clone(),
            say: own.say.clone().or_else(|| general.say.clone()),
            then: own.then.clone().or_else(|| general.then.clone()),
        }
    }

    /// Everything that is written of it: in general, then by pattern.
    pub fn all(&self) -> impl Iterator<Item = &FaultIn> {
        std::iter::once(&self.general).chain(self.patterns.values())
    }

    /// What is seen, in general; its name where nothing more is written.
    pub fn see(&self) -> &str {
        self.general.see.as_ref().map_or(&self.name, |see| &see.value)
    }
}
