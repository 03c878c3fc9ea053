//! Placing by the segments of women or of men: own numbers stand where the default person's stood.
//! Never a number that `demand` would not give the same person.

use rungbook::gym::Gym;
use rungbook::gym::heights::asked;
use rungbook::library::{Quantity, SettingName, Unit, reader as files};
use rungbook::mechanics::segments::Table;
use rungbook::mechanics::solve::Person;
use rungbook::placing::{Build, demand_at, demands_of};
use std::path::Path;

fn starter() -> Gym {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Gym::open(files::read(&content).expect("the starter library is there"))
}

fn build(segments: Option<Table>) -> Build {
    Build { stature: Some(Quantity::new(150.0, Unit::Centimetre)), segments }
}

/// A person of a table, at the stature of `build`.
fn person(table: Table) -> Person {
    Person { stature: 1.5, table, ..Person::default() }
}

/// Every rung of the push-up ladder carries for a woman or a man what `demand` says of them, and that
/// is another number than the default person's.
#[test]
fn every_rung_asks_a_person_what_demand_says() {
    let gym = starter();
    let ladder = &gym.library.ladders[&"push-up".into()];
    for table in [Table::DeLevaWomen, Table::DeLevaMen] {
        let own = demands_of(&gym, ladder, build(Some(table)));
        let drawn = demands_of(&gym, ladder, build(None));
        let (mut same, mut other) = (0, 0);
        for ((rung, own), drawn) in ladder.rungs.iter().zip(own).zip(drawn) {
            let (Some(own), Some(drawn)) = (own, drawn) else { continue };
            let movement = &gym.library.movements[&rung.movement.value];
            let at: Vec<(&SettingName, Quantity)> =
                rung.settings.iter().map(|(name, value)| (&name.value, value.value)).collect();
            let read = asked(movement, &at, &person(table)).expect("a number");
            assert!((100.0 * own.share - read.value).abs() < 1e-9, "{}", movement.id);
            assert!((100.0 * own.band - read.band).abs() < 1e-9, "{}", movement.id);
            same += 1;
            other += usize::from((own.share - drawn.share).abs() > 0.002);
        }
        assert!(same >= 6 && 2 * other > same, "{table:?}: {other} of {same}");
    }
}

/// Solved anew with the default table, a rung and a height of one's own come out as the tables that
/// were solved once have them, to their tenth.
#[test]
fn the_default_table_is_the_default_person() {
    let gym = starter();
    let ladder = &gym.library.ladders[&"push-up".into()];
    let at = |segments, cm| demand_at(&gym, ladder, (1, cm), build(segments)).expect("in range");
    for cm in [60.0, 70.0, 80.0] {
        let (tabled, solved) = (at(None, cm), at(Some(Table::Winter), cm));
        assert!((tabled.share - solved.share).abs() < 0.0011, "{cm}: {tabled:?} {solved:?}");
        assert!((tabled.band - solved.band).abs() < 0.0011, "{cm}: {tabled:?} {solved:?}");
        let woman = at(Some(Table::DeLevaWomen), cm);
        assert!((woman.share - solved.share).abs() > 0.002, "{cm}: {woman:?} {solved:?}");
    }
}
