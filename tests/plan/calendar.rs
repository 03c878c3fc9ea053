//! The calendar by the letter of RFC 5545, and the feed by that of RFC 4287. Both are left in
//! `target/tmp/plan` for readers of others: `tests/readers.py` parses them.

use super::cycle::cycle;
use crate::laid::Laid;
use crate::starter::gym;
use rungbook::gym::Gym;
use rungbook::library::{CycleId, SessionId};
use rungbook::plan::{self, Day, Reminder, calendar, feed};
use rungbook::site::{self, theme::Theme};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The page of a session at an address with signs that need care in XML.
fn page_of(id: &SessionId) -> Option<String> {
    Some(format!("https://hall.example/a&b/sessions/{id}.html"))
}

fn first_day(text: &str) -> Day {
    Day::read(text).expect("a day that exists")
}

/// Content lines, folds undone (RFC 5545, 3.1).
fn unfolded(text: &str) -> Vec<String> {
    text.replace("\r\n ", "").split_terminator("\r\n").map(String::from).collect()
}

fn values<'l>(lines: &'l [String], name: &str) -> Vec<&'l str> {
    lines.iter().filter_map(|line| line.strip_prefix(name)?.strip_prefix(':')).collect()
}

#[test]
fn a_calendar_by_the_letter() {
    let text = calendar(gym(), cycle(), (first_day("2027-01-05"), Reminder::Silent), &page_of);
    assert!(text.ends_with("\r\n") && !text.replace("\r\n", "").contains(['\r', '\n']));
    assert!(text.split("\r\n").all(|line| line.len() <= 75));
    assert!(text.contains("\r\n "), "nothing was long enough to fold");
    let lines = unfolded(&text);
    let (starts, ends) = (values(&lines, "DTSTART;VALUE=DATE"), values(&lines, "DTEND;VALUE=DATE"));
    assert_eq!((starts.len(), starts[0], starts[17]), (18, "20270105", "20270213"));
    assert!(starts.iter().zip(&ends).all(|(start, end)| start < end));
    let ids: BTreeSet<&str> = values(&lines, "UID").into_iter().collect();
    assert_eq!(ids.len(), 18);
    let stamps: BTreeSet<&str> = values(&lines, "DTSTAMP").into_iter().collect();
    // The day on which the starter sessions were written.
    assert_eq!(stamps, BTreeSet::from(["20261125T000000Z"]));
    assert_eq!(
        text,
        calendar(gym(), cycle(), (first_day("2027-01-05"), Reminder::Silent), &page_of)
    );
    leave("cycle.ics", &text);
}

/// A Wednesday waits for the first training day, a Tuesday.
#[test]
fn the_cycle_starts_on_its_first_training_day() {
    let text = calendar(gym(), cycle(), (first_day("2027-01-06"), Reminder::Silent), &page_of);
    let lines = unfolded(&text);
    assert_eq!(values(&lines, "DTSTART;VALUE=DATE")[0], "20270112");
}

/// Marks, long words of other alphabets and line ends of a coach's text.
#[test]
fn odd_words_are_escaped_and_folded() {
    let page = "```file sessions/odd.yaml\nname: \"Ärme; \\\\, und 💪💪💪💪💪💪💪💪💪💪💪💪💪💪💪💪💪💪💪💪\"\n\
                about: \"<b>&amp; 'so'\"\nwritten: 2026-11-20\nblocks:\n  - {name: \"A\\nB\", format: rounds, \
                rounds: 1, items: [{movement: strap-row}]}\n```\n\
                ```file cycles/odd.yaml\nname: Odd\nweeks: [{week: 1, sessions: [odd, monday]}]\n```\n";
    let gym = Gym::open(Laid::on("tiny", page).read());
    let odd = &gym.library.cycles[&CycleId::from("odd")];
    let text = calendar(&gym, odd, (first_day("2028-02-28"), Reminder::Silent), &|_| None);
    assert!(text.split("\r\n").all(|line| line.len() <= 75));
    let lines = unfolded(&text);
    // RFC 5546, 3.2.1: who publishes by a method has to name an organizer; a plain file has no method.
    assert!(!lines.iter().any(|line| line.starts_with("METHOD")), "{lines:?}");
    assert!(values(&lines, "SUMMARY")[0].starts_with("Ärme\\; \\\\\\, und 💪"), "{lines:?}");
    assert!(values(&lines, "DESCRIPTION")[0].contains("A\\nB"), "{lines:?}");
    assert_eq!(values(&lines, "DTSTART;VALUE=DATE"), ["20280228", "20280301"]);
    // Monday does not say when it was written: the first day given stands for it.
    assert_eq!(values(&lines, "DTSTAMP"), ["20261120T000000Z", "20280228T000000Z"]);
    leave("odd.ics", &text);
    let feed = feed(&gym, &|_| None, Some("https://hall.example/feed.xml"));
    assert!(feed.contains("&lt;b&gt;&amp;amp; &#39;so&#39;"), "{feed}");
    assert!(feed.contains("<updated>2026-11-20T00:00:00Z</updated>"), "{feed}");
    assert!(feed.contains("<link rel=\"self\" href=\"https://hall.example/feed.xml\"/>"), "{feed}");
    leave("odd.xml", &feed);
}

