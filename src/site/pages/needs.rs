//! What a movement asks for, in the form that the picker's script reads from the page.
//! Never decides whether a person fits; the swap room and the script do, by the same rule.

use crate::gym::Gym;
use crate::library::{KitKind, KitNeed, Movement, Noise};
use serde::Serialize;

/// Kit, traits and noise of a movement, as `data-` attributes and as words.
#[derive(Debug, Clone, Default, Serialize, PartialEq, Eq)]
pub struct Needs {
    /// Needs for kit separated by spaces, each a choice separated by `|`. A need that something
    /// everybody has can meet is left out.
    pub kit: String,
    /// Traits as `name:level`, separated by spaces.
    pub traits: String,
    /// `quiet`, `some` or `loud`.
    pub noise: &'static str,
    /// The kit in words: `straps`, or `kettlebell or dumbbell, bench`; `no kit`.
    pub kit_words: String,
}

impl Needs {
    /// The needs of a movement.
    pub fn of(gym: &Gym, movement: &Movement) -> Needs {
        let lacking: Vec<&KitNeed> =
            movement.kit.iter().filter(|need| !met_anywhere(gym, need)).collect();
        let kit =
            lacking.iter().map(|need| join(need, "|", |id| id.to_string())).collect::<Vec<_>>();
        let traits: Vec<String> =
            movement.traits.iter().map(|(id, level)| format!("{}:{level}", id.value)).collect();
        Needs {
            kit: kit.join(" "),
            traits: traits.join(" "),
            noise: movement.room.noise.unwrap_or(Noise::Quiet).word(),
            kit_words: kit_words(gym, &movement.kit),
        }
    }
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
