//! The browser's scripts and the room give the same answers, digit for digit and word for word.

use super::people::{Chance, Person};
use rungbook::placing::norms::{NormTest, Sex, norms};
use rungbook::placing::{TestResult, compare, move_up, place_after, place_on, sessions, tables};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::io::Write;
use std::process::{Command, Stdio};

const NORM_TESTS: [NormTest; 5] = [
    NormTest::PushUp,
    NormTest::ChairStand,
    NormTest::SitToStand,
    NormTest::ForearmPlank,
    NormTest::CurlUp,
];

pub fn result(result: &TestResult) -> Value {
    json!({
        "rung": result.rung,
        "counts": result.counted.counts().word(),
        "amount": result.counted.amount(),
        "body_mass_kg": result.body_mass.map(|mass| mass.number()),
        "added_kg": result.added_kg(),
        "own": result.own,
    })
}

/// What the scripts say to `question`, under node.
pub fn scripts_say(question: &Value) -> Vec<Value> {
    let mut node = Command::new("node")
        .arg("tests/placing/script.js")
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("node is installed");
    let mut input = node.stdin.take().expect("a pipe to node");
    input.write_all(question.to_string().as_bytes()).expect("node reads");
    drop(input);
    let output = node.wait_with_output().expect("node ends");
    assert!(output.status.success());
    serde_json::from_slice(&output.stdout).expect("JSON")
}

/// A person's question to the scripts and the room's answers.
fn asked(chance: &mut Chance) -> (Value, Value) {
    let Person { sheet, demands, test, retest } = chance.person();
    let norm_test = NORM_TESTS[chance.whole(0, 4) as usize];
    let sex = [Sex::Female, Sex::Male][chance.whole(0, 1) as usize];
    let (age, value) = (chance.whole(10, 99), chance.whole(0, 140));
    let sets: Vec<u32> = (0..chance.whole(0, 3)).map(|_| chance.whole(0, 34)).collect();
    let results: Vec<(u32, u32)> = sets.iter().map(|set| (chance.whole(1, 3), *set)).collect();
    let running: Vec<u32> = sets.iter().copied().chain([test.counted.amount()]).collect();
    let question = json!({
        "sheet": sheet,
        "demands": demands,
        "test": result(&test),
        "retest": result(&retest),
        "norm": {"test": norm_test, "sex": sex, "age": age, "value": value},
        "sets": sets,
        "results": results,
        "running": running,
    });
    let answers = json!({
        "place": place_on(&sheet, &demands, &test).ok(),
        "compare": compare(&sheet, &demands, (&test, &retest)),
        "after": place_after(&sheet, &demands, &test, &running).ok(),
        "ask_again": test.ask_again(),
        "sessions": sessions(results),
        "move_up": move_up(&sheet, test.rung, &sets),
        "norms": norms(norm_test, sex, age, value),
    });
    (question, answers)
}

#[test]
fn three_hundred_people_are_placed_alike() {
    let mut chance = Chance(0x2545_F491_4F6C_DD1D);
    let (people, ours): (Vec<Value>, Vec<Value>) = (0..300).map(|_| asked(&mut chance)).unzip();
    let theirs = scripts_say(&json!({"tables": tables(), "people": people}));
    assert_eq!(theirs.len(), ours.len());
    for ((person, ours), theirs) in people.iter().zip(&ours).zip(&theirs) {
        assert_eq!(ours, theirs, "{person}");
    }
    assert_varied(&ours);
}

/// The people meet every verdict and every kind of answer, so that agreement says something.
fn assert_varied(answers: &[Value]) {
    let words = |part: &str, key: &str| -> BTreeSet<String> {
        answers.iter().filter_map(|one| one[part][key].as_str().map(str::to_string)).collect()
    };
    assert_eq!(words("compare", "verdict").len(), 4);
    assert_eq!(words("move_up", "verdict").len(), 6);
    let after = answers.iter().filter_map(|one| one["after"]["move_up"]["verdict"].as_str());
    assert_eq!(after.collect::<BTreeSet<_>>().len(), 8, "every verdict");
    assert!(words("norms", "category").len() >= 6);
    assert!(words("norms", "protocol").len() == NORM_TESTS.len());
    let kinds: BTreeSet<&str> = answers
        .iter()
        .filter_map(|one| one["place"]["predicted"].as_array())
        .flatten()
        .filter_map(|known| known["kind"].as_str())
        .collect();
    assert_eq!(kinds.len(), 3);
    let asked_again = answers.iter().filter(|one| one["ask_again"].is_string()).count();
    assert!(asked_again >= 3, "{asked_again} are asked again");
    assert!(answers.iter().any(|one| one["place"].is_null()), "someone does not belong");
    let said = answers.iter().filter_map(|one| one["place"]["today"]["say"].as_str());
    let said: Vec<&str> = said.collect();
    let own = answers.iter().filter_map(|one| one["place"]["own"].as_str());
    let own: BTreeSet<&str> = own.filter_map(|say| say.split(": ").next()).collect();
    assert!(own.len() >= 3, "own heights within, above and below the dose: {own:?}");
    for part in [
        "in the first set",
        "top of this",
        "likely still too much",
        "stands above it",
        "bottom",
        "writes no dose",
    ] {
        assert!(said.iter().any(|say| say.contains(part)), "nobody is told {part:?}");
    }
}
