//! A member's own version: the session page's scripts and the command's room give the same for 300
//! random people, to the last word. The scripts' side runs in node on the very files of the site.

mod dice;
#[path = "own/somebody.rs"]
mod somebody;

use dice::Dice;
use rungbook::gym::Gym;
use rungbook::library::{Cycle, CycleWeek, Ladder, Session, Unit, reader};
use rungbook::own::{Kind, Member, Own, line_of, of_line, of_rung, of_session};
use rungbook::placing::share_table;
use rungbook::plan::in_week;
use rungbook::site::pages::{card, ladder_data, placing_data, steps, weeks_data, words_data};
use rungbook::swap::ranked;
use serde_json::{Value, json};
use somebody::{as_the_scripts_see, somebody, with_changes};
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

const PEOPLE: usize = 300;
const LINES: usize = 2;

fn as_the_scripts_answer(gym: &Gym, own: &Own) -> Value {
    let name = gym.library.movements.get(&own.movement).map(|movement| &movement.name.value);
    let (ladder, rung) =
        own.rung.clone().map_or((None, None), |(id, n)| (Some(id.to_string()), Some(n)));
    let asks = own.kind == Kind::Ask;
    json!({
        "kind": own.kind.word(), "movement": own.movement.as_str(),
        "name": if asks { "" } else { name.map_or("", |name| name.as_str()) },
        "ladder": ladder, "rung": rung, "setting": own.setting, "change": own.change,
        "brief": own.change_brief, "dose": own.dose,
        "each": own.each.map(|each| json!({"per": each.per, "unit": each.unit})),
        "cue": own.cue, "why": own.why,
    })
}

fn write_data(gym: &Gym, dir: &Path) {
    let write = |name: &str, text: String| {
        std::fs::write(dir.join(name), text).expect("a file of data");
    };
    for movement in gym.library.movements.values() {
        let card = card(gym, movement, &ranked(gym, &movement.id));
        write(&format!("card-{}.js", movement.id), card);
    }
    for ladder in gym.library.ladders.values() {
        write(&format!("ladder-{}.js", ladder.id), ladder_data(gym, ladder));
    }
    for session in gym.library.sessions.values() {
        write(&format!("session-{}.js", session.id), steps(gym, session));
    }
    for cycle in gym.library.cycles.values() {
        write(&format!("weeks-{}.js", cycle.id), weeks_data(gym, cycle));
    }
    write("words.js", words_data(gym));
    write("placing.js", placing_data());
}

/// A session with what the starter library lacks: counts that go down over holds, carries and jumps.
const DOWN: &str = "name: Down\nblocks:\n  - {name: A, format: descending, from: 5, to: 2, items: \
    [{movement: plank}, {movement: farmer-carry}, {ladder: row, below: 1}, {movement: squat}, \
    {movement: one-arm-row}]}\n  - {name: B, format: rounds, rounds: 2, items: [{movement: \
    incline-push-up, hands: 60 cm, dose: {reps: 8}}, {movement: raised-plank, hands: 45 cm, dose: \
    {seconds: 30 s}}, {movement: farmer-carry, dose: {metres: 20 m}}, {movement: squat-jump, dose: \
    {contacts: 5}}]}\n";

