//! Drawings say what they are about: which limb works, what is held, where a fault is.
//! Reads shapes by their order and their looks; never judges whether they are beautiful.

mod posed;

use posed::{GYM, figure};
use rungbook::figure::arrow;
use rungbook::figure::beside::draw_wrong;
use rungbook::figure::camera::Camera;
use rungbook::figure::frame::{frame, kit_rounds, standing};
use rungbook::figure::paper::{Ink, Paper};
use rungbook::figure::tones::{Tones, tones};
use rungbook::figure::wrong::wrong;
use rungbook::mechanics::joints::Side;
use rungbook::mechanics::marks::{LimbMark, Mark};
use rungbook::mechanics::scenery::pieces;
use rungbook::mechanics::solve::{SolvedFigure, SolvedPose};
use rungbook::mechanics::space::Vec3;
use rungbook::mechanics::words::contact::Surface;
use rungbook::mechanics::words::recipe::{Arrow, View};

/// Arrows have a bent shaft; the sign of a hold is two straight strokes.
fn signs(paper: &Paper) -> (usize, usize) {
    let accents = || paper.shapes.iter().filter(|shape| shape.ink == Ink::Arrow);
    let arrows = accents().filter(|shape| shape.path.contains('q')).count();
    (arrows, accents().count() - arrows)
}

#[test]
fn every_hold_has_its_sign_and_nothing_else_has() {
    let mut holds = 0;
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        let kit = pieces(figure);
        let alone = figure.poses.len() == 1 && figure.recipe.arrow != Arrow::Onward;
        for at in 0..figure.poses.len() {
            let held = alone || (figure.recipe.pause && at + 1 == figure.poses.len());
            let (_, strokes) = signs(&frame(figure, at, &kit));
            assert_eq!(strokes, if held { 2 } else { 0 }, "{id}, key pose {at}");
            holds += usize::from(held);
        }
    }
    assert!(holds > 15, "{holds}");
}

#[test]
fn a_walk_has_its_arrow_at_the_first_key_pose_and_a_flight_has_none() {
    let arrows = |id: &str| {
        let (figure, kit) = (figure(id), pieces(figure(id)));
        (0..figure.poses.len()).map(|at| signs(&frame(figure, at, &kit)).0).collect::<Vec<_>>()
    };
    assert_eq!(arrows("bear-crawl"), [1, 0]);
    assert_eq!(arrows("farmer-carry"), [1]);
    // Feet leave the floor at the take-off; in flight nothing pushes them.
    assert_eq!(arrows("box-jump"), [0, 1, 0, 0]);
}

#[test]
fn the_limb_that_works_is_strong_whichever_side_it_is_on() {
    let (strong, far_pale) = ([false, false], [false, true]);
    let both = |arms, legs| Tones { arms, legs };
    // Both do the same: the far ones are pale, so that they are told apart.
    assert_eq!(tones(figure("squat")), both(far_pale, far_pale));
    // The near arm and the far leg reach out; the near knee bears.
    assert_eq!(tones(figure("bird-dog")), both(far_pale, strong));
    // The far arm goes back while the near one stays up in the air: before it, so not pale.
    assert_eq!(tones(figure("dead-bug")), both(strong, far_pale));
    // The far arm pushes, the near one does nothing.
    assert_eq!(tones(figure("one-arm-push-up")).arms, strong);
    // From the front no side is before the other.
    assert_eq!(tones(figure("jumping-jack")), Tones::default());
}

/// Weights are nobody's (0), the near arm is 3.
#[test]
fn a_hand_closes_over_what_it_holds() {
    for id in ["suitcase-hold", "overhead-press", "overhead-carry", "deadlift", "one-arm-row"] {
        let figure = figure(id);
        for pose in &figure.poses {
            let (paper, _) = standing(pose, figure, &pieces(figure));
            let last = |of: &dyn Fn(Ink, usize) -> bool| {
                paper.shapes.iter().rposition(|shape| of(shape.ink, shape.whose))
            };
            let weight = last(&|ink, _| ink == Ink::Weight).expect("a weight");
            let hand = last(&|ink, whose| whose == 3 && ink == Ink::Skin).expect("a hand");
            assert!(hand > weight, "{id}");
        }
    }
}

