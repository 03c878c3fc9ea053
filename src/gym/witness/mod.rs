//! The pose as a witness: which traits a solved pose shows, with the number that shows them.
//! Never judges an entry, and says nothing of what no pose shows: breath, belly pressure, effort.
//!
//! `facts` measures, `thresholds` says from how much on, and the other files judge: one function a
//! trait, asked of every key pose. The highest level counts, and the first pose that shows it.

mod arms;
mod base;
pub mod effort;
pub mod facts;
mod held;
mod legs;
pub mod thresholds;
mod trunk;

use crate::mechanics::solve::SolvedFigure;
pub use facts::{KeyName, PoseFacts, facts};

/// A trait that a pose shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// The trait's id in `words/traits.yaml`.
    pub shows: &'static str,
    /// 1 some, 2 a lot.
    pub level: u8,
    /// The number that decided.
    pub number: f64,
    /// The same in a coach's words, number included.
    pub words: String,
    /// The key pose that shows it.
    pub pose: KeyName,
    /// Byte of the word in the entry's file: a contact, or the whole key pose.
    pub at: usize,
}

/// What a judge saw in one key pose.
#[derive(Debug, Clone, PartialEq)]
struct Sight {
    level: u8,
    number: f64,
    words: String,
    /// Where, when it is a contact; the key pose otherwise.
    at: Option<usize>,
}

impl Sight {
    fn new(level: u8, number: f64, words: impl Into<String>) -> Sight {
        Sight { level, number, words: words.into(), at: None }
    }

    fn at(self, at: usize) -> Sight {
        Sight { at: Some(at), ..self }
    }
}

/// Asked of one key pose (by its place) of a whole story.
type Judge = fn(&[PoseFacts], usize) -> Option<Sight>;

/// Every trait that a pose can show, with its judge.
const JUDGES: [(&str, Judge); 18] = [
    ("loaded-wrist-extension", arms::wrist),
    ("strong-grip", arms::grip),
    ("overhead", arms::overhead),
    ("shoulder-abducted-rotated", arms::aside),
    ("arm-behind-body", arms::behind),
    ("supine", trunk::face_up),
    ("prone", trunk::face_down),
    ("head-below-heart", trunk::head_low),
    ("loaded-spinal-flexion", trunk::rounded),
    ("back-arched", trunk::arched),
    ("end-range-rotation", trunk::turned),
    ("deep-knee-flexion", legs::knee),
    ("kneeling", legs::kneeling),
    ("deep-hip-bend", legs::hip),
    ("impact", base::flight),
    ("balance", base::balance),
    ("floor-transfer", base::floor),
    ("axial-load", held::axial),
];

/// The ids of the traits that a pose can show at all.
pub fn showable() -> impl Iterator<Item = &'static str> {
    JUDGES.iter().map(|(id, _)| *id)
}

/// Every trait that a figure shows, in the order of the judges.
pub fn seen(figure: &SolvedFigure) -> Vec<Seen> {
    let story = facts(figure);
    JUDGES.iter().filter_map(|(id, judge)| most(id, *judge, &story)).collect()
}

/// The highest level over the key poses; of equal ones the first.
fn most(shows: &'static str, judge: Judge, story: &[PoseFacts]) -> Option<Seen> {
    let mut best: Option<Seen> = None;
    for (place, facts) in story.iter().enumerate() {
        let Some(Sight { level, number, words, at }) = judge(story, place) else { continue };
        if best.as_ref().is_none_or(|best| level > best.level) {
            let at = at.unwrap_or(facts.pose.at);
            best = Some(Seen { shows, level, number, words, pose: facts.name, at });
        }
    }
    best
}
