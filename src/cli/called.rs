//! What people call an entry: its id or its name, in one word or several, quoted or not.
//! Never guesses: a near spelling is only suggested.

use super::say::Trouble;
use crate::finding::did_you_mean;

/// The words of a name as one, so that `push up` needs no quotes.
pub fn joined(words: &[String]) -> String {
    words.join(" ")
}

/// A name with letter case, hyphens and doubled blanks taken out of the comparison.
fn plain(name: &str) -> String {
    let name = name.to_lowercase().replace(['-', '_'], " ");
    name.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A name as an id: `Get-up, left` as `get-up-left`; nothing where no letter of it can stay.
pub fn as_id(name: &str) -> Option<String> {
    let plain = name.to_lowercase().replace(|c: char| !c.is_ascii_alphanumeric(), "-");
    let words: Vec<&str> = plain.split('-').filter(|word| !word.is_empty()).collect();
    // What a letter with an accent turns into is for the coach to say.
    (!words.is_empty() && name.is_ascii()).then(|| words.join("-"))
}

/// The entry that `word` calls by its id or its name. Each of `entries` has id, name and itself.
///
/// # Errors
/// A sentence and the near spelling, or all of the ids.
pub fn called<'e, T>(
    kind: &str,
    word: &str,
    entries: impl Iterator<Item = (&'e str, &'e str, T)>,
) -> Result<T, Trouble> {
    let asked = plain(word);
    let mut known = Vec::new();
    let mut by_name = None;
    for (id, name, entry) in entries {
        if plain(id) == asked {
            return Ok(entry);
        }
        if plain(name) == asked && by_name.is_none() {
            by_name = Some(entry);
        }
        known.push(id);
    }
    by_name.ok_or_else(|| {
        let all = match known.is_empty() {
            true => format!("the library has no {kind} yet"),
            false => format!("write one of {}", known.join(", ")),
        };
        let help = did_you_mean(word, known.iter().copied(), &all);
        Trouble::new(format!("there is no {kind} `{word}`"), help)
    })
}
