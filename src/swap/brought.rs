//! Brought: what a swap has that the rung it stands for had not, as it is done: after its changes.
//! Never what a movement has in general: a change may take that out, or bring something else in.

use super::changes::{Change, Levels, remaining};
use super::fits::{says_its_traits, trait_name, traits_of};
use super::rungs::RungOf;
use crate::gym::Gym;
use crate::library::TraitId;

/// Traits that `to`, changed, has and `asked` has not, or has less of, and how much of each; what the
/// changes bring last. Nothing where its entry does not say its traits. `fits.js` says the same.
pub fn brought(
    gym: &Gym,
    asked: &RungOf,
    (to, changes): (&RungOf, &[Change<'_>]),
) -> Vec<(TraitId, u8)> {
    let movements = &gym.library.movements;
    let known = movements.get(&to.key.movement).filter(|movement| says_its_traits(gym, movement));
    let Some(movement) = known else { return Vec::new() };
    let before = traits_before(gym, asked);
    let left = remaining(&traits_of(movement, to), changes);
    let own = movement.traits_at(&to.settings()).into_iter().map(|(id, _)| &id.value);
    let mut ids: Vec<&TraitId> = own.collect();
    for (id, _) in changes.iter().flat_map(|change| change.brings()) {
        if !ids.contains(&&id.value) {
            ids.push(&id.value);
        }
    }
    let had = |id: &TraitId| before.get(id).copied().unwrap_or(0);
    let more = ids.into_iter().filter_map(|id| Some((id.clone(), *left.get(id)?)));
    more.filter(|(id, level)| *level > had(id)).collect()
}

/// The same in plain words: `Brings in: kneeling, balance demand (more)`. Nothing when it brings
/// nothing in.
pub fn brings_in(gym: &Gym, asked: &RungOf, brought: &[(TraitId, u8)]) -> Option<String> {
    let before = traits_before(gym, asked);
    let name = |(id, _): &(TraitId, u8)| match before.contains_key(id) {
        false => trait_name(gym, id),
        true => format!("{} (more)", trait_name(gym, id)),
    };
    let names: Vec<String> = brought.iter().map(name).collect();
    (!names.is_empty()).then(|| format!("Brings in: {}", names.join(", ")))
}

fn traits_before<'g>(gym: &'g Gym, asked: &RungOf) -> Levels<'g> {
    let known = gym.library.movements.get(&asked.key.movement);
    let known = known.filter(|movement| says_its_traits(gym, movement));
    known.map(|movement| traits_of(movement, asked)).unwrap_or_default()
}
