//! Figures say what their entries say: heights, touches and take-offs, measured on the solved body.
//! Never a look at the drawings; for that `cargo test --test sheets` writes sheets for the eye.

mod posed;

use posed::{GYM, figure};
use rungbook::figure::camera::Camera;
use rungbook::figure::frame::standing;
use rungbook::figure::kit::WALL;
use rungbook::figure::telling::telling;
use rungbook::figure::wrong::wrong;
use rungbook::figure::{doubts, draw, hidden, poses, shadow};
use rungbook::mechanics::between::motion;
use rungbook::mechanics::joints::Side;
use rungbook::mechanics::kinematics::Body;
use rungbook::mechanics::marks::{LimbMark, Mark};
use rungbook::mechanics::scenery::pieces;
use rungbook::mechanics::solve::SolvedFigure;
use rungbook::mechanics::space::vec3;
use rungbook::mechanics::words::contact::{Part, Surface};
use rungbook::mechanics::words::props::LineEnd;
use rungbook::mechanics::words::recipe::View;

/// How far a mark rises from the first key pose to the last, centimetres.
fn rise(figure: &SolvedFigure, mark: Mark) -> f64 {
    100.0 * (figure.end().body.mark(mark).y - figure.start().body.mark(mark).y)
}

/// The furthest that anything moves in the picture, as a part of the picture's longer side.
fn seen_to_move(figure: &SolvedFigure, from: &Body, to: &Body) -> f64 {
    let camera = Camera::on(figure);
    let seen = |body: &Body| body.places().iter().map(|p| camera.see(*p)).collect::<Vec<_>>();
    let (a, b) = (seen(from), seen(to));
    let length = |of: fn(&rungbook::figure::camera::Spot) -> f64| {
        let (low, high) =
            a.iter().map(of).fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
        high - low
    };
    let side = length(|s| s.x).max(length(|s| s.y));
    a.iter().zip(&b).map(|(p, q)| p.to(*q).length()).fold(0.0, f64::max) / side
}

#[test]
fn what_moves_little_is_shown_against_its_start() {
    let mut alike = Vec::new();
    let mut looked_at = 0;
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        for pair in figure.poses.windows(2) {
            looked_at += 1;
            let moved = seen_to_move(figure, &pair[0].body, &pair[1].body);
            // Under a tenth of the figure the eye compares two pictures in vain.
            if moved < 0.10 && !figure.recipe.ghost {
                alike.push(format!("{id}: {:.0} %", 100.0 * moved));
            }
        }
    }
    assert!(alike.is_empty(), "start and end look alike: {alike:?}; write `ghost: start`");
    assert!(looked_at > 70, "{looked_at}");
}

#[test]
fn heights_are_those_of_the_standards() {
    // "hands rise 10 cm"
    let arms = figure("prone-arm-raise");
    for side in Side::BOTH {
        let hand = rise(arms, LimbMark::Grip.of(side));
        assert!((hand - 10.0).abs() < 2.0, "{side:?} {hand}");
    }
    // "the body rises 3 to 8 cm with elbows straight"
    let body = rise(figure("shoulder-blade-pull"), Mark::Hips);
    assert!((3.0..=8.0).contains(&body), "{body}");
    // "shift the whole trunk forward": little, and upright.
    let stretch = figure("half-kneeling-hip-stretch");
    let shift = stretch.end().body.mark(Mark::Hips).x - stretch.start().body.mark(Mark::Hips).x;
    assert!((0.03..=0.10).contains(&shift), "{shift}");
    // "a few centimetres off the floor"
    let hop = rise(figure("pogo-hop"), LimbMark::Ball.of(Side::Near));
    assert!((3.0..=10.0).contains(&hop), "{hop}");
}

#[test]
fn the_knee_of_the_ankle_rock_reaches_the_wall_over_a_flat_heel() {
    let rock = figure("ankle-rock");
    let wall = rock.end().touches.iter().find(|(c, _)| c.surface == Surface::Wall);
    let wall = wall.expect("hands on a wall").1.x;
    let at = |mark: LimbMark| rock.end().body.limb(Side::Near, mark);
    let knee = wall - at(LimbMark::Knee).x;
    // A kneecap lies about 5 cm before the middle of the knee.
    assert!((0.02..=0.08).contains(&knee), "{knee}");
    assert!(at(LimbMark::Heel).y.abs() < 0.005, "{:?}", at(LimbMark::Heel));
    // "Big toe about 8 cm from the skirting"
    let toe = wall - at(LimbMark::Tip).x;
    assert!((0.05..=0.11).contains(&toe), "{toe}");
}

