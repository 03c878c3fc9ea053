//! Never stale: random edits of a library, a theme, a cache and a site; after each of them a build that
//! remembers, a preview that goes on and a cold build show the same, byte for byte.
//!
//! `RUNGBOOK_EDITS=2000 cargo test --release --test never_stale` asks more; `RUNGBOOK_DICE` begins
//! elsewhere. Never looks at how anything is remembered.

#[path = "stale/edits.rs"]
mod edits;
#[path = "preview/running.rs"]
#[allow(dead_code, reason = "the stories of the preview use the rest of it")]
mod running;

use edits::Dice;
use rungbook::gym::Gym;
use rungbook::kept::Kept;
use rungbook::library::reader;
use running::{Place, Preview, copy};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;
use walkdir::WalkDir;

type Tree = BTreeMap<String, Vec<u8>>;

fn number(name: &str, usual: u64) -> u64 {
    std::env::var(name).ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

/// All that the poses can show of what this library has words for.
const TRAITS: &str = "traits: {loaded-wrist-extension: 2, overhead: 2, strong-grip: 2, supine: 2}";

/// Nine movements with the poses of the starter library, two ladders, a session, a cycle, a theme.
fn hall() -> Place {
    let place = Place::empty();
    let house = Path::new(env!("CARGO_MANIFEST_DIR"));
    copy(&house.join("tests/libraries/hall"), &place.path("content"));
    for entry in WalkDir::new(place.path("content/movements")).into_iter().flatten() {
        let below = entry.path().strip_prefix(place.path("")).expect("below").to_string_lossy();
        let model = house.join(&*below);
        if let Some(text) = fs::read_to_string(model).ok().filter(|text| text.contains("\nfigure:"))
        {
            let own = fs::read_to_string(entry.path()).expect("an entry");
            let settings = if own.contains("\nsettings:") { "" } else { part(&text, "settings:") };
            let figure = format!("{settings}{}", part(&text, "figure:"));
            let drawn = |line: &str| match line {
                _ if line.starts_with("no-figure:") => figure.clone(),
                // What the poses show is said, at any setting: else nothing is built.
                _ if line.starts_with("traits:") => format!("{TRAITS}\n"),
                _ => format!("{line}\n"),
            };
            place.save(&below, &own.lines().map(drawn).collect::<String>());
        }
    }
    place.save("look/styles/club.css", "body { color: black }\n");
    let page = "{% extends \"slate/movement.html\" %}\n{% block cues %}Cues{% endblock %}\n";
    place.save("look/templates/movement.html", page);
    place
}

/// A key of an entry with all that belongs to it.
fn part<'t>(text: &'t str, key: &str) -> &'t str {
    let Some(at) = text.find(&format!("\n{key}")) else { return "" };
    let rest = &text[at + 1..];
    let lines = rest.split_inclusive('\n').skip(1).take_while(|line| line.starts_with(' '));
    let length =
        rest.find('\n').map_or(rest.len(), |end| end + 1) + lines.map(str::len).sum::<usize>();
    &rest[..length]
}

/// Everything that a build said and wrote.
#[derive(PartialEq)]
struct Built {
    code: Option<i32>,
    said: String,
    site: Tree,
}

fn build(place: &Place, out: &str) -> Built {
    let mut command = Command::new(env!("CARGO_BIN_EXE_rungbook"));
    command.args(["build", "--theme", "look", "--out", out]).current_dir(place.path(""));
    let output = command.output().expect("it runs");
    let said = String::from_utf8(output.stderr).expect("UTF-8");
    Built { code: output.status.code(), said, site: tree(&place.path(out)) }
}

/// A build that remembers nothing.
fn cold(place: &Place) -> Built {
    for name in ["cold", ".cold.rungbook-kept"] {
        let _ = fs::remove_dir_all(place.path(name));
    }
    build(place, "cold")
}

fn tree(folder: &Path) -> Tree {
    let entries = WalkDir::new(folder).into_iter().flatten().filter(|e| e.file_type().is_file());
    let named = entries.map(|entry| {
        let name = entry.path().strip_prefix(folder).expect("below").to_string_lossy().into_owned();
        (name, fs::read(entry.path()).expect("it reads"))
    });
    named.collect()
}

fn difference(a: &Tree, b: &Tree) -> Option<String> {
    let names = a.keys().chain(b.keys());
    names.into_iter().find(|name| a.get(*name) != b.get(*name)).cloned()
}

fn edits_of(seat: u64) -> impl Iterator<Item = u64> {
    // Four tests share the edits, so that every core has some.
    let all = number("RUNGBOOK_EDITS", 100);
    (0..all).filter(move |edit| edit % 4 == seat)
}

