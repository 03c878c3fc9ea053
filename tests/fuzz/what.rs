//! What is asked of each reader: any bytes go in, and some things hold whatever comes out.
//! Never how the bytes come about: `tests/fuzz.rs` rolls them from a seed, `tests/fuzz/run` lets
//! libFuzzer look for them.

use rungbook::check;
use rungbook::finding::{Finding, Paint, Sources, render, to_json, to_sarif};
use rungbook::gym::{Gym, pose_tree};
use rungbook::kept::{Inputs, Kept, Print};
use rungbook::library::reader::{self, Texts, handed, node, roster};
use rungbook::library::{Count, Library, Nickname, Quantity, Unit, roster_lines};
use rungbook::mechanics::words::number::{Kind, SettingValue, Settings, number};
use rungbook::mechanics::words::recipe;
use rungbook::search::{Index, read_of, says_stop};
use rungbook::site::File;
use rungbook::site::output::{MadeFrom, Place, Report};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

/// A reader that takes any bytes and panics where something does not hold.
pub type Ask = fn(&[u8]);

/// Every reader by its name, which is that of its folder of kept inputs.
#[allow(dead_code)]
pub const TARGETS: [(&str, Ask); 6] = [
    ("reader", reader),
    ("pose", pose),
    ("units", units),
    ("query", query),
    ("roster", roster_and_handed),
    ("manifest", manifest),
];

/// A library of `tests/libraries`, from wherever this is compiled.
fn library_named(name: &str) -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let libraries = here.ancestors().map(|folder| folder.join("tests/libraries"));
    libraries.into_iter().find(|found| found.is_dir()).expect("the libraries").join(name)
}

/// Files that an input is read as; its first byte picks one.
const PLACES: [&str; 14] = [
    "movements/pull-horizontal/odd.md",
    "movements/pull-horizontal/strap-row.md",
    "ladders/row.yaml",
    "ladders/odd.yaml",
    "sessions/monday.yaml",
    "cycles/spring.yaml",
    "words/kit.yaml",
    "words/traits.yaml",
    "words/cautions.yaml",
    "words/faults.yaml",
    "words/changes.yaml",
    "words/synonyms.yaml",
    "club.yaml",
    "logo.svg",
];

/// A file of a library: whatever stands in it is read or said at its place.
pub fn reader(bytes: &[u8]) {
    let Some((first, Ok(text))) = bytes.split_first().map(|(a, b)| (a, std::str::from_utf8(b)))
    else {
        return;
    };
    let parts: Vec<String> =
        PLACES[*first as usize % PLACES.len()].split('/').map(String::from).collect();
    let texts = Texts::read(&library_named("tiny"), "content").expect("a library");
    let library = texts.with_unsaved(&parts, text.to_string()).library();
    // Poses have a reader of their own, below; solving them takes its time.
    if text.contains("figure") {
        return said(&library.findings, &library.sources);
    }
    let gym = Gym::open(library);
    said(&check::run(&gym), &gym.library.sources);
}

/// Findings have a place inside their file, words and a next step, in every form.
fn said(findings: &[Finding], sources: &Sources) {
    for finding in findings {
        for place in std::iter::once(&finding.place).chain(&finding.also) {
            let text = sources.text(place.span.file);
            let inside = text.get(place.span.start as usize..place.span.end as usize);
            assert!(inside.is_some(), "{finding:?} lies outside its file");
        }
        assert!(finding.headline.contains(' ') && !finding.help.is_empty(), "{finding:?}");
    }
    let shown = render(findings, sources, Paint::Plain);
    assert!(!shown.contains(|c: char| c.is_control() && c != '\n'), "{shown:?}");
    for text in [to_json(findings, sources), to_sarif(findings, sources, &check::rule_facts())] {
        assert!(serde_json::from_str::<serde_json::Value>(&text).is_ok(), "{text}");
    }
}

/// A figure: read as a recipe, or every problem with a sentence at a place.
pub fn pose(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let setting = |name: &str, value, unit: &str| SettingValue {
        name: name.to_string(),
        value,
        unit: unit.to_string(),
    };
    let values =
        [setting("hands", 60.0, "cm"), setting("lean", 45.0, "deg"), setting("weight", 8.0, "kg")];
    for stature in [1.5, 1.72, 1.98] {
        let settings = Settings::for_stature(&values, stature);
        for kind in [Kind::Centimetres, Kind::Degrees, Kind::Kilograms, Kind::Percent] {
            if let Ok(found) = number(text, kind, settings, 0) {
                assert!(found.is_finite(), "{text:?} is {found}");
            }
        }
        let mut sources = Sources::default();
        let file = sources.add("odd.md", text.to_string());
        let Ok(tree) = node::parse(text, file, 0).map(|node| pose_tree(&node)) else { return };
        let (recipe, problems) = recipe::read(&tree, 0, settings);
        assert!(recipe.is_some() || !problems.is_empty(), "nothing is read and nothing is said");
        for problem in problems {
            assert!(problem.at <= text.len(), "{problem:?} lies outside");
            assert!(!problem.sentence.is_empty() && !problem.next.is_empty(), "{problem:?}");
        }
    }
}

