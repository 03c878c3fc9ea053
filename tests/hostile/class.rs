//! The class asked badly: boards, what was done, what is kept, weeks, and texts that are not saved.
//! Never with a library that is spoilt.

use super::case::{Case, Lay};

/// A class of one, as small as it can be.
const ROSTER: &str = "wren:\n  kit: [straps]\n  rungs: {row: 2}\n";

/// All of them.
pub fn cases() -> Vec<Case> {
    let long = "x".repeat(100_000);
    let without: Vec<Vec<&str>> = vec![
        vec!["board"],
        vec!["board", "nobody"],
        vec!["board", "monday"],
        vec!["board", "monday", "--roster", "/dev/zero"],
        vec!["board", "monday", "--roster", "content"],
        vec!["board", "monday", "--live", "--port", "99999"],
        vec!["board", "monday", "--csv", "--out", "x.html"],
        vec!["roster"],
        vec!["roster", "done"],
        vec!["roster", "done", "monday"],
        vec!["roster", "done", "monday", "--undo", "--away", "wren"],
        vec!["roster", "keep", "--roster", "content"],
        vec!["roster", "keep", "--roster", "/dev/zero"],
        vec!["roster", "relate", "--roster", "/dev/zero"],
        vec!["own", "monday", "--week", "4294967296"],
        vec!["own", "monday", "--week", "0"],
        vec!["own", "monday", "--cycle", "nobody"],
        vec!["own", "monday", "--height", "counter=1e99cm"],
        vec!["own", "monday", "--height", "="],
        vec!["own", "monday", "--stature", "nan"],
        vec!["own", "row", "--result", "row rung 99999999999 9 reps"],
        vec!["own", "row", "--result", &long],
        vec!["cover", "nobody"],
        vec!["cover", "--kit", &long],
        vec!["explain", "--schema", "nothing"],
        vec!["explain", "--schema", "../x"],
        vec!["place", "row", "--set", "heels=1e9cm"],
        vec!["place", "row", "--rung", "1", "--reps", "5", "--anchor", "nan"],
        vec!["place", "row", "--rung", "1", "--reps", "5", "--added", "-5kg"],
        vec!["demand", "push-up", "--at", "never"],
        vec!["find", "--limit", "0", "row"],
        vec!["check", "-"],
        vec!["check", "-", "--as", "../outside/secret.yaml"],
        vec!["check", "-", "--as", &long],
        vec!["check", "nowhere.yaml"],
        vec!["check", "/dev/zero"],
        vec!["check", "../outside/secret.yaml"],
        vec!["plan", "spring", "--start", "9999-12-31"],
        vec!["plan", "spring", "--format", "ics", "--start", "0000-01-01"],
    ];
    // With a roster: what may not be written over, and who is not there.
    let with: Vec<Vec<&str>> = vec![
        vec!["board", "monday", "--out", "content/club.yaml"],
        vec!["board", "monday", "--out", "roster.yaml"],
        vec!["board", "monday", "--out", "../outside/mine.html"],
        vec!["board", "monday", "--out", "/dev/full"],
        vec!["board", "monday", "--out", "content"],
        vec!["board", "monday", "--out", "nowhere/wall.html"],
        vec!["board", "monday", "--out", ""],
        vec!["board", "monday", "--away", "nobody"],
        vec!["board", "monday", "--away", &long],
        vec!["board", "monday", "--week", "4294967296"],
        vec!["board", "monday", "--today", "2027-02-30"],
        vec!["roster", "done", "nobody"],
        vec!["roster", "done", "monday", "--today", "yesterday"],
        vec!["roster", "done", "monday", "--away", "nobody"],
        vec!["roster", "show", "\u{1b}[31mwren"],
        vec!["own", "monday", "--member", "\u{202e}wren"],
    ];
    let named = |nth: usize, list: &Vec<&str>| {
        let shown: String = list.join(" ").chars().take(50).collect();
        let input = b"name: x\n\ty".to_vec();
        Case { input, ..Case::asking(format!("class: {nth} {shown}"), list) }
    };
    let without = without.iter().enumerate().map(|(nth, list)| named(nth, list));
    let with = with
        .iter()
        .enumerate()
        .map(|(nth, list)| named(100 + nth, list).with(Lay::file("roster.yaml", ROSTER)));
    without.chain(with).collect()
}