/// Random edits in a row; a build into one site, and one from nothing, after each.
fn builds_stay_fresh(seat: u64) {
    let place = hall();
    let mut dice = Dice::new(number("RUNGBOOK_DICE", 12) * 4 + seat);
    let mut history = Vec::new();
    let mut written = 0;
    assert!(cold(&place).site.contains_key("index.html"), "the hall does not build");
    for _ in edits_of(seat) {
        history.push(edits::library(&place, &mut dice));
        history.extend(edits::remembered(&place, &mut dice));
        let cold = cold(&place);
        let warm = build(&place, "site");
        let row = || history[history.len().saturating_sub(8)..].join("\n  ");
        assert_eq!(warm.code, cold.code, "after\n  {}", row());
        assert_eq!(warm.said, cold.said, "after\n  {}", row());
        if cold.site.contains_key("index.html") {
            written += 1;
            let differs = difference(&warm.site, &cold.site);
            assert_eq!(differs, None, "after\n  {}", row());
        }
    }
    let few = edits_of(seat).count() / 2;
    assert!(written > few, "{written} sites were written: the edits break too much");
}

#[test]
fn builds_stay_fresh_0() {
    builds_stay_fresh(0);
}

#[test]
fn builds_stay_fresh_1() {
    builds_stay_fresh(1);
}

/// The same edits below a preview that goes on.
fn previews_stay_fresh(seat: u64) {
    let place = hall();
    let preview = place.preview(&["--port", "0", "--theme", "look"]);
    let club = place.read("content/club.yaml");
    let here = format!("address: http://{}/", preview.host());
    let there = "address: https://thornmere-hall.example/small/";
    place.save("content/club.yaml", &club.replace(there, &here));
    let mut dice = Dice::new(number("RUNGBOOK_DICE", 12) * 4 + seat);
    let mut history = Vec::new();
    for edit in edits_of(seat) {
        history.push(edits::library(&place, &mut dice));
        // The last save of an edit shows when the preview has come so far.
        let mark = format!("Edit {edit} of the preview.");
        place.save("look/scripts/mark.js", &format!("// {mark}\n"));
        let cold = cold(&place);
        if !cold.site.contains_key("index.html") {
            continue;
        }
        until(&preview, &mark);
        for (name, bytes) in &cold.site {
            if [".rungbook", "offline-worker.js", "offline-files.json"].contains(&name.as_str()) {
                continue;
            }
            let body = without_our_script(&preview.get(&format!("/{name}")).body);
            let row = || history[history.len().saturating_sub(8)..].join("\n  ");
            assert!(body == String::from_utf8_lossy(bytes), "{name} after\n  {}", row());
        }
    }
}

#[test]
fn previews_stay_fresh_2() {
    previews_stay_fresh(2);
}

#[test]
fn previews_stay_fresh_3() {
    previews_stay_fresh(3);
}

/// A pose that is found again is told of at the bytes where its entry has it now.
#[test]
fn a_kept_pose_tells_its_places_where_they_are_now() {
    let place = hall();
    let kept = Arc::new(Kept::in_memory());
    let open = |kept: &Arc<Kept>| {
        let library = reader::read(&place.path("content")).expect("a library");
        Gym::open_with(library, Arc::clone(kept))
    };
    let said = |gym: &Gym| format!("{:?} {:?}", gym.posed, gym.rungs);
    let before = said(&open(&kept));
    let entry = "content/movements/push-horizontal/push-up.md";
    place.save(entry, &place.read(entry).replacen("standard: ", "standard: A longer one. ", 1));
    let (again, anew) = (said(&open(&kept)), said(&open(&Arc::default())));
    assert_ne!(before, anew, "the places are others now");
    assert!(again == anew, "what was kept tells other places");
}

/// Waits until the preview shows the mark: it is in the theme, which every site has.
fn until(preview: &Preview, mark: &str) {
    let begun = std::time::Instant::now();
    let mut events = preview.events();
    while !preview.get("/scripts/mark.js").body.contains(mark) {
        assert!(begun.elapsed().as_secs() < 60, "the preview never showed {mark:?}");
        events.next();
    }
}

fn without_our_script(body: &str) -> String {
    let Some(at) = body.find("<script src=\"/preview/preview.js\"") else {
        return body.to_string();
    };
    let end = body[at..].find("</script>\n").map_or(body.len(), |end| at + end + 10);
    format!("{}{}", &body[..at], &body[end..])
}
