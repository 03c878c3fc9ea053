//! The filters against a second, independent reading of the files: the front matter as plain
//! YAML values, every rule written again from the words of the format.

use super::starter::{folder, gym};
use proptest::prelude::*;
use rungbook::library::{KitId, MovementId, Noise, Quantity, TraitId, Unit};
use rungbook::swap::weights::{FLOOR, WEIGHTS};
use rungbook::swap::{Answer, Person, Space, ranked, swaps};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

/// Front matter of every movement, and the kit words and hall kit, as plain values.
struct Plain {
    movements: BTreeMap<String, Value>,
    kit: Value,
    hall: BTreeSet<String>,
}

fn plain() -> &'static Plain {
    static PLAIN: OnceLock<Plain> = OnceLock::new();
    PLAIN.get_or_init(|| {
        let yaml = |text: &str| serde_yaml::from_str::<Value>(text).expect("good YAML");
        let read = |name: &str| std::fs::read_to_string(folder().join(name)).expect(name);
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
        Plain { movements, kit: yaml(&read("words/kit.yaml")), hall }
    })
}

/// The filter again, from the plain values.
fn may_do(person: &Person, entry: &Value) -> bool {
    let avoided = |id: &str, level: u64| {
        person.limits.get(&TraitId::from(id)).is_some_and(|from| level >= u64::from(*from))
    };
    let traits = entry["traits"].as_object();
    let limits = traits.is_none_or(|traits| {
        !traits.iter().any(|(id, level)| level.as_u64().is_some_and(|level| avoided(id, level)))
    });
    let has = |id: &str| {
        plain().kit[id]["kind"] == "anywhere"
            || match &person.kit {
                Some(kit) => kit.contains(&KitId::from(id)),
                None => plain().hall.contains(id),
            }
    };
    let kit = entry["kit"].as_array().is_none_or(|needs| {
        needs.iter().all(|need| match need {
            Value::Array(any) => any.iter().filter_map(Value::as_str).any(has),
            one => one.as_str().is_some_and(has),
        })
    });
    let loud = |word: &str| ["quiet", "some", "loud"].iter().position(|w| *w == word);
    let noise =
        loud(entry["room"]["noise"].as_str().unwrap_or("quiet")) <= loud(person.noise.word());
    limits && kit && noise && has_room(person, &entry["room"])
}

fn has_room(person: &Person, room: &Value) -> bool {
    let Some(space) = person.room else { return true };
    let metres = |side: &str| {
        let text = room[side].as_str().unwrap_or("0 m");
        text.trim_end_matches(" m").parse::<f64>().expect("metres")
    };
    let (long, wide) = (space.length.number(), space.width.number());
    let along = metres("length") <= long && metres("width") <= wide;
    let across = metres("length") <= wide && metres("width") <= long;
    (along || across) && space.height.is_none_or(|height| metres("height") <= height.number())
}

fn ids(answer: &Answer) -> Vec<String> {
    match answer {
        Answer::Swaps(found) => found.iter().map(|swap| swap.candidate.to.to_string()).collect(),
        Answer::AskYourCoach { .. } => Vec::new(),
    }
}

/// `part` with some of `whole` left out and nothing moved.
fn keeps_order(part: &[String], whole: &[String]) -> bool {
    let mut whole = whole.iter();
    part.iter().all(|id| whole.any(|other| other == id))
}

fn some_kit() -> impl Strategy<Value = Option<BTreeSet<KitId>>> {
    let all: Vec<KitId> = gym().library.words.kit.keys().cloned().collect();
    let most = all.len();
    let some = proptest::sample::subsequence(all, 0..=most).prop_map(BTreeSet::from_iter);
    prop_oneof![1 => Just(None), 4 => some.prop_map(Some)]
}

fn some_limits() -> impl Strategy<Value = BTreeMap<TraitId, u8>> {
    let all: Vec<TraitId> = gym().library.words.traits.keys().cloned().collect();
    let ids = proptest::sample::subsequence(all, 0..=6);
    (ids, proptest::collection::vec(1_u8..=2, 6))
        .prop_map(|(ids, from)| ids.into_iter().zip(from).collect())
}