/// Numbers with units, and counts: what is read is a number, within reach, and reads the same again.
pub fn units(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    for unit in Unit::ALL {
        let (least, most) = unit.reach();
        if let Ok(found) = Quantity::read(text, unit) {
            assert!(found.number().is_finite(), "{text:?}");
        }
        if let Ok(found) = Quantity::read_in_reach(text, unit) {
            assert!((least..=most).contains(&found.number()), "{text:?} is {found}");
            let again = Quantity::read_in_reach(&found.to_string(), unit);
            assert!(again.is_ok(), "{text:?} is shown as {found}");
        }
    }
    let _ = Quantity::read_any(text, &Unit::ALL);
    for most in [Count::SETS, Count::REPS, Count::SECONDS, Count::METRES] {
        if let Some(count) = Count::read(text, most) {
            assert!(1 <= count.from && count.from <= count.to && count.to <= most, "{text:?}");
        }
    }
}

/// What is typed into the search: bounded answers, the same each time, or what was not understood.
pub fn query(bytes: &[u8]) {
    static HALL: OnceLock<(Gym, Index)> = OnceLock::new();
    let (gym, index) = HALL.get_or_init(|| {
        let library = reader::read_as(&library_named("hall"), "content").expect("a library");
        let gym = Gym::open(library);
        let index = Index::build(&gym).expect("an index");
        (gym, index)
    });
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    assert!(read_of(text).encode_utf16().count() <= 200);
    let hits = index.find(text, 10);
    assert!(hits.len() <= 10 && hits.iter().all(|hit| hit.score.is_finite()), "{text:?}");
    assert!(hits.iter().all(|hit| !hit.name.is_empty()), "{text:?}");
    assert_eq!(hits, index.find(text, 10), "{text:?}");
    assert!(index.find_after_stop(text, 10).len() <= 3, "{text:?}");
    let _ = (index.heard(text), says_stop(gym, text));
}

/// A roster and a text that was handed over; into what reads well a result is put.
pub fn roster_and_handed(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let mut sources = Sources::default();
    let file = sources.add("roster.yaml", text.to_string());
    let (_, wrong) = handed::read(file, &sources);
    said(&wrong, &sources);
    let (read, wrong) = roster::read(file, &sources);
    said(&wrong, &sources);
    if !wrong.is_empty() {
        return;
    }
    let item = "{ladder: row, rung: 1, reps: 5, day: 2026-01-01}".to_string();
    let names = read.roster.members.iter().map(|member| member.name.value.clone());
    for name in names.take(3).chain([Nickname("newcomer".to_string())]) {
        let new = [(name, item.clone())];
        let made = roster_lines::with_items(text, read.root.as_ref(), ("results", &new));
        // Whoever writes it reads it first and writes nothing where it says another thing.
        if let Ok(made) = made {
            let file = sources.add("roster.yaml", made);
            let (_, wrong) = roster::read(file, &sources);
            said(&wrong, &sources);
        }
    }
    let same = roster_lines::with_rungs_kept(text, &read.roster, &read.roster);
    let file = sources.add("roster.yaml", same);
    said(&roster::read(file, &sources).1, &sources);
}

/// What builds leave beside a site, spoilt: the next build is whole, and touches nothing of others.
pub fn manifest(bytes: &[u8]) {
    let Some((first, bytes)) = bytes.split_first() else { return };
    let folder = tempfile::tempdir().expect("a folder");
    let (out, mine) = (folder.path().join("site"), folder.path().join("mine.html"));
    fs::write(&mine, "mine").expect("a file");
    let files = [("index.html", "one"), ("kit/straps.html", "two")];
    build(&out, &files).expect("a first build");
    fs::write(out.join("photo.txt"), "the coach's").expect("a file");
    let kept = folder.path().join(".site.rungbook-kept");
    let name = ["stamps", "0.kept", "new.part", "../site/.rungbook", "../.site.rungbook-lock"];
    let spoilt = kept.join(name[*first as usize % name.len()]);
    fs::create_dir_all(&kept).expect("a folder");
    fs::write(&spoilt, bytes).expect("spoilt");
    let again = build(&out, &files[..1]);
    assert_eq!(fs::read_to_string(&mine).ok().as_deref(), Some("mine"), "a file of others");
    let Ok(()) = again else { return };
    assert_eq!(fs::read_to_string(out.join("index.html")).ok().as_deref(), Some("one"));
    // Only a list that names it lets a file go: then somebody said that it is ours.
    let named = String::from_utf8_lossy(bytes).lines().any(|line| line == "photo.txt");
    assert!(named || out.join("photo.txt").exists(), "a file of the coach's");
}

/// A build of some files; whatever is kept is asked too.
fn build(out: &Path, files: &[(&str, &str)]) -> Result<(), ()> {
    let place = Place::take(out, |_| ()).map_err(drop)?;
    let kept: Kept = place.kept();
    let asked = kept.get(Inputs::of("fuzz").whole(1).print(), || "a result".to_string());
    assert_eq!(asked, "a result");
    kept.settle();
    let _ = place.unchanged(Print::of_bytes(b"x"));
    let writing = place.begin().map_err(drop)?;
    for (name, text) in files {
        let bytes = text.as_bytes();
        writing.put(&File { name, bytes, print: Print::of_bytes(bytes) });
    }
    let report = Report { findings: String::new(), pressing: false };
    let from = MadeFrom { print: Print::of_bytes(b"x"), report };
    place.finish(writing, from).map(drop).map_err(drop)
}

/// A library that nobody spoilt, for who wants to see that the readers are awake.
#[allow(dead_code)]
pub fn sound() -> Library {
    reader::read_as(&library_named("tiny"), "content").expect("a library")
}
