//! What a rung was is kept beside its number, so that a ladder that is rewritten moves nobody up.

use super::{LIBRARY, TODAY, rungbook};
use std::fs;
use std::path::Path;

/// A copy of the library whose push-up ladder has these rungs, easiest first.
fn club(folder: &Path, rungs: &[&str]) {
    let copy = folder.join("club");
    if !copy.exists() {
        for entry in walkdir::WalkDir::new(LIBRARY).into_iter().flatten() {
            let to = copy.join(entry.path().strip_prefix(LIBRARY).expect("inside"));
            if entry.file_type().is_dir() {
                fs::create_dir_all(to).expect("a folder");
            } else {
                fs::copy(entry.path(), to).expect("a copy");
            }
        }
    }
    let file = copy.join("ladders/push-up.yaml");
    let text = fs::read_to_string(&file).expect("a ladder");
    let head = text.split("rungs:\n").next().expect("what stands before the rungs");
    let rungs: String = rungs.iter().map(|rung| format!("  - {{{rung}}}\n")).collect();
    let tail = "sources: [common-practice]\n";
    fs::write(file, format!("{head}rungs:\n{rungs}{tail}")).expect("the ladder");
}

const WALL: &str = "movement: wall-push-up";
const HIGH: &str = "movement: incline-push-up, hands: 60 cm, changes: share, because: Lower";
const LOW: &str = "movement: incline-push-up, hands: 30 cm, changes: share, because: Lower";
const FLOOR: &str = "movement: push-up, changes: share, because: On the floor";

fn roster(folder: &Path) -> String {
    fs::read_to_string(folder.join("roster.yaml")).expect("the roster")
}

fn keep(folder: &Path) -> (String, Option<i32>) {
    let done = rungbook(folder, &["roster", "keep", "--library", "club"]);
    (String::from_utf8_lossy(&done.stdout).into_owned(), done.status.code())
}

/// What `wren` is told of the push-up ladder: movement, setting, and why.
fn told(folder: &Path) -> (String, String, String) {
    let ask = ["own", "push-up", "--member", "wren", "--library", "club", "--format", "json"];
    let done = rungbook(folder, &ask);
    let said: serde_json::Value = serde_json::from_slice(&done.stdout).expect("JSON");
    let line = &said[0]["lines"][0];
    let word = |key: &str| line[key].as_str().unwrap_or_default().to_string();
    (word("movement"), word("setting"), line["why"].to_string())
}

#[test]
fn keep_writes_what_each_rung_is_and_nothing_else() {
    let folder = tempfile::tempdir().expect("a folder");
    club(folder.path(), &[WALL, HIGH, LOW, FLOOR]);
    let was = "was: {movement: incline-push-up, hands: 60 cm}";
    for (before, after) in [
        (
            "# ours\nwren: # new\n  rungs: {push-up: 2} # since May\n",
            format!("# ours\nwren: # new\n  rungs: {{push-up: {{rung: 2, {was}}}}} # since May\n"),
        ),
        (
            "wren:\n  rungs:\n    push-up: 2\n\n# others\nrobin:\n",
            format!("wren:\n  rungs:\n    push-up: {{rung: 2, {was}}}\n\n# others\nrobin:\n"),
        ),
        (
            "wren:\n  rungs:\n    push-up:\n      rung: 2 # hm\n",
            format!("wren:\n  rungs:\n    push-up:\n      rung: 2 # hm\n      {was}\n"),
        ),
        (
            "wren:\n  results:\n    - {ladder: push-up, rung: 2, reps: 9, day: 2026-01-01}\n",
            format!(
                "wren:\n  results:\n    - {{ladder: push-up, rung: 2, {was}, reps: 9, day: 2026-01-01}}\n"
            ),
        ),
        (
            "wren:\n  results:\n    - rung: 2\n      ladder: push-up\n      reps: 9\n      day: 2026-01-01\n",
            format!(
                "wren:\n  results:\n    - rung: 2\n      {was}\n      ladder: push-up\n      reps: 9\n      day: 2026-01-01\n"
            ),
        ),
        // What is known already stays, and so does a file in which nothing is missing.
        (
            "wren:\n  rungs: {push-up: {rung: 2, was: {movement: gone}}}\n",
            "wren:\n  rungs: {push-up: {rung: 2, was: {movement: gone}}}\n".to_string(),
        ),
    ] {
        fs::write(folder.path().join("roster.yaml"), before).expect("a roster");
        let (said, code) = keep(folder.path());
        assert_eq!((roster(folder.path()), code), (after.clone(), Some(0)), "{said}");
        let (again, code) = keep(folder.path());
        assert_eq!((roster(folder.path()), code), (after, Some(0)), "{again}");
        assert!(again.starts_with("nothing to write"), "{again}");
    }
}

