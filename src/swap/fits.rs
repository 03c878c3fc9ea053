//! Fits: the three answers for a person and a rung: fine, changed like this, or left out, by limits,
//! kit, room and noise.
//! Never a score and never an order, and no answer has a trait above what the person may have.

use super::changes::{Change, Levels, changes_of, enough, over};
use super::rungs::RungOf;
use super::serving::needs_at;
use super::{Person, Space, Why};
use crate::gym::Gym;
use crate::library::{KitId, KitKind, KitNeed, Movement, Noise, Quantity, TraitId, TraitOf};

/// Household kit that is never suggested until a person says that they have it and trust it:
/// falls from door-frame bars are reported.
pub const OFF_UNTIL_SAID: [&str; 1] = ["doorframe-bar"];

/// The answer for a person and a rung.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fit<'g> {
    /// As it stands.
    Fine,
    /// When it is changed like this: what remains is below every limit of the person.
    Changed(Vec<Change<'g>>),
    /// Not for this person: every reason why not, limits first, then kit, room and noise.
    Out(Vec<Why>),
}

impl Fit<'_> {
    /// Whether it may be done, as it stands or changed.
    pub fn is_in(&self) -> bool {
        !matches!(self, Fit::Out(_))
    }
}

/// The answer for `person` and a rung: one function for every page, clock, print and command.
pub fn fit<'g>(gym: &'g Gym, person: &Person, rung: &RungOf) -> Fit<'g> {
    let Some(movement) = gym.library.movements.get(&rung.key.movement) else {
        return Fit::Out(Vec::new());
    };
    let around = not_there(gym, person, (movement, rung));
    let traits = traits_of(movement, rung);
    if !says_its_traits(gym, movement) && !person.limits.is_empty() {
        return Fit::Out([vec![Why::Unsaid], around].concat());
    }
    if !over(&traits, &person.limits) {
        return if around.is_empty() { Fit::Fine } else { Fit::Out(around) };
    }
    match enough(&traits, &possible(gym, person, movement), &person.limits) {
        Some(made) if around.is_empty() => Fit::Changed(made),
        // What a change would answer is no reason: what lacks around the person is.
        Some(_) => Fit::Out(around),
        None => Fit::Out(limits_met(person, movement, rung).chain(around).collect()),
    }
}

/// Whether an entry says what can hurt someone: written, read, and every trait of it known. A slip
/// in a trait's name or level may hide the very one that somebody leaves out.
pub fn says_its_traits(gym: &Gym, movement: &Movement) -> bool {
    let known = &gym.library.words.traits;
    let all_known =
        |traits: &Vec<TraitOf>| traits.iter().all(|of| known.contains_key(&of.id.value));
    !movement.traits_unread && movement.traits.as_ref().is_some_and(all_known)
}

/// The traits of a rung and their levels.
pub fn traits_of<'g>(movement: &'g Movement, rung: &RungOf) -> Levels<'g> {
    let traits = movement.traits_at(&rung.settings());
    traits.into_iter().map(|(id, level)| (&id.value, level)).collect()
}

/// Changes for which the person has the kit.
fn possible<'g>(gym: &'g Gym, person: &Person, movement: &'g Movement) -> Vec<Change<'g>> {
    let mut changes = changes_of(gym, movement);
    changes.retain(|change| change.kit().iter().all(|need| kit_for(gym, person, need).is_some()));
    changes
}

/// What is lacking around the person: kit, room, quiet.
fn not_there(gym: &Gym, person: &Person, (movement, rung): (&Movement, &RungOf)) -> Vec<Why> {
    let needs = needs_at(movement, rung);
    let lacking = needs.iter().filter(|need| kit_for(gym, person, need).is_none());
    let mut why: Vec<Why> =
        lacking.map(|need| Why::Kit(need.0.iter().map(|id| id.value.clone()).collect())).collect();
    if let Some(space) = &person.room {
        why.extend(too_small(space, movement));
    }
    // An entry that says nothing about noise is a quiet one, as on its page.
    let noise = movement.room.noise.unwrap_or(Noise::Quiet);
    if noise > person.noise {
        why.push(Why::Noise(noise));
    }
    why
}

/// The first thing that meets a need for kit and that the person has.
pub fn kit_for<'m>(gym: &Gym, person: &Person, need: &'m KitNeed) -> Option<&'m KitId> {
    need.0.iter().map(|id| &id.value).find(|id| has(gym, person, id))
}

/// Whether a piece of kit is at hand. A club that lists no hall kit has all kit of kind `hall`.
fn has(gym: &Gym, person: &Person, id: &KitId) -> bool {
    let kind = gym.library.words.kit.get(id).map(|item| item.kind);
    let hall = &gym.library.club.hall_kit;
    match &person.kit {
        _ if kind == Some(KitKind::Anywhere) => true,
        Some(kit) => kit.contains(id),
        None if hall.is_empty() => kind == Some(KitKind::Hall),
        None => hall.iter().any(|(owned, _)| owned.value == *id),
    }
}

/// The limits that a rung meets, in the coach's order of its traits.
fn limits_met<'a>(
    person: &'a Person,
    movement: &'a Movement,
    rung: &RungOf,
) -> impl Iterator<Item = Why> + 'a {
    movement.traits_at(&rung.settings()).into_iter().filter_map(|(id, level)| {
        let from = person.limits.get(&id.value)?;
        (level >= *from).then(|| Why::Limit(id.value.clone(), level))
    })
}

/// A movement may be turned round to fit the floor.
fn too_small(space: &Space, movement: &Movement) -> Vec<Why> {
    let room = &movement.room;
    let side = |side: Option<Quantity>| side.map_or(0, |side| side.micro);
    let (length, width) = (side(room.length), side(room.width));
    let (long, short) =
        (space.length.micro.max(space.width.micro), space.length.micro.min(space.width.micro));
    let mut why = Vec::new();
    if length.max(width) > long || length.min(width) > short {
        why.push(Why::Floor(room.length, room.width));
    }
    match (room.height, space.height) {
        (Some(asks), Some(there_is)) if asks > there_is => why.push(Why::Height(asks)),
        _ => {}
    }
    why
}

/// A trait's name as it stands inside a sentence.
pub fn trait_name(gym: &Gym, id: &TraitId) -> String {
    let named = gym.library.words.traits.get(id);
    named.map_or_else(|| id.as_str().replace('-', " "), |named| lowered(&named.name))
}

/// A piece of kit's name as it stands inside a sentence.
pub fn kit_name(gym: &Gym, id: &KitId) -> String {
    let named = gym.library.words.kit.get(id);
    named.map_or_else(|| id.as_str().replace('-', " "), |named| lowered(&named.name))
}

/// The text as it stands inside a sentence: its first letter small, if it is one of A to Z and does
/// not begin letters that stand for words.
pub fn lowered(text: &str) -> String {
    let mut text = text.to_string();
    if text.chars().nth(1).is_some_and(char::is_uppercase) {
        return text;
    }
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_lowercase();
    }
    text
}
