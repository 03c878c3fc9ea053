//! Words: what every page's script knows by id: traits, situations, changes and kit, one small file.
//! Never what one entry says: that stands with the entry, so that this does not grow with a library.

use super::needs::{ids_asked, kit_asked, levels_asked};
use crate::gym::Gym;
use crate::library::{Caution, TraitChange, TraitId};
use crate::swap;
use serde::Serialize;
use std::collections::BTreeMap;

/// Where the words stand below the site's folder.
pub const WORDS_FILE: &str = "data/words.js";

#[derive(Serialize)]
struct Words<'g> {
    traits: BTreeMap<&'g str, TraitWords<'g>>,
    situations: BTreeMap<&'g str, SituationWords<'g>>,
    changes: BTreeMap<&'g str, ChangeWords<'g>>,
    kit: BTreeMap<&'g str, String>,
}

#[derive(Serialize)]
struct TraitWords<'g> {
    /// Inside a sentence: `lying on the back`.
    name: String,
    /// The few words that a coach taps.
    avoid: &'g str,
}

/// A situation: what it leaves out from which level, and the caution's own general sentences.
#[derive(Serialize)]
struct SituationWords<'g> {
    name: &'g str,
    asks: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    start: Option<&'static str>,
    how: BTreeMap<&'g str, &'g str>,
}

#[derive(Serialize)]
struct ChangeWords<'g> {
    id: &'g str,
    name: &'g str,
    how: &'g str,
    part: &'g str,
    leaves: String,
    eases: String,
    brings: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    takes: String,
    kit: String,
    with: String,
}

/// The words as a script.
pub fn words_data(gym: &Gym) -> String {
    let words = &gym.library.words;
    let data = Words {
        traits: words.traits.keys().map(|id| (id.as_str(), trait_words(gym, id))).collect(),
        situations: words.cautions.values().map(|c| (c.id.as_str(), situation(c))).collect(),
        changes: words.changes.values().map(|c| (c.id.as_str(), change_words(gym, c))).collect(),
        kit: words.kit.keys().map(|id| (id.as_str(), swap::kit_name(gym, id))).collect(),
    };
    // Strings and maps of them always serialise.
    format!("window.rungbookWords={};\n", serde_json::to_string(&data).unwrap_or_default())
}

/// Where the signs of situations stand below the site's folder; brought for who has one.
pub const SIGNS_FILE: &str = "data/signs.js";

/// The own signs of every situation as a script.
pub fn signs_data(gym: &Gym) -> String {
    let cautions = gym.library.words.cautions.values();
    let said: BTreeMap<&str, String> = cautions.map(|c| (c.id.as_str(), signs(c))).collect();
    // Strings and maps of them always serialise.
    format!("window.rungbookSignWords={};\n", serde_json::to_string(&said).unwrap_or_default())
}

fn trait_words<'g>(gym: &'g Gym, id: &TraitId) -> TraitWords<'g> {
    let known = gym.library.words.traits.get(id);
    let avoid = known.and_then(|known| known.avoid.as_deref().or(Some(&known.name)));
    TraitWords { name: swap::trait_name(gym, id), avoid: avoid.unwrap_or_default() }
}

fn situation(caution: &Caution) -> SituationWords<'_> {
    let limits = swap::limits_of_situation(caution).levels;
    let asks: Vec<String> = limits.iter().map(|(id, from)| format!("{id}:{from}")).collect();
    let how = caution.change.iter();
    let how = how.filter_map(|p| Some((p.about.value.as_str(), p.how.as_deref()?))).collect();
    let start = caution.start.as_ref().map(|_| "lowest");
    SituationWords { name: &caution.name, asks: asks.join(" "), start, how }
}

/// `Ring the emergency number now: heavy bleeding. End the session at: a near fall.` What to do at a
/// sign stands before it, and once for all signs that ask for it.
fn signs(caution: &Caution) -> String {
    let mut acts: Vec<(&str, Vec<&str>)> = Vec::new();
    let urgent = caution.emergency.iter().map(|one| (one.act.as_str(), one.sign.as_str()));
    let stop = caution.stop.iter().map(|sign| ("End the session at", sign.as_str()));
    for (act, sign) in urgent.chain(stop) {
        match acts.iter_mut().find(|(known, _)| *known == act) {
            Some((_, signs)) => signs.push(sign),
            None => acts.push((act, vec![sign])),
        }
    }
    let said = |(act, signs): &(&str, Vec<&str>)| {
        format!("{}: {}.", act.trim_end_matches('.'), signs.join("; "))
    };
    acts.iter().map(said).collect::<Vec<_>>().join(" ")
}

fn change_words<'g>(gym: &Gym, change: &'g TraitChange) -> ChangeWords<'g> {
    let with: Vec<&str> = change.with.iter().map(|id| id.as_str()).collect();
    ChangeWords {
        id: change.id.as_str(),
        name: &change.name,
        how: change.how.as_deref().unwrap_or(&change.name),
        part: change.part.as_ref().map_or(change.id.as_str(), |part| &part.value),
        leaves: levels_asked(&change.leaves, " "),
        eases: ids_asked(&change.eases, " "),
        brings: levels_asked(&change.brings, " "),
        takes: ids_asked(&change.takes, " "),
        kit: kit_asked(gym, &change.kit),
        with: with.join(" "),
    }
}
