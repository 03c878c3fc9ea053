//! What a rung asks for, in the form that the picker's script reads from the page.
//! Never decides whether a person fits; the swap room and the script do, by the same rule.

use crate::gym::Gym;
use crate::library::{KitKind, KitNeed, Movement, Noise, Quantity, Rung};
use crate::swap;
use serde::Serialize;

/// What stands for the traits of an entry that does not say them: nobody with a limit passes it.
const UNSAID: &str = "unsaid:2";

/// Kit, traits, changes and noise of a rung, as `data-` attributes and as words.
#[derive(Debug, Clone, Default, Serialize, PartialEq, Eq)]
pub struct Needs {
    /// Needs for kit separated by spaces, each a choice separated by `|`. A need that something
    /// everybody has can meet is left out.
    pub kit: String,
    /// Traits as `name:level`, separated by spaces.
    pub traits: String,
    /// Changes by their names in the file of words, what is tried first in front.
    pub changes: String,
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
        let traits: Vec<String> = match movement.traits {
            Some(_) => traits.map(|(id, level)| format!("{}:{level}", id.value)).collect(),
            None => vec![UNSAID.to_string()],
        };
        let changes: Vec<String> =
            swap::changes_of(gym, movement).iter().map(swap::Change::key).collect();
        Needs {
            kit: kit_asked(gym, &movement.kit),
            traits: traits.join(" "),
            changes: changes.join(" "),
            noise: movement.room.noise.unwrap_or(Noise::Quiet).word(),
            kit_words: kit_words(gym, &movement.kit),
        }
    }

    /// The needs of a written rung.
    pub fn of_rung(gym: &Gym, movement: &Movement, rung: &Rung) -> Needs {
        let settings: Vec<(&str, Quantity)> =
            rung.settings.iter().map(|(name, value)| (name.as_str(), value.value)).collect();
        Needs::at(gym, movement, &settings)
    }
}

/// Kit as a `data-` attribute: needs separated by spaces, choices by `|`.
pub fn kit_asked(gym: &Gym, kit: &[KitNeed]) -> String {
    let lacking = kit.iter().filter(|need| !met_anywhere(gym, need));
    lacking.map(|need| join(need, "|", |id| id.to_string())).collect::<Vec<_>>().join(" ")
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
