//! What lies over what on paper, which tone it has, and what is left out: one figure each.
//! Never a look at the whole; for that `cargo test --test sheets` writes sheets for the eye.

mod posed;

use posed::{GYM, figure};
use rungbook::figure::camera::Camera;
use rungbook::figure::doubts::foreshortened;
use rungbook::figure::draw;
use rungbook::figure::frame::{TRUNK, frame, standing};
use rungbook::figure::ghost::moved;
use rungbook::figure::paper::{Ink, Paper, Shape};
use rungbook::figure::wrong::wrong;
use rungbook::mechanics::scenery::pieces;
use rungbook::mechanics::words::recipe::View;

fn framed(id: &str, index: usize) -> Paper {
    let figure = figure(id);
    frame(figure, index, &pieces(figure))
}

fn count(paper: &Paper, wanted: impl Fn(&Shape) -> bool) -> usize {
    paper.shapes.iter().filter(|shape| wanted(shape)).count()
}

/// Whose the limbs of the near side are: arm, leg, hip, shoulder.
const NEAR: [usize; 4] = [3, 5, 7, 9];

#[test]
fn what_is_near_is_never_pale() {
    const PALE: [Ink; 4] = [Ink::FarSkin, Ink::FarShirt, Ink::FarShorts, Ink::FarShoe];
    let mut pale_far = 0;
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        let (paper, _) = standing(figure.start(), figure, &pieces(figure));
        let near = count(&paper, |s| NEAR.contains(&s.whose) && PALE.contains(&s.ink));
        assert_eq!(near, 0, "{id}");
        pale_far += count(&paper, |s| PALE.contains(&s.ink));
    }
    assert!(pale_far > 100, "{pale_far}");
    // A far arm that alone holds on is as strong as the near one.
    let figure = figure("single-leg-stand");
    let (paper, _) = standing(figure.start(), figure, &pieces(figure));
    assert_eq!(count(&paper, |s| s.whose == 4 && s.ink == Ink::FarSkin), 0);
}

#[test]
fn a_pale_shape_is_drawn_of_what_stands_clear_of_itself() {
    let moved = |id: &str| {
        let figure = figure(id);
        moved(&figure.start().body, &figure.end().body, &Camera::on(figure))
    };
    let raise = moved("calf-raise");
    assert!(!raise.head && !raise.trunk && raise.legs[0], "{raise:?}");
    let hang = moved("shoulder-blade-pull");
    assert!(!hang.head && !hang.trunk && hang.arms == [false; 2], "{hang:?}");
    let bow = moved("back-extension");
    assert!(bow.head && bow.trunk && bow.legs == [false; 2], "{bow:?}");
    assert!(count(&framed("calf-raise", 1), |s| s.ink == Ink::Ghost) > 0);
}

#[test]
fn who_lies_has_a_floor_and_who_hangs_has_none() {
    let floors = |id: &str| count(&framed(id, 0), |s| s.ink == Ink::Floor);
    assert_eq!(floors("hollow-hold"), 1);
    assert_eq!(floors("tucked-hollow-hold"), 1);
    assert_eq!(floors("dead-hang"), 0);
}

/// From shoulder to hand, also where the upper arm points at the reader.
#[test]
fn an_arm_is_one_from_sleeve_to_hand() {
    for id in ["overhead-press", "band-overhead-press", "band-pull-apart", "seated-press"] {
        let pieces = |index: usize| {
            let paper = framed(id, index);
            let skin = paper.shapes.iter().filter(|s| s.whose == 3 && s.ink == Ink::Skin);
            skin.map(|shape| shape.path.matches('M').count()).sum::<usize>()
        };
        assert_eq!(pieces(0), pieces(1), "{id}");
    }
}

#[test]
fn from_the_front_both_hands_have_their_arrow() {
    let arrows = |id: &str| count(&framed(id, 0), |s| s.ink == Ink::Arrow);
    assert_eq!(arrows("overhead-press"), 2);
    assert_eq!(arrows("push-up"), 1);
    assert_eq!(arrows("neck-turn"), 1);
}

#[test]
fn from_behind_the_collar_lies_over_the_neck() {
    let over = |id: &str| {
        let paper = framed(id, 0);
        let at = |whose| paper.shapes.iter().position(|shape| shape.whose == whose);
        at(TRUNK) > at(11)
    };
    assert!(over("pull-up"));
    assert!(!over("overhead-press") && !over("push-up"));
}

/// Three key poses in two rows have a pointer before each but the first.
#[test]
fn a_second_row_goes_on_where_the_first_ended() {
    let strip = draw(figure("lowering-push-up"), "", "fig").strip;
    assert_eq!(strip.matches("class=\"st\"").count(), 2, "{strip}");
}

#[test]
fn a_fault_that_cannot_be_seen_is_not_drawn() {
    let drawn = |id: &str, fault: &str| wrong(figure(id), fault).is_some();
    for (id, fault) in [
        ("curl-up", "head-out-of-line"),
        ("bar-row", "half-range"),
        ("wall-elbow-press", "head-out-of-line"),
        ("deep-squat-hold", "knees-fall-in"),
        ("wall-hinge", "leans-back-at-the-top"),
        ("strap-row", "shoulders-shrug"),
    ] {
        assert!(!drawn(id, fault), "{id} {fault}");
    }
    for (id, fault) in [
        ("knee-plank", "head-out-of-line"),
        ("strap-row", "half-range"),
        ("step-down", "knees-fall-in"),
        ("support-hold", "shoulders-shrug"),
        ("wall-hinge", "back-rounds"),
    ] {
        assert!(drawn(id, fault), "{id} {fault}");
    }
}

/// Legs that lie still while the arms move may point at the reader; those that bear may not.
#[test]
fn only_what_is_to_be_seen_must_not_point_at_the_reader() {
    assert!(foreshortened(figure("prone-arm-raise")).is_empty());
    let mut plank = figure("plank").clone();
    plank.recipe.view = View::Front;
    assert!(!foreshortened(&plank).is_empty());
    let mut bridge = figure("single-leg-bridge").clone();
    bridge.recipe.view = View::Front;
    assert!(!foreshortened(&bridge).is_empty());
}
