//! After class: what was done goes onto the roster once, can be taken out again, and says who is due for a
//! move and who was left out twice running. Never through private functions.

use super::{LIBRARY, rungbook};
use std::fs;
use std::path::Path;

/// Wren does everything; for pipit, at home with nothing and sore wrists, no row and no pull fits.
const CLASS: &str = "# ours\nwren: # since May\n  rungs: {row: {rung: 2, was: {movement: strap-row, lean: 45 deg}}}\n\n\
    # at home\npipit:\n  trains: home\n  kit: []\n\nrobin:\n";

fn done(folder: &Path, day: &str, more: &[&str]) -> (String, Option<i32>) {
    let ask = ["roster", "done", "monday", "--today", day, "--library", LIBRARY];
    let done = rungbook(folder, &[&ask[..], more].concat());
    let said = String::from_utf8_lossy(&done.stdout).into_owned();
    (said + &String::from_utf8_lossy(&done.stderr), done.status.code())
}

fn show(folder: &Path, who: &[&str]) -> String {
    let ask = ["roster", "show", "--today", "2026-12-14", "--library", LIBRARY];
    let done = rungbook(folder, &[&ask[..], who].concat());
    String::from_utf8_lossy(&done.stdout).into_owned()
}

fn text(folder: &Path) -> String {
    fs::read_to_string(folder.join("roster.yaml")).expect("the roster")
}

fn class_of(before: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("roster.yaml"), before).expect("a roster");
    folder
}

#[test]
fn a_class_is_written_once_and_taken_out_whole() {
    let folder = class_of(CLASS);
    let (said, code) = done(folder.path(), "2026-11-30", &[]);
    assert_eq!(code, Some(0), "{said}");
    assert!(said.contains("done: wren: Row: Strap row, lean 45 deg"), "{said}");
    let once = text(folder.path());
    assert_eq!(once.matches("{day: 2026-11-30, session: monday").count(), 3, "{once}");
    assert!(once.starts_with("# ours\nwren: # since May\n  rungs: "), "{once}");
    assert!(once.contains("left-out: [\"Row\""), "pipit is at home with nothing: {once}");

    // The same class again: nobody has two lines of it.
    let (said, code) = done(folder.path(), "2026-11-30", &[]);
    assert_eq!((code, text(folder.path())), (Some(0), once.clone()), "{said}");
    assert!(said.contains("already there: wren: monday on 2026-11-30"), "{said}");

    // Another day beside it; undoing that leaves the first, undoing both leaves what was there.
    done(folder.path(), "2026-12-07", &["--away", "robin"]);
    let both = text(folder.path());
    assert_eq!(both.matches("session: monday").count(), 5, "{both}");
    let (said, _) = done(folder.path(), "2026-12-07", &["--undo"]);
    assert_eq!(said, "taken out: monday on 2026-12-07: wren, pipit\n");
    assert_eq!(text(folder.path()), once);
    let (said, _) = done(folder.path(), "2026-11-30", &["--undo"]);
    assert_eq!((text(folder.path()).as_str(), said.lines().count()), (CLASS, 1));
    let (said, code) = done(folder.path(), "2026-11-30", &["--undo"]);
    assert_eq!(said, "nothing to take out: nobody has monday on 2026-11-30\n");
    assert_eq!((code, text(folder.path()).as_str()), (Some(0), CLASS));
}

/// What a coach wrote by hand beside it stays, or nothing is written.
#[test]
fn nothing_else_of_an_entry_is_touched() {
    let before = "wren:\n  done:\n    # the first one\n    - day: 2026-11-23\n      session: monday\n      did: {Row: \"Strap row\"}\n    - {day: 2026-11-30, session: monday}\n  kit: [straps]\n";
    let folder = class_of(before);
    let (said, code) = done(folder.path(), "2026-11-23", &["--undo"]);
    assert_eq!(code, Some(0), "{said}");
    let after = "wren:\n  done:\n    # the first one\n    - {day: 2026-11-30, session: monday}\n  kit: [straps]\n";
    assert_eq!(text(folder.path()), after);
    for before in
        ["wren: {kit: [straps]}\n", "wren:\n  done: [{day: 2026-11-23, session: monday}]\n"]
    {
        let folder = class_of(before);
        let (said, code) = done(folder.path(), "2026-11-30", &[]);
        assert_eq!((code, text(folder.path()).as_str()), (Some(2), before), "{said}");
        assert!(said.contains("no place for what was done of `wren`"), "{said}");
    }
    let folder = class_of("wren:\n  done: [{day: 2026-11-23, session: monday}]\n");
    let (said, code) = done(folder.path(), "2026-11-23", &["--undo"]);
    assert_eq!(code, Some(2), "{said}");
    assert!(said.contains("take them out by hand"), "{said}");
}

