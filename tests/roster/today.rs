//! What a member leaves out on one day: it counts on that day, wherever the entry is asked, and on no
//! other; and the day is that of the place where the class is.

use super::rungbook;
use std::fs;
use std::path::Path;
use std::process::Command;

const STARTER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/content");
const DAY: &str = "2026-12-01";

fn roster(folder: &Path, today: &str) {
    let was = "was: {movement: push-up}";
    let rungs = format!("rungs: {{push-up: {{rung: 8, {was}}}}}");
    let entry = format!("wren:\n  kit: []\n  {rungs}\n  today: {{{today}}}\n");
    fs::write(folder.join("roster.yaml"), entry).expect("a roster");
}

/// What `own` says of the push-up ladder on a day: its text, what it tells besides, and its exit code.
fn own(folder: &Path, day: &str) -> (String, String, Option<i32>) {
    let ask = ["own", "push-up", "--member", "wren", "--today", day, "--library", STARTER];
    let done = rungbook(folder, &ask);
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    (text(done.stdout), text(done.stderr), done.status.code())
}

#[test]
fn what_is_of_today_is_left_out_today() {
    let folder = tempfile::tempdir().expect("a folder");
    for (today, why) in [
        ("cautions: [sore-wrist]", "weight on a bent-back wrist"),
        ("limits: {loaded-wrist-extension: 1}", "weight on a bent-back wrist"),
    ] {
        roster(folder.path(), &format!("day: {DAY}, {today}"));
        let (text, told, code) = own(folder.path(), DAY);
        assert_eq!((code, told.as_str()), (Some(0), ""));
        assert!(text.contains("fists") && text.contains(why), "{text}");
        // The day after: said, and left out no more.
        let (text, told, code) = own(folder.path(), "2026-12-02");
        assert_eq!(code, Some(0));
        assert!(!text.contains("fists") && text.contains("- Push-up"), "{text}");
        assert!(told.contains("`2026-12-01` is over"), "{told}");
    }
}

#[test]
fn nobody_is_answered_on_what_today_does_not_say() {
    let folder = tempfile::tempdir().expect("a folder");
    for (today, wrong) in [
        (format!("day: {DAY}, cautions: [sore-wirst]"), "sore-wirst"),
        (format!("day: {DAY}, limits: {{wrist: 1}}"), "wrist"),
        ("day: 2026-02-30, cautions: [sore-wrist]".to_string(), "no day of the calendar"),
    ] {
        roster(folder.path(), &today);
        let (text, told, code) = own(folder.path(), DAY);
        assert_eq!((code, text.as_str()), (Some(2), ""), "{today}");
        assert!(told.contains(wrong) && told.contains("has errors"), "{told}");
    }
}

#[test]
fn a_member_is_shown_with_what_is_of_today() {
    let folder = tempfile::tempdir().expect("a folder");
    roster(folder.path(), &format!("day: {DAY}, cautions: [sore-wrist]"));
    let show = |day: &str| {
        let ask = ["roster", "show", "wren", "--today", day, "--library", STARTER];
        let done = rungbook(folder.path(), &ask);
        String::from_utf8_lossy(&done.stdout).into_owned() + &String::from_utf8_lossy(&done.stderr)
    };
    assert!(show(DAY).contains("leaves out today, 2026-12-01: sore wrist"), "{}", show(DAY));
    let after = show("2026-12-02");
    assert!(after.contains("is over") && !after.contains("leaves out today"), "{after}");
}

/// East and west of the line of the date no hour has the same day.
#[test]
fn today_is_the_day_of_the_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let day_in = |zone: &str| {
        let mut date = Command::new("date");
        let said = date.args(["+%Y-%m-%d"]).env("TZ", zone).output().expect("a date");
        String::from_utf8_lossy(&said.stdout).trim().to_string()
    };
    for zone in ["<+14>-14", "<-11>11"] {
        // Asked again where midnight passes between the two.
        let (text, told) = loop {
            let day = day_in(zone);
            roster(folder.path(), &format!("day: {day}, cautions: [sore-wrist]"));
            let mut command = Command::new(env!("CARGO_BIN_EXE_rungbook"));
            command.args(["own", "push-up", "--member", "wren", "--library", STARTER]);
            let done =
                command.env("TZ", zone).current_dir(folder.path()).output().expect("it runs");
            if day == day_in(zone) {
                let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
                break (text(&done.stdout), text(&done.stderr));
            }
        };
        assert!(text.contains("fists"), "{zone}: {text}{told}");
    }
}
