//! A second, independent reading of the files: the front matter as plain YAML values, and every rule
//! of the three answers written again from the words of the format.

use super::starter::folder;
use rungbook::library::{KitId, TraitId};
use rungbook::swap::{Person, RungOf};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

/// Front matter of every movement, the kit and change words and the hall kit, as plain values.
pub struct Plain {
    pub movements: BTreeMap<String, Value>,
    kit: Value,
    changes: Value,
    hall: BTreeSet<String>,
}

pub fn plain() -> &'static Plain {
    static PLAIN: OnceLock<Plain> = OnceLock::new();
    PLAIN.get_or_init(|| {
        let yaml = |text: &str| serde_yaml::from_str::<Value>(text).expect("good YAML");
        let read = |name: &str| std::fs::read_to_string(folder().join(name)).unwrap_or_default();
        let mut movements = BTreeMap::new();
        for entry in walkdir::WalkDir::new(folder().join("movements")) {
            let path = entry.expect("a readable folder").into_path();
            if path.extension().is_some_and(|ext| ext == "md") {
                let text = std::fs::read_to_string(&path).expect("a readable entry");
                let front = text.split("---\n").nth(1).expect("front matter");
                let id = path.file_stem().expect("a name").to_string_lossy().into_owned();
                movements.insert(id, yaml(front));
            }
        }
        let club = yaml(&read("club.yaml"));
        let hall = club["hall"]["kit"].as_object().expect("hall kit").keys().cloned().collect();
        let (kit, changes) = (yaml(&read("words/kit.yaml")), yaml(&read("words/changes.yaml")));
        Plain { movements, kit, changes, hall }
    })
}

/// `75 cm` as 75; every starter entry writes its settings in their own unit.
fn number(text: &str) -> f64 {
    let digits = text.trim().split(' ').next().unwrap_or_default();
    digits.parse().unwrap_or_else(|_| panic!("`{text}` is not a number with a unit"))
}

/// The value of a setting: as the rung has it, else as usual, else the least.
fn value_of(entry: &Value, rung: &RungOf, name: &str) -> f64 {
    let given = rung.key.settings.iter().find(|(known, _)| known.as_str() == name);
    let setting = &entry["settings"][name];
    let plain = |value: &Value| match value {
        Value::String(text) => Some(number(text)),
        other => other.as_f64(),
    };
    let usual = || plain(&setting["usual"]).or_else(|| plain(&setting["from"]));
    given.map(|(_, value)| value.number()).or_else(usual).expect("a setting has a value")
}

fn holds(entry: &Value, rung: &RungOf, at: &Value) -> bool {
    let ends = at.as_object().into_iter().flatten();
    ends.filter(|(name, _)| *name != "level" && *name != "because").all(|(name, end)| {
        let (end, value) = (end.as_str().expect("an end"), value_of(entry, rung, name));
        match (end.strip_prefix("up to "), end.strip_prefix("from ")) {
            (Some(most), _) => value <= number(most) + 1e-9,
            (_, Some(least)) => value >= number(least) - 1e-9,
            _ => panic!("`{end}` is neither `up to` nor `from`"),
        }
    })
}

/// Traits of a rung above 0.
pub fn traits(entry: &Value, rung: &RungOf) -> BTreeMap<String, u64> {
    let level = |said: &Value| match said {
        Value::Array(list) => {
            let found = list.iter().find(|at| holds(entry, rung, at));
            found.map_or(0, |at| at["level"].as_u64().expect("a level"))
        }
        Value::Object(_) => said["level"].as_u64().expect("a level"),
        said => said.as_u64().expect("a level"),
    };
    let all = entry["traits"].as_object().expect("traits").iter();
    all.map(|(id, said)| (id.clone(), level(said))).filter(|(_, level)| *level > 0).collect()
}

fn over(person: &Person, traits: &BTreeMap<String, u64>) -> bool {
    traits.iter().any(|(id, level)| {
        let from = person.limits.get(&TraitId::from(id.as_str()));
        from.is_some_and(|from| *level >= u64::from(*from))
    })
}

fn has(person: &Person, id: &str) -> bool {
    plain().kit[id]["kind"] == "anywhere"
        || match &person.kit {
            Some(kit) => kit.contains(&KitId::from(id)),
            None => plain().hall.contains(id),
        }
}

/// Lowest and highest that a household thing stands, cm, written again from the page of kit: a chair's
/// seat 43 to 48, a sofa's 38 to 45, a table 71 to 86, a counter 85 to 95, and three stairs.
fn stands(id: &str) -> &'static [(f64, f64)] {
    match id {
        "chair" => &[(43.0, 48.0)],
        "sofa" => &[(38.0, 45.0)],
        "table" => &[(71.0, 86.0)],
        "counter" => &[(85.0, 95.0)],
        "stairs" => &[(15.0, 22.0), (30.0, 44.0), (45.0, 66.0)],
        _ => &[],
    }
}

/// Whether a thing serves under hands, feet or seat at the heights of a rung.
fn serves(entry: &Value, rung: &RungOf, id: &str) -> bool {
    let in_cm = |name: &&str| {
        let setting = &entry["settings"][*name];
        setting["unit"] == "cm" && value_of(entry, rung, name) > 0.0
    };
    let under = ["hands", "feet", "box", "seat"];
    let heights: Vec<f64> =
        under.iter().filter(|name| in_cm(name)).map(|name| value_of(entry, rung, name)).collect();
    let near =
        |(low, high): &(f64, f64)| heights.iter().any(|at| low - 2.5 <= *at && *at <= high + 2.5);
    heights.is_empty() || stands(id).is_empty() || stands(id).iter().any(near)
}

