//! Coming to class: where a member trains, what is sore today, and with whom they work.
//! Never a word of the site: it stands on the roster alone, and what is of today is gone tomorrow.

use super::movement::written_words;
use super::{CautionId, Nickname, TraitId};
use crate::finding::Placed;

written_words! {
    /// Where a member trains.
    Trains {
        /// With the kit of the hall.
        Hall = "hall",
        /// With their own kit, over video.
        Home = "home",
    }
}

/// How a member comes to class.
#[derive(Debug, Clone, Default)]
pub struct Coming {
    /// Where they train; the hall, where nothing is written.
    pub trains: Option<Placed<Trains>>,
    /// What is so on one day alone.
    pub today: Option<OfToday>,
    /// Whom they work with.
    pub with: Option<Placed<Nickname>>,
}

/// What a member leaves out on one day, gone after it.
#[derive(Debug, Clone)]
pub struct OfToday {
    /// The day as written; whether there is such a day is for checks to say.
    pub day: Placed<String>,
    /// Traits to leave out, each from this level on (1 or 2).
    pub limits: Vec<(Placed<TraitId>, u8)>,
    /// Situations, by their cautions.
    pub cautions: Vec<Placed<CautionId>>,
}

impl Coming {
    /// Whether they train at home.
    pub fn at_home(&self) -> bool {
        self.trains.as_ref().is_some_and(|trains| trains.value == Trains::Home)
    }
}
