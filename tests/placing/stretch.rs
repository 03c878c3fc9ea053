//! A band's stretch as a place for the heels and the other way round, against cases reckoned by hand,
//! against the drawn poses, and the same number wherever it stands.

use super::command::rungbook as place;
use rungbook::gym::heights::asked;
use rungbook::gym::scale::{Axis, Unknown};
use rungbook::gym::{Gym, pose_person, posed};
use rungbook::library::{Quantity, Unit, reader};
use rungbook::mechanics::joints::Side;
use rungbook::mechanics::marks::LimbMark;
use rungbook::mechanics::solve::Person;
use rungbook::placing::demands_of;
use rungbook::placing::set_up::{set_up_at, set_up_words};
use rungbook::placing::stretch::{Span, span_of, stretch_words};
use std::path::Path;
use std::process::Command;

const PULLDOWN: &str = "straight-arm-pulldown";

fn starter() -> Gym {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Gym::open(reader::read(&content).expect("the starter library"))
}

fn cm(value: f64) -> Quantity {
    Quantity::new(value, Unit::Centimetre)
}

/// By hand: a hand 30 ahead of the heels and 120 below the anchor. Heels 80 away: sqrt(50^2 + 120^2) =
/// 130, twice a band of 65. Heels 120 away: sqrt(90^2 + 120^2) = 150. With the anchor 39 aside, 50 and
/// 120 make 135.7.
#[test]
fn a_stretch_as_by_hand_in_both_directions() {
    let span = Span { rest: 65.0, hand_ahead: 30.0, up: 120.0, aside: 0.0 };
    assert!((span.length(80.0) - 130.0).abs() < 1e-9);
    assert!((span.length(120.0) - 150.0).abs() < 1e-9);
    assert!((span.away(130.0).expect("a place") - 80.0).abs() < 1e-9);
    assert!((span.away(150.0).expect("a place") - 120.0).abs() < 1e-9);
    assert_eq!(span.away(119.0), None, "no band is shorter than the way up");
    let aside = Span { aside: 39.0, ..span };
    assert!((aside.length(80.0) - 135.72).abs() < 0.005, "{}", aside.length(80.0));
    assert!((aside.away(135.72).expect("a place") - 80.0).abs() < 0.05);
}

/// The drawn poses stand and stretch as is said, short and tall, near and far.
#[test]
fn the_drawn_poses_stretch_so() {
    let gym = starter();
    let movement = &gym.library.movements[&PULLDOWN.into()];
    for (heels, stature) in [(75.0, 1.72), (95.0, 1.5), (110.0, 1.98), (125.0, 1.72)] {
        let person = Person { stature, ..Person::default() };
        let (name, span) = span_of(&gym, movement, &person).expect("a band");
        let figure = posed(movement, &[(name.as_str(), cm(heels))], &person);
        let figure = figure.and_then(|posed| posed.figure).expect("a figure");
        let grip = figure.end().body.limb(Side::Near, LimbMark::Grip);
        let heel = figure.start().body.limb(Side::Near, LimbMark::Heel);
        // The anchor is 205 cm up, in the middle of the body.
        let (x, y) = (heel.x + heels / 100.0 - grip.x, 2.05 - grip.y);
        let drawn = 100.0 * x.hypot(y).hypot(grip.z);
        assert!((span.length(heels) - drawn).abs() < 1.0, "{heels} {stature}: {span:?}, {drawn}");
        assert!((span.away(drawn).expect("a place") - heels).abs() < 2.0, "{heels} {stature}");
    }
}

