//! Words: what every page's script knows by id: traits, situations, changes and kit, one small file.
//! Never what one entry says: that stands with the entry, so that this does not grow with a library.

use super::needs::{ids_asked, kit_asked, levels_asked};
use crate::gym::Gym;
use crate::library::{Caution, TraitChange, TraitId};
use crate::search;
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

/// The own signs of a situation: what cannot wait, and what ends the session.
#[derive(Serialize)]
struct Signs<'g> {
    now: Vec<(&'g str, Vec<&'g str>)>,
    stop: Vec<&'g str>,
}

/// The own signs of every situation as a script.
pub fn signs_data(gym: &Gym) -> String {
    let cautions = gym.library.words.cautions.values();
    let said: BTreeMap<&str, Signs<'_>> = cautions.map(|c| (c.id.as_str(), signs(c))).collect();
    // Strings and lists of them always serialise.
    format!("window.rungbookSignWords={};\n", serde_json::to_string(&said).unwrap_or_default())
}

/// What search says first where a stop sign is typed, below the site's folder.
pub const STOP_FILE: &str = "data/stop.js";

#[derive(Serialize)]
struct Stop<'g> {
    /// The stop signs.
    signs: &'g [String],
    /// What people say of them, each as its plain words.
    said: Vec<Vec<String>>,
    /// Words of faults that are no slip in one of these.
    faults: Vec<String>,
}

/// The stop signs and what people say of them, as a script.
pub fn stop_data(gym: &Gym) -> String {
    let stop = Stop {
        signs: &gym.library.club.stop_signs,
        said: search::stop_words(gym),
        faults: search::fault_words_near(gym),
    };
    // Strings and lists of them always serialise.
    format!("window.rungbookStopWords={};\n", serde_json::to_string(&stop).unwrap_or_default())
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

/// What to do at once is said once for all signs that ask for it, in the order written.
fn signs(caution: &Caution) -> Signs<'_> {
    let mut now: Vec<(&str, Vec<&str>)> = Vec::new();
    for one in &caution.emergency {
        let act = one.act.trim_end_matches('.');
        match now.iter_mut().find(|(known, _)| *known == act) {
            Some((_, signs)) => signs.push(&one.sign),
            None => now.push((act, vec![&one.sign])),
        }
    }
    Signs { now, stop: caution.stop_besides() }
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
