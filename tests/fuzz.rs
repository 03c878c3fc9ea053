//! Any bytes into every reader: kept inputs, and more rolled from them by a seed, as many as are asked.
//! Never by a clock: the gate rolls the same ones every time. `tests/fuzz/run` looks for others for hours.

mod dice;
#[path = "fuzz/what.rs"]
mod what;

use dice::Dice;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use what::{Ask, TARGETS};

/// Whatever a die gives, it gives it again.
const SEED: u64 = 0x5EED_0F22;

/// How many inputs each reader gets in the gate: dear ones fewer.
const RUNS: [(&str, usize); 6] = [
    ("reader", 60),
    ("pose", 1_500),
    ("units", 4_000),
    ("query", 300),
    ("roster", 400),
    ("manifest", 60),
];

/// Signs and words that readers look for.
const TELLING: [&[u8]; 40] = [
    b"{",
    b"}",
    b"[",
    b"]",
    b": ",
    b"- ",
    b"\n- ",
    b"\n  ",
    b"#",
    b"&a ",
    b"*a",
    b"|\n",
    b">\n",
    b"'",
    b"\"",
    b"\\",
    b"\t",
    b"\r\n",
    b"---\n",
    b"\xef\xbb\xbf",
    b"\xe2\x80\xae",
    b"\xf0\x9f\x98\x80",
    b"\0",
    b"<script>",
    b"nan",
    b"1e308",
    b"-1",
    b"99999999999999999999",
    b" cm",
    b" deg",
    b"6-10",
    b" to ",
    b"hands",
    b" * ",
    b"floor",
    b"results:",
    b"reps: 12",
    b"2026-11-25",
    b"no bar",
    b"../",
];

/// The kept inputs of a reader, by name.
fn kept(target: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus").join(target);
    let entries = fs::read_dir(&folder).expect("a folder of kept inputs").flatten();
    let mut files: Vec<_> = entries.map(|entry| entry.path()).collect();
    files.sort();
    files.iter().map(|file| fs::read(file).expect("it reads")).collect()
}

/// One input made from kept ones.
fn rolled(all: &[Vec<u8>], dice: &mut Dice) -> Vec<u8> {
    let mut bytes = all[dice.roll(all.len())].clone();
    for _ in 0..=dice.roll(4) {
        let at = dice.roll(bytes.len() + 1);
        let to = (at + dice.roll(24)).min(bytes.len());
        match dice.roll(6) {
            0 if at < bytes.len() => bytes[at] ^= 1 << dice.roll(8),
            1 => drop(bytes.splice(at..at, TELLING[dice.roll(TELLING.len())].iter().copied())),
            2 => drop(bytes.drain(at..to)),
            3 => {
                let part = bytes[at..to].to_vec();
                bytes.splice(at..at, part);
            }
            4 => bytes.truncate(at),
            _ => {
                let other = &all[dice.roll(all.len())];
                let from = dice.roll(other.len() + 1);
                let part = other[from..(from + dice.roll(60)).min(other.len())].to_vec();
                bytes.splice(at..to, part);
            }
        }
    }
    bytes
}

/// Asks a reader; what breaks it is shown, to be kept.
fn hold(target: &str, ask: Ask, bytes: &[u8]) {
    if let Err(why) = catch_unwind(AssertUnwindSafe(|| ask(bytes))) {
        println!("tests/fuzz/corpus/{target} should keep b\"{}\"", bytes.escape_ascii());
        std::panic::resume_unwind(why);
    }
}

fn asked(target: &str) {
    let (_, ask) = TARGETS.iter().find(|(name, _)| *name == target).expect("a reader");
    let all = kept(target);
    assert!(all.len() >= 5, "{} inputs are kept for {target}", all.len());
    all.iter().for_each(|bytes| hold(target, *ask, bytes));
    let more = std::env::var("RUNGBOOK_FUZZ").ok().and_then(|number| number.parse().ok());
    let usual = RUNS.iter().find(|(name, _)| *name == target).map(|(_, runs)| *runs);
    let runs: usize = more.or(usual).expect("a number of runs");
    let mut dice = Dice(SEED);
    (0..runs).for_each(|_| hold(target, *ask, &rolled(&all, &mut dice)));
    println!("{target}: {} kept and {runs} rolled", all.len());
}

#[test]
fn any_file_of_a_library_is_read_or_said() {
    asked("reader");
}

#[test]
fn any_pose_is_read_or_said() {
    asked("pose");
}

#[test]
fn any_number_with_a_unit_is_read_or_refused() {
    asked("units");
}

#[test]
fn any_question_is_answered() {
    asked("query");
}

#[test]
fn any_roster_and_any_text_that_is_handed_over_is_read_or_said() {
    asked("roster");
}

#[test]
fn whatever_a_build_finds_beside_a_site_it_ends_whole() {
    asked("manifest");
}

/// The kept inputs reach the readers: most of them are read, and a sound library has no findings.
#[test]
fn what_is_kept_is_worth_rolling() {
    assert!(what::sound().findings.is_empty());
    for (target, _) in TARGETS {
        assert!(kept(target).iter().any(|bytes| bytes.len() > 8), "{target}");
    }
}
