//! The sheet: what placing needs of a ladder, and nothing else, so that the browser can have it too.
//! Never places anyone.

use crate::finding::{Placed, Span};
use crate::library::{Amount, Count, Counts, Dose, Ladder, Rung};
use serde::{Serialize, Serializer};
use std::fmt;

/// A ladder as placing sees it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Sheet {
    /// When to move up.
    pub up: Option<UpRule>,
    /// The dose of each rung, lowest demand first; `None` where the coach wrote none.
    pub rungs: Vec<Option<Target>>,
}

/// The rule for moving up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct UpRule {
    /// As the coach wrote it, without a full stop.
    pub words: String,
    /// What can be counted in it; `None` when the words hold no count that we know.
    pub count: Option<UpCount>,
}

/// The part of a rule that is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct UpCount {
    /// Repetitions or seconds over the top of the dose.
    pub over: u32,
    /// In how many sessions running.
    pub sessions: u32,
}

/// The dose of a rung.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Target {
    /// What is counted.
    #[serde(serialize_with = "as_word")]
    pub counts: Counts,
    /// The fewest.
    pub from: u32,
    /// The most.
    pub to: u32,
    /// Sets, the fewest and the most.
    pub sets: Option<[u32; 2]>,
    /// Whether it is for each side.
    pub each_side: bool,
}

/// Writes what is counted as its word.
pub(super) fn as_word<S: Serializer>(counts: &Counts, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(counts.word())
}

impl Sheet {
    /// The sheet of `ladder`.
    pub fn of(ladder: &Ladder) -> Sheet {
        let up = ladder.moves_up.as_ref().map(|rule| UpRule::read(&rule.value));
        Sheet { up, rungs: ladder.rungs.iter().map(|rung| target(ladder, rung)).collect() }
    }
}

/// A rung's own dose stands before the ladder's.
fn target(ladder: &Ladder, rung: &Rung) -> Option<Target> {
    let own = rung.dose.as_ref().filter(|dose| dose.amount.is_some());
    let dose = own.or(ladder.dose.as_ref())?;
    let each_side = dose.per_side.as_ref().is_some_and(|side| side.value);
    Some(Target { each_side, ..Target::of(dose.amount.as_ref()?.value, dose.sets) })
}

impl Target {
    /// So much in so many sets, both sides at once.
    pub fn of(amount: Amount, sets: Option<Count>) -> Target {
        let (counts, Count { from, to }) = match amount {
            Amount::Reps(count) => (Counts::Reps, count),
            Amount::Seconds(count) => (Counts::Seconds, count),
            Amount::Metres(count) => (Counts::Metres, count),
            Amount::Contacts(count) => (Counts::Contacts, count),
        };
        Target { counts, from, to, sets: sets.map(|s| [s.from, s.to]), each_side: false }
    }
}

impl fmt::Display for Target {
    /// As every dose is said.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let count = Count { from: self.from, to: self.to };
        let amount = match self.counts {
            Counts::Reps => Amount::Reps(count),
            Counts::Seconds => Amount::Seconds(count),
            Counts::Metres => Amount::Metres(count),
            Counts::Contacts => Amount::Contacts(count),
        };
        Dose {
            sets: self.sets.map(|[from, to]| Count { from, to }),
            amount: Some(Placed::new(amount, Span::default())),
            rest: None,
            per_side: self.each_side.then(|| Placed::new(true, Span::default())),
        }
        .fmt(f)
    }
}

impl UpRule {
    /// Reads a rule. Two ways of saying it are understood: so many over the target ("two extra
    /// repetitions", "two repetitions over the target"; Baechle & Earle) and "the top of the dose";
    /// either may ask for two sessions. Anything else is left to the coach.
    pub fn read(words: &str) -> UpRule {
        let words = words.trim().trim_end_matches('.').to_string();
        let lower = words.to_lowercase();
        let says = |any: &[&str]| any.iter().any(|phrase| lower.contains(phrase));
        let over = if says(&["two extra repetitions", "two repetitions over"]) {
            Some(2)
        } else {
            says(&["top of the dose"]).then_some(0)
        };
        let sessions = if says(&["two sessions"]) { 2 } else { 1 };
        UpRule { words, count: over.map(|over| UpCount { over, sessions }) }
    }
}
