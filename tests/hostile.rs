//! Bad input of every kind, from a seed and by hand: the real program says it, and does no harm.
//! Never a private function, never a machine's speed: a case may take 5 s of processor time.
//!
//! `cargo test --test hostile` tries a seeded hundred; `cargo test --test hostile -- --ignored
//! --nocapture` tries all and prints the counts.
#![cfg(unix)]

#[path = "hostile/asked.rs"]
mod asked;
#[path = "hostile/case.rs"]
mod case;
mod dice;
#[path = "hostile/class.rs"]
mod class;
#[path = "hostile/looked.rs"]
mod looked;
#[path = "hostile/made.rs"]
mod made;
#[path = "hostile/placed.rs"]
mod placed;
#[path = "hostile/spoil.rs"]
mod spoil;
#[path = "hostile/texts.rs"]
mod texts;
#[path = "hostile/xml.rs"]
mod xml;

use case::{Case, Ended};
use dice::Dice;
use looked::Seen;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Whatever a die gives, it gives it again.
const SEED: u64 = 0x5EED_0017;

fn all() -> Vec<Case> {
    let by_hand = [made::cases(), placed::cases(), asked::cases(), class::cases()].concat();
    [by_hand, texts::cases(), spoil::cases(SEED, 150)].concat()
}

/// Tries some cases on two cores, and says what came of them.
fn tried(cases: &[Case]) -> Vec<(String, Ended)> {
    let (next, seen, bad) = (AtomicUsize::new(0), Seen::default(), Mutex::new(Vec::new()));
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                while let Some(case) = cases.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let ended = case.run(&seen);
                    if ended != Ended::Well {
                        bad.lock().expect("nobody panicked").push((case.name.clone(), ended));
                    }
                }
            });
        }
    });
    bad.into_inner().expect("nobody panicked")
}

fn hold(cases: &[Case]) {
    let bad = tried(cases);
    let count = |is: fn(&Ended) -> bool| bad.iter().filter(|(_, ended)| is(ended)).count();
    let said = cases.len() - bad.len();
    println!(
        "{} bad inputs: {said} said, {} panicked, {} hung, {} wrote outside",
        cases.len(),
        count(|ended| matches!(ended, Ended::Panicked(_))),
        count(|ended| matches!(ended, Ended::Hung(_))),
        count(|ended| matches!(ended, Ended::WroteOutside(_))),
    );
    let bad: Vec<String> =
        bad.iter().map(|(name, ended)| format!("{name}\n    {ended:?}")).collect();
    assert!(bad.is_empty(), "{}", bad.join("\n"));
}

#[test]
fn a_seeded_hundred_is_said_and_does_no_harm() {
    let (mut cases, mut dice) = (all(), Dice(SEED));
    let hundred: Vec<Case> = (0..100).map(|_| cases.swap_remove(dice.roll(cases.len()))).collect();
    hold(&hundred);
}

#[test]
#[ignore = "a few minutes: cargo test --test hostile -- --ignored --nocapture"]
fn every_case_is_said_and_does_no_harm() {
    let cases = all();
    assert!(cases.len() >= 500, "{}", cases.len());
    hold(&cases);
}

/// A sound library passes every reader of the harness, so that what they find is a fault.
#[test]
fn a_sound_library_is_found_sound() {
    for base in ["tiny", "hall"] {
        let ended = Case::built("sound", base, Vec::new()).run(&Seen::default());
        assert_eq!(ended, Ended::Well, "{base}");
    }
}