#[test]
fn the_page_and_the_room_agree_for_300_people() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let library = tempfile::tempdir().expect("a folder");
    copy(&root.join("content"), library.path());
    std::fs::write(library.path().join("sessions/down.yaml"), DOWN).expect("a session");
    let gym = Gym::open(with_changes(reader::read(library.path()).expect("the library")));
    let sessions: Vec<&Session> = gym.library.sessions.values().collect();
    let ladders: Vec<&Ladder> = gym.library.ladders.values().collect();
    let below = lines_below(&sessions);
    let cycles = gym.library.cycles.values();
    let weeks: Vec<_> =
        cycles.flat_map(|one| one.weeks.iter().map(move |week| (one, week))).collect();
    let high: Vec<&Ladder> = ladders.iter().copied().filter(|one| has_heights(&gym, one)).collect();
    let mut dice = Dice(20_261_129);
    let (mut cases, mut kinds) = (Vec::new(), BTreeMap::new());
    for _ in 0..PEOPLE {
        let member = somebody(&gym, &mut dice);
        let mut answers = Vec::new();
        for _ in 0..LINES {
            let session = sessions[dice.roll(sessions.len())];
            let block = dice.roll(session.blocks.len());
            let line = dice.roll(session.blocks[block].items.len());
            let asked = line_of(&gym, session, block, &session.blocks[block].items[line]);
            let own = of_line(&gym, &asked, &member);
            *kinds.entry(own.kind.word()).or_insert(0) += 1;
            let place = json!({"session": session.id.as_str(), "block": block, "line": line});
            answers.push(json!({"at": place, "own": as_the_scripts_answer(&gym, &own)}));
        }
        // What stands below the own rung is rare among all lines, and a swap there rarer.
        let (session, block, line) = below[dice.roll(below.len())];
        let asked = line_of(&gym, session, block, &session.blocks[block].items[line]);
        let own = of_line(&gym, &asked, &member);
        let place = json!({"session": session.id.as_str(), "block": block, "line": line});
        answers.push(json!({"at": place, "own": as_the_scripts_answer(&gym, &own)}));
        let week = weeks[dice.roll(weeks.len())];
        answers.push(in_a_week(&gym, week, &member, &mut dice));
        // A height of one's own decides on few ladders: one of those is always drawn too.
        for ladders in [&ladders, &high] {
            let ladder = ladders[dice.roll(ladders.len())];
            let rung = 1 + dice.roll(ladder.rungs.len()) as u32;
            let own = of_rung(&gym, ladder, rung, &member);
            let place = json!({"ladder": ladder.id.as_str(), "rung": rung});
            answers.push(json!({"at": place, "own": as_the_scripts_answer(&gym, &own)}));
        }
        cases.push(json!({"who": as_the_scripts_see(&member), "answers": answers}));
    }
    println!("{kinds:?}");
    assert!(kinds.len() == 4 && kinds.values().all(|count| *count > 20), "too alike: {kinds:?}");
    let dir = tempfile::tempdir().expect("a folder");
    write_data(&gym, dir.path());
    let file = dir.path().join("cases.json");
    std::fs::write(&file, serde_json::to_string(&cases).expect("JSON")).expect("the cases");
    let output = Command::new("node")
        .arg(root.join("tests/browser/own-parity.mjs"))
        .args([root.join("themes/slate/scripts"), file, dir.path().to_path_buf()])
        .output()
        .expect("node runs");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(said.trim(), format!("{PEOPLE} people agree"));
}

/// A line of a session as a week of a cycle asks for it.
fn in_a_week(
    gym: &Gym,
    (cycle, week): (&Cycle, &CycleWeek),
    member: &Member,
    dice: &mut Dice,
) -> Value {
    let session = &gym.library.sessions[&week.sessions[dice.roll(week.sessions.len())].value];
    let mut blocks = of_session(gym, &in_week((cycle, week), session), member);
    let block = dice.roll(blocks.len());
    let line = dice.roll(blocks[block].len());
    let own = blocks.swap_remove(block).swap_remove(line);
    let place = json!({"session": session.id.as_str(), "block": block, "line": line,
                       "week": [cycle.id.as_str(), week.week.to_string()]});
    json!({"at": place, "own": as_the_scripts_answer(gym, &own)})
}

/// Whether a height in cm decides what a rung of it asks.
fn has_heights(gym: &Gym, ladder: &Ladder) -> bool {
    let movements =
        ladder.rungs.iter().filter_map(|rung| gym.library.movements.get(&rung.movement.value));
    movements
        .filter_map(|movement| share_table(gym, movement))
        .any(|table| table.unit == Unit::Centimetre)
}

/// Lines that ask for something below each person's own rung.
fn lines_below<'g>(sessions: &[&'g Session]) -> Vec<(&'g Session, usize, usize)> {
    let mut found = Vec::new();
    for session in sessions {
        for (block, written) in session.blocks.iter().enumerate() {
            let below = written.items.iter().enumerate().filter(|(_, item)| item.below.is_some());
            found.extend(below.map(|(line, _)| (*session, block, line)));
        }
    }
    found
}

fn copy(from: &Path, to: &Path) {
    for entry in walkdir::WalkDir::new(from).into_iter().flatten() {
        let there = to.join(entry.path().strip_prefix(from).expect("below it"));
        if entry.file_type().is_dir() {
            std::fs::create_dir_all(&there).expect("a folder");
        } else {
            std::fs::copy(entry.path(), &there).expect("a file");
        }
    }
}
