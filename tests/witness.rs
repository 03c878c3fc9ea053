//! The pose as a witness, held to hand-computed angles, to labels, and to a library robbed of its traits.
//! Never counts advice: what is only advised does not count as found.
//!
//! `cargo test --test witness -- --nocapture` prints the shares that the mutants give.

#[path = "witness/angles.rs"]
mod angles;
#[path = "witness/labels.rs"]
mod labels;
#[path = "witness/ranges.rs"]
mod ranges;
#[path = "witness/mutants.rs"]
mod mutants;

use rungbook::check;
use rungbook::finding::{Finding, Paint, render};
use rungbook::gym::Gym;
use rungbook::library::reader;
use std::path::Path;
use std::sync::OnceLock;

/// The starter library, opened once.
fn starter() -> &'static Gym {
    static GYM: OnceLock<Gym> = OnceLock::new();
    GYM.get_or_init(|| {
        let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
        Gym::open(reader::read(&content).expect("the starter library is there"))
    })
}

/// What one rule finds.
fn found(gym: &Gym, code: &str) -> Vec<Finding> {
    let rule = check::rules().iter().find(|rule| rule.code.0 == code).expect("a known code");
    rule.run.expect("a rule that looks for itself")(gym)
}

#[test]
fn the_starter_library_says_what_its_poses_show() {
    let gym = starter();
    let findings = found(gym, "pose-shows-trait");
    let said = render(&findings, &gym.library.sources, Paint::Plain);
    assert!(findings.is_empty(), "{} findings\n{said}", findings.len());
}
