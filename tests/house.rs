//! House rules, read from the sources: promises, lengths, arrows between rooms, disk and clock.
//! Never a matter of taste: each rule is in DESIGN, and each is shown here to fail on a bad source.

#[path = "house/circles.rs"]
mod circles;
#[path = "house/source.rs"]
mod source;

use sha2::{Digest, Sha256};
use source::{code, promise, rooms_named, without_tests, words};
use std::collections::BTreeMap;
use std::path::Path;
use walkdir::WalkDir;

const LONGEST: usize = 400;

/// Rooms that may touch disk, network and clock; everything else returns values.
const OPEN_TO_THE_WORLD: [&str; 10] = [
    "src/turn.rs",
    "src/kept/",
    "src/library/reader/",
    "src/site/theme",
    "src/site/output",
    "src/door",
    "src/preview",
    "src/live",
    "src/cli/",
    "src/main.rs",
];

/// Rooms that nothing imports but those named here (the rest of the order is that of `lib.rs`).
const ONLY_FROM: [(&str, &[&str]); 6] = [
    ("check", &["preview", "cli"]),
    ("site", &["preview", "cli"]),
    ("door", &["preview", "live", "cli"]),
    ("preview", &["cli"]),
    ("live", &["cli"]),
    ("cli", &[]),
];

/// Files by their names below the house, read as text.
fn files(below: &[&str], endings: &[&str]) -> BTreeMap<String, String> {
    let house = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = BTreeMap::new();
    for top in below {
        for entry in WalkDir::new(house.join(top)).into_iter().filter_entry(|e| !is_foreign(e)) {
            let Ok(entry) = entry else { continue };
            let name = entry.path().strip_prefix(house).unwrap().to_string_lossy().into_owned();
            let wanted = endings.iter().any(|ending| name.ends_with(ending));
            if wanted && let Ok(text) = std::fs::read_to_string(entry.path()) {
                found.insert(name, text);
            }
        }
    }
    assert!(!found.is_empty(), "no {endings:?} below {below:?}");
    found
}

/// Packages and built files are not ours.
fn is_foreign(entry: &walkdir::DirEntry) -> bool {
    ["node_modules", "target"].contains(&entry.file_name().to_string_lossy().as_ref())
}

