//! The club's sessions as an Atom feed (RFC 4287).
//! Never reads a clock: an entry is as new as the day its session was written.

use super::calendar::{PageOf, block_line, host, written};
use super::day::Day;
use super::session::session_plan;
use crate::gym::Gym;
use crate::library::Session;
use std::fmt::Write;

/// What a session that does not say its day gets: Atom asks for one, and nothing is older.
const NO_DAY: &str = "1970-01-01";

/// The feed, with its own full address where the club has one (RFC 4287, 4.1.1 asks for it). The same
/// content gives the same bytes; ids stay when a session changes.
pub fn feed(gym: &Gym, page_of: PageOf<'_>, own: Option<&str>) -> String {
    let club = &gym.library.club;
    let sessions: Vec<&Session> = gym.library.sessions.values().collect();
    let newest = sessions.iter().filter_map(|s| written(s)).max();
    let mut feed = String::from("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n");
    let language = escaped(&club.language);
    let _ = writeln!(feed, "<feed xmlns=\"http://www.w3.org/2005/Atom\" xml:lang=\"{language}\">");
    element(&mut feed, "id", &format!("{}sessions", tag(gym)));
    element(&mut feed, "title", &format!("{}: sessions", club.name));
    element(&mut feed, "updated", &moment(newest));
    let _ = writeln!(feed, "<author><name>{}</name></author>", escaped(&club.name));
    if let Some(address) = &club.address {
        let _ = writeln!(feed, "<link rel=\"alternate\" href=\"{}\"/>", escaped(address));
    }
    if let Some(own) = own {
        let _ = writeln!(feed, "<link rel=\"self\" href=\"{}\"/>", escaped(own));
    }
    sessions.iter().for_each(|session| {
        entry(&mut feed, gym, session, page_of(&session.id));
    });
    feed.push_str("</feed>\n");
    feed
}

fn entry(feed: &mut String, gym: &Gym, session: &Session, page: Option<String>) {
    let plan = session_plan(gym, session);
    let caution = gym.library.club.caution_line.as_ref().map(|line| line.value.clone());
    let lines: Vec<String> = plan.blocks.iter().map(block_line).chain(caution).collect();
    feed.push_str("<entry>\n");
    element(feed, "id", &format!("{}sessions/{}", tag(gym), session.id));
    element(feed, "title", &session.name.value);
    element(feed, "updated", &moment(written(session)));
    if let Some(page) = page {
        let _ = writeln!(feed, "<link rel=\"alternate\" href=\"{}\"/>", escaped(&page));
    }
    if let Some(about) = &session.about {
        element(feed, "summary", about);
    }
    let _ = writeln!(feed, "<content type=\"text\">{}</content>", escaped(&lines.join("\n")));
    feed.push_str("</entry>\n");
}

/// The club's own tag (RFC 4151): its host, and a day on which it had it.
fn tag(gym: &Gym) -> String {
    format!("tag:{},2026:", host(gym))
}

fn moment(day: Option<Day>) -> String {
    format!("{}T00:00:00Z", day.map_or(NO_DAY.to_string(), |day| day.to_string()))
}

fn element(feed: &mut String, name: &str, text: &str) {
    let _ = writeln!(feed, "<{name}>{}</{name}>", escaped(text));
}

/// Text for XML: its five signs, and no control characters, which XML 1.0 forbids.
fn escaped(text: &str) -> String {
    let mut safe = String::new();
    for letter in text.chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            '\n' | '\t' => safe.push(letter),
            letter if letter.is_control() || matches!(letter, '\u{fffe}' | '\u{ffff}') => {}
            letter => safe.push(letter),
        }
    }
    safe
}
