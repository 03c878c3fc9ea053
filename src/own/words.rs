//! Words: why a rung is changed or left out, and what cautions say in general; to the member as you,
//! to the coach of the person in front as they.
//! Never decides anything: the room `swap` does. `fits.js` says the same.

use super::member::Member;
use crate::gym::Gym;
use crate::library::{Movement, TraitId};
use crate::swap::{self, Change, Fit, RungOf, fit, lowered, trait_name, why_words};

/// Traits of a rung that the person leaves out, in the coach's order.
fn met<'g>(member: &Member, movement: &'g Movement, rung: &RungOf) -> Vec<&'g TraitId> {
    let traits = movement.traits_at(&rung.settings()).into_iter();
    let over = traits.filter(|(id, level)| {
        member.person.limits.get(&id.value).is_some_and(|from| level >= from)
    });
    over.map(|(id, _)| &id.value).collect()
}

/// Words to the member, or to the coach of the person in front.
pub(super) fn told<'w>(member: &Member, member_words: &'w str, coach_words: &'w str) -> &'w str {
    if member.person.front { coach_words } else { member_words }
}

/// Where results, rungs and heights come from.
pub(super) fn book(member: &Member) -> &'static str {
    told(member, "My book", "the roster")
}

/// The situation for which the person starts low, as it stands inside a sentence.
pub(super) fn starts_low(gym: &Gym, member: &Member) -> Option<String> {
    swap::starts_low(gym, &member.person).map(|caution| lowered(&caution.name))
}

/// Why a rung is left out: `you leave out kneeling; it needs straps or rings`.
pub(super) fn why(gym: &Gym, member: &Member, rung: &RungOf) -> String {
    match fit(gym, &member.person, rung) {
        Fit::Out(why) => why_words(gym, &member.person, &why),
        Fit::Fine | Fit::Changed(_) => String::new(),
    }
}

/// Why a rung is changed: `As it stands it has loaded wrist extension, which you leave out.`
pub(super) fn why_changed(
    gym: &Gym,
    member: &Member,
    (movement, rung): (&Movement, &RungOf),
) -> String {
    let met = met(member, movement, rung);
    let you = told(member, "you", "they");
    format!("As it stands it has {}, which {you} leave out.", names(gym, &met))
}

fn names(gym: &Gym, traits: &[&TraitId]) -> String {
    traits.iter().map(|id| trait_name(gym, id)).collect::<Vec<_>>().join(", ")
}

/// What the cautions of a person's situations say in general of the traits that left a rung out.
/// The last resort: a coach decides, and no clock orders it.
pub(super) fn general(
    gym: &Gym,
    member: &Member,
    movement: &Movement,
    rung: &RungOf,
) -> Vec<String> {
    let met = met(member, movement, rung);
    let mut said: Vec<String> = Vec::new();
    for caution in &member.person.situations {
        let Some(caution) = gym.library.words.cautions.get(caution) else { continue };
        for id in &met {
            // Of several sentences on one trait the last stands, as in the file of words.
            let how = caution.change.iter().rev().filter(|change| change.about.value == **id);
            said.extend(how.filter_map(|change| change.how.clone()).take(1));
        }
    }
    let mut once = Vec::new();
    for sentence in said {
        let decides = told(member, "your coach decides", "you decide");
        let sentence = format!("In general, and {decides}: {}.", sentence.trim_end_matches('.'));
        if !once.contains(&sentence) {
            once.push(sentence);
        }
    }
    once
}

/// How something is changed, in sentences and in brief.
pub(super) fn change_words(changes: &[Change<'_>]) -> (String, String) {
    let how = changes.iter().map(|change| format!("{}.", change.how().trim_end_matches('.')));
    let brief = changes.iter().map(|change| change.name());
    (how.collect::<Vec<_>>().join(" "), brief.collect::<Vec<_>>().join(", "))
}