/// Every complaint of a rule over some files; the test fails with all of them.
fn complain(files: &BTreeMap<String, String>, rule: impl Fn(&str, &str) -> Vec<String>) {
    let complaints: Vec<String> = files
        .iter()
        .flat_map(|(name, text)| rule(name, text).into_iter().map(move |c| format!("{name}: {c}")))
        .collect();
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

fn promise_rule(_: &str, text: &str) -> Vec<String> {
    let lines = promise(text);
    if lines.first().is_none_or(|line| line.is_empty()) {
        return vec!["does not open with `//! What it is.`".into()];
    }
    let says_never = |line: &&str| {
        let words = line.to_lowercase();
        let mut words = words.split(|c: char| !c.is_alphabetic());
        words.any(|word| ["never", "no", "nothing", "only", "not"].contains(&word))
    };
    // The second sentence may stand on the first line.
    let later = lines.join(" ");
    let later = later.split_once(['.', ':', ';']).map_or("", |(_, later)| later);
    match [later].iter().any(says_never) {
        true => Vec::new(),
        false => vec!["does not say what it never does".into()],
    }
}

fn length_rule(_: &str, text: &str) -> Vec<String> {
    let lines = text.lines().count();
    let too_long = lines > LONGEST;
    if too_long { vec![format!("{lines} lines, {LONGEST} at most")] } else { Vec::new() }
}

/// The rooms in reading order, from `lib.rs`.
fn rooms(map: &str) -> Vec<String> {
    let words = words(&code(map));
    let named = words.windows(3).filter(|w| w[0] == "pub" && w[1] == "mod");
    named.map(|w| w[2].clone()).collect()
}

fn room_of(name: &str) -> &str {
    let below = name.strip_prefix("src/").unwrap_or(name);
    below.split(['/', '.']).next().unwrap_or(below)
}

fn arrow_rule(order: &[String], name: &str, text: &str) -> Vec<String> {
    let room = room_of(name);
    if room == "main" || room == "lib" {
        return Vec::new();
    }
    let code = without_tests(&code(text));
    let place = |room: &str| order.iter().position(|one| one == room);
    let mut complaints = Vec::new();
    for target in rooms_named(&code, "crate") {
        let barred = ONLY_FROM.iter().any(|(to, from)| *to == target && !from.contains(&room));
        let upward = place(&target).zip(place(room)).is_some_and(|(to, from)| to < from);
        if target != room && (barred || !upward) {
            complaints.push(format!("`{room}` may not import from `{target}`"));
        }
    }
    complaints.extend(out_of_the_room(name, &code));
    complaints
}

/// `super::super::..` that leaves the room reaches others by a side door.
fn out_of_the_room(name: &str, code: &str) -> Vec<String> {
    let inside = name.trim_start_matches("src/").trim_end_matches(".rs");
    let depth = inside.trim_end_matches("/mod").matches('/').count() + 1;
    let side_door = "super::".repeat(depth);
    let joined = words(code).concat();
    let found = joined.contains(&side_door);
    if found { vec!["leaves its room through `super`".into()] } else { Vec::new() }
}

fn world_rule(name: &str, text: &str) -> Vec<String> {
    if OPEN_TO_THE_WORLD.iter().any(|open| name.starts_with(open)) {
        return Vec::new();
    }
    let code = without_tests(&code(text));
    let world = ["fs", "net", "SystemTime", "Instant", "WalkDir", "walkdir", "Command"];
    let touched = words(&code).into_iter().filter(|word| world.contains(&word.as_str()));
    touched.map(|word| format!("touches disk, network or clock with `{word}`")).collect()
}

fn panic_rule(_: &str, text: &str) -> Vec<String> {
    let words = words(&without_tests(&code(text)));
    let calls = words.windows(3).filter(|w| w[0] == "." && w[2] == "(");
    let bad = calls.filter(|w| w[1] == "unwrap" || w[1] == "expect");
    bad.map(|w| format!("`{}` panics on what a person or a disk can break", w[1])).collect()
}

/// Places on one person's machine. Written in pieces, so that this file passes its own rule.
fn machine_rule(_: &str, text: &str) -> Vec<String> {
    let places = [
        concat!("/wo", "rk/"),
        concat!("/ro", "ot/"),
        concat!("/ho", "me/"),
        concat!("C:\\", "Users"),
    ];
    let found = places.iter().filter(|place| text.contains(**place));
    found.map(|place| format!("names a place on somebody's machine: {place}")).collect()
}

/// Brands by the first eight bytes of their SHA-256, so that none stands in the repository.
const BRANDS: [&str; 35] = [
    "08bb42a30ca57f34",
    "0e79172671f59f0f",
    "155e607825187242",
    "1af32fa0f14ba931",
    "1d52fc722532abf1",
    "1dc5ee01c3343cc7",
    "2338bd42b77c9d4a",
    "24e6654bfd1ab85b",
    "2702850fdc5b6044",
    "34b17ece524e24a8",
    "34c61d931feaab26",
    "36cc894de45e2a7e",
    "3791c27bbdd54801",
    "3d59f7548e1af215",
    "40c57bb53c07338b",
    "459090e9ac2fc23c",
    "5077841ff0064e12",
    "50a949349c638968",
    "50ff4435fa013dd5",
    "5beeafeac2e27eae",
    "5d88f45050c26f7c",
    "5dd95c98aff2e783",
    "5ede56738376a8c5",
    "6a5cd181ce912ebb",
    "71508df592b4e718",
    "7c2a0c2c84bcb97b",
    "837ce05ea0db89fd",
    "a48b70b3766c9a31",
    "a511094d1fba56bc",
    "aa5af52e3429b489",
    "c25825a1239e67ac",
    "cb0d32ac41b366b6",
    "ce161186def064e6",
    "cf7e97438b1fc952",
    "ec8202b6f9fb16f9",
];

fn brand_rule(_: &str, text: &str) -> Vec<String> {
    let is_brand = |word: &&str| BRANDS.contains(&digest(word).as_str());
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| word.len() > 2);
    words.filter(is_brand).map(|word| format!("names a brand: {word}")).collect()
}

