//! Random people for the tests of own versions: kit, limits, heights, own rungs, results old and new.
//! Never a clock: every run asks the same.

use super::dice::Dice;
use rungbook::finding::{Placed, Span};
use rungbook::gym::Gym;
use rungbook::library::{
    ChangeId, ChangeOf, Counts, KitNeed, Ladder, Library, Noise, Quantity, Rung, TraitChange,
    TraitId, Unit,
};
use rungbook::own::{Member, RungThen, Tested};
use rungbook::placing::{Counted, Sheet, share_table};
use rungbook::swap::{Person, limits_of_situation};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

const HIGH: [&str; 7] = ["counter", "chair", "table", "box", "bench", "sofa", "low-bar"];

/// A library whose movements allow changes of many kinds: one takes a trait out, one lessens it, one
/// brings another in, one needs kit; of one part, or of two.
pub fn with_changes(mut library: Library) -> Library {
    let traits: Vec<TraitId> = library.words.traits.keys().cloned().collect();
    for (at, id) in traits.iter().enumerate() {
        let change = change_of(&traits, at, id);
        library.words.changes.insert(change.id.value.clone(), change);
    }
    for (at, movement) in library.movements.values_mut().enumerate() {
        // Half of them allow nothing that the library says, so that somebody is left with nothing.
        if at.is_multiple_of(2) {
            movement.changes.clear();
        }
        let had = movement.traits.iter().flatten().map(|of| of.id.value.clone());
        for (nth, id) in had.enumerate().filter(|(nth, _)| (at + nth).is_multiple_of(3)) {
            let how = (nth == 1).then(|| "Do it this way here".to_string());
            let id = placed(ChangeId(format!("less-{id}")));
            movement.changes.push(ChangeOf {
                id,
                how,
                leaves: None,
                eases: None,
                brings: None,
                takes: None,
                kit: None,
            });
        }
    }
    library
}

fn change_of(traits: &[TraitId], at: usize, id: &TraitId) -> TraitChange {
    let brings = at.is_multiple_of(4).then(|| (placed(traits[(at + 5) % traits.len()].clone()), 1));
    let kit =
        at.is_multiple_of(5).then(|| KitNeed(vec![placed("chair".into()), placed("box".into())]));
    TraitChange {
        id: placed(ChangeId(format!("less-{id}"))),
        name: format!("with less {id}"),
        how: Some(format!("Take the {id} out.")),
        part: Some(placed(format!("part {}", at % 7))),
        leaves: vec![(placed(id.clone()), u8::from(at.is_multiple_of(3)))],
        eases: Vec::new(),
        brings: brings.into_iter().collect(),
        takes: if at.is_multiple_of(2) {
            vec![placed("weight".into()), placed("hands".into()), placed("box".into())]
        } else {
            Vec::new()
        },
        kit: kit.into_iter().collect(),
        with: Vec::new(),
        sources: Vec::new(),
    }
}

fn placed<T>(value: T) -> Placed<T> {
    Placed::new(value, Span::default())
}

/// Somebody.
pub fn somebody(gym: &Gym, dice: &mut Dice) -> Member {
    let words = &gym.library.words;
    let share = 1 + dice.roll(4);
    let kit: BTreeSet<_> = words.kit.keys().filter(|_| dice.roll(4) < share).cloned().collect();
    let (mut limits, mut situations) = (BTreeMap::new(), BTreeSet::new());
    // Some leave out a little, some half of everything; one in four all of it, who is often left with nothing.
    let strict = if dice.roll(4) == 0 { 1 } else { [12, 6, 2][dice.roll(3)] };
    for id in words.traits.keys() {
        if dice.roll(strict) == 0 {
            limits.insert(id.clone(), 1 + u8::from(dice.roll(3) == 0));
        }
    }
    for (id, caution) in &words.cautions {
        if dice.roll(12) == 0 {
            situations.insert(id.clone());
            for (id, from) in limits_of_situation(caution).levels {
                let level = limits.entry(id).or_insert(from);
                *level = from.min(*level);
            }
        }
    }
    let noise = [Noise::Quiet, Noise::Some, Noise::Loud][dice.roll(3)];
    let person = Person { kit: Some(kit), limits, situations, noise, ..Person::default() };
    let mut member = Member { person, ..Member::default() };
    // The person in front of a coach has no book.
    if dice.roll(5) == 0 {
        member.person.front = true;
        return member;
    }
    if dice.roll(2) == 0 {
        member.stature = Some(Quantity::new((150 + dice.roll(48)) as f64, Unit::Centimetre));
    }
    for id in HIGH {
        if dice.roll(2) == 0 {
            // Half a centimetre too: a tape is read so.
            member.heights.insert(id.into(), 20.0 + dice.roll(180) as f64 / 2.0);
        }
    }
    for ladder in gym.library.ladders.values() {
        if dice.roll(4) == 0 {
            let rung = 1 + dice.roll(ladder.rungs.len()) as u32;
            let then = then(&ladder.rungs[rung as usize - 1], dice);
            member.rungs.insert(ladder.id.clone(), (rung, then));
        }
        if dice.roll(3) > 0 {
            member.results.push(result(gym, ladder, dice));
        }
    }
    member
}

