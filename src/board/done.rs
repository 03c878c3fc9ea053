//! Done: what a class did by its board, a line a person, for the roster after class.
//! Never why, and never anything that the board did not deal out.

use super::Board;
use super::view::{dose_of, of_offer};
use crate::finding::{Placed, Span};
use crate::gym::Gym;
use crate::library::{Done, ItemWork, LadderId, Session};
use crate::own::Kind;
use crate::plan::Day;

/// Own rungs as they were done, by ladder: how far below one's own the line asks, its name, and what.
type Work<'g> = Vec<(&'g LadderId, u32, (String, String))>;

/// What somebody of the class did, by their place; `span` is where their entry stands.
pub fn done(
    gym: &Gym,
    (session, board): (&Session, &Board),
    (who, span): (usize, Span),
    day: Day,
) -> Done {
    let mut work: Work<'_> = Vec::new();
    let mut left_out: Vec<String> = Vec::new();
    for (block, asked) in board.class.blocks.iter().enumerate() {
        for (line, item) in session.blocks[block].items.iter().enumerate() {
            let offer = board.offer(block, line, who);
            let name = asked.plan.items[line].name.clone();
            if offer.own.kind == Kind::Ask {
                if !left_out.contains(&name) {
                    left_out.push(name);
                }
            } else if let ItemWork::Ladder(id) = &item.work {
                let below = item.below.as_ref().map_or(0, |below| below.value);
                let dose = Some(dose_of(gym, offer)).filter(|dose| !dose.is_empty());
                let dose = dose.map_or(String::new(), |dose| format!(", {dose}"));
                let what = format!("{}{dose}", of_offer(gym, offer).said());
                add(&mut work, (&id.value, below, (name, what)));
            }
        }
    }
    Done {
        day: Placed::new(day.to_string(), span),
        session: Placed::new(session.id.clone(), span),
        did: work.into_iter().map(|(.., said)| said).collect(),
        left_out,
        span,
    }
}

/// Of several lines of one ladder the one nearest to their own rung tells what they can do; of as near
/// the first.
fn add<'g>(work: &mut Work<'g>, new: (&'g LadderId, u32, (String, String))) {
    match work.iter_mut().find(|(id, ..)| *id == new.0) {
        Some(known) if new.1 < known.1 => *known = new,
        Some(_) => {}
        None => work.push(new),
    }
}
