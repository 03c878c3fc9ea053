//! How far the difference between two rungs shows in repetitions: the published relations' way, or
//! the club's own, learned from its roster.
//! Never a factor without its doubt.

use crate::library::Club;
use serde::Serialize;

/// The factor on the difference, and its doubt.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Across {
    /// The power to which the ratio of two rungs is raised before the published relations read it: 1
    /// takes the rungs at their computed demand, less lets the difference count for less.
    pub factor: f64,
    /// How far the factor may be off, either way, for nine clubs in ten.
    pub band: f64,
    /// Whether the club's own results gave it.
    pub own: bool,
}

/// What holds where a club has none: the relations were published for one lift at several weights,
/// and nobody has tested them from rung to rung. Half of the factor either way is our own guess.
pub const PUBLISHED: Across = Across { factor: 1.0, band: 0.5, own: false };

impl Across {
    /// What `club` writes in `club.yaml`, else what was published.
    pub fn of(club: &Club) -> Across {
        let own = club.across_rungs.as_ref();
        own.map_or(PUBLISHED, |own| Across { factor: own.factor, band: own.band, own: true })
    }
}
