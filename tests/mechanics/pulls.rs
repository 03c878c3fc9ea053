//! Bands and pulleys: what pulls on the hands, and how a body stands against it.
//! Never the program's own sums: forces, levers and supports are worked out again from where the marks are.

use super::facts::pose;
use super::library::STATURES;
use rungbook::mechanics::demand::{Demand, demand};
use rungbook::mechanics::joints::{Joint, LimbJoint, Side};
use rungbook::mechanics::marks::{LimbMark, Mark};
use rungbook::mechanics::mass::centre_of_mass;
use rungbook::mechanics::moments::moment;
use rungbook::mechanics::solve::{Person, SolvedFigure, figure};
use rungbook::mechanics::space::Vec3;
use rungbook::mechanics::statics::{Refused, pressure_point, support};

fn solved_for(text: &str, stature: f64) -> SolvedFigure {
    let person = Person { stature, ..Person::default() };
    let (solved, problems) = figure(&pose(text), 0, &[], &person);
    assert!(problems.is_empty(), "{text} at {stature}: {problems:?}");
    solved.unwrap_or_else(|| panic!("{text}"))
}

fn solved(text: &str) -> SolvedFigure {
    solved_for(text, 1.72)
}

/// A stride, the arms ahead, and a strap over a pulley.
fn stride(pulley: &str) -> String {
    format!(
        "{{pulley: \"hands to {pulley}\", start: {{near: {{foot: \"floor, 70 ahead of far foot\", knee: 30}}, far: {{foot: floor}}, trunk: -6, shoulder: 80, elbow: 5}}}}"
    )
}

/// Both grips, and the way from each to the anchor.
fn grips(figure: &SolvedFigure, anchor: Vec3) -> [(Vec3, Vec3); 2] {
    Side::BOTH.map(|side| {
        let grip = figure.start().body.limb(side, LimbMark::Grip);
        let way = anchor - grip;
        (grip, way * (1.0 / (way.x * way.x + way.y * way.y + way.z * way.z).sqrt()))
    })
}

fn hips(figure: &SolvedFigure) -> Vec3 {
    figure.start().body.mark(Mark::Hips)
}

fn at_start(figure: &SolvedFigure) -> rungbook::mechanics::pulls::OnHands {
    let demand: Demand = demand(figure);
    demand.pulled.expect("a pull").at[0]
}

/// 8 kg of 70: each hand is pulled by 0.0571 of the weight towards the pulley. What lifts, what turns
/// about the middle of both feet, and what each foot carries, from where grips and feet are.
#[test]
fn a_pulley_at_any_height_balances_by_hand() {
    for height in [20.0, 100.0, 130.0, 200.0] {
        let figure = solved(&stride(&format!("anchor {height}, 150 ahead, weighs 8")));
        let start = figure.start();
        let mut anchor = hips(&figure);
        (anchor.x, anchor.y) = (anchor.x + 1.5, height / 100.0);
        let each = 4.0 / 70.0;
        let feet = Side::BOTH.map(|side| start.body.limb(side, LimbMark::Sole));
        let middle = (feet[0].x + feet[1].x) / 2.0;
        let (mut up, mut turn, mut about_far) = (0.0, 0.0, 0.0);
        for (grip, way) in grips(&figure, anchor) {
            up += each * way.y;
            turn += each * (way.x * grip.y - way.y * (grip.x - middle));
            about_far += each * (way.y * (grip.x - feet[1].x) - way.x * grip.y);
        }
        let hands = at_start(&figure);
        assert_eq!(hands.times, None);
        assert!((hands.kilograms.expect("a weight") - 8.0).abs() < 1e-9);
        assert!((hands.takes_off - 100.0 * up).abs() < 1e-9, "{height}: {hands:?}");
        // The soles lie on the floor to a millimetre or two.
        assert!((hands.turning - 9.81 * turn).abs() < 0.02, "{height}: {hands:?} {turn}");
        let support = support(start, &figure).expect("two feet");
        assert_eq!(support.refused, None, "{height}");
        let (mass, centre) = centre_of_mass(&figure.lumps, &start.body);
        // About the far foot: near foot up, weight down, pull.
        let near = (mass * (centre.x - feet[1].x) - about_far) / (feet[0].x - feet[1].x);
        let carried = |side: Side| {
            let on = support
                .pushes
                .iter()
                .find(|push| push.touches.iter().all(|&i| start.touches[i].0.side == Some(side)));
            on.expect("a foot").force.y
        };
        let (ours, far) = (carried(Side::Near), carried(Side::Far));
        assert!((ours - near).abs() < 0.005, "{height}: {ours} {near}");
        assert!((ours + far - (mass - up)).abs() < 1e-9, "{height}");
        println!("pulley at {height} cm: {hands:?}, near foot {ours:.3}, far {far:.3}");
    }
}