#[test]
fn a_rung_that_no_ladder_has_is_said_and_the_others_are_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    club(folder.path(), &[WALL, HIGH, LOW, FLOOR]);
    fs::write(folder.path().join("roster.yaml"), "wren:\n  rungs: {push-up: 9, row: 1}\n")
        .expect("a roster");
    let (said, code) = keep(folder.path());
    assert_eq!(code, Some(1), "{said}");
    let text = roster(folder.path());
    assert!(text.contains("push-up: 9,") && text.contains("row: {rung: 1, was: "), "{text}");
}

#[test]
fn a_ladder_that_is_rewritten_moves_nobody_up() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = folder.path();
    for (written, lines) in [
        ("  rungs: {push-up: 2}\n", 1),
        ("  results:\n    - {ladder: push-up, rung: 2, reps: 8, day: 2026-01-01}\n", 1),
    ] {
        club(at, &[WALL, HIGH, LOW, FLOOR]);
        fs::write(at.join("roster.yaml"), format!("wren:\n{written}")).expect("a roster");
        // By the number alone nobody is put anywhere but at the bottom, and it is said.
        let (movement, _, why) = told(at);
        assert_eq!(movement, "wall-push-up", "{why}");
        assert!(why.contains("Only a number") && why.contains("rungbook roster keep"), "{why}");
        let (said, code) = keep(at);
        assert_eq!((said.lines().count(), code), (lines, Some(0)), "{said}");
        let before = told(at);
        // The first rung goes: the number 2 is something harder now.
        club(at, &[HIGH, LOW, FLOOR]);
        let after = told(at);
        assert_eq!((&after.0, &after.1), (&before.0, &before.1), "{}", after.2);
        // The rung itself goes: the highest that asks no more, never the number.
        club(at, &[WALL, LOW, FLOOR]);
        assert_eq!(told(at).0, "wall-push-up");
        club(at, &[LOW, FLOOR]);
        let (movement, setting, why) = told(at);
        assert_eq!((movement.as_str(), setting.as_str()), ("incline-push-up", "hands 30 cm"));
        assert!(why.contains("The ladder has changed"), "{why}");
    }
}

#[test]
fn what_a_member_hands_over_says_what_the_rung_was() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = folder.path();
    // The coach's ladder is a rung shorter than the one on the member's device.
    club(at, &[HIGH, LOW, FLOOR]);
    let line = "wren push-up rung 2 3 reps 2026-11-25, of incline-push-up hands 60 cm, note hard";
    fs::write(at.join("text"), line).expect("a text");
    let add = ["roster", "add", "text", "--today", TODAY, "--library", "club"];
    assert_eq!(rungbook(at, &add).status.code(), Some(0));
    let text = roster(at);
    let was = "was: {movement: incline-push-up, hands: 60 cm}, note: \"hard\"}";
    assert!(text.contains(was), "{text}");
    assert_eq!((told(at).0.as_str(), told(at).1.as_str()), ("incline-push-up", "hands 60 cm"));
    for wrong in ["of", "of incline-push-up hands", "of incline-push-up hands many cm"] {
        fs::write(at.join("text"), format!("wren push-up rung 2 4 reps 2026-11-26 {wrong}"))
            .expect("a text");
        assert_eq!(rungbook(at, &add).status.code(), Some(1), "{wrong}");
    }
    assert_eq!(roster(at), text);
}

#[test]
fn nobody_with_limits_is_answered_on_a_trait_that_is_not_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = folder.path();
    club(at, &[WALL, HIGH, LOW, FLOOR]);
    fs::write(at.join("roster.yaml"), "wren:\n  limits: {strong-grip: 1}\n").expect("a roster");
    let asks: [&[&str]; 4] = [
        &["own", "push-up", "--rung", "2", "--avoid", "strong-grip", "--library", "club"],
        &["own", "push-up", "--rung", "2", "--member", "wren", "--library", "club"],
        &["swap", "push-up", "--avoid", "strong-grip", "--library", "club"],
        &["cover", "--library", "club"],
    ];
    let told = |ask: &[&str]| {
        let done = rungbook(at, ask);
        (done.status.code(), String::from_utf8_lossy(&done.stderr).into_owned())
    };
    for ask in asks {
        assert_ne!(told(ask).0, Some(2), "{ask:?}: {}", told(ask).1);
    }
    // The entry's trait is misspelt: what it should keep from them would be given as fine.
    let entry = at.join("club/movements/push-horizontal/push-up.md");
    let text = fs::read_to_string(&entry).expect("an entry");
    fs::write(&entry, text.replace("loaded-wrist-extension: 2", "wrist-bend: 2")).expect("written");
    for ask in asks {
        let (code, said) = told(ask);
        assert_eq!(code, Some(2), "{ask:?}: {said}");
        assert!(
            said.contains("nobody's limits can be kept") && said.contains("wrist-bend"),
            "{said}"
        );
    }
    let nobody = ["own", "push-up", "--rung", "2", "--library", "club"];
    assert_eq!(told(&nobody).0, Some(0), "who avoids nothing is answered");
}
