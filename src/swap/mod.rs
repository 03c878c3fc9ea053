//! Swaps: another rung that does the same work, with the reason it was chosen.
//! Never loosens a filter: with nothing left the answer is to ask the coach.
//!
//! Limits, kit, room and noise filter first; only then does a score order what is left. The list
//! of candidates and its order depend on the two movements alone, never on the person: a person
//! only takes candidates away. So a page may print the whole list, and a script that hides what
//! does not fit gives the same answer as the command.

mod ask;
mod asked;
mod brought;
mod changes;
mod choose;
pub mod cover;
mod dose;
mod effort;
mod facts;
mod fits;
mod links;
mod person;
mod reason;
mod rungs;
mod say;
mod score;
mod serving;
pub mod weights;
mod why;

pub use asked::{Limits, kit_from, limits_from, limits_of_situation, movement_called};
pub use brought::{brings_in, brought};
pub use changes::{Change, Levels, changes_of, over, remaining, taken};
pub use choose::{Chosen, NotThis, choose, own_first, starts_low, within_reach};
pub use dose::{ConvertedDose, converted_dose, sets_that_fit};
pub use facts::{Through, UnsaidTraits, kit_free_dead_ends, unsaid_traits};
pub use fits::{
    Fit, OFF_UNTIL_SAID, fit, kit_for, kit_name, lowered, says_its_traits, trait_name, traits_of,
};
pub use links::OnLadder;
pub use person::{Person, Space};
pub use rungs::{Compared, RungOf, asked_rung, compared, is_high, rungs_of};
pub use say::{as_text, itself_as_text, start_here};
pub use score::Score;
pub use serving::needs_at;
pub use why::{Why, why_words};

use crate::gym::Gym;
use crate::library::{Dose, KitId, Movement, MovementId, TraitId};
use links::FirstChoice;

/// A movement that does the same work as another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Candidate {
    /// The movement.
    pub to: MovementId,
    /// How alike the work is, every part visible.
    pub score: Score,
    /// Why, in one plain sentence.
    pub reason: String,
    /// Where it stands on a ladder that holds both.
    pub on_ladder: Option<OnLadder>,
}

/// A candidate for one person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Swap<'g> {
    /// The candidate.
    pub candidate: Candidate,
    /// The rung of it: the person's own or lower, never above the one that is swapped unasked.
    pub rung: RungOf,
    /// True when nobody knows the person's rung on its ladder: this is its lowest, to start with.
    pub start_here: bool,
    /// How it is changed for the person; empty when it is fine as it stands.
    pub changes: Vec<Change<'g>>,
    /// Traits that the asked rung did not have, or had less of, and how much of each: as it is done,
    /// after its changes.
    pub brings: Vec<(TraitId, u8)>,
    /// The same in plain words, `Brings in: kneeling`; nothing when it brings nothing in.
    pub brings_in: Option<String>,
    /// What of the person's kit it uses: one thing for each of its needs.
    pub with: Vec<KitId>,
    /// How much of it to do, where a dose was given.
    pub dose: Option<ConvertedDose>,
}

/// What a person is told.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer<'g> {
    /// The swaps that fit, best first, those that are fine before those that are changed; at least
    /// one.
    Swaps(Vec<Swap<'g>>),
    /// Nothing fits.
    AskYourCoach {
        /// Why, in plain words: which filter took the last ones out.
        why: String,
    },
}

/// The movements that do like work, best first, at most [`weights::MOST`] of them besides those that
/// the coach has linked; ties in the order of names. No person is asked about. An unknown movement
/// has no candidates.
pub fn ranked(gym: &Gym, from: &MovementId) -> Vec<Candidate> {
    let Some(from) = gym.library.movements.get(from) else { return Vec::new() };
    let first = FirstChoice::of(gym, from);
    let mut scored: Vec<(&Movement, Score)> = alike(&first, &|_| true).collect();
    scored.sort_by(|(a, a_score), (b, b_score)| {
        let named = || (&a.name.value, &a.id).cmp(&(&b.name.value, &b.id));
        b_score.total.cmp(&a_score.total).then_with(named)
    });
    let mut place = 0..;
    scored.retain(|(to, _)| {
        place.next().is_some_and(|at| at < weights::MOST) || first.said(&to.id).is_some()
    });
    scored.into_iter().map(|(to, score)| candidate(&first, to, score)).collect()
}

/// Every other movement among the `wanted` that does the same work, in the order of ids.
fn alike<'f>(
    first: &'f FirstChoice<'_>,
    wanted: &'f dyn Fn(&MovementId) -> bool,
) -> impl Iterator<Item = (&'f Movement, Score)> {
    let others = first.candidates(weights::PATTERN_FLOOR).into_iter().filter(|id| wanted(id));
    let others = others.filter_map(|to| first.gym.library.movements.get(to));
    others.filter_map(|to| Score::of(first, to).map(|score| (to, score)))
}

fn candidate(first: &FirstChoice<'_>, to: &Movement, score: Score) -> Candidate {
    Candidate {
        to: to.id.clone(),
        score,
        reason: reason::reason(first, to),
        on_ladder: first.on_ladder(&to.id).cloned(),
    }
}

/// What `person` may do in place of a rung, best first, with `dose` of it converted.
pub fn swaps<'g>(gym: &'g Gym, asked: &RungOf, person: &Person, dose: Option<&Dose>) -> Answer<'g> {
    let Some(first) = gym.library.movements.get(&asked.key.movement) else {
        let why = movement_called(gym, asked.key.movement.as_str()).err().unwrap_or_default();
        return Answer::AskYourCoach { why: reason::raised(&why) };
    };
    let (mut fine, mut changed, mut out) = (Vec::new(), Vec::new(), Out::default());
    for candidate in ranked(gym, &first.id) {
        let Some(to) = gym.library.movements.get(&candidate.to) else { continue };
        match choose(gym, asked, to, person) {
            Ok(chosen) => {
                let list = if chosen.changes.is_empty() { &mut fine } else { &mut changed };
                list.push(swap(gym, (asked, candidate), chosen, (person, dose)));
            }
            Err(NotThis::Harder) => out.harder.push(to.name.value.clone()),
            Err(NotThis::Out(why)) => out.whys.push(why),
        }
    }
    fine.extend(changed);
    if fine.is_empty() {
        return Answer::AskYourCoach { why: ask::why(gym, &out.whys, &out.harder) };
    }
    Answer::Swaps(fine)
}

/// Candidates that are not for the person: why, and the names of those that ask more.
#[derive(Default)]
struct Out {
    whys: Vec<Vec<Why>>,
    harder: Vec<String>,
}

fn swap<'g>(
    gym: &'g Gym,
    (asked, candidate): (&RungOf, Candidate),
    chosen: Chosen<'g>,
    (person, dose): (&Person, Option<&Dose>),
) -> Swap<'g> {
    let Chosen { rung, start_here, changes } = chosen;
    let movements = &gym.library.movements;
    let both = movements.get(&asked.key.movement).zip(movements.get(&candidate.to));
    let needs = both.map_or(Vec::new(), |(_, to)| needs_at(to, &rung));
    let needs = needs.iter().chain(changes.iter().flat_map(|change| change.kit()));
    let with = needs.filter_map(|need| fits::kit_for(gym, person, need).cloned()).collect();
    let converted = |(first, to)| Some(converted_dose(first, to, dose?, person.window));
    let brings = brought(gym, asked, (&rung, &changes));
    Swap {
        brings_in: brings_in(gym, asked, &brings),
        brings,
        with,
        dose: both.and_then(converted),
        candidate,
        rung,
        start_here,
        changes,
    }
}
