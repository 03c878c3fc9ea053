//! What a coach may write beyond the starter library's entries: straps at any angle, one arm, hands near or
//! wide, one leg.
//! Never a number of the program against itself: balance is reckoned again by hand, and published
//! rows are named. Rows that are only recalled are printed and hold nothing.

use super::facts::pose;
use rungbook::mechanics::demand::{Bearer, Demand, ROPE_FACTOR, demand};
use rungbook::mechanics::doubt::{Doubt, Doubts};
use rungbook::mechanics::joints::Side;
use rungbook::mechanics::marks::LimbMark;
use rungbook::mechanics::mass::centre_of_mass;
use rungbook::mechanics::solve::{Person, SolvedFigure, figure};
use rungbook::mechanics::statics::pressure_point;

fn solved(text: &str) -> SolvedFigure {
    let (solved, problems) = figure(&pose(text), 0, &[], &Person::default());
    assert!(problems.is_empty(), "{text}: {problems:?}");
    solved.unwrap_or_else(|| panic!("{text}"))
}

fn along(demand: &Demand) -> f64 {
    let at = demand.borne.as_ref().expect("arms that bear").at[0];
    assert_eq!(at.refused, None);
    at.along
}

/// What a strap pulls by the balance of turning about the feet, per cent of body weight: weight times
/// how far it lies ahead of them, over how far the strap's line passes from them.
fn by_hand(figure: &SolvedFigure) -> f64 {
    let start = figure.start();
    let (mass, centre) = centre_of_mass(&figure.lumps, &start.body);
    let feet: Vec<_> = start.touches.iter().filter(|(c, _)| !c.surface.is_rope()).collect();
    let foot =
        feet.iter().map(|(c, _)| pressure_point(c, start).x).sum::<f64>() / feet.len() as f64;
    let ground = pressure_point(&feet[0].0, start).y;
    let grips = Side::BOTH.map(|side| start.body.limb(side, LimbMark::Grip));
    let grip = grips[0].towards(grips[1], 0.5);
    let anchor = figure.rope.expect("a strap").anchor;
    let (x, y) = (anchor.x - grip.x, anchor.y - grip.y);
    let past = ((grip.x - foot) * y - (grip.y - ground) * x) / x.hypot(y);
    100.0 * mass * (centre.x - foot) / past
}

/// Straps that hang upright or slope, to the front or to the back, bear what balance says. The factor
/// of the strap row was measured on its heels alone: elsewhere it is left out, and all of it is doubt.
#[test]
fn straps_at_an_angle_bear_what_balance_says() {
    let push_up = |anchor: &str| {
        solved(&format!(
            "{{start: {{toes: floor, hands: \"straps 225, anchor over {anchor}\", body: \"straight, lean 70\"}}}}"
        ))
    };
    let row = solved(
        "{start: {heels: floor, hands: \"straps 225, anchor over heels 58\", body: \"straight, lean -45\"}}",
    );
    let hanging = push_up("hands");
    for (name, figure, factor) in [
        ("strap push-up, straps upright", &hanging, 1.0),
        ("strap push-up, straps slope ahead", &push_up("hands 30"), 1.0),
        ("strap push-up, straps slope back", &push_up("hands -30"), 1.0),
        ("strap row", &row, ROPE_FACTOR),
    ] {
        let demand = demand(figure);
        assert_eq!(demand.borne.as_ref().map(|b| b.by), Some(Bearer::Straps));
        let (said, balance) = (along(&demand), factor * by_hand(figure));
        println!("{name}: {said:.1} %, by hand {balance:.1} %");
        assert!((said - balance).abs() < 1e-3, "{name}: {said} {balance}");
    }
    let (sure, unsure) = (rope_band(&demand(&row)), rope_band(&demand(&hanging)));
    // The whole of what the factor adds, in doubt for both: 0.12 of what balance alone says.
    for (band, figure) in [(sure, &row), (unsure, &hanging)] {
        let whole = 0.12 * by_hand(figure);
        assert!((band - whole).abs() < 1e-3, "{band} {whole}");
    }
    let floor = solved(
        "{start: {hands: \"floor, under shoulders\", toes: floor, body: straight, elbow: 0, ankle: 15}}",
    );
    let [strap, floor] = [along(&demand(&hanging)), along(&demand(&floor))];
    assert!((strap - floor).abs() < 6.0, "upright straps near the floor: {strap} {floor}");
}

