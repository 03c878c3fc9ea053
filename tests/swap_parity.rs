//! The floor's script and the command give the same swaps: same candidates, order and reasons, for
//! 300 random people. The script's side runs in node on the very files that the site carries.

mod dice;

use dice::Dice;
use rungbook::gym::Gym;
use rungbook::library::LadderId;
use rungbook::library::{Noise, reader};
use rungbook::site::pages::{card, words_data};
use rungbook::swap::{Answer, Change, Fit, Person, RungOf, Swap, fit, ranked, rungs_of, swaps};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

const PEOPLE: u64 = 300;

fn person(gym: &Gym, dice: &mut Dice) -> Person {
    let words = &gym.library.words;
    // One in three has no kit and leaves out nearly everything, so that "ask your coach" is
    // compared too.
    let careful = dice.roll(3) == 0;
    let share = if careful { 0 } else { 1 + dice.roll(4) };
    let kit: BTreeSet<_> = words.kit.keys().filter(|_| dice.roll(4) < share).cloned().collect();
    let mut limits = BTreeMap::new();
    for id in words.traits.keys() {
        if dice.roll(4) == 0 || (careful && dice.roll(6) > 0) {
            limits.insert(id.clone(), 1 + u8::from(dice.roll(3) == 0));
        }
    }
    let noise = [Noise::Quiet, Noise::Some, Noise::Loud][dice.roll(3)];
    let mut rungs = BTreeMap::new();
    for ladder in gym.library.ladders.values() {
        if dice.roll(2) == 0 {
            rungs.insert(ladder.id.clone(), dice.roll(ladder.rungs.len()));
        }
    }
    Person { kit: Some(kit), limits, noise, rungs, ..Person::default() }
}

/// One rung of a movement.
fn asked(gym: &Gym, dice: &mut Dice) -> RungOf {
    let movements: Vec<_> = gym.library.movements.values().collect();
    let rungs = rungs_of(gym, movements[dice.roll(movements.len())]);
    rungs[dice.roll(rungs.len())].clone()
}

fn as_the_script_sees(person: &Person) -> Value {
    let kit: Vec<&str> = person.kit.iter().flatten().map(|id| id.as_str()).collect();
    let limits: BTreeMap<&str, u8> =
        person.limits.iter().map(|(id, level)| (id.as_str(), *level)).collect();
    let rungs: BTreeMap<&str, usize> =
        person.rungs.iter().map(|(id, at)| (id.as_str(), at + 1)).collect();
    json!({"kit": kit, "limits": limits, "noise": person.noise.word(), "rungs": rungs})
}

#[test]
fn the_floor_and_the_command_agree_for_300_people() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let gym = Gym::open(reader::read(&root.join("content")).expect("the starter library"));
    let movements: Vec<_> = gym.library.movements.values().collect();
    let mut dice = Dice(20_261_125);
    let (mut cases, mut left, mut ask, mut changed) = (Vec::new(), 0, 0, 0);
    let mut bring = 0;
    for _ in 0..PEOPLE {
        let person = person(&gym, &mut dice);
        let asked = asked(&gym, &mut dice);
        let expected: Vec<Value> = match swaps(&gym, &asked, &person, None) {
            Answer::AskYourCoach { .. } => Vec::new(),
            Answer::Swaps(found) => {
                let brought =
                    |swap: &&Swap<'_>| !swap.changes.is_empty() && swap.brings_in.is_some();
                bring += found.iter().filter(brought).count();
                found.iter().map(expected_swap).collect()
            }
        };
        left += expected.len();
        ask += usize::from(expected.is_empty());
        let own = fit(&gym, &person, &asked);
        changed += usize::from(matches!(own, Fit::Changed(_)));
        let own = own_answer(&own);
        let person = as_the_script_sees(&person);
        let movement = asked.key.movement.as_str();
        let rung = rung(asked.place.as_ref());
        cases.push(json!({
            "movement": movement, "rung": rung, "person": person, "own": own, "swaps": expected,
        }));
    }
    println!("{left} swaps, {ask} without any, {changed} changed, {bring} changed that bring in");
    assert!(left > 300 && ask > 10, "the people are too alike: {left} swaps, {ask} without any");
    assert!(bring > 50, "too few changed swaps bring something in: {bring}");
    let dir = tempfile::tempdir().expect("a folder");
    for movement in &movements {
        let path = dir.path().join(format!("{}.js", movement.id));
        std::fs::write(path, card(&gym, movement, &ranked(&gym, &movement.id))).expect("a card");
    }
    std::fs::write(dir.path().join("words.js"), words_data(&gym)).expect("the words");
    let file = dir.path().join("cases.json");
    std::fs::write(&file, serde_json::to_string(&cases).expect("JSON")).expect("the cases");
    let output = Command::new("node")
        .arg(root.join("tests/browser/swap-parity.mjs"))
        .args([root.join("themes/slate/scripts/fits.js"), file, dir.path().to_path_buf()])
        .output()
        .expect("node runs");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(said.trim(), format!("{PEOPLE} people agree"));
}

fn rung(place: Option<&(LadderId, usize)>) -> Value {
    place.map_or(Value::Null, |(ladder, at)| json!({"ladder": ladder.as_str(), "number": at + 1}))
}

fn how(changes: &[Change<'_>]) -> String {
    let said = changes.iter().map(|change| format!("{}.", change.how().trim_end_matches('.')));
    said.collect::<Vec<_>>().join(" ")
}

fn own_answer(own: &Fit<'_>) -> Value {
    match own {
        Fit::Fine => json!({"kind": "fine", "change": ""}),
        Fit::Changed(changes) => json!({"kind": "changed", "change": how(changes)}),
        Fit::Out(_) => json!({"kind": "out", "change": ""}),
    }
}

fn expected_swap(swap: &Swap<'_>) -> Value {
    let candidate = &swap.candidate;
    let reason = match &swap.brings_in {
        Some(brings_in) => format!("{} {brings_in}.", candidate.reason),
        None => candidate.reason.clone(),
    };
    json!({
        "to": candidate.to.as_str(), "reason": reason, "rung": rung(swap.rung.place.as_ref()),
        "setting": swap.rung.said(), "start_here": swap.start_here, "change": how(&swap.changes),
    })
}
