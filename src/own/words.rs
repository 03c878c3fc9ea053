//! Words: why a rung is not for a person, and what cautions say in general, to the person.
//! Never decides anything: the room `swap` does. `fits.js` says the same.

use super::member::Member;
use crate::gym::Gym;
use crate::library::{KitId, KitKind, KitNeed, Movement, Noise, TraitId};
use crate::swap::{Change, Fit, RungOf, Why, fit, kit_name, says_its_traits, trait_name};

/// Traits of a rung that the person leaves out, in the coach's order.
fn met<'g>(member: &Member, movement: &'g Movement, rung: &RungOf) -> Vec<&'g TraitId> {
    let traits = movement.traits_at(&rung.settings()).into_iter();
    let over = traits.filter(|(id, level)| {
        member.person.limits.get(&id.value).is_some_and(|from| level >= from)
    });
    over.map(|(id, _)| &id.value).collect()
}

/// Why a rung is left out: `you leave out kneeling; it needs straps or rings`.
pub(super) fn why(gym: &Gym, member: &Member, movement: &Movement, rung: &RungOf) -> String {
    let mut parts = Vec::new();
    let met = met(member, movement, rung);
    if !says_its_traits(gym, movement) && !member.person.limits.is_empty() {
        parts.push("it does not say what can hurt".to_string());
    } else if by_limits(gym, member, rung) {
        parts.push(format!("you leave out {}", names(gym, &met)));
    }
    let lacking: Vec<String> = lacking(gym, member, &movement.kit).map(|n| any(gym, n)).collect();
    if !lacking.is_empty() {
        parts.push(format!("it needs {}", lacking.join(", ")));
    }
    if movement.room.noise.unwrap_or(Noise::Quiet) > member.person.noise {
        parts.push("it is too loud".to_string());
    }
    parts.join("; ")
}

/// Whether limits leave a rung out; what a change would answer is no reason.
fn by_limits(gym: &Gym, member: &Member, rung: &RungOf) -> bool {
    let Fit::Out(why) = fit(gym, &member.person, rung) else { return false };
    why.iter().any(|why| matches!(why, Why::Limit(..)))
}

/// Why a rung is changed: `As it stands it has loaded wrist extension, which you leave out.`
pub(super) fn why_changed(
    gym: &Gym,
    member: &Member,
    (movement, rung): (&Movement, &RungOf),
) -> String {
    let met = met(member, movement, rung);
    format!("As it stands it has {}, which you leave out.", names(gym, &met))
}

fn names(gym: &Gym, traits: &[&TraitId]) -> String {
    traits.iter().map(|id| trait_name(gym, id)).collect::<Vec<_>>().join(", ")
}

fn lacking<'n>(
    gym: &Gym,
    member: &Member,
    needs: &'n [KitNeed],
) -> impl Iterator<Item = &'n KitNeed> {
    let kind = |id: &KitId| gym.library.words.kit.get(id).map(|item| item.kind);
    let hall = &gym.library.club.hall_kit;
    let has = move |id: &KitId| match &member.person.kit {
        _ if kind(id) == Some(KitKind::Anywhere) => true,
        Some(kit) => kit.contains(id),
        None if hall.is_empty() => kind(id) == Some(KitKind::Hall),
        None => hall.iter().any(|(owned, _)| owned.value == *id),
    };
    needs.iter().filter(move |need| !need.0.iter().any(|id| has(&id.value)))
}

fn any(gym: &Gym, need: &KitNeed) -> String {
    need.0.iter().map(|id| kit_name(gym, &id.value)).collect::<Vec<_>>().join(" or ")
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
        let sentence =
            format!("In general, and your coach decides: {}.", sentence.trim_end_matches('.'));
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
