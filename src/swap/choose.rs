//! Choose: which rung of a movement a person does, and how it is changed for them.
//! Never above the person's own rung, and never harder than what was asked unless they ask for it.

use super::Person;
use super::changes::Change;
use super::fits::{Fit, fit};
use super::rungs::{Compared, RungOf, compared, is_high, rungs_of};
use super::why::Why;
use crate::gym::Gym;
use crate::library::{Caution, LadderId, Movement};

/// A rung for a person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chosen<'g> {
    /// The rung.
    pub rung: RungOf,
    /// True when it is the lowest of its movement because nobody knows the person's own.
    pub start_here: bool,
    /// How it is changed; empty when it is fine as it stands.
    pub changes: Vec<Change<'g>>,
}

/// Why no rung of a movement is for a person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotThis {
    /// Every rung of it asks more than what was asked, or stands above the person's own.
    Harder,
    /// Limits, kit, room or noise.
    Out(Vec<Why>),
}

/// The rung of `to` for a person in place of `asked`: the highest they may be given that is fine,
/// else the highest that is fine when changed.
///
/// # Errors
/// Why none of its rungs is for them.
pub fn choose<'g>(
    gym: &'g Gym,
    asked: &RungOf,
    to: &Movement,
    person: &Person,
) -> Result<Chosen<'g>, NotThis> {
    let possible = within_reach(gym, asked, to, person);
    if possible.is_empty() {
        return Err(NotThis::Harder);
    }
    let mut changed = None;
    let mut out = None;
    for (rung, start_here) in possible {
        match fit(gym, person, &rung) {
            Fit::Fine => return Ok(Chosen { rung, start_here, changes: Vec::new() }),
            Fit::Changed(changes) if changed.is_none() => {
                changed = Some(Chosen { rung, start_here, changes });
            }
            Fit::Changed(_) => {}
            Fit::Out(why) => {
                out.get_or_insert(why);
            }
        }
    }
    changed.ok_or_else(|| NotThis::Out(out.unwrap_or_default()))
}

/// The rungs of `to` that a person may be given in place of `asked`, the highest first; with
/// whether each is a start because their own rung is not known. Where it is known on any of its
/// ladders, or on the ladder of what was asked, none is above it; elsewhere only the lowest is given,
/// none above the middle of its ladder, and whom nobody starts in the middle only what is the lowest
/// of a whole ladder.
pub fn within_reach(
    gym: &Gym,
    asked: &RungOf,
    to: &Movement,
    person: &Person,
) -> Vec<(RungOf, bool)> {
    let mut known = Vec::new();
    let mut start: Option<RungOf> = None;
    let rungs = rungs_of(gym, to);
    let is_known = rungs.iter().any(|rung| own_place(asked, rung, person).is_some());
    let low = starts_low(gym, person).is_some();
    for rung in rungs {
        if compared(gym, asked, &rung) == Compared::Harder && !person.harder {
            continue;
        }
        match own_place(asked, &rung, person) {
            None if rung.place.is_none() => known.push((rung, false)),
            None if is_known || is_high(gym, &rung) || low && place(&rung) > 0 => {}
            // Rungs come the lowest first.
            None => {
                start.get_or_insert(rung);
            }
            Some(own) if place(&rung) <= own || person.harder => known.push((rung, false)),
            Some(_) => {}
        }
    }
    known.reverse();
    known.extend(start.map(|rung| (rung, true)));
    known
}

/// The first of a person's situations, in the order of ids, of which nobody starts in the middle of a
/// ladder.
pub fn starts_low<'g>(gym: &'g Gym, person: &Person) -> Option<&'g Caution> {
    let mut known = person.situations.iter().filter_map(|id| gym.library.words.cautions.get(id));
    known.find(|caution| caution.start.is_some())
}

fn place(rung: &RungOf) -> usize {
    rung.place.as_ref().map_or(0, |(_, at)| *at)
}

/// Where the person stands on the ladder of a rung, as far as anybody knows.
fn own_place(asked: &RungOf, rung: &RungOf, person: &Person) -> Option<usize> {
    let (ladder, _) = rung.place.as_ref()?;
    let asked_here = |(asked, at): &(LadderId, usize)| (asked == ladder).then_some(*at);
    let asked = asked.place.as_ref().and_then(asked_here);
    person.rungs.get(ladder).copied().or(asked)
}

/// Why each of some rungs was left out, the highest first.
pub type LeftOut = Vec<Vec<Why>>;

/// A rung of a ladder for a person, from their own downward: on each rung fine, then changed; with
/// why each rung above it was left out.
///
/// # Errors
/// Why every rung was left out, the own rung first.
pub fn own_first<'g>(
    gym: &'g Gym,
    (ladder, own): (&LadderId, usize),
    person: &Person,
) -> Result<(Chosen<'g>, LeftOut), LeftOut> {
    let mut out = Vec::new();
    for rung in (0..=own).rev().filter_map(|at| RungOf::on(gym, ladder, at)) {
        match fit(gym, person, &rung) {
            Fit::Fine => {
                return Ok((Chosen { rung, start_here: false, changes: Vec::new() }, out));
            }
            Fit::Changed(changes) => return Ok((Chosen { rung, start_here: false, changes }, out)),
            Fit::Out(why) => out.push(why),
        }
    }
    Err(out)
}
