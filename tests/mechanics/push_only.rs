//! Contacts only push, unless they grip or hang: what would have to pull gives no number.
//! Never a case that balances with every contact pressing: each one needs a pull.

use super::facts::pose;
use rungbook::mechanics::solve::{Person, SolvedFigure, figure};
use rungbook::mechanics::statics::{Refused, Support, support};
use rungbook::mechanics::words::contact::{Family, Part};

fn solved(text: &str) -> SolvedFigure {
    let (solved, _) = figure(&pose(text), 0, &[], &Person::default());
    solved.unwrap_or_else(|| panic!("{text}"))
}

/// A straight body with its hands on a wall as high as its chest, so many degrees from upright.
fn at_wall(lean: f64) -> Support {
    let text =
        format!("{{start: {{hands: wall 130, feet: floor, body: \"straight, lean {lean}\"}}}}");
    let figure = solved(&text);
    support(figure.start(), &figure).expect("feet and hands carry")
}

/// Leaning back from hands on something as high as the hips.
fn leaning_back_from(surface: &str) -> (Support, f64) {
    let text = format!(
        "{{start: {{hands: \"{surface} 92, 40 ahead of hips\", feet: floor, knee: 0, trunk: -4}}}}"
    );
    let figure = solved(&text);
    let support = support(figure.start(), &figure).expect("feet and hands carry");
    let up = support.share(figure.start(), Family::Arm);
    (support, up)
}

/// Someone who leans away from a wall would have to hang on to it, and a wall gives nothing to hang
/// on to; someone who leans on it has a number.
#[test]
fn a_wall_cannot_be_hung_on() {
    assert_eq!(at_wall(12.0).refused, None);
    for lean in [-2.0, -4.0, -6.0, -8.0] {
        assert_eq!(at_wall(lean).refused, Some(Refused::Pulls(Part::Hand)), "{lean}");
    }
}

/// The palms lie on a counter and cannot pull at it; round a bar they can.
#[test]
fn a_counter_cannot_be_pulled_and_a_bar_can() {
    let (counter, up) = leaning_back_from("counter");
    assert!(up < -0.02, "{up}");
    assert_eq!(counter.refused, Some(Refused::Pulls(Part::Hand)));
    let (bar, up) = leaning_back_from("bar");
    assert!(up < -0.02, "{up}");
    assert_eq!(bar.refused, None);
}

/// A strap pulls towards its anchor and cannot push away from it: bodies that would fall towards the
/// anchor have no number.
#[test]
fn a_strap_cannot_push() {
    let strap = |ahead: f64, lean: f64| {
        let text = format!(
            "{{start: {{heels: floor, hands: \"straps 220, anchor over heels {ahead:+}\", body: \"straight, lean {lean}\"}}}}"
        );
        let figure = solved(&text);
        support(figure.start(), &figure).expect("feet and straps carry").refused
    };
    assert_eq!(strap(60.0, -30.0), None);
    for (ahead, lean) in [(60.0, 10.0), (-40.0, -10.0)] {
        assert_eq!(strap(ahead, lean), Some(Refused::Pulls(Part::Hand)), "{ahead} {lean}");
    }
}
