//! The roster's keys are described as a library's are: what its reader takes its schema takes, and the
//! other way. It stands in no library: of it `rungbook new` writes the
//! schema alone.

use crate::{house, yaml};
use rungbook::finding::Sources;
use rungbook::library::keys::{FILE_KINDS, ROSTER, roster_tables, schema, told};
use rungbook::library::reader::roster;

const ENTRY: &str = "wren:
  trains: home
  kit: [chair, towel]
  limits: {impact: 1}
  cautions: [sore-wrist]
  today: {day: 2026-11-30, limits: {kneeling: 2}, cautions: [painful-shoulder]}
  with: robin
  rungs: {row: 3, push-up: {rung: 4, was: {movement: incline-push-up, hands: 60 cm}}}
  results:
    - {ladder: row, rung: 3, reps: 12, day: 2026-11-25, lean: 40 deg, was: {movement: strap-row, lean: 37 deg}, added: 5 kg, note: slow}
    - {ladder: plank, rung: 2, seconds: 45, day: 2026-11-25}
  done:
    - {day: 2026-11-30, session: push-and-pull, did: {Row: \"Strap row, lean 37 deg\"}, left-out: [Overhead]}
robin:
";

/// What is replaced, and by what: a reader and a schema both refuse it.
const SPOILT: [(&str, &str); 27] = [
    ("trains: home", "trains: kitchen"),
    ("trains: home", "train: home"),
    ("kit: [chair, towel]", "kit: {chair: 1}"),
    ("kit: [chair, towel]", "kit: [{chair: 1}]"),
    ("impact: 1", "impact: 3"),
    ("impact: 1", "impact: some"),
    ("limits: {impact: 1}", "limits: [impact]"),
    ("cautions: [sore-wrist]", "cautions: sore-wrist"),
    ("day: 2026-11-30, limits", "limits"),
    ("kneeling: 2", "kneeling: 0"),
    ("today: {", "today: [{"),
    ("row: 3, push", "row: third, push"),
    ("row: 3, push", "row: [3], push"),
    ("{rung: 4, was", "{was"),
    ("movement: incline-push-up, hands", "hands"),
    ("hands: 60 cm", "hands: high"),
    ("results:\n", "result:\n"),
    ("{ladder: row, ", "{"),
    ("reps: 12, ", ""),
    ("reps: 12, ", "reps: 12, seconds: 10, "),
    ("reps: 12", "reps: twelve"),
    ("added: 5 kg", "added: 5 cm"),
    ("session: push-and-pull, ", ""),
    ("did: {Row: \"Strap row, lean 37 deg\"}", "did: [Row]"),
    ("left-out: [Overhead]", "left-out: Overhead"),
    ("left-out: [Overhead]", "left: [Overhead]"),
    ("done:\n", "dun:\n"),
];

fn refused(text: &str) -> bool {
    let mut sources = Sources::default();
    let file = sources.add("roster.yaml", text);
    !roster::read(file, &sources).1.is_empty()
}

fn validator() -> jsonschema::Validator {
    jsonschema::draft202012::new(&schema::schema(&ROSTER)).expect("a schema")
}

#[test]
fn what_the_roster_s_reader_refuses_its_schema_refuses() {
    let validator = validator();
    let good: Vec<String> =
        validator.iter_errors(&yaml(ENTRY)).map(|error| error.to_string()).collect();
    assert!(good.is_empty(), "{good:?}");
    assert!(!refused(ENTRY), "the good one is read");
    for (old, new) in SPOILT {
        assert!(ENTRY.contains(old), "{old}");
        let mut spoilt = ENTRY.replacen(old, new, 1);
        if new == "today: [{" {
            spoilt = spoilt.replacen("[painful-shoulder]}", "[painful-shoulder]}]", 1);
        }
        assert!(!validator.is_valid(&yaml(&spoilt)), "the schema takes {new:?} for {old:?}");
        assert!(refused(&spoilt), "the reader takes {new:?} for {old:?}");
    }
}

#[test]
fn the_rosters_of_the_demo_class_follow_the_schema() {
    for file in ["tests/board/roster.yaml", "tests/commands/board.in/three.yaml"] {
        let text = std::fs::read_to_string(house().join(file)).expect("it reads");
        let faults: Vec<String> =
            validator().iter_errors(&yaml(&text)).map(|error| error.to_string()).collect();
        assert!(faults.is_empty(), "{file}: {faults:?}");
    }
}

#[test]
fn every_key_of_a_roster_is_explained_and_its_example_is_good() {
    assert!(
        FILE_KINDS.iter().all(|kind| kind.name != ROSTER.name),
        "a roster is no part of a library"
    );
    let names = told::names();
    for table in roster_tables() {
        let whole = schema::schema(&ROSTER);
        for key in table.keys {
            assert!(names.contains(&key.name), "{}", key.name);
            let value = yaml(&format!("{}: {}", key.name, key.example));
            let mut alone = serde_json::json!({"$defs": whole["$defs"].clone()});
            let one = &whole["$defs"][table.name.replace(' ', "-")]["properties"][key.name];
            let one = one.as_object().expect("the key's schema").clone();
            alone.as_object_mut().expect("an object").extend(one);
            let validator = jsonschema::draft202012::new(&alone).expect("a schema");
            assert!(validator.is_valid(&value[key.name]), "{} of {}", key.name, table.name);
        }
    }
}
