//! The roster: results that members hand over, put into a coach's own file without harm to it.
//! Never through private functions: the real command, real files, and the site beside them.

#[path = "roster/done.rs"]
mod done;
#[path = "roster/kept.rs"]
mod kept;
#[path = "roster/today.rs"]
mod today;

use rungbook::finding::Sources;
use rungbook::library::reader::handed;
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

const LIBRARY: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/libraries/hall");
const LINE: &str = "wren push-up rung 4 12 reps 2026-11-25";
/// The day these stories are told on, whatever the machine's clock says.
const TODAY: &str = "2026-12-01";

fn rungbook(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_rungbook"));
    command.args(arguments).current_dir(folder).stdin(Stdio::null());
    command.output().expect("the program runs")
}

/// Adds `text` to a roster that holds `before`: the roster afterwards and the exit code.
fn added(before: &str, text: &str) -> (String, Option<i32>) {
    let folder = tempfile::tempdir().expect("a folder");
    let roster = folder.path().join("roster.yaml");
    fs::write(&roster, before).expect("a roster");
    fs::write(folder.path().join("text"), text).expect("a text");
    let done =
        rungbook(folder.path(), &["roster", "add", "text", "--today", TODAY, "--library", LIBRARY]);
    let names: Vec<_> = fs::read_dir(folder.path()).expect("the folder").flatten().collect();
    assert_eq!(names.len(), 2, "no other file is left behind: {names:?}");
    (fs::read_to_string(&roster).expect("the roster"), done.status.code())
}

#[test]
fn a_result_goes_where_a_coach_would_write_it() {
    // What the rung was that day goes with the result: the ladder may be rewritten.
    let item = "- {ladder: push-up, rung: 4, reps: 12, day: 2026-11-25, was: {movement: push-up}}";
    for (before, after) in [
        ("wren:\n", format!("wren:\n  results:\n    {item}\n")),
        ("wren: # new\nrobin:\n", format!("wren: # new\n  results:\n    {item}\nrobin:\n")),
        ("wren:", format!("wren:\n  results:\n    {item}\n")),
        ("Wren:\n  results:\n", format!("Wren:\n  results:\n    {item}\n")),
        ("wren:\n  results: []\n", format!("wren:\n  results:\n    {item}\n")),
        (
            "wren:\n    kit: [chair]\n\n# others\nrobin:\n",
            format!("wren:\n    kit: [chair]\n    results:\n      {item}\n\n# others\nrobin:\n"),
        ),
        (
            "wren:\n  results:\n  - {ladder: row, rung: 1, reps: 5, day: 2026-01-01}\n  rungs: {row: 2}\n",
            format!(
                "wren:\n  results:\n  - {{ladder: row, rung: 1, reps: 5, day: 2026-01-01}}\n  {item}\n  rungs: {{row: 2}}\n"
            ),
        ),
        (
            "wren:\n  results:\n    - ladder: row\n      rung: 1\n      reps: 5\n      day: 2026-01-01\n",
            format!(
                "wren:\n  results:\n    - ladder: row\n      rung: 1\n      reps: 5\n      day: 2026-01-01\n    {item}\n"
            ),
        ),
    ] {
        assert_eq!(added(before, LINE), (after, Some(0)), "{before}");
    }
}

#[test]
fn a_roster_that_gives_no_place_or_cannot_be_read_is_left_as_it_is() {
    for before in [
        "wren: {kit: [chair]}\n",
        "wren:\n  results: [{ladder: row, rung: 1, reps: 5, day: 2026-01-01}]\n",
        "wren:\n\tkit: [chair]\n",
        "wren:\n  kitt: [chair]\n",
        "wren:\n  results:\n    - {ladder: row, rung: one, reps: 5, day: 2026-01-01}\n",
        "wren:\nWREN:\n",
        // What looks like a comment is the end of a note here: a new line before it would cut it off.
        "wren:\n  results:\n    - ladder: row\n      rung: 1\n      reps: 5\n      day: 2026-01-01\n      note: |\n        a\n        # b\n",
        "- wren\n",
        "not a nickname:\n",
    ] {
        assert_eq!(added(before, LINE), (before.to_string(), Some(2)), "{before}");
    }
}