#[test]
fn both_hands_hold_the_band_together() {
    for id in ["band-turn", "half-kneeling-chop"] {
        for pose in &figure(id).poses {
            let [near, far] = Side::BOTH.map(|side| pose.body.limb(side, LimbMark::Grip));
            let apart = 100.0 * (near - far).length();
            assert!(apart < 12.0, "{id}: hands {apart:.0} cm apart");
        }
    }
}

#[test]
fn a_squat_jump_pushes_off_before_it_flies() {
    let jump = motion(figure("squat-jump")).expect("it moves");
    assert_eq!(jump.keys.len(), 3, "squat, take-off, flight");
    let toes = |at: usize| jump.poses[at].body.limb(Side::Near, LimbMark::Ball).y;
    for at in 0..=jump.keys[1] {
        assert!(toes(at).abs() < 0.01, "toes {} m over the floor at {at}", toes(at));
    }
    assert!(toes(jump.keys[2]) > 0.2);
}

#[test]
fn a_side_plank_leans_on_an_upright_arm() {
    for id in ["knee-side-plank", "side-plank"] {
        let body = &figure(id).start().body;
        let arm =
            body.limb(Side::Near, LimbMark::Shoulder) - body.limb(Side::Near, LimbMark::Elbow);
        let lean = arm.x.hypot(arm.z).atan2(arm.y).to_degrees();
        assert!(lean < 12.0, "{id}: upper arm {lean:.0} degrees from upright");
    }
}

#[test]
fn nothing_in_a_drawing_is_hidden_from_the_eye() {
    type Judge = fn(&SolvedFigure) -> Vec<doubts::Doubt>;
    let judges: [Judge; 5] = [
        doubts::foreshortened,
        doubts::across_the_face,
        doubts::floating,
        doubts::stray_arrow,
        hidden::hidden_arms,
    ];
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        let found: Vec<String> =
            judges.iter().flat_map(|judge| judge(figure)).map(|doubt| doubt.sentence).collect();
        assert!(found.is_empty(), "{id}: {found:?}");
    }
}

/// From the near side the trunk hides a far arm at the side or on the hip.
#[test]
fn an_arm_of_its_own_behind_the_body_is_told() {
    for id in ["overhead-carry", "half-kneeling-press"] {
        let mut seen = figure(id).clone();
        assert!(hidden::hidden_arms(&seen).is_empty(), "{id}");
        seen.recipe.view = View::Side;
        let told = hidden::hidden_arms(&seen);
        assert!(!told.is_empty(), "{id} from the side");
        assert!(told.iter().all(|doubt| doubt.sentence.starts_with("the far arm")), "{id}");
    }
    // Both arms of a squat do the same: one stands for the other.
    let squat = figure("squat");
    assert_eq!(squat.recipe.view, View::Side);
    assert!(hidden::hidden_arms(squat).is_empty());
}

/// On paper no hand is past the edge of the wall that it lies on.
#[test]
fn hands_lie_on_a_wall_and_not_in_it() {
    let mut hands = 0;
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        let camera = Camera::on(figure);
        let walls = pieces(figure);
        let wall = walls.iter().find(|p| p.surface == Surface::Wall && p.ahead > 0.0);
        let Some(wall) = wall.filter(|_| figure.recipe.view == View::Side) else { continue };
        for pose in &figure.poses {
            for (contact, at) in &pose.touches {
                if (contact.surface, contact.part) != (Surface::Wall, Part::Hand) {
                    continue;
                }
                hands += 1;
                let edge = camera.see(vec3(wall.x.0, at.y, WALL.1)).x;
                let back = camera.see(vec3(wall.x.0, at.y, WALL.0)).x;
                let hand = camera.see(*at).x;
                assert!(hand < edge && hand > back, "{id}: hand {hand}, wall {back} to {edge}");
            }
        }
    }
    assert!(hands > 20, "{hands}");
}

