//! Leaks: words that stand in one private place each are looked for in everything that any command says
//! or writes, with every option and every value of an option.
//! Never a private function: the real program in a real folder, and every file that it leaves.
//!
//! `tests/leaks/table.rs` has the rows; a command or an option without a row fails here.
#![cfg(unix)]

#[allow(dead_code)]
#[path = "preview/running.rs"]
mod running;
#[path = "leaks/table.rs"]
mod table;

use clap::CommandFactory;
use running::Preview;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use table::{Row, SERVED, Shows};
use walkdir::WalkDir;

/// Who is on the roster. Each word stands nowhere else.
const NAMES: [&str; 2] = ["quailcanary", "swiftcanary"];
/// What is private of them: a note, the day of a result, a situation and a trait that only the first has.
const PRIVATE: [&str; 4] = ["notecanary", "2019-07-19", "situationcanary", "traitcanary"];
/// What stands in files beside the library and the roster, and in the names of folders above.
const ELSEWHERE: [&str; 3] = ["secretcanary", "placecanary", "homecanary"];

const ROSTER: &str = "\
quailcanary:
  trains: hall
  kit: [straps]
  limits: {traitcanary: 1}
  cautions: [situationcanary]
  rungs: {row: {rung: 1, was: {movement: strap-row, lean: 15 deg}}}
  results:
    - {ladder: row, rung: 1, reps: 12, day: 2019-07-19, note: notecanary, was: {movement: strap-row, lean: 15 deg}}
swiftcanary:
  trains: home
  kit: [towel]
  rungs: {push-up: 2}
";
/// The library knows the situation and the trait: only from a roster are they anybody's.
const TRAIT: &str = "traitcanary: {name: Traitcanary, plain: A trait of one member}\n";
const SITUATION: &str = "\
situationcanary:
  name: Situationcanary
  also-said: [a state of one member]
  leave-out: [{trait: traitcanary, from: 1}]
  says: Leave it out.
  clinician: When it stays.
  sources: [common-practice]
";
/// Names of files that no command is asked for.
const BESIDE: [&str; 6] = [
    ".env",
    "notes.txt",
    "private/people.yaml",
    "roster-of-last-year.yaml",
    "look/.env",
    "look/people.yaml",
];

/// A folder of a club with every word in its place.
fn club(folder: &Path) -> PathBuf {
    let club = folder.join("placecanary/club");
    let hall = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/libraries/hall");
    running::copy(&hall, &club.join("content"));
    let write = |name: &str, text: &str| {
        let path = club.join(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::write(path, text).expect("a file");
    };
    for (name, more) in [("traits", TRAIT), ("cautions", SITUATION)] {
        let name = format!("content/words/{name}.yaml");
        let text = fs::read_to_string(club.join(&name)).expect("words");
        write(&name, &(text + more));
    }
    let cycle = "content/cycles/spring.yaml";
    let text = fs::read_to_string(club.join(cycle)).expect("a cycle");
    write(cycle, &(text + "starts: 2027-01-04\n"));
    write("roster.yaml", ROSTER);
    let noted = "{\"session\": \"monday\", \"people\": [{\"name\": \"swiftcanary\", \"did\": [], \"left-out\": []}]}";
    write("monday-done.json", noted);
    write("handed.txt", "swiftcanary row rung 1 9 reps 2026-11-25\n");
    write("look/styles/own.css", "p { margin: 0 }\n");
    for name in BESIDE {
        write(name, "secretcanary:\n  limits: {secretcanary: 1}\n");
    }
    write("content/.hidden", "secretcanary\n");
    club
}

impl Shows {
    /// What must not stand in what a row says or writes.
    fn forbidden(self) -> Vec<&'static str> {
        let mut words = ELSEWHERE.to_vec();
        match self {
            Shows::Nothing => words.extend(NAMES.iter().chain(&PRIVATE)),
            // The library's own list of situations and traits is everybody's.
            Shows::Library => words.extend(NAMES.iter().chain(&PRIVATE[..2])),
            Shows::Names => words.extend(PRIVATE),
            Shows::OneOf(name) => {
                words.extend(NAMES.iter().filter(|other| **other != name));
                if name != NAMES[0] {
                    words.extend(PRIVATE);
                }
            }
            Shows::Everything => {}
        }
        words
    }
}