#[test]
fn twice_running_is_the_last_two_classes_that_had_the_line() {
    let line = |day: &str, rest: &str| format!("    - {{day: {day}, session: {rest}}}\n");
    let entry = |lines: &[String]| format!("wren:\n  done:\n{}", lines.concat());
    let out = line("2026-11-23", "monday, left-out: [Row]");
    let again = line("2026-11-30", "monday, left-out: [Row, Plank]");
    let legs = line("2026-11-25", "legs, did: {Squat: Box squat}");
    let did = line("2026-11-25", "hour, did: {Row: \"Band row\"}");
    let well = line("2026-12-02", "monday");
    for (lines, is_said) in [
        (vec![out.clone(), again.clone()], true),
        (vec![again.clone(), out.clone()], true),
        // Legs have no row: they change nothing.
        (vec![out.clone(), legs, again.clone()], true),
        (vec![out.clone(), did, again.clone()], false),
        (vec![out.clone(), again, well], false),
        (vec![out], false),
    ] {
        let folder = class_of(&entry(&lines));
        let said = show(folder.path(), &["wren"]);
        let words = "Row: left out twice running, on 2026-11-23 and 2026-11-30";
        assert_eq!(said.contains(words), is_said, "{lines:?}\n{said}");
        assert!(!said.contains("Plank: left out"), "once is not twice: {said}");
        // Beside everybody's names stands who, and not of what.
        let all = show(folder.path(), &[]);
        assert_eq!(all.contains("left out of something twice running: wren"), is_said, "{all}");
        assert!(!all.contains("Row"), "{all}");
    }
}

#[test]
fn who_is_due_goes_by_what_was_counted_and_never_to_a_rung_that_is_left_out() {
    let result = |day: &str, ladder: &str, rung: u32, reps: u32, was: &str| {
        format!(
            "    - {{ladder: {ladder}, rung: {rung}, reps: {reps}, day: {day}, was: {{movement: {was}}}}}\n"
        )
    };
    let row = |day, reps| result(day, "row", 2, reps, "strap-row, lean: 45 deg");
    let entry =
        |head: &str, lines: &[String]| format!("wren:\n{head}  results:\n{}", lines.concat());
    let told = |text: String| {
        let folder = class_of(&text);
        (show(folder.path(), &["wren"]), show(folder.path(), &[]))
    };
    // The dose is 6 to 10, the rule two more in two sessions running.
    let (one, all) = told(entry("", &[row("2026-11-23", 12), row("2026-11-30", 12)]));
    assert!(
        one.contains("Row: due up from rung 2 to 3, Strap row, lean 60 deg; the rule is met"),
        "{one}"
    );
    assert!(all.contains("due for a move up: wren"), "{all}");
    for short in [
        entry("", &[row("2026-11-30", 12)]),
        entry("", &[row("2026-11-23", 12), row("2026-11-30", 11)]),
        // Two of one day are one session.
        entry("", &[row("2026-11-30", 12), row("2026-11-30", 13)]),
        // The coach has moved them already.
        entry(
            "  rungs: {row: {rung: 3, was: {movement: strap-row, lean: 60 deg}}}\n",
            &[row("2026-11-23", 12), row("2026-11-30", 12)],
        ),
    ] {
        let (one, all) = told(short.clone());
        assert!(!one.contains("due up") && !all.contains("due for a move up"), "{short}{one}");
    }
    let (one, _) = told(entry("", &[row("2026-11-23", 12), row("2026-11-30", 2)]));
    assert!(
        one.contains("Row: due down from rung 2 to 1, Strap row, lean 30 deg; 2 counted"),
        "{one}"
    );

    // The filter stands above the rule: a hard grip is left out, so no rung of straps is said.
    let grip =
        entry("  limits: {strong-grip: 1}\n", &[row("2026-11-23", 12), row("2026-11-30", 12)]);
    let (one, _) = told(grip);
    assert!(one.contains("Row: due up from rung 2, and what would be next is left out"), "{one}");
    assert!(!one.contains("to 3"), "{one}");
}