fn said(command: &str, arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_rungbook"))
        .arg(command)
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the command runs");
    assert!(output.status.success(), "{output:?}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// Ladder, `demand` and `place` say one pull, one band and one stretch for one thing.
#[test]
fn ladder_demand_and_place_say_the_same() {
    let gym = starter();
    let ladder = &gym.library.ladders[&"home-pulldown".into()];
    assert_eq!(gym.axis(ladder), Some(Axis::Pulled));
    let mut compared = 0;
    for (rung, read) in ladder.rungs.iter().zip(gym.readings(ladder)) {
        let Some((_, heels)) = rung.settings.first() else { continue };
        let read = read.expect("a pull");
        let pull = Axis::Pulled.shown(read.value);
        let band = format!("give or take {}", Axis::Pulled.band_shown(read.band));
        let set = format!("heels={}", heels.value);
        let demand = said("demand", &[PULLDOWN, "--set", &set]);
        let placed = said("place", &["home-pulldown", "--set", &set]);
        let stretch = set_up_words(&gym, rung, None).expect("a stretch");
        let times = stretch.strip_prefix("band ").expect("its words");
        let times = times.split(' ').next().expect("a number");
        for text in [&demand, &placed] {
            assert!(text.contains(&pull) && text.contains(&band), "{pull}, {band}: {text}");
            assert!(text.contains(&format!("{times} times its")), "{times}: {text}");
        }
        compared += 1;
    }
    assert_eq!(compared, 2);
}

/// What `place` says of a length gives the heels back that it was made from.
#[test]
fn place_takes_both_directions() {
    let there = said("place", &["home-pulldown", "--set", "heels=110cm"]);
    let after = |text: &str, mark: &str| -> f64 {
        let (_, rest) = text.split_once(mark).unwrap_or_else(|| panic!("{mark}: {text}"));
        rest.split(' ').next().and_then(|word| word.parse().ok()).expect("a number")
    };
    let length = after(&there, "stretched to ");
    let back = said("place", &["home-pulldown", "--set", &format!("stretch={length}cm")]);
    let heels = after(&back, "heels about ");
    assert!((heels - 110.0).abs() <= 1.0, "{there}{back}");
    assert!(back.contains("give or take") && back.contains("the nearest is rung 2"), "{back}");
    for (set, sentence) in [
        ("stretch=500cm", "heels from 75 cm to 125 cm"),
        ("heels=10cm", "heels from 75 cm to 125 cm"),
        ("stretch=far", "`far` is no number for `stretch`"),
        ("lean=20deg", "these have one: heels, stretch"),
    ] {
        let output = place(&["home-pulldown", "--set", set]);
        let text = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{set}: {text}");
        assert!(text.contains(sentence), "{set}: {text}");
    }
}

/// A count on a band is placed by the ladder's rule, and predicts no other rung.
#[test]
fn a_count_on_a_band_predicts_no_other_rung() {
    let text = said("place", &["home-pulldown", "--rung", "1", "--reps", "9"]);
    assert!(!text.contains("computed"), "{text}");
    assert!(text.contains("Rung 1 today"), "{text}");
}

/// More stretch asks more; words of rung and setting are the same; the drawn person's own number is the one
/// that everything shows.
#[test]
fn a_further_stretch_pulls_harder() {
    let gym = starter();
    let movement = &gym.library.movements[&PULLDOWN.into()];
    let (name, _) = span_of(&gym, movement, &pose_person()).expect("a band");
    let pull = |heels: f64| asked(movement, &[(name, cm(heels))], &pose_person()).expect("a pull");
    let pulls = [75.0, 95.0, 110.0, 125.0].map(pull);
    assert!(pulls.windows(2).all(|pair| pair[0].value < pair[1].value), "{pulls:?}");
    // Two bands of one colour are 8 to 19 % apart: none is surer than that.
    assert!(pulls.iter().all(|read| read.band > 0.15 * read.value), "{pulls:?}");
    // One and the same band errs alike at both places.
    let apart = pulls[0].apart(&pulls[3]);
    assert!(apart < pulls[0].band.hypot(pulls[3].band), "{apart}");
    let rung = &gym.library.ladders[&"home-pulldown".into()].rungs[1];
    let at: Vec<_> = rung.settings.iter().map(|(n, q)| (n.value.clone(), q.value)).collect();
    let (setting, stretch) = set_up_at(&gym, movement, &at).expect("words");
    assert_eq!(setting, "heels 120 cm");
    assert_eq!(stretch_words(&gym, rung), Some(stretch));
}

/// Among rungs that carry a share of the body a pull has no number, and predicts nothing: kilograms of a
/// band never stand on their axis.
#[test]
fn a_pull_has_no_number_among_shares_of_the_body() {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let mut library = reader::read(&content).expect("the starter library");
    let pull = library.ladders[&"home-pulldown".into()].rungs[0].clone();
    let row = library.ladders.get_mut(&"row".into()).expect("the row ladder");
    row.rungs.push(pull);
    let gym = Gym::open(library);
    let row = &gym.library.ladders[&"row".into()];
    assert_eq!(gym.axis(row), Some(Axis::Arms));
    assert_eq!(gym.readings(row).last(), Some(&Err(Unknown::OtherAxis)));
    assert!(gym.readings(row)[0].is_ok());
    assert_eq!(demands_of(&gym, row, None).last(), Some(&None));
}

/// A weight over a pulley, through the command: what is written hangs from it, and what it does to a body
/// goes by that body's mass. 20 kg of 70 are twice as much to 35.
#[test]
fn demand_answers_for_a_pulley() {
    let folder = tempfile::tempdir().expect("a folder");
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    copy(&content, folder.path());
    let entry = folder.path().join("movements/pull-horizontal/chair-band-row.md");
    let text = std::fs::read_to_string(&entry).expect("the entry");
    let pulley = "pulley: \"hands to anchor 160, 120 ahead, weighs 20\"";
    let text = text.replace("band: hands to feet", pulley);
    assert!(text.contains(pulley));
    std::fs::write(&entry, text).expect("a copy");
    let library = folder.path().to_str().expect("UTF-8");
    let of = |mass: &str| {
        let asked = ["chair-band-row", "--library", library, "--body-mass", mass];
        said("demand", &[&asked[..], &["--format", "json"]].concat())
    };
    let read = |mass: &str| -> serde_json::Value { serde_json::from_str(&of(mass)).expect("JSON") };
    let (heavy, light) = (read("70kg"), read("35kg"));
    for one in [&heavy, &light] {
        assert_eq!(one["demand"], "20.0 kg");
        // A pulley's friction, 5 % as one standard deviation: 1.645 * 1 kg.
        assert_eq!(one["give_or_take"], "1.6 kg");
        assert!(one.get("stretch").is_none(), "{one}");
    }
    let off = |one: &serde_json::Value| -> f64 {
        let said = one["against"].as_str().expect("what it does").to_string();
        let (_, rest) = said.split_once("takes ").expect("it lifts");
        rest.split(' ').next().and_then(|word| word.parse().ok()).expect("a number")
    };
    assert!(off(&heavy) > 5.0, "{heavy}");
    assert!((off(&light) - 2.0 * off(&heavy)).abs() <= 1.5, "{heavy} {light}");
}

fn copy(from: &Path, to: &Path) {
    for entry in std::fs::read_dir(from).expect("a folder").flatten() {
        let there = to.join(entry.file_name());
        if entry.path().is_dir() {
            std::fs::create_dir_all(&there).expect("a folder");
            copy(&entry.path(), &there);
        } else {
            std::fs::copy(entry.path(), &there).expect("a copy");
        }
    }
}