/// The first forbidden word in a text, in any case.
fn leak(text: &[u8], forbidden: &[&str]) -> Option<String> {
    let text = String::from_utf8_lossy(text).to_lowercase();
    forbidden.iter().find(|word| text.contains(**word)).map(|word| word.to_string())
}

fn started(club: &Path, row: &Row) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_rungbook"));
    command.args(row.words).current_dir(club);
    for variable in ["HOME", "USER", "HOSTNAME", "XDG_CONFIG_HOME"] {
        command.env(variable, "/homecanary");
    }
    command.stdin(Stdio::null()).env("RAYON_NUM_THREADS", "1");
    command
}

/// Every file below a folder with its bytes.
fn files(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let files = WalkDir::new(folder).into_iter().flatten().filter(|one| one.file_type().is_file());
    files.map(|one| (one.path().to_path_buf(), fs::read(one.path()).expect("it reads"))).collect()
}

/// Runs a row, and says what leaked or that it did not run.
fn fault(row: &Row) -> Option<String> {
    let folder = tempfile::tempdir().expect("a folder");
    let club = club(folder.path());
    let before = files(&club);
    let done = started(&club, row).output().expect("the program runs");
    let said = [done.stdout, done.stderr].concat();
    if !done.status.code().is_some_and(|code| row.codes.contains(&code)) {
        return Some(format!("{:?}: {}", done.status.code(), String::from_utf8_lossy(&said)));
    }
    let forbidden = row.shows.forbidden();
    if let Some(word) = leak(&said, &forbidden) {
        return Some(format!("says `{word}`: {}", String::from_utf8_lossy(&said)));
    }
    let written = files(&club).into_iter().filter(|(path, bytes)| before.get(path) != Some(bytes));
    written.filter(|(path, _)| !path.ends_with("roster.yaml")).find_map(|(path, bytes)| {
        let name = path.strip_prefix(&club).expect("below").to_string_lossy().into_owned();
        let word = leak(&bytes, &forbidden).or_else(|| leak(name.as_bytes(), &forbidden));
        word.map(|word| format!("writes `{word}` into {name}"))
    })
}

#[test]
fn no_command_says_or_writes_what_is_private() {
    let rows = table::rows();
    let (next, bad) = (AtomicUsize::new(0), Mutex::new(Vec::new()));
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                while let Some(row) = rows.get(next.fetch_add(1, Ordering::Relaxed)) {
                    if let Some(fault) = fault(row) {
                        bad.lock().expect("nobody panicked").push((row.words.join(" "), fault));
                    }
                }
            });
        }
    });
    let bad = bad.into_inner().expect("nobody panicked");
    assert!(bad.is_empty(), "{} of {} rows: {bad:#?}", bad.len(), rows.len());
    println!("{} rows, no leak", rows.len());
}

/// What is served: the pages that are asked for, what is refused, and what the program says meanwhile.
#[test]
fn nothing_that_is_served_says_what_is_private() {
    for (row, paths) in SERVED {
        let folder = tempfile::tempdir().expect("a folder");
        let club = club(folder.path());
        let mut served = Preview::serving(&club, row.words);
        let forbidden = row.shows.forbidden();
        for path in *paths {
            let path = path.replace("ROOT", &served.root);
            let answer = served.get(&path);
            let word = leak(answer.body.as_bytes(), &forbidden);
            assert_eq!(word, None, "{:?} at {path}", row.words);
            // Files beside the library, and the desk of poses to whoever has not its key.
            let refused = ["roster", ".env", "people", "handed", "/pose/"];
            let is_refused = refused.iter().any(|s| path.contains(s));
            assert_eq!(answer.status == 200, !is_refused, "{:?} at {path}", row.words);
        }
        served.child.kill().expect("it ends");
        let mut said = String::new();
        std::io::Read::read_to_string(&mut served.said, &mut said).expect("what it said");
        assert_eq!(leak(said.as_bytes(), &forbidden), None, "{said}");
    }
}

