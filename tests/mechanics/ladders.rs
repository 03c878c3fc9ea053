//! The starter library's ladders on their demand axes.
//! Never more than the model can say: a rung that it cannot measure has no number.

use super::library::STATURES;
use rungbook::gym::Gym;
use rungbook::gym::heights::asked;
use rungbook::gym::scale::{Axis, Reading, Unknown};
use rungbook::library::{Change, Rung, reader};
use rungbook::mechanics::solve::Person;
use std::path::Path;

fn starter() -> Gym {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Gym::open(reader::read(&content).expect("the starter library is there"))
}

/// `cargo test --test mechanics on_their_axes -- --nocapture` prints every ladder.
#[test]
fn ladders_stand_on_their_axes() {
    let gym = starter();
    let (mut known, mut rungs) = (0, 0);
    for ladder in gym.library.ladders.values() {
        let axis = gym.axis(ladder);
        println!("{}: {}", ladder.id, axis.map_or("no axis", Axis::words));
        for (rung, reading) in ladder.rungs.iter().zip(gym.readings(ladder)) {
            let shown = match &reading {
                Ok(r) => format!(
                    "{} give or take {}; {}",
                    r.axis.shown(r.value),
                    r.axis.shown(r.band),
                    gym.provenance(r).words()
                ),
                Err(why) => why.words().to_string(),
            };
            println!("    {:28} {shown}", rung.movement.value.to_string());
            known += usize::from(reading.is_ok());
            rungs += 1;
            assert_ne!(reading.err(), Some(Unknown::NoPose), "{}", rung.movement.value);
        }
    }
    assert!(2 * known > rungs, "{known} of {rungs} rungs have a number");
}

/// What a rung asks of somebody so tall; nothing where that has no number.
fn asks(gym: &Gym, rung: &Rung, stature: f64) -> Option<Reading> {
    let movement = gym.library.movements.get(&rung.movement.value)?;
    let at: Vec<_> = rung.settings.iter().map(|(name, value)| (&name.value, value.value)).collect();
    asked(movement, &at, &Person { stature, ..Person::default() }).ok()
}

/// A counter is as high for the short as for the tall, a lean is not: at five statures no step that
/// should show on its ladder's axis asks less: for the arms beyond what is rounded away, for moments, which
/// are rough, beyond what their doubts allow. Where a limb is taken away the balance is the step, and no
/// moment shows it: a tall seat on one leg asks the short less than a split squat, and stays a step.
#[test]
fn no_ladder_falls_for_the_short_or_the_tall() {
    let gym = starter();
    let (mut steps, mut falls) = (0, Vec::new());
    for (ladder, axis) in
        gym.library.ladders.values().filter_map(|ladder| Some((ladder, gym.axis(ladder)?)))
    {
        for pair in ladder.rungs.windows(2) {
            let shows = pair[1]
                .changes
                .as_ref()
                .is_some_and(|change| axis.measures(change.value) && change.value != Change::Limbs);
            for stature in STATURES.into_iter().filter(|_| shows) {
                let [Some(lower), Some(upper)] = [0, 1].map(|at| asks(&gym, &pair[at], stature))
                else {
                    continue;
                };
                steps += 1;
                let nothing = match axis {
                    Axis::Arms => 0.5,
                    _ => lower.apart(&upper),
                };
                if lower.value - upper.value > nothing {
                    let [from, to] = [lower, upper].map(|read| axis.shown(read.value));
                    let movement = &pair[1].movement.value;
                    falls.push(format!("{} {stature} m: {movement} {from} to {to}", ladder.id));
                }
            }
        }
    }
    assert!(steps > 200, "{steps}");
    assert!(falls.is_empty(), "{}", falls.join("\n"));
}