fn has_kit(person: &Person, kit: &Value, here: impl Fn(&str) -> bool) -> bool {
    let serves = |id: &str| has(person, id) && here(id);
    kit.as_array().is_none_or(|needs| {
        needs.iter().all(|need| match need {
            Value::Array(any) => any.iter().filter_map(Value::as_str).any(serves),
            one => one.as_str().is_some_and(serves),
        })
    })
}

fn has_room(person: &Person, room: &Value) -> bool {
    let Some(space) = person.room else { return true };
    let metres = |side: &str| room[side].as_str().map_or(0.0, number);
    let (long, wide) = (space.length.number(), space.width.number());
    let along = metres("length") <= long && metres("width") <= wide;
    let across = metres("length") <= wide && metres("width") <= long;
    (along || across) && space.height.is_none_or(|height| metres("height") <= height.number())
}

/// Kit, room and quiet.
fn is_there(person: &Person, entry: &Value, rung: &RungOf) -> bool {
    let loud = |word: &str| ["quiet", "some", "loud"].iter().position(|w| *w == word);
    let noise =
        loud(entry["room"]["noise"].as_str().unwrap_or("quiet")) <= loud(person.noise.word());
    noise
        && has_kit(person, &entry["kit"], |id| serves(entry, rung, id))
        && has_room(person, &entry["room"])
}

/// A change that an entry allows: what the entry says over the general words.
fn change(own: &Value) -> (String, BTreeMap<&'static str, Value>) {
    let id = own.as_str().or_else(|| own["use"].as_str()).expect("a change").to_string();
    let general = &plain().changes[&id];
    let said = |key: &'static str| {
        let here = own.get(key).filter(|value| !value.is_null());
        (key, here.unwrap_or(&general[key]).clone())
    };
    let mut all: BTreeMap<&str, Value> = ["leaves", "eases", "brings", "kit"].map(said).into();
    let here = |key: &str| own.get(key).is_some_and(|value| !value.is_null());
    if here("leaves") && !here("eases") {
        all.insert("eases", Value::Null);
    }
    all.insert("part", general["part"].clone());
    all.insert("with", general["with"].clone());
    (id, all)
}

fn after(
    traits: &BTreeMap<String, u64>,
    made: &[&(String, BTreeMap<&str, Value>)],
) -> BTreeMap<String, u64> {
    let mut left = traits.clone();
    let levels = |key: &str| -> Vec<(String, u64)> {
        let all = made.iter().flat_map(|(_, said)| said[key].as_object().into_iter().flatten());
        all.map(|(id, level)| (id.clone(), level.as_u64().expect("a level"))).collect()
    };
    for (id, level) in levels("leaves") {
        left.entry(id).and_modify(|now| *now = level.min(*now));
    }
    let eased = made.iter().flat_map(|(_, said)| said["eases"].as_array().into_iter().flatten());
    for id in eased.filter_map(Value::as_str) {
        left.entry(id.to_string()).and_modify(|now| *now = now.saturating_sub(1));
    }
    for (id, level) in levels("brings") {
        let now = left.entry(id).or_default();
        *now = level.max(*now);
    }
    left
}

fn together(made: &[&(String, BTreeMap<&str, Value>)]) -> bool {
    let names = |said: &BTreeMap<&str, Value>, id: &str| {
        said["with"].as_array().is_some_and(|with| with.iter().any(|other| other == id))
    };
    let part = |(id, said): &(String, BTreeMap<&str, Value>)| {
        said["part"].as_str().map_or(id.clone(), str::to_string)
    };
    made.iter().enumerate().all(|(at, one)| {
        made[..at].iter().all(|other| {
            part(one) != part(other) || names(&one.1, &other.0) || names(&other.1, &one.0)
        })
    })
}

/// The answer: nothing where the rung is left out, else the changes that are made, none for fine.
pub fn answer(person: &Person, rung: &RungOf) -> Option<Vec<String>> {
    Some(as_done(person, rung)?.0)
}

/// What a rung has as the person does it that `asked` has not, or has less of.
pub fn brought(person: &Person, asked: &RungOf, rung: &RungOf) -> BTreeMap<String, u64> {
    let had = traits(&plain().movements[asked.key.movement.as_str()], asked);
    let (_, mut left) = as_done(person, rung).unwrap_or_default();
    left.retain(|id, level| *level > had.get(id).copied().unwrap_or(0));
    left
}

/// The changes that are made, and what remains after them; nothing where the rung is left out.
fn as_done(person: &Person, rung: &RungOf) -> Option<(Vec<String>, BTreeMap<String, u64>)> {
    let entry = &plain().movements[rung.key.movement.as_str()];
    let traits = traits(entry, rung);
    if !is_there(person, entry, rung) {
        return None;
    }
    if !over(person, &traits) {
        return Some((Vec::new(), traits));
    }
    let all: Vec<_> = entry["changes"].as_array().into_iter().flatten().map(change).collect();
    let all: Vec<_> =
        all.iter().filter(|(_, said)| has_kit(person, &said["kit"], |_| true)).collect();
    // Every subset of at most three, the smaller first and then in the order written.
    let subset =
        |bits: u32| -> Vec<usize> { (0..all.len()).filter(|at| bits >> at & 1 == 1).collect() };
    let mut subsets: Vec<Vec<usize>> = (1..1_u32 << all.len()).map(subset).collect();
    subsets.retain(|chosen| chosen.len() <= 3);
    subsets.sort_by_key(|chosen| (chosen.len(), chosen.clone()));
    subsets.into_iter().find_map(|chosen| {
        let made: Vec<_> = chosen.iter().map(|at| all[*at]).collect();
        let left = after(&traits, &made);
        let passes = together(&made) && !over(person, &left);
        passes.then(|| (made.iter().map(|(id, _)| id.clone()).collect(), left))
    })
}
