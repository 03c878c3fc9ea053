//! Done: what a class did by its board, a line a person, for the roster after class.
//! Never why, and never anything that the board did not deal out.

use super::Board;
use super::view::{dose_of, of_offer};
use crate::finding::{Placed, Span};
use crate::gym::Gym;
use crate::library::{Done, ItemWork, LadderId, Session};
use crate::own::Kind;
use crate::plan::Day;

/// What somebody of the class did, by their place; `span` is where their entry stands.
pub fn done(
    gym: &Gym,
    (session, board): (&Session, &Board),
    (who, span): (usize, Span),
    day: Day,
) -> Done {
    let offer = |(block, line): (usize, usize)| board.offer(block, line, who);
    let name =
        |(block, line): (usize, usize)| board.class.blocks[block].plan.items[line].name.clone();
    let asks = |at: &(usize, usize)| offer(*at).own.kind == Kind::Ask;
    let did = ladders(session).into_iter().filter_map(|places| {
        let at = places.into_iter().find(|at| !asks(at))?;
        let parts = [of_offer(gym, offer(at)).said(), dose_of(gym, offer(at))];
        let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        Some((name(at), parts.join(", ")))
    });
    let mut left_out: Vec<String> = Vec::new();
    for (block, written) in session.blocks.iter().enumerate() {
        for line in 0..written.items.len() {
            if asks(&(block, line)) && !left_out.contains(&name((block, line))) {
                left_out.push(name((block, line)));
            }
        }
    }
    Done {
        day: Placed::new(day.to_string(), span),
        session: Placed::new(session.id.clone(), span),
        did: did.collect(),
        left_out,
        span,
    }
}

/// How far below one's own rung a line asks, and where it is: block and line.
type Below = (u32, (usize, usize));

/// The lines of each ladder; of one whose lines ask for other rungs that nearest to one's own comes first.
pub(super) fn ladders(session: &Session) -> Vec<Vec<(usize, usize)>> {
    let mut found: Vec<(&LadderId, Vec<Below>)> = Vec::new();
    for (at, block) in session.blocks.iter().enumerate() {
        for (line, item) in block.items.iter().enumerate() {
            let ItemWork::Ladder(id) = &item.work else { continue };
            let place = (item.below.as_ref().map_or(0, |below| below.value), (at, line));
            match found.iter_mut().find(|(known, _)| *known == &id.value) {
                Some((_, places)) => places.push(place),
                None => found.push((&id.value, vec![place])),
            }
        }
    }
    let in_turn = |(_, mut places): (&LadderId, Vec<Below>)| {
        places.sort();
        places.into_iter().map(|(_, place)| place).collect()
    };
    found.into_iter().map(in_turn).collect()
}
