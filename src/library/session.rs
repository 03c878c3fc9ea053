//! Sessions and cycles as the coach wrote them.
//! Never does their arithmetic; the room `plan` does.

use super::movement::written_words;
use super::{
    Count, CycleId, Dose, LadderId, MovementId, PatternId, Quantity, SessionId, SettingName,
    SourceId,
};
use crate::finding::{Placed, Span};

written_words! {
    /// How a block is run.
    Format {
        /// A number of rounds through the items.
        Rounds = "rounds",
        /// Sets inside a window of time.
        TimedSets = "timed-sets",
        /// As many rounds as possible in a window.
        MostRounds = "most-rounds",
        /// Start an item at each full minute.
        EveryMinute = "every-minute",
        /// Work and rest by the clock.
        Intervals = "intervals",
        /// A count that goes down by one a round.
        Descending = "descending",
        /// As fast as form allows, with a cap.
        ForTime = "for-time",
        /// Holds in sequence.
        Holds = "holds",
    }
    /// How a class goes through the lines of a block.
    Spread {
        /// Everybody at the same line.
        Together = "together",
        /// Two halves at different lines, changing over.
        Halves = "halves",
        /// A group at each line, moving on.
        Stations = "stations",
    }
    /// What a week of a cycle is for.
    WeekKind {
        /// The first test.
        Test = "test",
        /// More work.
        Build = "build",
        /// Less work, same movements.
        Lighter = "lighter",
        /// The same test again.
        Retest = "retest",
    }
}

/// What one item asks for.
#[derive(Debug, Clone)]
pub enum ItemWork {
    /// Each member at their own rung of a ladder.
    Ladder(Placed<LadderId>),
    /// Everyone the same.
    Movement(Placed<MovementId>, Vec<(Placed<SettingName>, Placed<Quantity>)>),
    /// Three explicit options, lowest demand first.
    Options(Vec<Item>),
}

/// One line of a block.
#[derive(Debug, Clone)]
pub struct Item {
    /// What to do.
    pub work: ItemWork,
    /// On a ladder: so many rungs below each person's own, as a warm-up or a finisher asks.
    pub below: Option<Placed<u32>>,
    /// How much.
    pub dose: Option<Dose>,
    /// Anything said about it.
    pub note: Option<String>,
    /// Where it is written.
    pub span: Span,
}

/// A part of a session with one format.
#[derive(Debug, Clone)]
pub struct Block {
    /// The name shown.
    pub name: Placed<String>,
    /// What it is for.
    pub purpose: Option<String>,
    /// How it is run.
    pub format: Option<Placed<Format>>,
    /// How a class goes through its lines; nothing where the board may choose.
    pub spread: Option<Spread>,
    /// Rounds.
    pub rounds: Option<Count>,
    /// The window of time.
    pub window: Option<Quantity>,
    /// Work of an interval.
    pub work: Option<Quantity>,
    /// Rest of an interval or between rounds.
    pub rest: Option<Quantity>,
    /// First count of a descending format.
    pub from: Option<u32>,
    /// Last count of a descending format.
    pub to: Option<u32>,
    /// Time cap.
    pub cap: Option<Quantity>,
    /// Its items.
    pub items: Vec<Item>,
}

/// One class, or one training day.
#[derive(Debug, Clone)]
pub struct Session {
    /// Its id: the name of its file.
    pub id: SessionId,
    /// Its file as a whole.
    pub file: Span,
    /// The name shown.
    pub name: Placed<String>,
    /// The pattern it is about.
    pub focus: Option<Placed<PatternId>>,
    /// How long it lasts.
    pub length: Option<Quantity>,
    /// What it is for.
    pub about: Option<String>,
    /// The day it was last written, `2027-01-05`; the feed tells by it what is new.
    pub written: Option<Placed<String>>,
    /// Its blocks in order.
    pub blocks: Vec<Block>,
    /// Where its claims come from.
    pub sources: Vec<Placed<SourceId>>,
    /// The week of a cycle for which it stands here; nothing as it is written.
    pub in_week: Option<InWeek>,
}

impl Session {
    /// `Push and pull`, or `Push and pull, week 5 of Six weeks, lighter`.
    pub fn title(&self) -> String {
        let name = &self.name.value;
        let Some(InWeek { cycle, week }) = &self.in_week else { return name.clone() };
        let kind = cycle.weeks.iter().find(|one| one.week == *week).and_then(|one| one.kind);
        let kind = kind.map_or(String::new(), |kind| format!(", {}", kind.word()));
        format!("{name}, week {week} of {}{kind}", cycle.name.value)
    }
}

/// A week of a cycle.
#[derive(Debug, Clone)]
pub struct InWeek {
    /// The cycle.
    pub cycle: Box<Cycle>,
    /// Which of its weeks, from 1.
    pub week: u32,
}

/// One week of a cycle.
#[derive(Debug, Clone)]
pub struct CycleWeek {
    /// Which week, from 1.
    pub week: u32,
    /// Where its number is written.
    pub span: Span,
    /// What it is for.
    pub kind: Option<WeekKind>,
    /// Its sessions.
    pub sessions: Vec<Placed<SessionId>>,
    /// Anything said about it.
    pub note: Option<String>,
}

/// Weeks of test, build and retest round a focus.
#[derive(Debug, Clone)]
pub struct Cycle {
    /// Its id: the name of its file.
    pub id: CycleId,
    /// Its file as a whole.
    pub file: Span,
    /// The name shown.
    pub name: Placed<String>,
    /// What it is for.
    pub about: Option<String>,
    /// The ladders it is about.
    pub focus: Vec<Placed<LadderId>>,
    /// Training days.
    pub days: Vec<Placed<String>>,
    /// The first day, `2027-01-05`; the site's calendar counts from it.
    pub starts: Option<Placed<String>>,
    /// Its weeks.
    pub weeks: Vec<CycleWeek>,
    /// Where its claims come from.
    pub sources: Vec<Placed<SourceId>>,
}