fn digest(word: &str) -> String {
    let digest = Sha256::digest(word.to_lowercase().as_bytes());
    digest.iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

const OUR_TEXT: [&str; 8] =
    ["src", "tests", "themes", "content", "README.md", "DEVELOPERS.md", "Cargo.toml", ".ci"];
const TEXT_ENDINGS: [&str; 15] = [
    ".rs", ".md", ".toml", ".yaml", ".html", ".css", ".js", ".mjs", ".json", ".sh", ".trycmd",
    "run", "all", "show", ".txt",
];

#[test]
fn every_module_opens_with_its_promise() {
    complain(&files(&["src"], &[".rs"]), promise_rule);
    assert_eq!(promise_rule("", "use std::fmt;\n").len(), 1);
    assert_eq!(promise_rule("", "//! Swaps: what does the same work.\n").len(), 1);
    assert!(promise_rule("", "//! Swaps.\n//! Never loosens a filter.\n").is_empty());
}

#[test]
fn no_file_is_over_400_lines() {
    let mut ours = files(&["src", "tests"], &[".rs", ".mjs"]);
    ours.extend(files(&["themes"], &[".js", ".css", ".html"]));
    complain(&ours, length_rule);
    assert_eq!(length_rule("", &"x\n".repeat(401)).len(), 1);
    assert!(length_rule("", &"x\n".repeat(400)).is_empty());
}

#[test]
fn scripts_and_styles_open_with_a_comment() {
    let rule = |_: &str, text: &str| {
        let opens = text.is_empty() || text.starts_with("//") || text.starts_with("/*");
        if opens { Vec::new() } else { vec!["does not say what it is".to_string()] }
    };
    complain(&files(&["themes", "tests/browser"], &[".js", ".mjs", ".css"]), rule);
    assert_eq!(rule("", "let x = 1;").len(), 1);
}

#[test]
fn rooms_import_only_from_rooms_above_them() {
    let sources = files(&["src"], &[".rs"]);
    let order = rooms(&sources["src/lib.rs"]);
    assert_eq!(order.first().map(String::as_str), Some("finding"), "{order:?}");
    complain(&sources, |name, text| arrow_rule(&order, name, text));
    let bad = |name: &str, text: &str| arrow_rule(&order, name, text).len();
    assert_eq!(bad("src/library/id.rs", "use crate::site::routes::To;"), 1);
    assert_eq!(bad("src/library/id.rs", "use crate::{finding::Span, gym::Gym};"), 1);
    assert_eq!(bad("src/site/mod.rs", "fn a() { crate::cli::run(x) }"), 1);
    assert_eq!(bad("src/site/mod.rs", "use crate::check;"), 1);
    assert_eq!(bad("src/library/id.rs", "use super::super::site;"), 1);
    assert_eq!(bad("src/site/mod.rs", "// crate::cli\nuse crate::gym::Gym;"), 0);
}

/// Circles that still stand. One that is gone leaves this list; none comes onto it.
const CIRCLES: &[&[&str]] = &[
    &["board::clock", "board::live", "board::sheet", "board::standing", "board::told"],
    &["board::model", "board::parts", "board::puzzle"],
    &["check::causes", "check::follow"],
    &["check::done", "check::roster"],
    &[
        "cli::board",
        "cli::roster",
        "cli::roster_done",
        "cli::roster_json",
        "cli::roster_keep",
        "cli::roster_relate",
    ],
    &["cli::cover", "cli::cover_session"],
    &["cli::demand", "cli::demand_said"],
    &["cli::exchange", "cli::private_file", "cli::say"],
    &["figure::doubts", "figure::frame", "figure::hidden"],
    &["gym::pulled", "gym::scale"],
    &["library::named", "library::reader"],
    &["library::reader::coming", "library::reader::roster"],
    &["library::reader::fault", "library::reader::words"],
    &["library::reader::fields", "library::reader::hints"],
    &["mechanics::doubt", "mechanics::moments", "mechanics::pulls", "mechanics::statics"],
    &["placing::set_up", "placing::stretch", "placing::there"],
    &["search::block", "search::entry"],
    &["swap::fits", "swap::rungs", "swap::serving"],
];

#[test]
fn modules_beside_each_other_make_no_circle() {
    let known: Vec<Vec<String>> =
        CIRCLES.iter().map(|circle| circle.iter().map(|name| name.to_string()).collect()).collect();
    assert_eq!(circles::circles(&files(&["src"], &[".rs"])), known);
    let sources = |texts: [(&str, &str); 3]| {
        let owned = |(name, text): (&str, &str)| (format!("src/swap/{name}.rs"), text.to_string());
        circles::circles(&texts.into_iter().map(owned).collect())
    };
    let two =
        sources([("a", "use super::b::C;"), ("b", "use crate::swap::{d, a::E};"), ("mod", "")]);
    assert_eq!(two, [["swap::a", "swap::b"]]);
    let none = sources([
        ("a", "use super::b::C;"),
        ("b", "// super::a\nuse std::fmt;"),
        ("mod", "pub use a::E;"),
    ]);
    assert_eq!(none, Vec::<Vec<String>>::new());
}

#[test]
fn only_main_imports_the_commands() {
    let sources = files(&["src"], &[".rs"]);
    let from_main = |text: &str| rooms_named(&code(text), "rungbook").contains(&"cli".to_string());
    assert!(from_main(&sources["src/main.rs"]));
    let elsewhere = sources.iter().filter(|(name, _)| *name != "src/main.rs");
    assert!(elsewhere.into_iter().all(|(_, text)| !from_main(text)));
}

#[test]
fn only_some_rooms_touch_disk_network_and_clock() {
    complain(&files(&["src"], &[".rs"]), world_rule);
    assert_eq!(world_rule("src/swap.rs", "use std::{fs, io};").len(), 1);
    assert_eq!(world_rule("src/swap.rs", "let now = std::time::Instant::now();").len(), 1);
    assert!(world_rule("src/swap.rs", "let a = \"std::fs\"; // Instant").is_empty());
    assert!(world_rule("src/site/output.rs", "use std::fs;").is_empty());
}

#[test]
fn nothing_panics_on_what_a_person_or_a_disk_can_break() {
    complain(&files(&["src"], &[".rs"]), panic_rule);
    assert_eq!(panic_rule("", "fn a() { b.unwrap(); c.expect(\"d\"); }").len(), 2);
    assert!(
        panic_rule("", "#[cfg(test)] mod tests { fn a() { b.unwrap() } } fn c() {}").is_empty()
    );
    assert!(panic_rule("", "fn a() { b.unwrap_or(1) }").is_empty());
}

#[test]
fn no_machine_and_no_brand_is_named() {
    let ours = files(&OUR_TEXT, &TEXT_ENDINGS);
    complain(&ours, machine_rule);
    complain(&ours, brand_rule);
    assert_eq!(machine_rule("", concat!("see /ho", "me/wren/notes")).len(), 1);
    // Two halves, so that the word is not in this file.
    assert_eq!(brand_rule("", concat!("a strip of Vel", "cro")).len(), 1);
    assert!(brand_rule("", "straps, rings and a band").is_empty());
}

/// What may stand at the top: everything else has a room of its own.
const TOP: [&str; 13] = [
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "build.rs",
    "content",
    "rustfmt.toml",
    "site",
    "src",
    "target",
    "tests",
    "themes",
];

#[test]
fn nothing_else_stands_at_the_top() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let entries = std::fs::read_dir(root).expect("the project's folder");
    let names = entries.map(|entry| entry.expect("an entry").file_name());
    let names: Vec<String> = names.map(|name| name.to_string_lossy().into_owned()).collect();
    let strange = |names: &[String]| -> Vec<String> {
        let known = |name: &String| name.starts_with('.') || TOP.contains(&name.as_str());
        names.iter().filter(|name| !known(name)).cloned().collect()
    };
    assert_eq!(strange(&names), Vec::<String>::new());
    assert_eq!(strange(&["helpers".to_string()]).len(), 1);
}
