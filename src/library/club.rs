//! The club: its name, its caution line, its hall, and which advice it has switched off.
//! Never a member, a coach's name or a street.

use super::KitId;
use super::colour::Colours;
use crate::finding::{FileId, Placed, Span};

/// Advice that the club has switched off.
#[derive(Debug, Clone)]
pub struct Silenced {
    /// The code.
    pub code: Placed<String>,
    /// Why.
    pub because: Option<String>,
}

/// Facts of the club itself.
#[derive(Debug, Clone, Default)]
pub struct Club {
    /// Its file as a whole; nothing when it could not be read.
    pub file: Option<Span>,
    /// The name shown on every page.
    pub name: String,
    /// What the club is.
    pub about: Option<String>,
    /// Language of the content, a BCP 47 tag.
    pub language: String,
    /// The file of its logo, by its name.
    pub logo: Option<Placed<String>>,
    /// That file, where it was read and is only a drawing.
    pub logo_file: Option<FileId>,
    /// Its own accent.
    pub colours: Option<Colours>,
    /// The address the site will stand at, ending in `/`; only the sitemap needs it.
    pub address: Option<String>,
    /// The line on every page that tells someone to move.
    pub caution_line: Option<Placed<String>>,
    /// When to stop at once.
    pub stop_signs: Vec<String>,
    /// What people say of such a sign, besides its name: `dizzy`, `tight chest`.
    pub stop_signs_said: Vec<String>,
    /// Kit in the hall and how many of each.
    pub hall_kit: Vec<(Placed<KitId>, u32)>,
    /// The hall's floor, in words.
    pub hall_room: Option<String>,
    /// Quick limits that the floor shows first, by their words; the others stand behind them.
    pub quick_limits: Vec<Placed<String>>,
    /// Kits that people usually have, by the words for them; `rungbook cover` counts by these.
    pub usual_kits: Vec<(Placed<String>, Vec<Placed<KitId>>)>,
    /// Advice switched off.
    pub silenced: Vec<Silenced>,
    /// How far the difference between two rungs shows in repetitions, from the club's own results.
    pub across_rungs: Option<AcrossRungs>,
}

/// The factor on the difference between two rungs, as `rungbook roster relate` prints it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AcrossRungs {
    /// The factor; 1 is what published relations say.
    pub factor: f64,
    /// How far it may be off, either way.
    pub band: f64,
}
