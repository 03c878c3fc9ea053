//! Doses: sets, repetitions, seconds, metres or contacts, per side, with rest.
//! Never converts between them; swaps do.

use super::Quantity;
use crate::finding::Placed;
use std::fmt;

/// One number or a span of numbers: `8` or `6-10`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Count {
    /// The fewest.
    pub from: u32,
    /// The most; equal to `from` for one number.
    pub to: u32,
}

impl Count {
    /// The most sets, or rounds, that are read. Our own end, far beyond a session's.
    pub const SETS: u32 = 100;
    /// The most repetitions or contacts of one set that are read. Our own end.
    pub const REPS: u32 = 1_000;
    /// The most seconds of one set that are read: an hour. Our own end.
    pub const SECONDS: u32 = 3_600;
    /// The most metres of one set that are read. Our own end.
    pub const METRES: u32 = 10_000;

    /// Reads `8`, `6-10` or `6 to 10`, from 1 to `most`.
    pub fn read(text: &str, most: u32) -> Option<Count> {
        let text = text.trim();
        let (from, to) = text
            .split_once(" to ")
            .or_else(|| text.split_once('-'))
            .or_else(|| text.split_once('–'))
            .unwrap_or((text, text));
        let count = Count { from: from.trim().parse().ok()?, to: to.trim().parse().ok()? };
        (1 <= count.from && count.from <= count.to && count.to <= most).then_some(count)
    }

    /// Half-way, as plans use it.
    pub fn middle(self) -> f64 {
        f64::from(self.from + self.to) / 2.0
    }
}

impl fmt::Display for Count {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.from == self.to {
            write!(f, "{}", self.from)
        } else {
            write!(f, "{}-{}", self.from, self.to)
        }
    }
}

/// What a set counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amount {
    /// Repetitions.
    Reps(Count),
    /// Seconds held or worked.
    Seconds(Count),
    /// Metres covered.
    Metres(Count),
    /// Foot contacts, of jumps.
    Contacts(Count),
}

impl Amount {
    /// The word of `counts:` that this measures.
    pub fn counts(self) -> &'static str {
        match self {
            Amount::Reps(_) => "reps",
            Amount::Seconds(_) => "seconds",
            Amount::Metres(_) => "metres",
            Amount::Contacts(_) => "contacts",
        }
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Amount::Reps(count) => write!(f, "{count}"),
            Amount::Seconds(count) => write!(f, "{count} s"),
            Amount::Metres(count) => write!(f, "{count} m"),
            Amount::Contacts(count) if count.to == 1 => write!(f, "{count} contact"),
            Amount::Contacts(count) => write!(f, "{count} contacts"),
        }
    }
}

/// How much of a rung to do.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Dose {
    /// Sets.
    pub sets: Option<Count>,
    /// What each set counts.
    pub amount: Option<Placed<Amount>>,
    /// Rest between sets.
    pub rest: Option<Quantity>,
    /// Whether the coach said that the amount is for each side.
    pub per_side: Option<Placed<bool>>,
}

impl fmt::Display for Dose {
    /// `3 x 6-10, each side, rest 90 s`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut parts = Vec::new();
        match (&self.sets, &self.amount) {
            (Some(sets), Some(amount)) => parts.push(format!("{sets} x {}", amount.value)),
            (Some(sets), None) => parts.push(format!("{sets} sets")),
            (None, Some(amount)) => parts.push(match amount.value {
                Amount::Reps(count) if count.to == 1 => "1 repetition".to_string(),
                Amount::Reps(count) => format!("{count} repetitions"),
                other => other.to_string(),
            }),
            (None, None) => {}
        }
        if self.per_side.as_ref().is_some_and(|side| side.value) {
            parts.push("each side".to_string());
        }
        if let Some(rest) = self.rest {
            parts.push(format!("rest {rest}"));
        }
        f.write_str(&parts.join(", "))
    }
}