/// A tick is one stroke, a cross two; whatever is more is the sign.
#[test]
fn every_fault_has_a_sign_at_what_goes_wrong() {
    let (mut drawn, mut without) = (0, Vec::new());
    for (id, movement) in &GYM.library.movements {
        let Some(figure) = GYM.posed.get(id).and_then(|posed| posed.figure.as_ref()) else {
            continue;
        };
        for fault in movement.faults.iter().filter_map(|fault| fault.of.as_ref()) {
            let Some(spoilt) = wrong(figure, fault.value.as_str()) else { continue };
            let (svg, _) = draw_wrong(&spoilt, fault.value.as_str());
            let accents = svg.split("<path class=\"ar\" d=\"").skip(1);
            let strokes: usize =
                accents.map(|path| path.split('"').next().unwrap_or("").matches('M').count()).sum();
            drawn += 1;
            if strokes < 5 {
                without.push(format!("{id} {}", fault.value));
            }
        }
    }
    assert!(without.is_empty(), "{without:?} of {drawn}");
    assert!(drawn > 80, "{drawn}");
}

#[test]
fn one_thing_goes_wrong_at_a_time() {
    let way = |pose: &SolvedPose, from: LimbMark, to: LimbMark, side| -> Vec3 {
        (pose.body.limb(side, to) - pose.body.limb(side, from)).unit()
    };
    let turned = |spoilt: &SolvedFigure, from, to, side| {
        let [good, bad] = [0, 1].map(|at| way(&spoilt.poses[at], from, to, side));
        good.dot(bad).clamp(-1.0, 1.0).acos().to_degrees()
    };
    let spoilt = |id: &str, fault: &str| wrong(figure(id), fault).expect("it is drawn");
    // Hands on the hips go along with the trunk, and do not shoot back.
    let hinge = spoilt("wall-hinge", "back-rounds");
    // A leg in the air stays there.
    let one_leg = spoilt("single-leg-hinge", "back-rounds");
    for side in Side::BOTH {
        let arm = turned(&hinge, LimbMark::Shoulder, LimbMark::Elbow, side);
        assert!(arm < 12.0, "{side:?} arm {arm:.0} degrees");
        let leg = turned(&one_leg, LimbMark::Hip, LimbMark::Knee, side);
        assert!(leg < 12.0, "{side:?} leg {leg:.0} degrees");
    }
    // The knee over a whole foot falls in, the one over the toes stays.
    let down = spoilt("supported-split-squat", "knees-fall-in");
    let gone = Side::BOTH.map(|side| {
        let knee = LimbMark::Knee.of(side);
        (down.poses[1].body.mark(knee) - down.poses[0].body.mark(knee)).length()
    });
    assert!(gone[0].max(gone[1]) > 0.04 && gone[0].min(gone[1]) < 1e-9, "{gone:?}");
    // Where the arms point at the reader a shrug would be shown beside stumps.
    assert!(wrong(figure("prone-arm-raise"), "shoulders-shrug").is_none());
    // Arms held out for balance would hide the knees from the front: they hang.
    for pose in &spoilt("squat", "knees-fall-in").poses {
        let hand = pose.body.mark(LimbMark::Grip.of(Side::Near));
        assert!((hand - pose.body.mark(Mark::Shoulders)).x < 0.25, "a hand points at the reader");
    }
}

/// Wall figures in the side view, with whether the wall is ahead and where its cut edge is on paper.
fn at_walls() -> Vec<(String, &'static SolvedFigure, bool, f64)> {
    let mut all = Vec::new();
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        if figure.recipe.view != View::Side {
            continue;
        }
        let Some(wall) = pieces(figure).into_iter().find(|p| p.surface == Surface::Wall) else {
            continue;
        };
        let paper = standing(figure.start(), figure, &pieces(figure)).0;
        let edge = paper.shapes.iter().find(|shape| shape.ink == Ink::Section).expect("an edge");
        let x = numbers(&edge.path)[0];
        all.push((id.to_string(), figure, wall.ahead > 0.0, x));
    }
    all
}