fn some_room() -> impl Strategy<Value = Option<Space>> {
    let side =
        || (5_u32..60).prop_map(|tenths| Quantity::new(f64::from(tenths) / 10.0, Unit::Metre));
    let height = prop_oneof![Just(None), side().prop_map(Some)];
    let space = (side(), side(), height);
    proptest::option::of(space.prop_map(|(length, width, height)| Space { length, width, height }))
}

fn someone() -> impl Strategy<Value = Person> {
    let noise = prop_oneof![Just(Noise::Quiet), Just(Noise::Some), Just(Noise::Loud)];
    (some_kit(), some_limits(), noise, some_room()).prop_map(|(kit, limits, noise, room)| Person {
        kit,
        limits,
        noise,
        room,
        window: None,
    })
}

fn any_movement() -> impl Strategy<Value = MovementId> {
    let all: Vec<MovementId> = gym().library.movements.keys().cloned().collect();
    proptest::sample::select(all)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Neither one too many nor one too few, in the order of the list that no person changes; and
    /// nothing left is "ask your coach".
    #[test]
    fn the_filters_are_the_ones_written_down(from in any_movement(), person in someone()) {
        let answer = swaps(gym(), &from, &person, None);
        let expected: Vec<String> = ranked(gym(), &from)
            .into_iter()
            .map(|candidate| candidate.to.to_string())
            .filter(|id| may_do(&person, &plain().movements[id]))
            .collect();
        prop_assert_eq!(ids(&answer), expected.clone());
        prop_assert_eq!(matches!(answer, Answer::AskYourCoach { .. }), expected.is_empty());
    }

    /// Less kit, more limits, less noise, less room: candidates only go, and none changes places.
    #[test]
    fn asking_for_more_care_never_adds_or_reorders(
        from in any_movement(), person in someone(), other in someone()
    ) {
        let mut careful = person.clone();
        for (id, level) in &other.limits {
            let limit = careful.limits.entry(id.clone()).or_insert(*level);
            *limit = (*limit).min(*level);
        }
        careful.kit = match (&person.kit, &other.kit) {
            (Some(kit), Some(some)) => Some(kit.intersection(some).cloned().collect()),
            (kit, _) => kit.clone(),
        };
        careful.noise = person.noise.min(other.noise);
        careful.room = person.room.or(other.room);
        let before = ids(&swaps(gym(), &from, &person, None));
        let after = ids(&swaps(gym(), &from, &careful, None));
        prop_assert!(keeps_order(&after, &before), "{:?} {:?}", before, after);
    }
}

/// The order and the totals again, from the parts: weights over what is known, ties by id.
#[test]
fn totals_follow_from_the_parts() {
    for id in gym().library.movements.keys() {
        let list = ranked(gym(), id);
        for found in &list {
            let score = &found.score;
            let (mut sum, mut weights) = (0, 0);
            for (_, weight, part) in score.parts() {
                sum += weight * part.unwrap_or(0);
                weights += if part.is_some() { weight } else { 0 };
                assert!(part.is_none_or(|part| part <= 1000));
            }
            assert_eq!(score.total, sum / weights + score.linked, "{id} {}", found.to);
            assert!(score.total >= FLOOR && found.to != *id);
        }
        let order = list.windows(2).all(|two| {
            (std::cmp::Reverse(two[0].score.total), &two[0].to)
                < (std::cmp::Reverse(two[1].score.total), &two[1].to)
        });
        assert!(order, "{id}");
    }
    let w = WEIGHTS;
    let must = w.pattern + w.movers + w.purpose + w.demand;
    assert_eq!(must + w.sides + w.plane + w.stability + w.grip + w.counts, 1000);
}

/// Everything that a substitute has more of is said, and nothing else, from the plain values.
#[test]
fn what_it_brings_in_is_said() {
    let level =
        |entry: &str, id: &str| plain().movements[entry]["traits"][id].as_u64().unwrap_or(0);
    for id in gym().library.movements.keys() {
        for found in ranked(gym(), id) {
            let traits = gym().library.words.traits.keys();
            let more: BTreeSet<&str> = traits
                .map(TraitId::as_str)
                .filter(|name| level(found.to.as_str(), name) > level(id.as_str(), name))
                .collect();
            let said: BTreeSet<&str> = found.brings.iter().map(|(name, _)| name.as_str()).collect();
            assert_eq!(said, more, "{id} {}", found.to);
            assert_eq!(found.brings_in.is_some(), !more.is_empty());
        }
    }
}
