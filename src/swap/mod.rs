//! Swaps: another rung that does the same work, with the reason it was chosen.
//! Never loosens a filter: with nothing left the answer is to ask the coach.
//!
//! Limits, kit, room and noise filter first; only then does a score order what is left. The list
//! of candidates and its order depend on the two movements alone, never on the person: a person
//! only takes candidates away. So a page may print the whole list, and a script that hides what
//! does not fit gives the same answer as the command.

mod ask;
mod asked;
mod dose;
mod facts;
mod fits;
mod links;
mod person;
mod reason;
mod say;
mod score;
pub mod weights;

pub use asked::{kit_from, limits_from, movement_called};
pub use dose::{ConvertedDose, converted_dose, sets_that_fit};
pub use facts::{Through, UnsaidTraits, kit_free_dead_ends, unsaid_traits};
pub use fits::{Why, allows};
pub use links::OnLadder;
pub use person::{Person, Space};
pub use say::as_text;
pub use score::Score;

use crate::finding::Placed;
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
    /// Traits that the first did not have, or had less of, and how much of each.
    pub brings: Vec<(TraitId, u8)>,
    /// The same in plain words, `Brings in: kneeling`; nothing when it brings nothing in.
    pub brings_in: Option<String>,
    /// Where it stands on a ladder that holds both.
    pub on_ladder: Option<OnLadder>,
}

/// A candidate for one person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Swap {
    /// The candidate.
    pub candidate: Candidate,
    /// What of the person's kit it uses: one thing for each of its needs.
    pub with: Vec<KitId>,
    /// How much of it to do, where a dose was given.
    pub dose: Option<ConvertedDose>,
}

/// What a person is told.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// The swaps that fit, best first; at least one.
    Swaps(Vec<Swap>),
    /// Nothing fits.
    AskYourCoach {
        /// Why, in plain words: which filter took the last ones out.
        why: String,
    },
}

/// The movements that do like work, best first, at most [`weights::MOST`] of them; ties in the order
/// of ids. No person is asked
/// about. An unknown movement has no candidates.
pub fn ranked(gym: &Gym, from: &MovementId) -> Vec<Candidate> {
    let Some(from) = gym.library.movements.get(from) else { return Vec::new() };
    let first = FirstChoice::of(gym, from);
    let mut scored: Vec<(&Movement, Score)> = alike(&first).collect();
    scored.sort_by(|(a, a_score), (b, b_score)| {
        b_score.total.cmp(&a_score.total).then_with(|| a.id.cmp(&b.id))
    });
    scored.truncate(weights::MOST);
    scored.into_iter().map(|(to, score)| candidate(&first, to, score)).collect()
}

/// Every other movement that does the same work, in the order of ids.
fn alike<'f>(first: &'f FirstChoice<'_>) -> impl Iterator<Item = (&'f Movement, Score)> {
    let others = first.gym.library.movements.values().filter(|to| to.id != first.movement.id);
    others.filter_map(|to| Score::of(first, to).map(|score| (to, score)))
}

fn candidate(first: &FirstChoice<'_>, to: &Movement, score: Score) -> Candidate {
    let brings = brings(first.movement, to);
    Candidate {
        to: to.id.clone(),
        score,
        reason: reason::reason(first, to),
        brings_in: reason::brings_in(first, &brings),
        brings,
        on_ladder: first.on_ladder(&to.id).cloned(),
    }
}

/// Traits that `to` has more of than `from`.
fn brings(from: &Movement, to: &Movement) -> Vec<(TraitId, u8)> {
    let more = |(id, level): &(Placed<TraitId>, u8)| {
        (*level > from.trait_level(&id.value)).then(|| (id.value.clone(), *level))
    };
    to.traits.iter().filter_map(more).collect()
}

/// What `person` may do in place of `from`, best first, with `dose` of it converted.
pub fn swaps(gym: &Gym, from: &MovementId, person: &Person, dose: Option<&Dose>) -> Answer {
    let movements = &gym.library.movements;
    let Some(first) = movements.get(from) else {
        let why = movement_called(gym, from.as_str()).err().unwrap_or_default();
        return Answer::AskYourCoach { why: reason::raised(&why) };
    };
    let mut left = Vec::new();
    let mut out = Vec::new();
    for candidate in ranked(gym, from) {
        let Some(to) = movements.get(&candidate.to) else { continue };
        if let Err(why) = allows(gym, person, to) {
            out.push(why);
            continue;
        }
        let with = to.kit.iter().filter_map(|need| fits::kit_for(gym, person, need).cloned());
        let dose = dose.map(|dose| converted_dose(first, to, dose, person.window));
        left.push(Swap { candidate, with: with.collect(), dose });
    }
    if left.is_empty() {
        return Answer::AskYourCoach { why: ask::why(gym, &out) };
    }
    Answer::Swaps(left)
}
