//! Forearms under weight: where they stand and how the wrist bends, against paper and pencil.
//! Never reads the solver's terms: the working beside each pose needs only lengths and two laws.
//!
//! Lengths for 172 cm (Drillis & Contini): shank 42.3, thigh 42.1, trunk 49.5, upper arm 32.0,
//! forearm 25.1; shoulder joint 18.6 from the middle; wrist 2.1 over the surface; the ball of the
//! foot lies 12.4 ahead of the ankle and 6.7 below it; the skin of the chest 40.6 up the trunk
//! from the hip and 10.3 before it. With the foot bent by `a` (toes to shin), the ankle lies
//! 6.7 cos a - 12.4 sin a along the body from the ball, and 12.4 cos a + 6.7 sin a behind it.
//!
//! Then, with w the line from wrist to shoulder, d long, at the angle g from the direction in
//! which the forearm would stand best: forearm and w enclose e, 2 * 25.1 * d * cos e
//! = 25.1^2 + d^2 - 32.0^2, whatever the elbow does. So the forearm misses the best by e - g, away
//! from w. A flat hand that points ahead bends the wrist by the angle between ahead and forearm.

use super::facts::pose as read;
use rungbook::mechanics::guard::checked;
use rungbook::mechanics::joints::{LimbJoint, Side};
use rungbook::mechanics::kinematics::Body;
use rungbook::mechanics::marks::{LimbMark, Mark};
use rungbook::mechanics::solve::{Person, SolvedFigure};

/// Angles the author says are met within a degree or two, and the paper has round numbers.
const PAPER: f64 = 2.5;

fn solved(text: &str) -> SolvedFigure {
    let (figure, problems) = checked(&read(text), 0, &[], &Person::default());
    assert!(problems.is_empty(), "{text}: {problems:?}");
    figure.expect("a figure")
}

/// The forearm's angle from upright, degrees.
fn lean(body: &Body, side: Side) -> f64 {
    let up = body.limb(side, LimbMark::Elbow) - body.limb(side, LimbMark::Wrist);
    up.x.hypot(up.z).atan2(up.y).to_degrees()
}

/// The angle between upper arm and ribs, degrees.
fn from_the_ribs(body: &Body, side: Side) -> f64 {
    let arm = body.limb(side, LimbMark::Elbow) - body.limb(side, LimbMark::Shoulder);
    let ribs = body.mark(Mark::Hips) - body.mark(Mark::Shoulders);
    arm.unit().dot(ribs.unit()).acos().to_degrees()
}

/// Both forearms of the last key pose stand `leaning` from upright over wrists bent by `wrist`.
fn stands(text: &str, leaning: f64, wrist: f64) -> SolvedFigure {
    let figure = solved(text);
    let body = &figure.end().body;
    for side in Side::BOTH {
        let (own, bend) = (lean(body, side), body.posture.degrees(side, LimbJoint::Wrist));
        assert!((own - leaning).abs() < PAPER, "{text}: {side:?} leans {own}, paper {leaning}");
        assert!((bend - wrist).abs() < PAPER, "{text}: {side:?} bends {bend}, paper {wrist}");
    }
    figure
}

const PUSH_UP: &str = "{start: {hands: \"floor, 72 apart, under shoulders +3\", toes: floor, body: straight, elbow: 0, ankle: 15}, end: {body: straight, chest: 9, ankle: -22}}";

/// Top: the hand 36 - 18.6 = 17.4 out and 3 ahead, so the shoulder 54.3 over the wrist, 56.4 up.
/// Foot at 15: ankle 3.3 along, 13.7 behind: 137.2 sin b + 13.7 cos b = 56.4, b = 18.4, and the
/// wrist 125.8 + 3 = 128.8 ahead of the toes.
/// Bottom, foot at -22: ankle 10.9 along, 9.0 behind. The chest 135.9 sin b - 1.3 cos b = 9.0 up:
/// b = 4.4; the shoulder 144.8 sin b + 9.0 cos b = 19.9 up, 143.7 ahead. From wrist to shoulder:
/// 14.9 ahead, 17.4 in, 17.9 up; d = 29.1, g = 52.0 from upright; cos e = 0.310, e = 71.9.
/// Leans 71.9 - 52.0 = 19.9; ahead sin 19.9 * 14.9 / 22.9 = 0.22: the wrist bends 77.
#[test]
fn a_push_up_stands_on_its_forearms() {
    let figure = stands(PUSH_UP, 19.9, 77.2);
    // "The elbows travel back at roughly 45 degrees from the ribs."
    for side in Side::BOTH {
        let ribs = from_the_ribs(&figure.end().body, side);
        assert!((ribs - 45.0).abs() < 10.0, "{ribs}");
    }
}