/// A roster that lies among the library's files: whatever is asked, no word of it is shown.
#[test]
fn a_roster_among_the_files_of_a_library_is_never_shown() {
    let places = ["content/ladders/people.yaml", "content/sessions/monday-people.yaml"];
    for place in places {
        for row in table::rows().iter().filter(|row| row.words.get(1) != Some(&"add")) {
            if !matches!(row.shows, Shows::Nothing | Shows::Library) {
                continue;
            }
            let folder = tempfile::tempdir().expect("a folder");
            let club = club(folder.path());
            fs::write(club.join(place), "placecanary-member:\n  limits: {secretcanary: 1}\n")
                .expect("misfiled");
            let done = started(&club, row).output().expect("the program runs");
            let said = [done.stdout, done.stderr].concat();
            let word = leak(&said, &row.shows.forbidden());
            assert_eq!(word, None, "{:?}: {}", row.words, String::from_utf8_lossy(&said));
            for (path, bytes) in files(&club.join("site")) {
                assert_eq!(leak(&bytes, &row.shows.forbidden()), None, "{}", path.display());
            }
        }
    }
}

/// Every command, every option of it and every value that an option names has a row.
#[test]
fn every_command_and_every_option_has_a_row() {
    let rows = table::rows();
    let asked: Vec<&[&str]> =
        rows.iter().map(|row| row.words).chain(SERVED.iter().map(|(row, _)| row.words)).collect();
    let mut lacking = BTreeSet::new();
    for (path, command) in leaves(&rungbook::cli::Command::command(), Vec::new()) {
        let of: Vec<&&[&str]> = asked
            .iter()
            .filter(|words| {
                words.iter().zip(&path).all(|(a, b)| a == b) && words.len() >= path.len()
            })
            .collect();
        if of.is_empty() {
            lacking.insert(path.join(" "));
        }
        for option in command.get_arguments() {
            let Some(long) = option.get_long().filter(|long| !["help", "version"].contains(long))
            else {
                continue;
            };
            let flag = format!("--{long}");
            let values: Vec<String> = match option.get_action().takes_values() {
                true => option
                    .get_possible_values()
                    .iter()
                    .map(|value| value.get_name().to_string())
                    .collect(),
                false => Vec::new(),
            };
            let has = |value: Option<&str>| {
                of.iter().any(|words| {
                    let at = words.iter().position(|word| *word == flag);
                    at.is_some_and(|at| value.is_none_or(|value| words.get(at + 1) == Some(&value)))
                })
            };
            if !has(None) {
                lacking.insert(format!("{} {flag}", path.join(" ")));
            }
            for value in values {
                // Nothing but a browser of the machine's own comes of it.
                if !has(Some(&value)) && (long, value.as_str()) != ("open", "yes") {
                    lacking.insert(format!("{} {flag} {value}", path.join(" ")));
                }
            }
        }
    }
    assert!(lacking.is_empty(), "no row of tests/leaks/table.rs has: {lacking:#?}");
}

/// The commands that have no commands below them, with their words.
fn leaves(command: &clap::Command, path: Vec<String>) -> Vec<(Vec<String>, clap::Command)> {
    let below: Vec<&clap::Command> = command.get_subcommands().collect();
    if below.is_empty() {
        return vec![(path, command.clone())];
    }
    let named = |one: &&clap::Command| [path.clone(), vec![one.get_name().to_string()]].concat();
    below.iter().flat_map(|one| leaves(one, named(one))).collect()
}

/// The words are found where they are, so that the rows above can fail.
#[test]
fn a_leak_is_seen() {
    let row = |words: &'static [&'static str]| Row { words, shows: Shows::Nothing, codes: &[0, 1] };
    for words in [
        &["roster", "show"][..],
        &["roster", "show", "quailcanary"],
        &["board", "monday", "--today", "2027-01-04", "--out", "wall.html"],
        &["build", "--library", "../../placecanary/club/content"],
    ] {
        assert!(fault(&row(words)).is_some(), "{words:?}");
    }
}