#[test]
fn the_same_result_twice_is_added_once_and_a_second_one_is_not_the_same() {
    let (once, _) =
        added("", &format!("{LINE}\n{LINE}\nWREN push-up rung 4 12 reps 2026-11-25 note again\n"));
    assert_eq!(once.matches("reps: 12").count(), 1, "{once}");
    let (twice, _) = added(
        &once,
        "wren push-up rung 4 13 reps 2026-11-25\nwren push-up rung 4 12 reps 2026-11-26\n",
    );
    assert_eq!(twice.matches("- {").count(), 3, "{twice}");
    assert!(twice.starts_with(&once), "what was there stays, byte for byte");
}

/// What a text says, as `name, line of the roster`, and how many places are wrong in it.
fn read(text: &str) -> (Vec<(String, String)>, usize) {
    let mut sources = Sources::default();
    let file = sources.add("text", text);
    let (found, findings) = handed::read(file, &sources);
    let said = found.iter().map(|one| (one.name.to_string(), one.result.as_yaml()));
    (said.collect(), findings.len())
}

#[test]
fn what_messengers_do_to_a_line_does_it_no_harm() {
    let plain = read(LINE);
    assert_eq!(plain.1, 0);
    for line in [
        "> wren push-up rung 4 12 reps 2026-11-25\r\n",
        "- Wren: push-up RUNG 4 12 Reps 2026-11-25.",
        "\u{feff}wren\u{a0}push\u{2011}up rung 4  12 reps 2026\u{2013}11\u{2013}25,\u{200b}",
        "# a heading\n\n• wren push-up rung 4 12 repetitions 2026-11-25\n",
    ] {
        assert_eq!(read(line), plain, "{line:?}");
    }
    let (long, wrong) = read("wren plank rung 3 45 s 2026-11-25 , Hands: 92.5 cm, added 5kg");
    assert_eq!((long.len(), wrong), (0, 1), "a weight without a gap is said, not guessed");
    let (note, _) =
        read("wren plank rung 3 45 s 2026-11-25, note: \"hm\", then \\ and # more\u{7}");
    assert!(note[0].1.ends_with(r##"note: "\"hm\", then \\ and # more"}"##), "{}", note[0].1);
}

#[test]
fn no_text_at_all_breaks_the_reader() {
    for text in [
        "",
        "\n\n",
        "wren",
        "wren push-up rung",
        "rung rung rung rung rung rung rung",
        "é é é é é é é, é",
        "\u{feff}",
    ] {
        let (found, _) = read(text);
        assert!(found.is_empty(), "{text}");
    }
    let (huge, wrong) = read("wren push-up rung 99999999999999999999 12 reps 2026-11-25");
    assert_eq!((huge.len(), wrong), (0, 1));
}

#[cfg(unix)]
#[test]
fn only_its_owner_may_read_a_new_roster_and_a_link_stays_a_link() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("text"), LINE).expect("a text");
    let add = ["roster", "add", "text", "--today", TODAY, "--library", LIBRARY, "--roster"];
    let run = |file: &str| rungbook(folder.path(), &[&add[..], &[file]].concat()).status.code();
    assert_eq!(run("new.yaml"), Some(0));
    let mode = |name: &str| {
        fs::metadata(folder.path().join(name)).expect("there").permissions().mode() & 0o777
    };
    assert_eq!(mode("new.yaml"), 0o600);
    fs::write(folder.path().join("real.yaml"), "robin:\n").expect("a roster");
    symlink("real.yaml", folder.path().join("link.yaml")).expect("a link");
    assert_eq!(run("link.yaml"), Some(0));
    assert!(fs::symlink_metadata(folder.path().join("link.yaml")).expect("there").is_symlink());
    assert!(fs::read_to_string(folder.path().join("real.yaml")).expect("there").contains("wren"));
}

