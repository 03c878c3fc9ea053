//! Say: a person's version as plain text, for a terminal or a printed sheet.
//! Never leaves out a reason, and never prints anything.

use super::{Kind, Own};
use crate::gym::Gym;
use crate::library::Session;
use std::fmt::Write;

/// A session, block by block.
pub fn as_text(gym: &Gym, session: &Session, blocks: &[Vec<Own>]) -> String {
    let mut text = format!("{}\n", session.title());
    for (block, lines) in session.blocks.iter().zip(blocks) {
        let _ = write!(text, "\n{}\n", block.name.value);
        for own in lines {
            text.push_str(&line_as_text(gym, own));
        }
    }
    text
}

/// A line of it.
pub fn line_as_text(gym: &Gym, own: &Own) -> String {
    let mut text = format!("- {}\n", headline(gym, own));
    let mut line = |words: &str| {
        let _ = writeln!(text, "    {words}");
    };
    if !own.change.is_empty() {
        line(&format!("Change it: {}", own.change));
    }
    if !own.cue.is_empty() {
        line(&format!("Say: {}", own.cue));
    }
    own.why.iter().for_each(|why| line(why));
    text
}

fn headline(gym: &Gym, own: &Own) -> String {
    if own.kind == Kind::Ask {
        return "Ask your coach".to_string();
    }
    let name = gym.library.movements.get(&own.movement);
    let name = name.map_or(own.movement.as_str(), |movement| &movement.name.value);
    let setting = if own.setting.is_empty() { String::new() } else { format!(", {}", own.setting) };
    let dose = if own.dose.is_empty() { String::new() } else { format!(": {}", own.dose) };
    let swap = if own.kind == Kind::Swap { "Swap: " } else { "" };
    format!("{swap}{name}{setting}{dose}")
}