/// Level with both hands nothing is lifted; high above it lifts nearly the whole weight that hangs.
#[test]
fn a_level_pull_lifts_nothing_and_a_high_one_nearly_all() {
    let figure = solved(&stride("anchor 100, 150 ahead, weighs 20"));
    let grip = figure.start().body.limb(Side::Near, LimbMark::Grip).y;
    let level = solved(&stride(&format!("anchor {:.4}, 150 ahead, weighs 20", 100.0 * grip)));
    assert!(at_start(&level).takes_off.abs() < 0.05, "{:?}", at_start(&level));
    let ahead = 100.0 * (figure.start().body.limb(Side::Near, LimbMark::Grip).x - hips(&figure).x);
    let high = solved(&stride(&format!("anchor 900, {ahead:.2} ahead, weighs 20")));
    let all = 100.0 * 20.0 / 70.0;
    let lifted = at_start(&high).takes_off;
    assert!(lifted > 0.995 * all && lifted <= all, "{lifted}");
}

/// Feet side by side: a pull of 3 kg at the hands' height moves the pressure forward by its turning over
/// the weight, and 25 kg would pull the body over.
#[test]
fn feet_side_by_side_take_little() {
    let text = |kg: f64| {
        format!(
            "{{pulley: \"hands to anchor 120, 200 ahead, weighs {kg}\", start: {{feet: floor, knee: 8, trunk: 0, shoulder: 80, elbow: 0, balance: feet}}}}"
        )
    };
    let figure = solved(&text(3.0));
    let start = figure.start();
    let under = |figure: &SolvedFigure| {
        let support = support(figure.start(), figure).expect("feet");
        (support.refused, support.pushes[0].at.x, support.pushes[0].force)
    };
    let (refused, at, force) = under(&figure);
    assert_eq!(refused, None);
    let mut anchor = hips(&figure);
    (anchor.x, anchor.y) = (anchor.x + 2.0, 1.2);
    let each = 1.5 / 70.0;
    let (mass, centre) = centre_of_mass(&figure.lumps, &start.body);
    let (mut up, mut level, mut turn) = (0.0, 0.0, 0.0);
    let ground = pressure_point(&start.touches[0].0, start).y;
    for (grip, way) in grips(&figure, anchor) {
        (up, level) = (up + each * way.y, level + each * way.x);
        turn += each * (way.x * (grip.y - ground) - way.y * grip.x);
    }
    let by_hand = (mass * centre.x + turn) / (mass - up);
    assert!((at - by_hand).abs() < 1e-9, "{at} {by_hand}");
    assert!(at - centre.x > 0.02, "forward: {at} {}", centre.x);
    assert!((force.y - (mass - up)).abs() < 1e-9 && (force.x + level).abs() < 1e-9, "{force:?}");
    assert_eq!(under(&solved(&text(25.0))).0, Some(Refused::Falls));
}

/// Seat and feet at two heights: balance does not say which of them takes a level pull; the pull on the
/// hands is known all the same.
#[test]
fn a_seat_and_feet_share_a_level_pull_as_nobody_knows() {
    let figure = solved(
        "{pulley: \"hands to anchor 45, 160 ahead, weighs 20\", start: {seat: chair 45, heels: floor, knee: 34, trunk: 2, arms: forward}}",
    );
    let support = support(figure.start(), &figure).expect("a seat");
    assert_eq!(support.refused, Some(Refused::TooMany));
    assert!((at_start(&figure).kilograms.expect("a weight") - 20.0).abs() < 1e-9);
}

