//! Search: one ranking, two readers. tantivy ranks for the command; the index it exports lets the
//! browser rank the same entries with the same scores.
//! Never touches a disk: the index stands in memory and the export is a text.

mod block;
mod entry;
mod fold;
mod heard;
mod leaf;
mod pack;
mod question;
mod ranking;
mod spot;
mod stop;
mod vocabulary;

use crate::gym::Gym;
use entry::Entry;
pub use entry::Without;
pub use heard::Heard;
use leaf::Leaf;
pub use question::read_of;
use ranking::Ranking;
use rayon::prelude::*;
use std::fmt;
pub use stop::{fault_words_near, says_stop, stop_words};
use vocabulary::Vocabulary;

/// So many cautions stand below the stop signs at most, as in `stop.js`.
const AFTER_STOP: usize = 3;

/// What kind of entry was found. Their order is the order of equal answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum HitKind {
    /// A movement.
    Movement,
    /// A ladder.
    Ladder,
    /// A fault that movements share.
    Fault,
    /// A caution.
    Caution,
    /// A piece of kit.
    Kit,
    /// A trait.
    Trait,
    /// A pattern.
    Pattern,
    /// A muscle.
    Muscle,
    /// A session.
    Session,
    /// A cycle of weeks.
    Cycle,
    /// A block of a session: its id is that of the session and its number, from 1.
    Block,
}

impl HitKind {
    /// Every kind, in order.
    pub const ALL: [HitKind; 11] = [
        HitKind::Movement,
        HitKind::Ladder,
        HitKind::Fault,
        HitKind::Caution,
        HitKind::Kit,
        HitKind::Trait,
        HitKind::Pattern,
        HitKind::Muscle,
        HitKind::Session,
        HitKind::Cycle,
        HitKind::Block,
    ];

    /// What it is called on a page.
    pub fn word(self) -> &'static str {
        spot::kind_words(self)
    }
}

/// Where on the page the words are; numbers start at 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum HitPart {
    /// The page as a whole.
    Page,
    /// A fault.
    Fault(usize),
    /// A cue.
    Cue(usize),
    /// A rung.
    Rung(usize),
}

/// One answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Hit {
    /// What it is.
    pub kind: HitKind,
    /// Its id.
    pub id: String,
    /// The name shown.
    pub name: String,
    /// Where on its page the words are.
    pub part: HitPart,
    /// What was found there, in a few plain words: `fault: Hips sag`.
    pub matched: String,
    /// How well it answers; only comparable within one question.
    pub score: f32,
}

/// Why an index could not be made or asked.
#[derive(Debug)]
pub struct SearchError {
    why: String,
}

impl SearchError {
    fn new(why: &str) -> SearchError {
        SearchError { why: why.to_string() }
    }
}

impl fmt::Display for SearchError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the search index could not be made: {}", self.why)
    }
}

impl std::error::Error for SearchError {}

impl From<tantivy::TantivyError> for SearchError {
    fn from(error: tantivy::TantivyError) -> SearchError {
        SearchError { why: error.to_string() }
    }
}

impl From<serde_json::Error> for SearchError {
    fn from(error: serde_json::Error) -> SearchError {
        SearchError { why: error.to_string() }
    }
}

/// A movement that is called exactly what was typed stands first: whoever says its whole name means it.
fn by_its_name(typed: &str, mut hits: Vec<Hit>) -> Vec<Hit> {
    let typed = fold::words(typed);
    let is_it = |hit: &Hit| hit.kind == HitKind::Movement && fold::words(&hit.name) == typed;
    hits.sort_by_key(|hit| !is_it(hit));
    hits
}

/// Everything that can be found in a gym.
pub struct Index {
    entries: Vec<Entry>,
    leaves: Vec<Leaf>,
    vocabulary: Vocabulary,
    ranking: Ranking,
    averages: Vec<f32>,
}

impl Index {
    /// Indexes the gym, in memory.
    ///
    /// # Errors
    /// When tantivy cannot hold the library.
    pub fn build(gym: &Gym) -> Result<Index, SearchError> {
        let entries = entry::entries(gym);
        let vocabulary = Vocabulary::of(gym, &entries);
        let leaves = entries.par_iter().map(|entry| Leaf::of(&vocabulary, entry));
        let leaves: Vec<Leaf> = leaves.collect();
        let ranking = Ranking::of(&leaves)?;
        let averages = ranking.averages()?;
        Ok(Index { entries, leaves, vocabulary, ranking, averages })
    }

    /// The best `limit` answers to what was typed, best first. The last word may be unfinished.
    /// Nothing typed, or nothing found, is an empty list.
    pub fn find(&self, words: &str, limit: usize) -> Vec<Hit> {
        let question = question::ask(&self.vocabulary, words);
        // The index stands in memory and was asked once when it was made: no answer is not a fault.
        let ranked = self.ranking.rank(&question).unwrap_or_default();
        let spot = |at: usize| {
            spot::spot(&self.vocabulary, &question, &self.entries[at], &self.leaves[at])
        };
        let hit = |(at, score): (usize, f32)| {
            let (entry, spot) = (&self.entries[at], spot(at));
            Hit {
                kind: entry.kind,
                id: entry.id.clone(),
                name: entry.name.clone(),
                part: spot.part,
                matched: spot.matched,
                score,
            }
        };
        let mut hits = Vec::new();
        for equals in ranked.chunk_by(|one, other| ranking::step(one.1) == ranking::step(other.1)) {
            if hits.len() >= limit {
                break;
            }
            let mut equals = equals.to_vec();
            if (2..=ranking::EQUALS).contains(&equals.len()) {
                equals.sort_by_cached_key(|(at, _)| spot(*at).length);
            }
            hits.extend(equals.into_iter().take(limit - hits.len()).map(hit));
        }
        by_its_name(words, hits)
    }

    /// What may stand below the stop signs where one of them was typed: a few cautions, and nothing
    /// that somebody could train on. The signs themselves stay in sight.
    pub fn find_after_stop(&self, words: &str, limit: usize) -> Vec<Hit> {
        let all = self.find(words, self.entries.len()).into_iter();
        all.filter(|hit| hit.kind == HitKind::Caution).take(limit.min(AFTER_STOP)).collect()
    }

    /// The index in its own compact format, for the browser: see the room's `pack`. `address` gives
    /// the address of an answer's page or of the part it is about, as it stands below the site's
    /// folder. The same library and addresses give the same text.
    ///
    /// # Errors
    /// When the library holds more words, or an entry more names or parts, than the format can count.
    pub fn export(&self, address: impl Fn(&Hit) -> String) -> Result<String, SearchError> {
        let contents = pack::Contents {
            entries: &self.entries,
            leaves: &self.leaves,
            vocabulary: &self.vocabulary,
            averages: &self.averages,
        };
        pack::pack(&contents, &address)
    }
}