/// A result: of an older book with a number alone, of today's ladder, or of one that has changed since.
fn result(gym: &Gym, ladder: &Ladder, dice: &mut Dice) -> Tested {
    let at = dice.roll(ladder.rungs.len());
    let rung = &ladder.rungs[at];
    let target = Sheet::of(ladder).rungs[at];
    let amount = 1 + dice.roll(25) as u32;
    let seconds = target.is_some_and(|target| target.counts == Counts::Seconds);
    let counted = if seconds { Counted::Seconds(amount) } else { Counted::Reps(amount) };
    let movement = gym.library.movements.get(&rung.movement.value);
    let table = movement.and_then(|movement| share_table(gym, movement));
    let mut setting = BTreeMap::new();
    if let Some(table) = table.filter(|_| dice.roll(3) == 0) {
        let span = (table.values[table.values.len() - 1] - table.values[0]) as usize;
        setting.insert(table.setting.clone(), table.values[0] + dice.roll(span) as f64);
    }
    let then = then(rung, dice);
    Tested {
        day: format!("2026-11-{:02}", 1 + dice.roll(28)),
        ladder: ladder.id.clone(),
        rung: at as u32 + 1,
        then,
        counted,
        setting,
        added: None,
    }
}

/// What a rung was when it was recorded: as today, at other settings, another movement, or not known.
fn then(rung: &Rung, dice: &mut Dice) -> Option<RungThen> {
    let mut written: BTreeMap<String, f64> = BTreeMap::new();
    for (name, value) in &rung.settings {
        written.insert(name.value.to_string(), value.value.number());
    }
    let movement = rung.movement.value.clone();
    match dice.roll(12) {
        0..3 => None,
        3..6 => {
            written.values_mut().for_each(|value| *value += 1.0 + dice.roll(20) as f64);
            Some((movement, written))
        }
        6 => Some(("gone".into(), written)),
        _ => Some((movement, written)),
    }
}

/// The same person as the page's scripts know them: who is there, and the book.
#[allow(dead_code, reason = "not every test that takes these people asks the scripts")]
pub fn as_the_scripts_see(member: &Member) -> Value {
    let person = &member.person;
    let kit: Vec<&str> = person.kit.iter().flatten().map(|id| id.as_str()).collect();
    let limits: BTreeMap<&str, u8> =
        person.limits.iter().map(|(id, level)| (id.as_str(), *level)).collect();
    let situations: Vec<&str> = person.situations.iter().map(|id| id.as_str()).collect();
    let heights: BTreeMap<&str, f64> =
        member.heights.iter().map(|(id, cm)| (id.as_str(), *cm)).collect();
    let rungs: BTreeMap<&str, u32> =
        member.rungs.iter().map(|(id, (rung, _))| (id.as_str(), *rung)).collect();
    let picked = member.rungs.iter().filter_map(|(id, (_, then))| Some((id, then.as_ref()?)));
    let rungs_then: BTreeMap<&str, Value> = picked
        .map(|(id, (movement, at))| {
            (id.as_str(), json!({"movement": movement.as_str(), "settings": at}))
        })
        .collect();
    let results: Vec<Value> = member.results.iter().enumerate().map(as_entry).collect();
    json!({
        "person": {"kit": kit, "lacks": [], "limits": limits, "situations": situations,
                   "noise": person.noise.word(), "front": person.front},
        "book": {"schema": "rungbook-book-1", "stature_cm": member.stature.map(Quantity::number),
                 "body_mass_kg": null, "heights": heights, "rungs": rungs, "results": results, "rungs_then": rungs_then,
                 "done": [], "notes": []},
    })
}

#[allow(dead_code, reason = "as above")]
fn as_entry((at, result): (usize, &Tested)) -> Value {
    let counts = if result.counted.counts() == Counts::Seconds { "seconds" } else { "reps" };
    let setting = (!result.setting.is_empty()).then_some(&result.setting);
    let mut entry = json!({
        "id": format!("r{at}"), "day": result.day, "ladder": result.ladder.as_str(),
        "rung": result.rung, "setting": setting, "counts": counts,
        "amount": result.counted.amount(), "added_kg": 0, "note": "",
    });
    if let Some((movement, settings)) = &result.then {
        entry["movement"] = json!(movement.as_str());
        entry["settings"] = json!(settings);
    }
    entry
}