/// RFC 5545, 3.6.6: a reminder is a part of its event; 3.8.6.3: of an all-day event it is counted from
/// the midnight where somebody is. Asked for only, and the events are the same ones.
#[test]
fn a_reminder_comes_only_where_it_was_asked_for() {
    let gym = gym();
    let cycle = gym.library.cycles.values().next().expect("a cycle");
    let with =
        |reminder| unfolded(&calendar(gym, cycle, (first_day("2027-01-05"), reminder), &|_| None));
    let (silent, morning) = (with(Reminder::Silent), with(Reminder::Morning));
    assert!(values(&silent, "TRIGGER").is_empty() && !silent.iter().any(|l| l.contains("VALARM")));
    let events = values(&silent, "UID");
    assert_eq!(values(&morning, "UID"), events);
    assert_eq!(values(&morning, "TRIGGER"), vec!["PT7H"; events.len()]);
    assert_eq!(values(&morning, "ACTION"), vec!["DISPLAY"; events.len()]);
    let text = calendar(gym, cycle, (first_day("2027-01-05"), Reminder::Morning), &|_| None);
    assert!(text.contains("BEGIN:VALARM\r\n") && text.contains("END:VALARM\r\nEND:VEVENT\r\n"));
    leave("reminders.ics", &text);
}

/// RFC 5545, 3.8.4.7: an event that changes keeps its identity. Another session on the day, other
/// words and a new name change no id; another run of the cycle has ids of its own.
#[test]
fn an_event_that_changes_stays_itself() {
    let on = |sessions: &str, name: &str, day: &str| {
        let page = format!(
            "```file cycles/own.yaml\nname: {name}\ndays: [monday, friday]\nstarts: {day}\nweeks: [{{week: \
             1, sessions: [{sessions}], note: {name}}}]\n```\n```file sessions/other.yaml\nname: Other\n\
             blocks:\n  - {{name: A, format: rounds, rounds: 1, items: [{{movement: strap-row}}]}}\n```\n"
        );
        let gym = Gym::open(Laid::on("tiny", &page).read());
        let own = &gym.library.cycles[&CycleId::from("own")];
        let first = plan::first_day(own).expect("it says one");
        let lines = unfolded(&calendar(&gym, own, (first, Reminder::Silent), &|_| None));
        values(&lines, "UID").into_iter().map(String::from).collect::<Vec<_>>()
    };
    let ids = on("monday, other", "Own", "2027-01-04");
    assert_eq!(ids.len(), 2);
    assert_eq!(ids, on("other, other", "Renamed", "2027-01-04"));
    assert!(ids.iter().all(|id| !on("monday, other", "Own", "2027-03-01").contains(id)));
}

/// What a build publishes is left for the readers of others too.
#[test]
fn the_published_files_are_left_for_readers_of_others() {
    let theme = Theme::open(None).expect("the theme is sound");
    let files = site::files(gym(), &theme).expect("the site renders");
    let names = files.keys().filter(|name| name.ends_with(".ics") || *name == "feed.xml");
    let names: Vec<&String> = names.collect();
    let cycle = "six-weeks-push-and-pull.ics";
    let calendars = ["calendars/", "calendars/reminders/"].map(|folder| format!("{folder}{cycle}"));
    assert_eq!(names, [&calendars[1], &calendars[0], "feed.xml"]);
    for name in names {
        let text = String::from_utf8(files[name].clone()).expect("UTF-8");
        leave(&format!("published/{name}"), &text);
    }
}

#[test]
fn a_feed_of_every_session() {
    let text = feed(gym(), &page_of, None);
    assert_eq!(text.matches("<entry>").count(), gym().library.sessions.len());
    assert_eq!(text, feed(gym(), &page_of, None));
    assert!(text.contains("<id>tag:thornmere-hall.example,2026:sessions/test-day</id>"));
    assert!(text.contains("href=\"https://hall.example/a&amp;b/sessions/test-day.html\""));
    leave("feed.xml", &text);
}

fn leave(name: &str, text: &str) {
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("plan").join(name);
    let folder = file.parent().expect("a folder");
    fs::create_dir_all(folder).expect("the target folder can be written");
    fs::write(file, text).expect("the target folder can be written");
}