#[test]
fn what_cannot_be_is_said_at_its_place() {
    let text = "wren:\n  with: robin\n  results:\n    \
        - {ladder: row, rung: 1, reps: 8, day: 2027-02-01, was: {movement: strap-row, lean: 30 deg}}\n    \
        - {ladder: row, rung: 1, reps: 8, day: 2027-02-01, was: {movement: strap-row, lean: 30 deg}}\n    \
        - {ladder: gone, rung: 1, reps: 8, day: 2026-11-01}\n  done:\n    \
        - {day: 2026-11-30, session: monday}\n    - {day: 2026-11-30, session: monday}\n    \
        - {day: 2027-01-30, session: monday}\n    - {day: 2026-11-31, session: monday}\n\
        robin:\n  with: wren\n  trains: home\n  kit: [teapot]\n";
    let folder = class_of(text);
    let ask = ["roster", "show", "--today", "2026-12-14", "--library", LIBRARY];
    let shown = rungbook(folder.path(), &ask);
    let said = String::from_utf8_lossy(&shown.stderr).into_owned();
    assert_eq!(shown.status.code(), Some(1), "{said}");
    for words in [
        "`2027-02-01` has not come yet",
        "this result of `wren` stands twice",
        "there is no ladder `gone`",
        "this class of `wren` stands twice",
        "`2027-01-30` has not come yet, and a class was done on it",
        "`2026-11-31` is no day of the calendar",
        "`wren` works with `robin`, and one of them trains at home",
        "`robin` works with `wren`, and one of them trains at home",
        "`teapot`",
    ] {
        assert!(said.contains(words), "{words} is not said:\n{said}");
    }
}

/// A session that the library has no more can still be taken out; one that it never had is not done.
#[test]
fn a_session_that_is_not_there() {
    let folder = class_of("wren:\n  done:\n    - {day: 2026-11-30, session: old}\n");
    let ask = ["roster", "done", "old", "--today", "2026-11-30", "--library", LIBRARY];
    let (done, undone) =
        (rungbook(folder.path(), &ask), rungbook(folder.path(), &[&ask[..], &["--undo"]].concat()));
    assert_eq!((done.status.code(), undone.status.code()), (Some(2), Some(0)));
    assert!(String::from_utf8_lossy(&done.stderr).contains("there is no session `old`"));
    assert_eq!(text(folder.path()), "wren:\n");
}

/// As the board's page saves it: wren stepped down in class, pipit has gone, a guest is on no roster.
const NOTED: &str = r#"{"session": "monday", "people": [
 {"name": "wren", "did": [["Row", "Strap row, lean 30 deg, 4 x 6-10"]], "left-out": []},
 {"name": "robin", "did": [], "left-out": ["Row"]},
 {"name": "guest", "did": [["Row", "Strap row, lean 22 deg"]], "left-out": []}]}"#;

fn done_from(folder: &Path, noted: &str) -> (String, Option<i32>) {
    fs::write(folder.join("monday-done.json"), noted).expect("a file");
    done(folder, "2026-11-30", &["--from", "monday-done.json"])
}

#[test]
fn what_the_page_saved_is_kept_as_it_stood_there() {
    let folder = class_of(CLASS);
    let (said, code) = done_from(folder.path(), NOTED);
    assert_eq!(code, Some(0), "{said}");
    assert!(said.contains("done: wren: Row: Strap row, lean 30 deg, 4 x 6-10\n"), "{said}");
    assert!(said.contains("done: robin: left out: Row\n"), "{said}");
    assert!(said.contains("not on the roster, nothing is kept: guest\n"), "{said}");
    let kept = text(folder.path());
    assert_eq!(kept.matches("session: monday").count(), 2, "pipit has gone: {kept}");
    assert!(kept.contains("Strap row, lean 30 deg") && !kept.contains("guest"), "{kept}");
    // Once, and out again as any other.
    let (said, _) = done_from(folder.path(), NOTED);
    assert_eq!(text(folder.path()), kept, "{said}");
    done(folder.path(), "2026-11-30", &["--undo"]);
    assert_eq!(text(folder.path()), CLASS);
}

#[test]
fn what_no_page_saves_is_refused_and_nothing_written() {
    let refused = [
        ("not json", "not what a board hands over"),
        (r#"{"session": "monday", "people": [], "more": 1}"#, "not what a board hands over"),
        (&NOTED.replace("monday", "tuesday"), "of another session"),
        (&NOTED.replace("guest", "wren"), "stands on it twice"),
        (&NOTED.replace("[\"Row\"]", "[\"Rowing\"]"), "a line that this session does not have"),
        (&NOTED.replace("lean 22 deg", "lean\\n22"), "empty, too long or on several lines"),
        (&NOTED.replace("lean 22 deg", &"so ".repeat(70)), "empty, too long or on several lines"),
    ];
    for (noted, why) in refused {
        let folder = class_of(CLASS);
        let (said, code) = done_from(folder.path(), noted);
        assert_eq!((code, text(folder.path()).as_str()), (Some(2), CLASS), "{said}");
        assert!(said.contains(why) && said.contains("help: save it anew"), "{noted}: {said}");
    }
}