/// A head is drawn over an arm that is raised along it.
#[test]
fn a_raised_arm_hides_no_head() {
    const HEAD: usize = 2;
    let mut raised = 0;
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        let (camera, kit) = (Camera::on(figure), pieces(figure));
        for pose in &figure.poses {
            let (paper, _) = standing(pose, figure, &kit);
            let last = |whose| paper.shapes.iter().rposition(|shape| shape.whose == whose);
            for side in Side::BOTH {
                if hidden::arm_over_head(&pose.body, side, &camera) {
                    raised += 1;
                    assert!(last(HEAD) > last(3 + side.index()), "{id}: {side:?} arm");
                }
            }
        }
    }
    assert!(raised > 5, "{raised}");
}

/// Pages have about three parts of width for two of height: there every strip shows a centimetre of
/// the hall at no less than this, CSS pixels, and so a head as nine of them.
#[test]
fn key_poses_are_laid_out_to_be_seen() {
    const LEAST: f64 = 0.5;
    let scale = |figure: &SolvedFigure| {
        let (wide, tall) = draw(figure, "", "fig").size;
        (300.0 / wide).min(200.0 / tall)
    };
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        let scale = scale(figure);
        assert!(scale >= LEAST, "{id}: {scale:.2} pixels a centimetre");
    }
    // Lying ones stand one under the other; what is as tall as wide, beside each other.
    assert!(scale(figure("push-up")) > 0.95, "{}", scale(figure("push-up")));
    assert!(scale(figure("one-arm-row")) > 0.74, "{}", scale(figure("one-arm-row")));
}

/// A band counts as what it is drawn as: one that points at the reader, one across a face.
#[test]
fn a_band_is_judged_as_a_limb_and_a_bar_are() {
    let said =
        |found: Vec<doubts::Doubt>, what: &str| found.iter().any(|d| d.sentence.contains(what));
    let mut turn = figure("band-turn").clone();
    assert!(!said(doubts::foreshortened(&turn), "the band"));
    turn.recipe.view = View::Side;
    assert!(said(doubts::foreshortened(&turn), "the band points at the reader"));
    let mut press = figure("band-press-out").clone();
    assert!(!said(doubts::across_the_face(&press), "the band"));
    let LineEnd::Anchor { height, ahead, aside, .. } = &mut press.recipe.lines[0].to else {
        panic!("no anchor")
    };
    (*height, *ahead, *aside) = (2.3, -0.8, 0.3);
    press.recipe.view = View::FrontCorner;
    assert!(said(doubts::across_the_face(&press), "the band is drawn across"));
}

#[test]
fn words_begin_with_the_standard_and_end_with_degrees() {
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        let standard = &GYM.library.movements[id].standard.as_ref().expect("a standard").value;
        let words = telling(figure, standard);
        assert!(words.starts_with(standard.trim_end_matches('.')), "{id}: {words}");
        let (plain, degrees) = words.split_once(" In degrees: ").expect("degrees");
        assert!(!plain[standard.len()..].contains("degrees"), "{id}: {plain}");
        assert!(degrees.ends_with('.') && !words.contains("-0"), "{id}: {degrees}");
    }
}

#[test]
fn words_name_all_that_is_strung_and_held() {
    let mut bands = 0;
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        let words = telling(figure, "");
        for line in &figure.recipe.lines {
            bands += 1;
            let what = if line.towel { "a towel from" } else { "a band from" };
            assert!(words.contains(what), "{id}: {words}");
        }
        if let Some(held) = figure.recipe.held.as_ref().filter(|held| !held.is_nothing()) {
            assert!(words.contains(&held.words()), "{id}: {words}");
        }
    }
    assert!(bands > 10, "{bands}");
}

#[test]
fn what_hovers_casts_no_contact_shadow() {
    let shadows = |id: &str| {
        let figure = figure(id);
        let camera = Camera::on(figure);
        let paper = shadow::shadows(&figure.start().clone(), &camera);
        paper.shapes.iter().map(|shape| shape.path.matches('M').count()).sum::<usize>()
    };
    // Two hands and two feet; the knees hover. In a plank forearms and hands lie as well.
    assert_eq!(shadows("bear-hold"), 4);
    assert_eq!(shadows("plank"), 6);
    assert_eq!(shadows("dead-hang"), 0);
}

