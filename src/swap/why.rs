//! Why: the reasons for which a rung is not for a person, and their words.
//! Never decides anything; the filters do.

use super::Person;
use super::fits::{kit_name, trait_name};
use crate::gym::Gym;
use crate::library::{KitId, Noise, Quantity, TraitId};

/// Why a movement is not for a person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Why {
    /// It has a trait that they avoid, at this level.
    Limit(TraitId, u8),
    /// Its entry does not say what can hurt someone, and they have limits.
    Unsaid,
    /// It needs one of these and they have none of them.
    Kit(Vec<KitId>),
    /// It needs this much floor: length, width, where its entry says.
    Floor(Option<Quantity>, Option<Quantity>),
    /// It needs this much height.
    Height(Quantity),
    /// It is this loud.
    Noise(Noise),
}

/// All reasons in plain words, to the person or, of the person in front, to the coach: `you leave
/// out kneeling, balance demand; it needs straps or rings`. `fits.js` says the same.
pub fn why_words(gym: &Gym, person: &Person, why: &[Why]) -> String {
    let traits = why.iter().filter_map(|why| match why {
        Why::Limit(id, _) => Some(trait_name(gym, id)),
        _ => None,
    });
    let kit = why.iter().filter_map(|why| match why {
        Why::Kit(any) => {
            let names: Vec<String> = any.iter().map(|id| kit_name(gym, id)).collect();
            Some(if names.is_empty() { NOT_SO_HIGH.to_string() } else { names.join(" or ") })
        }
        _ => None,
    });
    let whoever = if person.front { "they" } else { "you" };
    let unsaid = why.contains(&Why::Unsaid).then(|| "it does not say what can hurt".to_string());
    let parts = [
        unsaid,
        after(&format!("{whoever} leave out"), traits.collect()),
        after("it needs", kit.collect()),
    ];
    let around = why.iter().filter_map(around);
    parts.into_iter().flatten().chain(around).collect::<Vec<_>>().join("; ")
}

/// Where nothing of an entry's list stands as high as the rung asks.
const NOT_SO_HIGH: &str = "something so high";

fn after(words: &str, names: Vec<String>) -> Option<String> {
    (!names.is_empty()).then(|| format!("{words} {}", names.join(", ")))
}

fn around(why: &Why) -> Option<String> {
    Some(match why {
        Why::Limit(..) | Why::Unsaid | Why::Kit(_) => return None,
        Why::Floor(length, width) => {
            let sides = [length, width];
            let sides: Vec<String> = sides.iter().flat_map(|s| s.map(|s| s.to_string())).collect();
            format!("it needs a clear floor of {}", sides.join(" by "))
        }
        Why::Height(height) => format!("it needs {height} up to the ceiling"),
        Why::Noise(_) => "it is too loud".to_string(),
    })
}
