//! On the ladders of the starter library the site's files and the command's room agree, for random
//! people of every stature, at heights of their own too.

use super::people::Chance;
use super::script::{result, scripts_say};
use rungbook::gym::Gym;
use rungbook::gym::scale::Axis;
use rungbook::library::{Counts, Ladder, Quantity, Unit, reader};
use rungbook::placing::{
    Band, Counted, TestResult, demand_at, demands_of, place, rung_table, share_table, stature_note,
    tables,
};
use rungbook::site::pages::ladder_data;
use serde_json::{Value, json};
use std::path::Path;

fn starter() -> Gym {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Gym::open(reader::read(&content).expect("the starter library"))
}

/// What the site's file hands to its scripts.
fn file(gym: &Gym, ladder: &Ladder) -> Value {
    let script = ladder_data(gym, ladder);
    let text = script.strip_prefix("rungbookLadder(").and_then(|text| text.strip_suffix(");\n"));
    serde_json::from_str(text.expect("a call with one argument")).expect("JSON")
}

/// A height or lean of one's own on rung `at`, inside its movement's table, whole centimetres.
fn own_height(gym: &Gym, ladder: &Ladder, at: usize, chance: &mut Chance) -> Option<f64> {
    let movement = gym.library.movements.get(&ladder.rungs[at].movement.value)?;
    let table = share_table(gym, movement)?;
    let (from, to) = (table.values.first()?, table.values.last()?);
    chance.one_in(2).then(|| f64::from(chance.whole(*from as u32, *to as u32)))
}

/// A person on a ladder: the question to the scripts and the room's answer.
fn asked(gym: &Gym, ladder: &Ladder, chance: &mut Chance) -> (Value, Value) {
    let at = chance.whole(0, ladder.rungs.len() as u32 - 1) as usize;
    let stature = (!chance.one_in(3)).then(|| f64::from(chance.whole(150, 198)));
    let in_cm = stature.map(|tall| Quantity::new(tall, Unit::Centimetre));
    let value = own_height(gym, ladder, at, chance);
    let own = value.and_then(|value| demand_at(gym, ladder, (at, value), in_cm));
    let counts = gym.library.movements[&ladder.rungs[at].movement.value].counts;
    let counted = match counts {
        Counts::Seconds => Counted::Seconds(chance.whole(0, 90)),
        _ => Counted::Reps(chance.whole(0, 25)),
    };
    let body_mass = Some(Quantity::new(f64::from(chance.whole(45, 110)), Unit::Kilogram));
    let test = TestResult { rung: at as u32 + 1, counted, body_mass, added: None, own };
    let mut test_as_data = result(&test);
    test_as_data.as_object_mut().expect("an object").remove("own");
    let question = json!({
        "ladder": file(gym, ladder), "stature": stature, "own_at": value, "test": test_as_data,
    });
    (question, json!({"place": place(ladder, &demands_of(gym, ladder, in_cm), &test).ok()}))
}

#[test]
fn the_sites_files_place_as_the_command_does() {
    let gym = starter();
    let ladders: Vec<&Ladder> = gym.library.ladders.values().collect();
    let mut chance = Chance(0x9E37_79B9_7F4A_7C15);
    let pairs = (0..1_000).map(|n| asked(&gym, ladders[n % ladders.len()], &mut chance));
    let (people, ours): (Vec<Value>, Vec<Value>) = pairs.unzip();
    let theirs = scripts_say(&json!({"tables": tables(), "people": people}));
    assert_eq!(theirs.len(), ours.len());
    for ((person, ours), theirs) in people.iter().zip(&ours).zip(&theirs) {
        assert_eq!(ours["place"], theirs["place"], "{person}");
    }
    let at_own = ours.iter().filter(|one| one["place"]["own"].is_string()).count();
    let computed = ours.iter().filter(|one| one.to_string().contains("\"computed\"")).count();
    assert!(at_own >= 20 && computed >= 60, "{at_own} at own heights, {computed} computed");
}

#[test]
fn rungs_are_compared_only_by_what_they_carry() {
    let gym = starter();
    let demands = |id: &str| demands_of(&gym, &gym.library.ladders[&id.into()], None);
    let push = demands("push-up");
    let lowering = push[6];
    assert!(lowering.is_none(), "three seconds of lowering is no repetition: {lowering:?}");
    assert_eq!(push[1].map(|d| d.kind), push[7].map(|d| d.kind), "hands raised and hands down");
    assert_eq!(push[0].map(|d| d.kind), push[1].map(|d| d.kind), "on a wall too: the whole force");
    let pull = demands("pull-up");
    assert_ne!(pull[7].map(|d| d.kind), pull[8].map(|d| d.kind), "underhand and overhand");
    assert!(pull[9].is_some_and(|d| (d.weight_kg - 5.0).abs() < 0.01 && d.share < 1.01));
    assert!(demands("squat").iter().all(Option::is_none), "a leg's range decides, not its share");
    assert!(demands("plank").iter().flatten().all(|d| !d.in_mass));
}