#[test]
fn many_lines_at_once_say_what_they_say_one_by_one() {
    let before = "# ours\nwren: # new\n\nRobin:\n  kit: [chair]\n  results:\n    - {ladder: row, rung: 1, reps: 5, day: 2026-01-01}\n  rungs: {row: 2}\n\nsiskin:\n  results: []\n# end\n";
    let mut lines = Vec::new();
    for day in 1..=3 {
        for name in ["siskin", "dunnock", "robin", "wren", "ROBIN", "twite"] {
            lines.push(format!("{name} push-up rung {day} 12 reps 2026-02-0{day}"));
        }
    }
    let one_by_one = lines.iter().fold(before.to_string(), |text, line| added(&text, line).0);
    let (at_once, code) = added(before, &lines.join("\n"));
    assert_eq!(code, Some(0));
    assert_eq!(at_once, one_by_one);
    assert_eq!(at_once.matches("- {").count(), 16, "{at_once}");
}

/// A roster of `people` with `each` results a person, as `roster add` writes them.
fn years(people: usize, each: usize) -> String {
    let mut text = String::new();
    for person in 0..people {
        text += &format!("finch-{person}:\n  kit: [towel]\n  results:\n");
        for nth in 0..each {
            let (year, month, day) = (2016 + nth / 336, 1 + nth / 28 % 12, 1 + nth % 28);
            text += &format!(
                "    - {{ladder: push-up, rung: 4, reps: 12, day: {year}-{month:02}-{day:02}, was: {{movement: push-up}}}}\n"
            );
        }
    }
    text
}

#[test]
fn ten_years_of_thirty_people_are_read_and_added_to() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("roster.yaml"), years(30, 500)).expect("a roster");
    let lines: Vec<String> = (0..1000)
        .map(|nth| {
            let (person, rung, reps) = (nth % 31, 1 + nth / 31 % 4, 5 + nth / 124);
            format!("finch-{person} push-up rung {rung} {reps} reps 2026-11-25\n")
        })
        .collect();
    fs::write(folder.path().join("text"), lines.concat()).expect("a text");
    let timed = |arguments: &[&str]| {
        let start = std::time::Instant::now();
        let done = rungbook(folder.path(), arguments);
        println!("{arguments:?}: {:.2} s", start.elapsed().as_secs_f64());
        let said = String::from_utf8_lossy(&done.stderr).into_owned();
        assert_eq!(done.status.code(), Some(0), "{said}");
        String::from_utf8_lossy(&done.stdout).into_owned()
    };
    let shown = timed(&["roster", "show", "--library", LIBRARY]);
    assert_eq!(shown.matches("500 results").count(), 30, "{shown}");
    let said = timed(&["roster", "add", "text", "--today", TODAY, "--library", LIBRARY]);
    assert_eq!(said.matches("added: ").count(), 1000);
    let text = fs::read_to_string(folder.path().join("roster.yaml")).expect("the roster");
    assert_eq!(text.matches("- {").count(), 16_000);
    assert!(
        text.ends_with("day: 2026-11-25, was: {movement: push-up}}\n")
            && text.contains("\nfinch-30:\n  results:\n")
    );
}

#[test]
fn a_roster_that_is_too_big_is_told_why() {
    let folder = tempfile::tempdir().expect("a folder");
    let values = format!("wren:\n  kit: [{}]\n", "chair, ".repeat(500_000));
    for (text, why) in [(values, "has over 400,000 values"), (years(30, 2500), "it is over 4 MB")] {
        fs::write(folder.path().join("roster.yaml"), &text).expect("a roster");
        let done = rungbook(folder.path(), &["roster", "show", "--library", LIBRARY]);
        let said = String::from_utf8_lossy(&done.stderr);
        assert_eq!(done.status.code(), Some(2), "{said}");
        assert!(said.contains(why), "{said}");
        assert!(said.contains("help: move the results of past years"), "{said}");
    }
}

