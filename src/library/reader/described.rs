//! That the readers ask for the keys that are described, no more and no fewer.
//! Only in tests: it notes every key that a reader asks for.

use crate::library::keys::{Table, tables};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Mutex;

static ASKED: Mutex<BTreeMap<&'static str, BTreeSet<&'static str>>> = Mutex::new(BTreeMap::new());

/// Notes that a reader asked for a key of a table.
pub fn note(table: Option<&'static Table>, key: &'static str) {
    if let (Some(table), Ok(mut asked)) = (table, ASKED.lock()) {
        asked.entry(table.name).or_default().insert(key);
    }
}

/// What the starter library does not write: maps that a reader must have seen.
const SELDOM: &str = "name: A club
logo: logo.svg
colours: {light: \"#1f4e79\", dark: \"#8ab4e8\"}
findings: {off: [{code: cue-too-long, because: they rhyme}]}
repetitions-across-rungs: {factor: 1, give-or-take: 0.3}
";

fn must<T, E: std::fmt::Debug>(result: Result<T, E>) -> T {
    result.unwrap_or_else(|error| panic!("{error:?}"))
}

#[test]
fn every_key_that_is_read_is_described_and_the_other_way() {
    let starter = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    must(super::read(&starter));
    let seldom = must(tempfile::tempdir());
    must(std::fs::write(seldom.path().join("club.yaml"), SELDOM));
    must(super::read(seldom.path()));
    let asked = must(ASKED.lock());
    for table in tables() {
        let described: BTreeSet<&str> = table.keys.iter().map(|key| key.name).collect();
        let read = asked.get(table.name).cloned().unwrap_or_default();
        assert_eq!(read, described, "what is read of {} and what is described", table.name);
    }
    let known: BTreeSet<&str> = tables().iter().map(|table| table.name).collect();
    assert!(asked.keys().all(|table| known.contains(table)), "a table that no file leads to");
}