#[test]
fn a_tall_person_carries_more_at_the_same_height() {
    let gym = starter();
    let ladder = &gym.library.ladders[&"push-up".into()];
    let at = |tall| demand_at(&gym, ladder, (1, 90.0), Some(Quantity::new(tall, Unit::Centimetre)));
    let (short, tall) = (at(150.0), at(198.0));
    assert!(short.zip(tall).is_some_and(|(short, tall)| short.share < tall.share));
    assert!(demand_at(&gym, ladder, (1, 300.0), None).is_none(), "no table goes to 3 m");
    assert!(demand_at(&gym, ladder, (99, 60.0), None).is_none());
}

/// Two centimetres of counter turn no number into another that the first one's band leaves out: at
/// every height of the table, for short and tall, whatever the shares are. What was counted at the
/// rung's own height is a count and no estimate of a ratio: it has to lie in the estimate's band, not
/// the estimate in the noise of its counting.
#[test]
fn two_centimetres_stay_inside_each_others_bands() {
    let gym = starter();
    let ladder = &gym.library.ladders[&"push-up".into()];
    let mut met = 0;
    for tall in [150.0, 168.0, 172.0, 185.0, 198.0] {
        let tall = Some(Quantity::new(tall, Unit::Centimetre));
        let demands = demands_of(&gym, ladder, tall);
        let bands = |cm: f64| {
            let own = demand_at(&gym, ladder, (1, cm), tall)?;
            let test = TestResult {
                rung: 2,
                counted: Counted::Reps(12),
                body_mass: None,
                added: None,
                own: Some(own),
            };
            let placed = place(ladder, &demands, &test).ok()?;
            let counted_here = |at: usize| demands[at].is_some_and(|one| one.share == own.share);
            let said = placed.predicted.into_iter().enumerate();
            Some(said.map(|(at, one)| (counted_here(at), one)).collect::<Vec<_>>())
        };
        for cm in (30..=102).map(f64::from) {
            let Some((here, there)) = bands(cm).zip(bands(cm + 2.0)) else { continue };
            for ((exact, a), (exact_too, b)) in here.iter().zip(&there) {
                let Some((said, other)) = a.band().zip(b.band()) else { continue };
                let holds = |band: &Band, point: u32| (band.low..=band.high).contains(&point);
                let both = (*exact || holds(&said, other.point))
                    && (*exact_too || holds(&other, said.point));
                assert!(both, "{cm} cm: {a:?} {b:?}");
                met += 1;
            }
        }
    }
    assert!(met > 1_000, "{met} pairs");
}

/// Every rung carries in placing what its ladder's page says, other settings and weights included: a
/// table of heights is of the usual place for the heels, and says nothing of heels on a box.
#[test]
fn placing_carries_what_the_ladder_says() {
    let gym = starter();
    let (mut compared, mut alone) = (0, 0);
    for ladder in gym.library.ladders.values() {
        let demands = demands_of(&gym, ladder, None);
        for ((rung, carries), read) in ladder.rungs.iter().zip(demands).zip(gym.readings(ladder)) {
            let (Some(carries), Ok(read)) = (carries, read) else { continue };
            let whole = if read.axis == Axis::Arms { 100.0 } else { 1.0 };
            let share = whole * (carries.share + carries.weight_kg / 70.0);
            assert!(
                (share - read.value).abs() < 0.06,
                "{} {:?}: {share}",
                ladder.id,
                rung.movement
            );
            compared += 1;
            let movement = &gym.library.movements[&rung.movement.value];
            let of_others =
                share_table(&gym, movement).is_some() && rung_table(&gym, rung).is_none();
            alone += usize::from(of_others);
        }
    }
    assert!(compared > 20 && alone > 0, "{compared} {alone}");
}

/// A stature outside what was computed is said, and one inside is not.
#[test]
fn another_stature_than_asked_is_said() {
    let cm = |tall: f64| Some(Quantity::new(tall, Unit::Centimetre));
    assert_eq!(stature_note(None), None);
    assert_eq!(stature_note(cm(150.0)), None);
    let said = stature_note(cm(140.0)).expect("a note");
    assert!(said.contains("for 150 cm: 140 cm lies outside"), "{said}");
    assert!(stature_note(cm(210.0)).expect("a note").contains("for 198 cm"));
}
