//! What a rung asks for, in the form that the picker's script reads from the page.
//! Never decides whether a person fits; the swap room and the script do, by the same rule.

use crate::finding::Placed;
use crate::gym::Gym;
use crate::ladder::RungKey;
use crate::library::{KitKind, KitNeed, Movement, Noise, Quantity, Rung, SettingName, TraitId};
use crate::swap::{self, Change, RungOf};
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt::Display;

/// What stands for the traits of an entry that does not say them: nobody with a limit passes it.
const UNSAID: &str = "unsaid:2";

/// What stands for a need that nothing serves: nobody has it.
const NOTHING_SERVES: &str = "something-so-high";

/// Kit, traits, changes and noise of a rung, as `data-` attributes and as words.
#[derive(Debug, Clone, Default, Serialize, PartialEq, Eq)]
pub struct Needs {
    /// Needs for kit separated by spaces, each a choice separated by `|`. A need that something
    /// everybody has can meet is left out.
    pub kit: String,
    /// The same where somebody measured the height themselves; nothing where that is no other.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measured_kit: Option<String>,
    /// Traits as `name:level`, separated by spaces.
    pub traits: String,
    /// Changes by their ids in the file of words, what is tried first in front; with what the entry
    /// says in place of the general numbers behind it: `fists;brings=strong-grip:1;kit=handles`.
    pub changes: String,
    /// What the entry says to do, by the ids of changes, where it says it in its own words.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub how: BTreeMap<String, String>,
    /// `quiet`, `some` or `loud`.
    pub noise: &'static str,
    /// The kit in words: `straps`, or `kettlebell or dumbbell, bench`; `no kit`.
    pub kit_words: String,
}

impl Needs {
    /// The needs of a movement at its usual settings.
    pub fn of(gym: &Gym, movement: &Movement) -> Needs {
        Needs::at(gym, movement, &[])
    }

    /// The needs of a movement with some settings given and the others as usual.
    pub fn at(gym: &Gym, movement: &Movement, settings: &[(&str, Quantity)]) -> Needs {
        let traits = movement.traits_at(settings).into_iter();
        let traits: Vec<String> = match swap::says_its_traits(gym, movement) {
            true => traits.map(|(id, level)| format!("{}:{level}", id.value)).collect(),
            false => vec![UNSAID.to_string()],
        };
        let allowed = swap::changes_of(gym, movement);
        let changes: Vec<String> = allowed.iter().map(|change| change_asked(gym, change)).collect();
        let (key, place) = (rung_key(movement, settings), None);
        let needs = swap::needs_at(movement, &RungOf { key, place, measured: false });
        let (kit, measured) = (kit_asked(gym, &needs), kit_asked(gym, &movement.kit));
        let own =
            |change: &Change<'_>| Some((change.id().to_string(), change.own_how()?.to_string()));
        Needs {
            measured_kit: (measured != kit).then_some(measured),
            kit,
            traits: traits.join(" "),
            changes: changes.join(" "),
            how: allowed.iter().filter_map(own).collect(),
            noise: movement.room.noise.unwrap_or(Noise::Quiet).word(),
            kit_words: kit_words(gym, &needs),
        }
    }

    /// The entry's own words for its changes as JSON; nothing where it has none.
    pub fn how_as_json(&self) -> Option<String> {
        // A map of strings always serialises.
        (!self.how.is_empty()).then(|| serde_json::to_string(&self.how).unwrap_or_default())
    }

    /// The needs of a written rung.
    pub fn of_rung(gym: &Gym, movement: &Movement, rung: &Rung) -> Needs {
        let settings: Vec<(&str, Quantity)> =
            rung.settings.iter().map(|(name, value)| (name.as_str(), value.value)).collect();
        Needs::at(gym, movement, &settings)
    }
}

fn rung_key(movement: &Movement, settings: &[(&str, Quantity)]) -> RungKey {
    let settings = settings.iter().map(|(name, value)| (SettingName::from(*name), *value));
    RungKey { movement: movement.id.clone(), settings: settings.collect() }
}

/// A change as an entry allows it: its id, and what the entry says in place of the general numbers.
fn change_asked(gym: &Gym, change: &Change<'_>) -> String {
    let mut asked = change.id().to_string();
    if change.lessens_otherwise() {
        let leaves = levels_asked(change.leaves(), ",");
        asked += &format!(";leaves={leaves};eases={}", ids_asked(change.eases(), ","));
    }
    if change.brings_otherwise() {
        asked += &format!(";brings={}", levels_asked(change.brings(), ","));
    }
    if change.takes_otherwise() {
        asked += &format!(";takes={}", ids_asked(change.takes(), ","));
    }
    if change.needs_otherwise() {
        asked += &format!(";kit={}", kit_asked(gym, change.kit()).replace(' ', ","));
    }
    asked
}

/// Levels of traits: `name:level`, separated by `by`.
pub fn levels_asked(list: &[(Placed<TraitId>, u8)], by: &str) -> String {
    let list: Vec<String> =
        list.iter().map(|(id, level)| format!("{}:{level}", id.value)).collect();
    list.join(by)
}

/// Ids separated by `by`.
pub fn ids_asked<T: Display>(list: &[Placed<T>], by: &str) -> String {
    list.iter().map(|id| id.value.to_string()).collect::<Vec<_>>().join(by)
}

/// Kit as a `data-` attribute: needs separated by spaces, choices by `|`.
pub fn kit_asked(gym: &Gym, kit: &[KitNeed]) -> String {
    let lacking = kit.iter().filter(|need| !met_anywhere(gym, need));
    let choices = lacking.map(|need| match need.0.is_empty() {
        true => NOTHING_SERVES.to_string(),
        false => join(need, "|", |id| id.to_string()),
    });
    choices.collect::<Vec<_>>().join(" ")
}

fn met_anywhere(gym: &Gym, need: &KitNeed) -> bool {
    let kit = &gym.library.words.kit;
    need.0.iter().any(|id| kit.get(&id.value).is_some_and(|item| item.kind == KitKind::Anywhere))
}

fn join(need: &KitNeed, by: &str, word: impl Fn(&crate::library::KitId) -> String) -> String {
    need.0.iter().map(|id| word(&id.value)).collect::<Vec<_>>().join(by)
}

/// Kit in a coach's words.
pub fn kit_words(gym: &Gym, kit: &[KitNeed]) -> String {
    if kit.is_empty() {
        return "no kit".to_string();
    }
    let name = |id: &crate::library::KitId| {
        let item = gym.library.words.kit.get(id);
        item.map_or_else(|| id.to_string(), |item| item.name.to_lowercase())
    };
    let words: Vec<String> = kit.iter().map(|need| join(need, " or ", name)).collect();
    words.join(", ")
}
