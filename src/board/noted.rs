//! Noted: what a board's page says was done in class, touches and all, for the roster.
//! Never more than it says: whoever had gone by the end is not on it, and nothing is dealt out again.

use super::done::ladders;
use crate::finding::{Placed, Span};
use crate::gym::Gym;
use crate::library::{Done, Session};
use crate::plan::session_plan;
use serde::{Deserialize, Serialize};

/// Letters of one thing that was done; a board's own are a third of it.
const LONGEST: usize = 200;

/// What the page needs to say what was done.
#[derive(Debug, Clone, Serialize)]
pub(super) struct ToNote {
    session: String,
    /// Its name by block and line.
    lines: Vec<Vec<String>>,
    /// For each ladder its lines (block, line), the nearest to one's own rung first.
    ladders: Vec<Vec<(usize, usize)>>,
}

impl ToNote {
    /// What is done in a session.
    pub(super) fn of(gym: &Gym, session: &Session) -> ToNote {
        ToNote {
            session: session.id.to_string(),
            lines: line_names(gym, session),
            ladders: ladders(session),
        }
    }
}

fn line_names(gym: &Gym, session: &Session) -> Vec<Vec<String>> {
    let plan = session_plan(gym, session);
    let names =
        |block: &crate::plan::BlockPlan| block.items.iter().map(|item| item.name.clone()).collect();
    plan.blocks.iter().map(names).collect()
}

/// What a page noted over.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Noted {
    /// The session's id.
    pub session: String,
    /// Everybody who was there at the end.
    pub people: Vec<NotedPerson>,
}

/// What one person did.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct NotedPerson {
    /// As the board called them.
    pub name: String,
    /// By the name of each line that asks for an own rung, what they did there.
    pub did: Vec<(String, String)>,
    /// Names of lines that the coach decided.
    pub left_out: Vec<String>,
}

impl Noted {
    /// Reads what a page wrote, of that session alone.
    ///
    /// # Errors
    /// A sentence, where it is no such text, is of another session, or says what no board says.
    pub fn read(gym: &Gym, session: &Session, text: &str) -> Result<Noted, String> {
        let noted: Noted = serde_json::from_str(text)
            .map_err(|_| "this is not what a board hands over".to_string())?;
        if noted.session != session.id.as_str() {
            return Err("this is of another session".to_string());
        }
        let lines = line_names(gym, session).concat();
        let mut seen: Vec<&str> = Vec::new();
        for person in &noted.people {
            if seen.contains(&person.name.as_str()) {
                return Err("somebody stands on it twice".to_string());
            }
            seen.push(&person.name);
            let named = person.did.iter().map(|(line, _)| line).chain(&person.left_out);
            if named.into_iter().any(|line| !lines.contains(line)) {
                return Err("it names a line that this session does not have".to_string());
            }
            let said = |what: &str| {
                !what.is_empty()
                    && what.chars().count() <= LONGEST
                    && !what.contains(char::is_control)
            };
            if !person.did.iter().all(|(_, what)| said(what)) {
                return Err("something in it is empty, too long or on several lines".to_string());
            }
        }
        Ok(noted)
    }
}

impl NotedPerson {
    /// As a line of the roster; `span` is where their entry stands.
    pub fn done(&self, session: &Session, day: &str, span: Span) -> Done {
        Done {
            day: Placed::new(day.to_string(), span),
            session: Placed::new(session.id.clone(), span),
            did: self.did.clone(),
            left_out: self.left_out.clone(),
            span,
        }
    }
}