/// A slip of the finger in the year would stand above every later result. Tomorrow is tomorrow already
/// somewhere; without `--today` this machine's clock says what day it is.
#[test]
fn a_day_that_has_not_come_yet_is_asked_again() {
    for (day, taken) in [("2026-12-02", true), ("2026-12-03", false), ("2031-01-05", false)] {
        let (roster, code) = added("", &format!("wren push-up rung 4 12 reps {day}"));
        assert_eq!(code, Some(i32::from(!taken)), "{day}");
        assert_eq!(roster.contains(day), taken, "{roster}");
    }
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("text"), "wren push-up rung 4 12 reps 9000-01-01")
        .expect("a text");
    let done = rungbook(folder.path(), &["roster", "add", "text", "--library", LIBRARY]);
    let said = String::from_utf8_lossy(&done.stderr);
    assert_eq!(done.status.code(), Some(1), "{said}");
    assert!(said.contains("`9000-01-01` has not come yet"), "{said}");
}

#[test]
fn twenty_adds_at_once_keep_twenty_results() {
    let folder = tempfile::tempdir().expect("a folder");
    let start = |nth: usize| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_rungbook"));
        command
            .args(["roster", "add", "-", "--today", TODAY, "--library", LIBRARY])
            .current_dir(folder.path());
        command.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::piped());
        let mut child = command.spawn().expect("the program starts");
        let line = format!("finch-{} push-up rung 4 {} reps 2026-11-25\n", nth % 3, nth + 1);
        let mut input = child.stdin.take().expect("its input");
        std::io::Write::write_all(&mut input, line.as_bytes()).expect("the line goes in");
        child
    };
    let all: Vec<_> = (0..20).map(start).collect();
    for child in all {
        let done = child.wait_with_output().expect("it ends");
        assert_eq!(done.status.code(), Some(0), "{}", String::from_utf8_lossy(&done.stderr));
    }
    let text = fs::read_to_string(folder.path().join("roster.yaml")).expect("the roster");
    for nth in 1..=20 {
        assert_eq!(text.matches(&format!("reps: {nth},")).count(), 1, "{nth}: {text}");
    }
    let left = fs::read_dir(folder.path()).expect("the folder").count();
    assert_eq!(left, 1, "no other file is left behind");
}

#[test]
fn no_nickname_of_a_roster_is_on_the_site() {
    let folder = tempfile::tempdir().expect("a folder");
    assert!(rungbook(folder.path(), &["new", "club"]).status.success());
    let club = folder.path().join("club");
    fs::write(club.join("text"), "zaunkoenig push-up rung 4 12 reps 2026-11-25\n").expect("a text");
    assert_eq!(
        rungbook(&club, &["roster", "add", "text", "--today", TODAY]).status.code(),
        Some(0)
    );
    assert!(fs::read_to_string(club.join("roster.yaml")).expect("a roster").contains("zaunkoenig"));
    let roster = fs::read_to_string(club.join("roster.yaml")).expect("a roster");
    let today = "  today: {day: 2026-12-01, cautions: [sore-wrist]}\n  with: zaunkoenigin\n";
    let both = format!("{roster}{today}zaunkoenigin: {{with: zaunkoenig}}\n");
    fs::write(club.join("roster.yaml"), both).expect("a roster");
    // A board beside the library stays there; none is written into the site.
    let board = ["board", "push-and-pull", "--today", TODAY, "--out"];
    assert!(rungbook(&club, &[&board[..], &["board.html"]].concat()).status.success());
    let ignored = fs::read_to_string(club.join(".gitignore")).expect("what git leaves out");
    assert!(ignored.lines().any(|line| line == "/roster.yaml"), "{ignored}");
    assert!(rungbook(&club, &["build"]).status.code().is_some_and(|code| code < 2));
    for place in ["site/board.html", "site/cards/board.html", "content/board.html"] {
        let refused = rungbook(&club, &[&board[..], &[place]].concat());
        assert_eq!(refused.status.code(), Some(2), "{place}");
        assert!(!club.join(place).exists(), "{place}");
    }
    let mut seen = 0;
    for entry in walkdir::WalkDir::new(club.join("site")).into_iter().flatten() {
        if entry.file_type().is_file() {
            let bytes = fs::read(entry.path()).expect("a file of the site");
            let text = String::from_utf8_lossy(&bytes).to_lowercase();
            assert!(!text.contains("zaunkoenig"), "{}", entry.path().display());
            seen += 1;
        }
    }
    assert!(seen > 100, "{seen} files");
}