#[test]
fn no_arrow_runs_through_a_wall_and_backs_touch_its_edge() {
    let (mut ahead_of, mut behind) = (0, 0);
    for (id, figure, ahead, edge) in at_walls() {
        let camera = Camera::on(figure);
        if ahead {
            let blocks = kit_rounds(&pieces(figure), &camera);
            for pair in figure.poses.windows(2) {
                let ways = (&pair[0].body, &pair[1].body);
                let arrow = arrow::draw(&figure.recipe.arrow, ways.0, ways.1, &camera, &blocks);
                ahead_of += 1;
                // Room is kept for a round end of 5 cm.
                assert!(arrow.bounds.max.x - 5.0 < edge, "{id}: {} {edge}", arrow.bounds.max.x);
            }
        }
        // The edge of a wall behind somebody is 7 cm thick.
        for pose in figure.poses.iter().filter(|_| !ahead) {
            let touches = |mark: &Mark| {
                pose.touches.iter().any(|(c, at)| {
                    c.surface == Surface::Wall && (pose.body.mark(*mark) - *at).length() < 0.01
                })
            };
            for mark in [Mark::Back, Mark::Seat].iter().filter(|mark| touches(mark)) {
                behind += 1;
                let gap = camera.see(pose.body.mark(*mark)).x - (edge + 7.0);
                assert!(gap.abs() < 3.0, "{id}: {gap:.1} cm between {mark:?} and the wall");
            }
        }
    }
    assert!(ahead_of > 5 && behind > 1, "{ahead_of} {behind}");
}

/// A heel that goes up behind a knee that stays goes round it; hands that press go straight.
#[test]
fn an_arrow_is_bent_where_the_way_is() {
    let bow = |id: &str| {
        let figure = figure(id);
        let camera = Camera::on(figure);
        let (from, to) = (&figure.start().body, &figure.end().body);
        let paper = arrow::draw(&figure.recipe.arrow, from, to, &camera, &[]);
        let path = &paper.shapes[0].path;
        let bend: String =
            path.split('q').nth(1).expect("a shaft").chars().take_while(|c| *c != 'M').collect();
        let numbers = numbers(&bend);
        let (mx, my, bx, by) = (numbers[0], numbers[1], numbers[2], numbers[3]);
        // How far the bend is from the straight way, as a part of its length.
        (mx * by - my * bx).abs() / (bx * bx + by * by)
    };
    assert!(bow("standing-leg-curl") > 0.1, "{}", bow("standing-leg-curl"));
    assert!(bow("overhead-press") < 0.03, "{}", bow("overhead-press"));
}

/// A forearm that points at the reader is before its sleeve, with the hand.
#[test]
fn a_hand_held_out_to_the_reader_is_not_hidden_by_its_sleeve() {
    let mut out = figure("squat").clone();
    out.recipe.view = View::Front;
    let pose = out.end();
    let (paper, _) = standing(pose, &out, &pieces(&out));
    for whose in [3, 4] {
        let last = |ink| paper.shapes.iter().rposition(|s| s.whose == whose && s.ink == ink);
        assert!(last(Ink::Skin) > last(Ink::Shirt), "arm {whose}");
    }
}

/// Numbers written as tightly as path data allows: a sign, a second point or a letter starts the next.
fn numbers(path: &str) -> Vec<f64> {
    let (mut all, mut word) = (Vec::new(), String::new());
    for c in path.chars().chain([' ']) {
        let part = c.is_ascii_digit() || (c == '.' && !word.contains('.'));
        if !part && !word.is_empty() {
            all.push(word.parse().expect("a number"));
            word.clear();
        }
        if part || c == '-' || c == '.' {
            word.push(c);
        }
    }
    all
}