/// Top: knees 5.2 up; the hand 18.4 out, 5 ahead: the shoulder 53.8 over the wrist, 55.9 up;
/// 5.2 + 91.6 sin b = 55.9, b = 33.6; the wrist 76.3 + 5 = 81.3 ahead of the knees.
/// Bottom: 5.2 + 82.7 sin b - 10.3 cos b = 9.0, b = 9.7; the shoulder 20.6 up, 90.3 ahead. To the
/// shoulder: 9.0 ahead, 18.4 in, 18.5 up; d = 27.6, g = 47.9; cos e = 0.266, e = 74.6.
/// Leans 26.7; ahead sin 26.7 * 9.0 / 20.5 = 0.197: the wrist bends 79.
#[test]
fn a_knee_push_up_does_too() {
    stands(
        "{start: {hands: \"floor, 74 apart, under shoulders +5\", knees: floor, knee: 70, body: straight, elbow: 0}, end: {body: straight, knee: 70, chest: 9}}",
        26.7,
        78.6,
    );
}

/// Top: the arm rule's 72 degrees to the trunk; 14.4 out leave 55.3 of the arm in the side view:
/// 137.2 sin b + 13.7 cos b - 55.3 sin (b + 72) = 62.1, b = 47.4; the shoulder 82.8 ahead of the
/// toes, the wrist 27.1 further: 109.9.
/// Bottom, foot at -18: ankle 10.2 along, 9.7 behind; 135.2 sin b - 0.6 cos b = 67, b = 30.0; the
/// shoulder 80.4 up, 120.0 ahead. To the shoulder: 10.1 ahead, 14.4 in, 18.3 up; d = 25.4. Best is
/// square to a body that slopes asin (60 / 134) = 26.6 up to the edge: g = 62.2 from that; cos e
/// = 0.197, e = 78.6: 16.4 beyond it, away from the shoulder. So the forearm points 0.62 back,
/// 0.76 up, 0.18 out: it leans 40.5 and bends the wrist acos 0.62 = 51.
#[test]
fn on_an_edge_of_60_cm_forearms_stand_nearly_square_to_the_body() {
    stands(
        "{start: {hands: \"box 60, 66 apart\", toes: floor, body: straight, elbow: 0, ankle: 15}, end: {body: straight, chest: 67, ankle: -18}}",
        40.5,
        51.5,
    );
}

/// Legs at t over level, trunk at t - hip. Top, foot at 15 (the guess): the shoulder
/// 87.7 sin t + 13.7 cos t + 49.5 sin (t - 105) up; 11.4 out leave 56.0 of the arm, pointing at
/// t - 105 + 180 + 145: t = 67 puts the wrist 2.1 up, 77.1 ahead of the toes.
/// Bottom, foot at -15: ankle 9.7 along, 10.3 behind; the middle of the head 18.0 up, which is 5.2
/// and 14.6 beyond the shoulder, chin lifted by 7: t = 42.2, the shoulder 33.0 up, 94.8 ahead. To
/// the shoulder: 17.7 ahead, 11.4 in, 30.9 up; d = 37.4, g = 34.3; cos e = 0.535, e = 57.6.
/// Leans 23.3; ahead sin 23.3 * 17.7 / 21.1 = 0.33: the wrist bends 71.
#[test]
fn a_pike_push_up_comes_down_over_its_hands() {
    stands(
        "{shape: pike, start: {hands: \"floor, 60 apart\", toes: floor, hip: 105, knee: 0, shoulder: 145, elbow: 0}, end: {head: 8, knee: 0, hip: 92, ankle: -15}}",
        23.3,
        70.6,
    );
}

/// The upper arm 80 back of hanging and the elbow bent by 95: 95 - 80 = 15. A fist closes round
/// the bar with a straight wrist.
#[test]
fn a_dip_keeps_its_forearms_upright() {
    stands(
        "{start: {hands: parallel bars 120, elbow: 0, balance: hands, hip: 10, knee: 80, trunk: 5}, end: {upper-arm: 80, elbow: 95, balance: hands, hip: 0, knee: 80}}",
        15.0,
        0.0,
    );
}

/// Where nobody says how wide, the lowest pose decides, and the hands stay there throughout.
#[test]
fn hands_find_their_width_and_keep_it() {
    let figure = solved(
        "{start: {hands: \"floor, under shoulders +3\", toes: floor, body: straight, elbow: 0, ankle: 15}, end: {body: straight, chest: 9, ankle: -22}}",
    );
    let out = |body: &Body| 100.0 * body.limb(Side::Near, LimbMark::Palm).z;
    let (top, low) = (out(&figure.start().body), out(&figure.end().body));
    assert!((top - low).abs() < 1.0, "{top} {low}");
    assert!((28.0..=34.0).contains(&low), "wider than the shoulders, within one and a half: {low}");
}

/// What the author says of the arm stands: no swing is chosen over it.
#[test]
fn a_said_swing_is_kept() {
    for said in ["arm-out: 10, arm-turn: 0", "hand-turn: 0"] {
        let text = PUSH_UP.replace("ankle: -22", &format!("ankle: -22, {said}"));
        let text = text.replace("72 apart, ", "");
        let (figure, _) = checked(&read(&text), 0, &[], &Person::default());
        let body = figure.expect("a figure").end().body.clone();
        let out = body.posture.degrees(Side::Near, LimbJoint::ArmOut);
        assert!(out < 11.0, "{said}: {out}");
    }
}
