//! Days: dates of a calendar and the training days of a cycle, counted from a first day.
//! Never asks what day it is.

use crate::library::{Cycle, SessionId};
use std::fmt;

/// A day, counted from 1970-01-01.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day(i64);

const WEEKDAYS: [&str; 7] =
    ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

impl Day {
    /// Reads `2027-01-05`: a day of the Gregorian calendar from 1970 to 9999.
    pub fn read(text: &str) -> Option<Day> {
        let mut parts = text.trim().splitn(3, '-');
        let mut number = |long: usize| {
            let part = parts.next().filter(|part| part.len() == long)?;
            part.bytes().all(|b| b.is_ascii_digit()).then(|| part.parse::<i64>().ok())?
        };
        let (year, month, day) = (number(4)?, number(2)?, number(2)?);
        if year < 1970 || !(1..=12).contains(&month) || !(1..=31).contains(&day) {
            return None;
        }
        let read = Day(days_from_civil(year, month, day));
        // The 30th of February would come out as a day of March.
        (read.civil() == (year, month, day)).then_some(read)
    }

    /// Reads a day that is written another way, where that can mean one day only: `29.11.2026`,
    /// `29 November 2026`, `2026/11/29`; `5/6/2026` can mean two.
    pub fn read_other(text: &str) -> Option<Day> {
        let words = text.split([' ', '.', '/', '-', ',']).filter(|word| !word.is_empty());
        let words: Vec<&str> = words.collect();
        let [one, two, three] = words[..] else { return None };
        let number = |word: &str| word.parse::<u32>().ok();
        let month = |word: &str| {
            let at = MONTHS.iter().position(|name| {
                let word = word.to_lowercase();
                word.len() >= 3 && name.to_lowercase().starts_with(&word)
            })?;
            u32::try_from(at + 1).ok()
        };
        let (year, month, day) = match (number(one), number(two), number(three)) {
            (Some(year), Some(month), Some(day)) if one.len() == 4 => (year, month, day),
            (Some(day), Some(month), Some(year)) if text.contains('.') => (year, month, day),
            (Some(day), Some(month), Some(year)) if day > 12 || day == month => (year, month, day),
            (Some(month), Some(day), Some(year)) if day > 12 => (year, month, day),
            (Some(day), None, Some(year)) => (year, month(two)?, day),
            (None, Some(day), Some(year)) => (year, month(one)?, day),
            _ => return None,
        };
        Day::read(&format!("{year:04}-{month:02}-{day:02}"))
    }

    /// So many days later.
    pub fn later(self, days: i64) -> Day {
        Day(self.0 + days)
    }

    /// Days from `earlier` to this one.
    pub fn since(self, earlier: Day) -> i64 {
        self.0 - earlier.0
    }

    /// The day of the week, Monday as 0.
    pub fn weekday(self) -> usize {
        // 1970-01-01 was a Thursday.
        (self.0 + 3).rem_euclid(7) as usize
    }

    /// `tuesday`.
    pub fn weekday_word(self) -> &'static str {
        WEEKDAYS[self.weekday()]
    }

    /// `Tuesday 5 January 2027`.
    pub fn in_words(self) -> String {
        let (year, ..) = self.civil();
        let weekday = self.weekday_word();
        format!("{}{} {} {year}", weekday[..1].to_uppercase(), &weekday[1..], self.without_year())
    }

    /// `5 January`.
    pub fn without_year(self) -> String {
        let (_, month, day) = self.civil();
        format!("{day} {}", MONTHS[month as usize - 1])
    }

    /// `20270105`, as calendars write it.
    pub fn compact(self) -> String {
        let (year, month, day) = self.civil();
        format!("{year:04}{month:02}{day:02}")
    }

    fn civil(self) -> (i64, i64, i64) {
        let shifted = self.0 + 719_468;
        let era = shifted.div_euclid(146_097);
        let of_era = shifted.rem_euclid(146_097);
        let year_of_era = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
        let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
        let from_march = (5 * of_year + 2) / 153;
        let day = of_year - (153 * from_march + 2) / 5 + 1;
        let month = if from_march < 10 { from_march + 3 } else { from_march - 9 };
        (year_of_era + era * 400 + i64::from(month <= 2), month, day)
    }
}

impl fmt::Display for Day {
    /// `2027-01-05`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.civil();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

/// Days from 1970-01-01: the year is counted from March, so that a leap day ends it; an era is the
/// 400 years after which the Gregorian calendar repeats.
fn days_from_civil(year: i64, month: i64, day: i64) -> i64 {
    let year = if month <= 2 { year - 1 } else { year };
    let (era, of_era) = (year.div_euclid(400), year.rem_euclid(400));
    let from_march = if month > 2 { month - 3 } else { month + 9 };
    let of_year = (153 * from_march + 2) / 5 + day - 1;
    era * 146_097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719_468
}

/// A weekday, Monday as 0, from its word or at least its first three letters.
fn weekday_of(word: &str) -> Option<usize> {
    let word = word.trim().to_lowercase();
    WEEKDAYS.iter().position(|day| word.len() >= 3 && day.starts_with(&word))
}

/// Whether a word names a day of the week.
pub(super) fn is_weekday(word: &str) -> bool {
    weekday_of(word).is_some()
}

/// Each session of a cycle: week, place in the week from 0, and days after the cycle's first
/// training day. Weeks follow each other in the order written. A session beyond the days that the
/// cycle names comes two days after the one before it.
pub fn training_days(cycle: &Cycle) -> Vec<(u32, usize, i64, &SessionId)> {
    let named: Vec<usize> = cycle.days.iter().filter_map(|day| weekday_of(&day.value)).collect();
    let first = named.first().copied().unwrap_or(0) as i64;
    let after_first = |day: usize| (day as i64 - first).rem_euclid(7);
    let mut found = Vec::new();
    for (nth, week) in cycle.weeks.iter().enumerate() {
        let mut before = -2;
        for (place, session) in week.sessions.iter().enumerate() {
            let in_week = named.get(place).map_or(before + 2, |day| after_first(*day));
            before = in_week;
            found.push((week.week, place, nth as i64 * 7 + in_week, &session.value));
        }
    }
    found
}

/// Each session of a cycle with its date, when the cycle starts on its first training day on or
/// after `from`: week, place in the week from 0, date.
pub fn training_dates(cycle: &Cycle, from: Day) -> Vec<(u32, usize, Day, &SessionId)> {
    let first = first_training_day(cycle, from);
    let days = training_days(cycle).into_iter();
    days.map(|(week, place, after, id)| (week, place, first.later(after), id)).collect()
}

/// The first day that a cycle says itself; nothing where it says none or one that no calendar has.
pub fn first_day(cycle: &Cycle) -> Option<Day> {
    Day::read(&cycle.starts.as_ref()?.value)
}

/// The cycle's first training day on or after a day.
pub(super) fn first_training_day(cycle: &Cycle, from: Day) -> Day {
    let named = cycle.days.iter().find_map(|day| weekday_of(&day.value));
    let wait = named.map_or(0, |day| (day as i64 - from.weekday() as i64).rem_euclid(7));
    from.later(wait)
}
