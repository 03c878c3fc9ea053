//! Which kit stands in a figure.
//! Never looks at the drawing; `sheets` shows that to the eye.

use super::facts::pose;
use rungbook::mechanics::guard::checked;
use rungbook::mechanics::scenery::pieces;
use rungbook::mechanics::solve::Person;
use rungbook::mechanics::words::contact::Surface;

fn shown(text: &str) -> Vec<Surface> {
    let (figure, problems) = checked(&pose(text), 0, &[], &Person::default());
    assert!(problems.is_empty(), "{problems:#?}");
    pieces(&figure.expect("a figure")).iter().map(|piece| piece.surface).collect()
}

/// A row under a bar with the feet on the floor: feet raised by 0 cm need no box.
#[test]
fn a_box_of_no_height_is_not_shown() {
    let row = |feet: u32| {
        shown(&format!(
            "{{start: {{hands: bar 110, heels: box {feet}, body: straight, elbow: 0, shoulder: 90}}}}"
        ))
    };
    assert_eq!(row(0), [Surface::Bar]);
    assert_eq!(row(30), [Surface::Bar, Surface::Box]);
}

/// Each home thing stays itself from the word to the scene.
#[test]
fn a_chair_is_a_chair() {
    for (word, surface) in [
        ("chair 45", Surface::Chair),
        ("bench 45", Surface::Bench),
        ("sofa 42", Surface::Sofa),
        ("stairs 54", Surface::Stairs),
        ("table 75", Surface::Table),
        ("counter 90", Surface::Counter),
        ("step 20", Surface::Step),
    ] {
        let pose = format!("{{start: {{hands: {word}, toes: floor, body: straight, elbow: 0}}}}");
        assert_eq!(shown(&pose), [surface], "{word}");
    }
    let knee = "{start: {near: {foot: \"floor, 40 ahead of far knee\"}, far: {knee: mat, toes: floor, thigh: 2}, trunk: 0}}";
    assert_eq!(shown(knee), [Surface::Mat]);
}
