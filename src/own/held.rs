//! Held: a line that names one movement, for a person of whom nobody starts in the middle of a ladder.
//! Never moves anybody up, and never anybody else: who starts low does on every line what they would
//! do on that ladder.

use super::dose::counted_as;
use super::line::{Line, Work, stands};
use super::member::Member;
use super::standing::{Standing, number, standing};
use super::words::starts_low;
use crate::gym::Gym;
use crate::library::{Ladder, Movement};
use crate::swap::RungOf;

/// The rung of its ladder on which a person does a line's movement, and the line as it asks that.
pub(super) struct Held<'g> {
    pub ladder: &'g Ladder,
    pub own: Standing,
    pub line: Line<'g>,
}

/// Where somebody who starts low does a line's movement: on their own rung where it is known, else on
/// the lowest; nothing where the line asks no higher one, and for everybody else.
pub(super) fn held<'g>(
    gym: &'g Gym,
    (movement, rung): (&Movement, &RungOf),
    line: &Line<'_>,
    member: &Member,
) -> Option<Held<'g>> {
    starts_low(gym, member)?;
    let (ladder, at) = stands(gym, movement, rung)?;
    let ladder = gym.library.ladders.get(&ladder)?;
    let own = standing(gym, ladder, member);
    let own = own.map(|own| Standing { why: own.why.replace("{below}", ""), ..own });
    let own = own.or_else(|| lowest(gym, ladder, "", member))?;
    if own.rung >= number(at) {
        return None;
    }
    Some(Held { line: asking(gym, (movement, line), ladder, own.rung), ladder, own })
}

/// The line as it asks the same of each rung of a ladder.
fn asking<'g>(
    gym: &'g Gym,
    (from, line): (&Movement, &Line<'_>),
    ladder: &'g Ladder,
    own: u32,
) -> Line<'g> {
    let asked = |id| {
        let to = gym.library.movements.get(id)?;
        counted_as((from, to), line.asks(0)?)
    };
    Line {
        work: Work::Ladder(ladder, own),
        below: 0,
        asked: ladder.rungs.iter().map(|rung| asked(&rung.movement.value)).collect(),
        tests: false,
        counts_down: line.counts_down,
        dose: line.dose.clone(),
    }
}

/// The lowest rung, for whom nobody starts in the middle.
pub(super) fn lowest(gym: &Gym, ladder: &Ladder, test: &str, who: &Member) -> Option<Standing> {
    let (name, ladder) = (starts_low(gym, who)?, &ladder.name.value);
    let why = format!("No result on the {ladder} ladder yet, and {name}: {test}its lowest rung.");
    Some(Standing { rung: 1, why })
}