/// A band from hands to own feet leaves the balance alone and turns the shoulder by its pull times its
/// distance from the joint.
#[test]
fn a_band_to_the_own_feet_works_at_the_joints_alone() {
    let text = |band: &str| {
        format!(
            "{{{band}start: {{feet: floor, knee: 4, trunk: 10, shoulder: 50, elbow: 20, balance: feet}}}}"
        )
    };
    let without = solved(&text(""));
    let with = solved(&text("band: \"hands to feet, 40 at rest, 6 at twice\", "));
    let forces = |figure: &SolvedFigure| {
        let support = support(figure.start(), figure).expect("feet");
        (support.pushes[0].at, support.pushes[0].force)
    };
    let ((a, f), (b, g)) = (forces(&without), forces(&with));
    assert!((a.x - b.x).abs() < 1e-9 && (f.y - g.y).abs() < 1e-9 && g.x.abs() < 1e-9);
    let start = with.start();
    let [grip, sole, shoulder] = [LimbMark::Grip, LimbMark::Sole, LimbMark::Shoulder]
        .map(|mark| start.body.limb(Side::Near, mark));
    let way = sole - grip;
    let long = (way.x * way.x + way.y * way.y + way.z * way.z).sqrt();
    let drawn = long / 0.4 - 1.0;
    // Nothing at rest, 1 at twice, 29.8 / 20.5 at three times: 1.27317 s - 0.27317 s s.
    let pull = 3.0 / 70.0 * (1.273171 * drawn - 0.273171 * drawn * drawn);
    let (fx, fy) = (pull * way.x / long, pull * way.y / long);
    let by_hand = 9.81 * ((grip.x - shoulder.x) * fy - (grip.y - shoulder.y) * fx);
    let of = |figure: &SolvedFigure| {
        let support = support(figure.start(), figure).expect("feet");
        moment(Joint::Limb(Side::Near, LimbJoint::Shoulder), figure.start(), figure, &support)
    };
    let ours = of(&with) - of(&without);
    assert!((ours - by_hand).abs() < 1e-4, "{ours} {by_hand}");
    assert!(by_hand.abs() > 0.1, "{by_hand}");
    let hands = at_start(&with);
    assert!((hands.kilograms.expect("known") - 140.0 * pull).abs() < 1e-3, "{hands:?}");
    assert!(hands.takes_off.abs() < 1e-9 && hands.turning.abs() < 1e-6, "{hands:?}");
}

/// Slack it pulls nothing; beyond three times its length nobody published what it does.
#[test]
fn a_band_is_slack_or_too_far_beyond_what_was_measured() {
    let at = |rest: f64| {
        let text = format!(
            "{{band: \"hands to anchor 120, 140 ahead, {rest} at rest, 4 at twice\", start: {{feet: floor, knee: 8, trunk: 0, shoulder: 80, elbow: 0, balance: feet}}}}"
        );
        solved(&text)
    };
    assert_eq!(at_start(&at(200.0)).kilograms, Some(0.0));
    let far = at(20.0);
    assert_eq!(at_start(&far).kilograms, None);
    assert!(at_start(&far).times.expect("a band") > 3.0);
    let support = support(far.start(), &far).expect("feet");
    assert_eq!(support.refused, Some(Refused::TooFar));
}

/// Heights, weights and lengths over what a hall has, at five statures: no negative pull, none harder than
/// what hangs, forces that balance to 1e-9, and a band of doubt for every number.
#[test]
fn no_pull_is_impossible_anywhere() {
    let mut known = 0;
    for stature in STATURES {
        for height in [10.0, 60.0, 110.0, 160.0, 210.0] {
            for kg in [2.0, 8.0, 20.0, 40.0] {
                let text = stride(&format!("anchor {height}, 160 ahead, weighs {kg}"));
                known += usize::from(possible(&solved_for(&text, stature), Some(kg)));
                let band = text.replace("pulley:", "band:");
                let band = band.replace(
                    &format!("weighs {kg}"),
                    &format!("{} at rest, {kg} at twice", 55.0 + height / 4.0),
                );
                known += usize::from(possible(&solved_for(&band, stature), None));
            }
        }
    }
    println!("{known} pulls balance");
    assert!(known > 60, "{known}");
}

/// Whether balance gives the forces; panics where what it gives cannot be.
fn possible(figure: &SolvedFigure, hangs: Option<f64>) -> bool {
    let demand = demand(figure);
    let pulled = |demand: &Demand| demand.pulled.as_ref().and_then(|p| p.at[0].kilograms);
    if let Some((value, doubts)) = demand.doubtful(pulled) {
        assert!(value >= 0.0 && value.is_finite(), "{value}");
        assert!(hangs.is_none_or(|kg| (value - kg).abs() < 1e-9), "{value} {hangs:?}");
        assert!(value == 0.0 || doubts.band() > 0.05 * value, "{value} {doubts:?}");
    }
    let Some(support) = support(figure.start(), figure).filter(|s| s.refused.is_none()) else {
        return false;
    };
    let (mass, centre) = centre_of_mass(&figure.lumps, &figure.start().body);
    let (mut level, mut up, mut turn) = (0.0, -mass, 0.0);
    let mut add = |at: Vec3, force: Vec3| {
        level += force.x;
        up += force.y;
        turn += (at.x - centre.x) * force.y - (at.y - centre.y) * force.x;
    };
    support.pushes.iter().for_each(|push| add(push.at, push.force));
    support.pulls.iter().for_each(|pull| add(pull.at, pull.force));
    assert!(level.abs() < 1e-9 && up.abs() < 1e-9 && turn.abs() < 1e-9, "{level} {up} {turn}");
    assert!(support.pushes.iter().all(|push| push.force.y >= 0.0), "{support:?}");
    true
}
