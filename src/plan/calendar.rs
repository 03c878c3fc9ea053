//! A cycle as a calendar file to subscribe to (RFC 5545): one all-day event a session.
//! Never asks what day it is: an event is stamped with the day its session was written, or with the
//! first day that was given.

use super::block::BlockPlan;
use super::day::{Day, first_training_day, training_dates};
use super::session::session_plan;
use crate::gym::Gym;
use crate::library::{Cycle, Session, SessionId};
use std::fmt::Write;

/// RFC 5545, 3.1: no line is longer than 75 octets without its break.
const LONGEST_LINE: usize = 75;

/// A calendar knows nobody's limits: whoever has some reads their own version first.
const FOR_NOBODY: &str = "For nobody in particular: with limits or other kit, open the session's page \
                          for your own version, or ask your coach.";

/// Where the page of a session is, when the club has an address.
pub type PageOf<'a> = &'a dyn Fn(&SessionId) -> Option<String>;

/// When a reminder comes that somebody asked for: at seven on the day, by the clock where they are
/// (RFC 5545, 3.8.6.3: of an all-day event counted from its midnight there). Common practice.
const REMINDER: &str = "PT7H";

/// Whether a calendar reminds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reminder {
    /// It says the days alone.
    Silent,
    /// At seven in the morning of each.
    Morning,
}

/// The calendar of a cycle whose first training day is the first one on or after `first_day`. The
/// same content and day give the same bytes. An event keeps its identity while its session, its
/// words or its place in the week change; a cycle that starts on another day is another run.
pub fn calendar(
    gym: &Gym,
    cycle: &Cycle,
    (first_day, reminder): (Day, Reminder),
    page_of: PageOf<'_>,
) -> String {
    let first = first_training_day(cycle, first_day);
    let club = &gym.library.club;
    let mut lines = Lines::default();
    lines.add("BEGIN", "VCALENDAR");
    lines.add("VERSION", "2.0");
    lines.add("PRODID", "-//Rungbook//Cycle//EN");
    lines.add("CALSCALE", "GREGORIAN");
    // RFC 7986, 5.1: the calendar's own name.
    lines.text("NAME", &format!("{}: {}", club.name, cycle.name.value));
    // RFC 7986, 5.7: whoever subscribes need not ask more often than once a day.
    lines.add("REFRESH-INTERVAL;VALUE=DURATION", "P1D");
    for (week, place, day, session) in training_dates(cycle, first_day) {
        let Some(session) = gym.library.sessions.get(session) else { continue };
        lines.add("BEGIN", "VEVENT");
        let nth = place + 1;
        let host = host(gym);
        lines.add("UID", &format!("{}-{first}-week-{week}-{nth}@{host}", cycle.id));
        let stamp = written(session).unwrap_or(first_day);
        lines.add("DTSTAMP", &format!("{}T000000Z", stamp.compact()));
        lines.add("DTSTART;VALUE=DATE", &day.compact());
        lines.add("DTEND;VALUE=DATE", &day.later(1).compact());
        lines.text("SUMMARY", &format!("{}, week {week}", session.name.value));
        lines.text("DESCRIPTION", &described(gym, cycle, week, session));
        if let Some(page) = page_of(&session.id) {
            lines.add("URL", &page);
        }
        lines.add("TRANSP", "TRANSPARENT");
        if reminder == Reminder::Morning {
            lines.add("BEGIN", "VALARM");
            lines.add("ACTION", "DISPLAY");
            lines.text("DESCRIPTION", &format!("Today: {}", session.name.value));
            lines.add("TRIGGER", REMINDER);
            lines.add("END", "VALARM");
        }
        lines.add("END", "VEVENT");
    }
    lines.add("END", "VCALENDAR");
    lines.0
}

/// The host of the club's address, which makes its ids its own. `.invalid` names nobody (RFC 2606).
pub(super) fn host(gym: &Gym) -> String {
    let address = gym.library.club.address.as_deref().unwrap_or_default();
    let host = address.split_once("://").map_or("", |(_, rest)| rest);
    let host = host.split(['/', ':', '?', '#']).next().unwrap_or_default();
    let plain = host.bytes().all(|b| b.is_ascii_alphanumeric() || matches!(b, b'.' | b'-'));
    if plain && !host.is_empty() { host.to_string() } else { "rungbook.invalid".to_string() }
}

/// The day a session was written, where it says one.
pub(super) fn written(session: &Session) -> Option<Day> {
    Day::read(&session.written.as_ref()?.value)
}

fn described(gym: &Gym, cycle: &Cycle, week: u32, session: &Session) -> String {
    let plan = session_plan(gym, session);
    let note = cycle.weeks.iter().find(|w| w.week == week).and_then(|w| w.note.clone());
    let blocks = plan.blocks.iter().map(block_line);
    let caution = gym.library.club.caution_line.as_ref().map(|line| line.value.clone());
    let stop = &gym.library.club.stop_signs;
    let stop = (!stop.is_empty()).then(|| format!("Stop at: {}.", stop.join(", ").to_lowercase()));
    let whom = Some(FOR_NOBODY.to_string());
    let lines = note.into_iter().chain(blocks).chain(whom).chain(caution).chain(stop);
    let lines: Vec<String> = lines.collect();
    lines.join("\n")
}

/// `Squat, 10:00: Squat`.
pub(super) fn block_line(block: &BlockPlan) -> String {
    let items: Vec<&str> = block.items.iter().map(|item| item.name.as_str()).collect();
    format!("{}, {}: {}", block.name, block.total, items.join(", "))
}

/// Content lines: folded, each ending in CR and LF.
#[derive(Default)]
struct Lines(String);

impl Lines {
    /// A property whose value has nothing to escape.
    fn add(&mut self, name: &str, value: &str) {
        let line = format!("{name}:{value}");
        let mut room = LONGEST_LINE;
        for letter in line.chars() {
            if letter.len_utf8() > room {
                self.0.push_str("\r\n ");
                room = LONGEST_LINE - 1;
            }
            self.0.push(letter);
            room -= letter.len_utf8();
        }
        self.0.push_str("\r\n");
    }

    /// A property of type TEXT (RFC 5545, 3.3.11).
    fn text(&mut self, name: &str, value: &str) {
        let mut escaped = String::new();
        for letter in value.chars() {
            match letter {
                '\\' | ';' | ',' => drop(write!(escaped, "\\{letter}")),
                '\n' => escaped.push_str("\\n"),
                // Other control characters may not stand in a calendar.
                letter if letter.is_control() => {}
                letter => escaped.push(letter),
            }
        }
        self.add(name, &escaped);
    }
}