/// The part of a band that the factor of the straps makes.
fn rope_band(demand: &Demand) -> f64 {
    let share = |demand: &Demand| demand.borne.as_ref()?.share();
    let (_, doubts) = demand.doubtful(share).expect("a share");
    let Doubts(all) = doubts;
    all[Doubt::Rope as usize].abs()
}

/// One arm bears what two share, straight up and by a strap. From memory (Uhl 2003, `uhl5` and `uhl7` of
/// `facts/measured_more.csv`): 34 % on each hand of two, 60 % on one.
#[test]
fn one_arm_bears_what_two_share() {
    let two = "hands: \"floor, under shoulders\"";
    let one = "near: {hand: \"floor, under shoulders\", elbow: 0}";
    let [two, one] = [two, one].map(|hands| {
        let text = format!("{{start: {{{hands}, toes: floor, body: straight}}}}");
        along(&demand(&solved(&text)))
    });
    println!(
        "push-up: each hand of two {:.0} %, recalled 34; one hand {one:.0} %, recalled 60",
        two / 2.0
    );
    assert!((one - two).abs() < 3.0, "{one} {two}");
    let row = |hands: &str| {
        let text = format!("{{start: {{heels: floor, {hands}, body: \"straight, lean -45\"}}}}");
        along(&demand(&solved(&text)))
    };
    let straps = "\"straps 225, anchor over heels 58\"";
    let both = row(&format!("hands: {straps}"));
    let far = row(&format!("far: {{hand: {straps}, elbow: 0}}, near: {{arms: on hips}}"));
    println!("strap row at 45 degrees: both {both:.0} %, one arm {far:.0} %");
    assert!((both - far).abs() < 4.0, "{both} {far}");
}

/// How wide the hands stand hardly changes the share, and the elbow's part much: Donkers 1993 and An
/// 1992 (`elbow3`, `elbow4`): hands together 23.0 N m an arm at the most, hands apart 10.0.
#[test]
fn narrow_hands_ask_more_of_the_elbow_and_no_more_in_all() {
    let at = |apart: u32| {
        demand(&solved(&format!(
            "{{start: {{hands: \"floor, {apart} apart, under shoulders +3\", toes: floor, body: straight, elbow: 0, ankle: 15}}, end: {{body: straight, chest: 9, ankle: -22}}}}"
        )))
    };
    let all = [40, 72, 100].map(at);
    let shares = [0, 1, 2].map(|n: usize| along(&all[n]));
    assert!(shares.iter().all(|share| (share - shares[1]).abs() < 2.0), "{shares:?}");
    let bottom = |demand: &Demand| demand.each[1].expect("a bottom that balances").elbow;
    let elbows = [0, 1, 2].map(|n: usize| bottom(&all[n]));
    println!(
        "elbow at the bottom, hands 40, 72, 100 cm apart: {elbows:.2?} N m/kg; measured 23 and 10 N m"
    );
    assert!(elbows[0] > elbows[1] && elbows[1] > elbows[2], "{elbows:?}");
    assert!(elbows[0] > 23.0 / 10.0 * 0.8 * elbows[2], "{elbows:?}");
}

/// On one leg the foot carries all, and upright the hip is asked next to nothing.
#[test]
fn one_leg_carries_all() {
    let stand = demand(&solved(
        "{start: {near: {foot: floor, knee: 3, arms: on hips}, far: {hip: 34, knee: 72, arms: on hips}, trunk: 0, balance: near foot}}",
    ));
    let (near, far) = stand.feet.expect("feet");
    assert!((near - 100.0).abs() < 1e-6 && far.abs() < 1e-6, "{near} {far}");
    assert!(stand.moments.leg < 0.3, "{:?}", stand.moments);
}