#[test]
fn figures_are_drawn_at_one_scale() {
    for (id, posed) in &GYM.posed {
        let Some(figure) = posed.figure.as_ref() else { continue };
        let svgs = poses(figure, id.as_str(), "fig");
        for svg in svgs
            .split("<svg ")
            .filter(|svg| svg.starts_with("class=\"fig") && !svg.contains("fig then"))
        {
            let of = |key: &str| {
                let from = svg.find(key).expect("a key") + key.len();
                svg[from..].split('"').next().expect("a value")
            };
            let height: f64 = of("height=\"").parse().expect("a number");
            let view: Vec<f64> =
                of("viewBox=\"").replace('-', " -").split_whitespace().flat_map(numbers).collect();
            let scale = height / view[3];
            assert!((1.27..=2.23).contains(&scale), "{id}: {scale:.2} pixels a centimetre");
        }
    }
}

/// Numbers written as tightly as path data allows: a second point starts the next.
fn numbers(text: &str) -> Vec<f64> {
    let mut out: Vec<String> = vec![String::new()];
    for c in text.chars() {
        if c == '.' && out.last().is_some_and(|last| last.contains('.')) {
            out.push(String::new());
        }
        out.last_mut().expect("one").push(c);
    }
    out.iter().map(|number| number.parse().expect("a number")).collect()
}

#[test]
fn a_drawn_fault_goes_the_way_its_name_says_and_keeps_its_contacts() {
    let spoilt = |id: &str, fault: &str| {
        wrong(figure(id), fault).unwrap_or_else(|| panic!("{fault} is not drawn on {id}"))
    };
    let moved = |pair: &SolvedFigure, mark: Mark| {
        100.0 * (pair.poses[1].body.mark(mark) - pair.poses[0].body.mark(mark)).y
    };
    assert!(moved(&spoilt("plank", "hips-sag"), Mark::Hips) < -3.0);
    assert!(moved(&spoilt("plank", "seat-in-the-air"), Mark::Hips) > 4.0);
    assert!(moved(&spoilt("strap-row", "hips-sag"), Mark::Hips) < -3.0);
    let squat = spoilt("squat", "knees-fall-in");
    for side in Side::BOTH {
        let at = |pose: usize, mark| squat.poses[pose].body.limb(side, mark);
        let inward = side.sign() * (at(0, LimbMark::Knee).z - at(1, LimbMark::Knee).z);
        assert!((0.04..0.10).contains(&inward), "{side:?} knee {inward}");
        let ankle = (at(0, LimbMark::Ankle) - at(1, LimbMark::Ankle)).length();
        assert!(ankle < 0.03, "{side:?} ankle moves {ankle}");
    }
    // Arms: what goes wrong does, and the hands hold what they held.
    let across = |pair: &SolvedFigure, at: usize, mark: LimbMark| {
        let [near, far] = Side::BOTH.map(|side| pair.poses[at].body.limb(side, mark));
        100.0 * (near - far).length()
    };
    let flared = spoilt("push-up", "elbows-flare");
    let elbows = across(&flared, 1, LimbMark::Elbow) - across(&flared, 0, LimbMark::Elbow);
    assert!(elbows > 12.0, "elbows {elbows} cm further apart");
    for side in Side::BOTH {
        let hand = |at: usize| flared.poses[at].body.limb(side, LimbMark::Grip);
        assert!((hand(1) - hand(0)).length() < 0.12, "{side:?} hand moves");
    }
    let shrug = spoilt("towel-row", "shoulders-shrug");
    let shoulder = |at: usize| shrug.poses[at].body.limb(Side::Near, LimbMark::Shoulder).y;
    assert!(100.0 * (shoulder(1) - shoulder(0)) > 2.5, "{} {}", shoulder(0), shoulder(1));
    // Arms overhead carry the shoulders up with them: no fault to draw.
    assert!(wrong(figure("wall-slide"), "shoulders-shrug").is_none());
    // A fault that no pose can show is not drawn.
    assert!(wrong(figure("plank"), "breath-held").is_none());
}
