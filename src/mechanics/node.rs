//! The tree a pose is written in: texts, maps and lists, each with its place in the file.
//! Reads no YAML: whoever reads the file builds this tree.

use super::marks::Mark;
use serde::{Deserialize, Serialize};

/// A piece of a figure as the author wrote it. Offsets count bytes from the start of the file.
#[derive(Debug, Clone, PartialEq)]
pub enum PoseNode {
    /// A word, a number or a phrase.
    Text(String),
    /// Key, byte offset of the key, value, byte offset of the value.
    Map(Vec<(String, usize, PoseNode, usize)>),
    /// Value and its byte offset.
    List(Vec<(PoseNode, usize)>),
}

impl PoseNode {
    /// The text, if it is one.
    pub fn text(&self) -> Option<&str> {
        match self {
            PoseNode::Text(text) => Some(text.trim()),
            _ => None,
        }
    }

    /// The entries, if it is a map.
    pub fn entries(&self) -> Option<&[(String, usize, PoseNode, usize)]> {
        match self {
            PoseNode::Map(entries) => Some(entries),
            _ => None,
        }
    }

    /// What stands under `key`, with the value's byte offset.
    pub fn get(&self, key: &str) -> Option<(&PoseNode, usize)> {
        let entry = self.entries()?.iter().find(|(name, ..)| name == key)?;
        Some((&entry.2, entry.3))
    }
}

/// What is wrong with a pose, for the coach who wrote it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PoseProblem {
    /// Names the fault, never the remedy.
    pub code: PoseCode,
    /// Byte offset of the word at fault.
    pub at: usize,
    /// What is wrong, a whole sentence.
    pub sentence: String,
    /// One next step, without a full stop.
    pub next: String,
    /// How far the search missed a word, and where; nothing where it missed none.
    pub missed: Option<Missed>,
}

/// How far a word was missed, and where on the body.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Missed {
    /// Number of the key pose, from 0.
    pub pose: usize,
    /// A point of the part that misses.
    pub mark: Mark,
    /// Centimetres, or degrees where `is_angle`.
    pub by: f64,
    /// Whether an angle is missed.
    pub is_angle: bool,
}

impl PoseProblem {
    /// Put one together.
    pub fn new(
        code: PoseCode,
        at: usize,
        sentence: impl Into<String>,
        next: impl Into<String>,
    ) -> Self {
        PoseProblem { code, at, sentence: sentence.into(), next: next.into(), missed: None }
    }
}

/// The kinds of pose problem.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum PoseCode {
    /// A word that no pose knows.
    UnknownWord,
    /// A value that cannot be read or is missing.
    UnreadableValue,
    /// A setting whose unit does not fit here.
    WrongUnit,
    /// A contact or height that the body cannot reach.
    OutOfReach,
    /// A stated angle that the rest of the pose does not allow.
    AngleNotMet,
    /// A joint bent further than joints go.
    JointLimit,
    /// A joint left on the end of its range that nobody asked for.
    JointAtLimit,
    /// A bent arm under weight whose forearm lies.
    ForearmOffUpright,
    /// Part of the body below the floor.
    ThroughFloor,
    /// Part of the body inside a piece of kit.
    ThroughKit,
    /// The figure would fall over.
    OffBalance,
    /// Nothing touches anything.
    NoContact,
    /// Start and end are the same.
    NothingMoves,
    /// A joint bends or a side moves the wrong way round.
    Mirrored,
    /// A force or moment that no body gives.
    NotPlausible,
}

impl PoseCode {
    /// The code as printed.
    pub fn name(self) -> &'static str {
        match self {
            PoseCode::UnknownWord => "pose-unknown-word",
            PoseCode::UnreadableValue => "pose-unreadable-value",
            PoseCode::WrongUnit => "pose-wrong-unit",
            PoseCode::OutOfReach => "pose-out-of-reach",
            PoseCode::AngleNotMet => "pose-angle-not-met",
            PoseCode::JointLimit => "pose-joint-limit",
            PoseCode::JointAtLimit => "pose-joint-at-limit",
            PoseCode::ForearmOffUpright => "pose-forearm-off-upright",
            PoseCode::ThroughFloor => "pose-through-floor",
            PoseCode::ThroughKit => "pose-through-kit",
            PoseCode::OffBalance => "pose-off-balance",
            PoseCode::NoContact => "pose-no-contact",
            PoseCode::NothingMoves => "pose-nothing-moves",
            PoseCode::Mirrored => "pose-mirrored",
            PoseCode::NotPlausible => "pose-not-plausible",
        }
    }
}
