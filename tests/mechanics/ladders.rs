//! The starter library's ladders on their demand axes.
//! Never more than the model can say: a rung that it cannot measure has no number.

use rungbook::gym::Gym;
use rungbook::gym::scale::{Axis, Unknown};
use rungbook::library::reader;
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
