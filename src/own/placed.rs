//! Placed: today's rung of a placement for a person: as placed, changed, or the nearest below.
//! Never tells anyone to do a rung that their limits leave out. `find-rung.js` says the same.

use super::height::named;
use super::standing::number;
use super::words::change_words;
use crate::gym::Gym;
use crate::library::Ladder;
use crate::placing::left_out;
use crate::swap::{self, Change, Person, Why};

/// What is said to `person` of rung `at` (from 0), of which placing said `say`; true when it is that
/// rung, so that the rest of the placement is for them too.
pub fn placed(
    gym: &Gym,
    (ladder, at): (&Ladder, usize),
    say: &str,
    person: &Person,
) -> (String, bool) {
    let why =
        |out: &[Vec<Why>]| swap::why_words(gym, person, out.first().map_or(&[][..], Vec::as_slice));
    match swap::own_first(gym, (&ladder.id, at), person) {
        Ok((chosen, out)) if out.is_empty() => (changed(say, &chosen.changes), true),
        Ok((chosen, out)) => {
            let done = chosen.rung.place.as_ref().map_or(at, |(_, at)| *at);
            let below = (number(done), named(gym, ladder, done));
            let why = why(&out);
            let said = left_out(number(at), &why, Some((below.0, &below.1)));
            (changed(&said, &chosen.changes), false)
        }
        Err(out) => (left_out(number(at), &why(&out), None), false),
    }
}

fn changed(say: &str, changes: &[Change<'_>]) -> String {
    let (how, _) = change_words(changes);
    format!("{say} {how}").trim_end().to_string()
}
