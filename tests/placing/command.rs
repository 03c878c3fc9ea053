//! `rungbook place` prints what the room says, and refuses in a sentence.

use super::{kg, reps};
use rungbook::gym::Gym;
use rungbook::library::{LadderId, reader};
use rungbook::placing::{TestResult, demands_of, place};
use std::path::Path;
use std::process::{Command, Output};

pub fn rungbook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_rungbook"))
        .arg("place")
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the command runs")
}

#[test]
fn the_command_says_what_the_room_says() {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let gym = Gym::open(reader::read(&content).expect("the starter library"));
    let ladder = &gym.library.ladders[&LadderId::from("push-up")];
    let result = TestResult { body_mass: kg(62.5), added: kg(2.0), ..reps(4, 12) };
    let ours = place(ladder, &demands_of(&gym, ladder, None), &result).expect("a placement");
    let asked =
        ["push-up", "--rung", "4", "--reps", "12", "--body-mass", "62.5 kg", "--added", "2000 g"];
    let json = rungbook(&[&asked[..], &["--format", "json"]].concat());
    let theirs: serde_json::Value = serde_json::from_slice(&json.stdout).expect("JSON");
    assert_eq!(theirs, serde_json::to_value(&ours).expect("plain values"));
    let human = String::from_utf8(rungbook(&asked).stdout).expect("UTF-8");
    for sentence in [&ours.today.say, &ours.move_up.say].into_iter().chain(&ours.notes) {
        assert!(human.contains(sentence.as_str()), "{sentence} is not in\n{human}");
    }
}

#[test]
fn a_mistake_gets_a_sentence_and_exit_code_2() {
    let cases = [
        (&["push-up", "--rung", "99", "--reps", "5"][..], "rungs 1 to"),
        (&["pushup", "--rung", "1", "--reps", "5"], "did you mean `push-up`?"),
        (&["push-up", "--rung", "1", "--seconds", "5"], "counts repetitions, not seconds"),
        (&["carry", "--rung", "3", "--reps", "5"], "counts metres, and only"),
        (&["push-up", "--rung", "1", "--reps", "5", "--added", "5"], "write a number and its unit"),
        (&["push-up", "--rung", "1"], "--reps"),
        (&["push-up", "--set", "hands=900cm", "--reps", "5"], "hands from 30 to 100 cm"),
        (&["push-up", "--set", "hands", "--reps", "5"], "`hands` sets nothing"),
        (&["push-up", "--set", "hands=tall", "--reps", "5"], "`tall` is no number for `hands`"),
        (&["push-up", "--set", "lean=5deg", "--reps", "5"], "outside what was computed"),
        (
            &["push-up", "--set", "box=45cm", "--reps", "5"],
            "these have one: feet, hands, heels, lean",
        ),
        (&["squat", "--set", "box=45cm", "--reps", "5"], "leave --set out"),
        (&["row", "--rung", "9", "--set", "hands=100cm", "--reps", "5"], "leave --rung out"),
    ];
    for (arguments, sentence) in cases {
        let output = rungbook(arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(said.contains(sentence), "{said}");
    }
}

/// What a limit leaves out, no placement orders: not the dose of the rung, nor its name as today's.
#[test]
fn a_limit_keeps_its_word_whatever_was_counted() {
    for (asked, avoid) in [
        (["row", "--rung", "4", "--reps", "9"], "strong-grip"),
        (["row", "--rung", "6", "--reps", "9"], "supine"),
    ] {
        let free = String::from_utf8(rungbook(&asked).stdout).expect("UTF-8");
        let limited = rungbook(&[&asked[..], &["--avoid", avoid]].concat());
        let said = String::from_utf8(limited.stdout).expect("UTF-8");
        let (free, said) = (free.lines().next(), said.lines().next().unwrap_or_default());
        assert!(free.is_some_and(|free| free.contains(" today: ")), "{free:?}");
        assert!(!said.contains(" today: "), "{said}");
        assert!(said.contains("not for you: you leave out"), "{said}");
    }
}
