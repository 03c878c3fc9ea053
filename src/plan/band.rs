//! Bands: a time or a number that is not one figure but lies between two.
//! Never a point where the dose, the pace or the change-over leave room.

use crate::library::Count;
use std::fmt;

/// Whole seconds, from the least to the most.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Band {
    /// The fewest seconds.
    pub least: u32,
    /// The most seconds.
    pub most: u32,
}

impl Band {
    /// Between two times, in seconds.
    pub fn new(least: u32, most: u32) -> Band {
        Band { least: least.min(most), most: most.max(least) }
    }

    /// Exactly so many seconds.
    pub fn exact(seconds: u32) -> Band {
        Band { least: seconds, most: seconds }
    }

    /// One after the other.
    pub fn plus(self, other: Band) -> Band {
        Band {
            least: self.least.saturating_add(other.least),
            most: self.most.saturating_add(other.most),
        }
    }

    /// So many times over: the least of the fewest, the most of the most.
    pub fn times(self, count: Count) -> Band {
        Band {
            least: self.least.saturating_mul(count.from),
            most: self.most.saturating_mul(count.to),
        }
    }

    /// The band that holds both.
    pub fn with(self, other: Band) -> Band {
        Band { least: self.least.min(other.least), most: self.most.max(other.most) }
    }

    /// At least `seconds` long.
    pub fn no_less_than(self, seconds: u32) -> Band {
        Band { least: self.least.max(seconds), most: self.most.max(seconds) }
    }

    /// At most `seconds` long.
    pub fn no_more_than(self, seconds: u32) -> Band {
        Band { least: self.least.min(seconds), most: self.most.min(seconds) }
    }

    /// The sum of times that follow each other.
    pub fn sum(times: impl IntoIterator<Item = Band>) -> Band {
        times.into_iter().fold(Band::default(), Band::plus)
    }

    /// The band that holds every one of some times; nothing of none.
    pub fn around(times: impl IntoIterator<Item = Band>) -> Option<Band> {
        times.into_iter().reduce(Band::with)
    }
}

impl fmt::Display for Band {
    /// `4:30`, or `4:30 to 5:10`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&clock(self.least))?;
        if self.least != self.most {
            write!(f, " to {}", clock(self.most))?;
        }
        Ok(())
    }
}

/// Seconds as a wall clock shows them: `4:30`.
pub fn clock(seconds: u32) -> String {
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// The same number both ways.
pub(super) fn only(number: u32) -> Count {
    Count { from: number, to: number }
}

/// Two counts together.
pub(super) fn add(one: Count, other: Count) -> Count {
    Count { from: one.from.saturating_add(other.from), to: one.to.saturating_add(other.to) }
}
