//! Surfaces: what a part of the body can rest on or hang from, with its word.
//! Names and plain facts only; heights are read by `contact`.

use serde::{Deserialize, Serialize};

/// What a part can rest on or hang from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[allow(missing_docs)] // each is the word it stands for
pub enum Surface {
    Floor,
    Box,
    Bench,
    Chair,
    Step,
    Stairs,
    Sofa,
    Table,
    Counter,
    Wall,
    Bar,
    ParallelBars,
    Straps,
    Rings,
    Slider,
    Mat,
    Air,
}

pub(super) const SURFACES: [(&str, Surface); 17] = [
    ("floor", Surface::Floor),
    ("box", Surface::Box),
    ("bench", Surface::Bench),
    ("chair", Surface::Chair),
    ("step", Surface::Step),
    ("stairs", Surface::Stairs),
    ("sofa", Surface::Sofa),
    ("table", Surface::Table),
    ("counter", Surface::Counter),
    ("wall", Surface::Wall),
    ("bar", Surface::Bar),
    ("parallel bars", Surface::ParallelBars),
    ("straps", Surface::Straps),
    ("rings", Surface::Rings),
    ("slider", Surface::Slider),
    ("mat", Surface::Mat),
    ("air", Surface::Air),
];

impl Surface {
    /// The word an author writes.
    pub fn word(self) -> &'static str {
        SURFACES.iter().find(|(_, s)| *s == self).map_or("floor", |(w, _)| w)
    }

    /// Held from above: the hand grips, the rope gives the direction.
    pub fn is_rope(self) -> bool {
        matches!(self, Surface::Straps | Surface::Rings)
    }

    /// Gripped rather than pressed flat.
    pub fn is_gripped(self) -> bool {
        self.is_rope() || matches!(self, Surface::Bar | Surface::ParallelBars)
    }

    /// Something solid with a top that stands on the floor.
    pub fn is_block(self) -> bool {
        use Surface::*;
        matches!(self, Box | Bench | Chair | Step | Stairs | Sofa | Table | Counter)
    }
}

/// Whether a text starts with a surface word, so that `knee: floor` is a contact and `knee: 60`
/// is an angle.
pub fn starts_with_surface(text: &str) -> bool {
    surface_of(text).is_some()
}

/// The surface that a text starts with, and what follows it.
pub(super) fn surface_of(text: &str) -> Option<(Surface, &str)> {
    let text = text.trim();
    SURFACES
        .iter()
        .filter(|(word, _)| {
            text.strip_prefix(word).is_some_and(|rest| {
                rest.is_empty() || rest.starts_with(|c: char| c.is_whitespace() || c == ',')
            })
        })
        .max_by_key(|(word, _)| word.len())
        .map(|(word, surface)| (*surface, text[word.len()..].trim()))
}

/// The height of a surface that has only one.
pub(super) fn default_height(surface: Surface) -> Option<f64> {
    match surface {
        Surface::Floor | Surface::Slider | Surface::Mat => Some(0.0),
        _ => None,
    }
}

/// A height that a message may suggest, cm.
pub(super) fn usual_height(surface: Surface) -> u32 {
    match surface {
        Surface::Bar => 225,
        Surface::ParallelBars => 120,
        Surface::Straps | Surface::Rings => 220,
        Surface::Table => 75,
        Surface::Counter => 90,
        Surface::Step | Surface::Stairs => 18,
        Surface::Air => 10,
        _ => 45,
    }
}
