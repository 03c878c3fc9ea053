//! Set-up: a lean as heels so far from the anchor or wall, against cases reckoned by hand, and
//! against the drawn poses.

use rungbook::gym::{Gym, posed};
use rungbook::library::{Quantity, Unit, reader};
use rungbook::mechanics::joints::Side;
use rungbook::mechanics::marks::LimbMark;
use rungbook::mechanics::solve::{Person, SolvedFigure};
use rungbook::placing::set_up::{SetUp, Tie, set_up_words, tie_of};
use std::path::Path;

fn starter() -> Gym {
    let content = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    Gym::open(reader::read(&content).expect("the starter library"))
}

fn near(set_up: SetUp, lean: f64, by_hand: f64) {
    let heels = set_up.heels(lean).expect("a distance");
    assert!(
        (heels.value - by_hand).abs() < 0.05,
        "{set_up:?} at {lean}: {heels:?}, by hand {by_hand}"
    );
    assert!(heels.band > 0.0, "no distance without its band");
    let back = set_up.lean(heels.value).expect("a lean");
    assert!((back.value - lean).abs() < 1e-6 && back.band > 0.0, "{back:?}");
}

/// By hand, with the shares of stature of Drillis and Contini 1966: ankle to shoulder 0.246 + 0.245 +
/// 0.288 = 0.779; shoulder to palm 0.186 + 0.146 and 0.012 for the palm; heel 0.038 behind the ankle.
/// Wall, 30 degrees, 172 cm: 172 * (0.779 / 2 + 0.344 + 0.038) = 132.7.
/// Wall on forearms, 30 degrees, 180 cm: 180 * (0.779 / 2 + 0.206 + 0.038) = 114.0.
#[test]
fn at_a_wall_as_by_hand() {
    near(SetUp::usual(Tie::Palms, Some(172.0)), 30.0, 132.70);
    near(SetUp::usual(Tie::Forearms, Some(180.0)), 30.0, 114.03);
}

/// By hand, 172 cm, anchor 225, handles at 95, 60 degrees: arm and strap 172 * (0.186 + 0.146 + 0.4 *
/// 0.108) + 130 = 194.53; ankle 172 * (0.039 / 2 + 0.038 * 0.8660) = 9.01 up and the heels 172 *
/// (0.039 * 0.8660 - 0.038 / 2) = 2.54 ahead of it; shoulder 9.01 + 133.99 / 2 = 76.01 up; to the
/// anchor 148.99 up, so sqrt(194.53^2 - 148.99^2) = 125.08 across; less 133.99 * 0.8660 = 116.04 and
/// 2.54: 6.50. With the handles at 105 arm and strap are 184.53: 108.88 across, 9.70 past the anchor.
#[test]
fn under_an_anchor_as_by_hand() {
    let usual = SetUp::usual(Tie::Anchor, Some(172.0));
    near(usual, 60.0, 6.50);
    near(SetUp { handles: 105.0, ..usual }, 60.0, -9.70);
}

/// The drawn poses stand where the geometry says, at both ends and in the middle, short and tall.
#[test]
fn the_drawn_poses_stand_there() {
    let gym = starter();
    let mut met = 0;
    for movement in gym.library.movements.values() {
        let Some((name, tie)) = tie_of(&gym, movement) else { continue };
        let setting = movement.setting(name).expect("its setting");
        let (from, to) = (setting.from.number(), setting.to.number());
        for (lean, stature) in [from, (from + to) / 2.0, to].into_iter().zip([150.0, 172.0, 198.0])
        {
            let person = Person { stature: stature / 100.0, ..Person::default() };
            let at = [(name, Quantity::new(lean, Unit::Degree))];
            let figure = posed(movement, &at, &person).and_then(|posed| posed.figure);
            let (set_up, drawn) = drawn(&figure.expect("a figure"), tie, stature);
            let ours = set_up.heels(lean).expect("a distance").value;
            assert!((ours - drawn).abs() < 1.0, "{} {lean}: {ours}, drawn {drawn}", movement.id);
            met += 1;
        }
    }
    assert_eq!(met, 9, "straps, palms and forearms on a wall");
}

/// The set-up of a drawn figure, and how far its heels stand from the anchor or wall, cm.
fn drawn(figure: &SolvedFigure, tie: Tie, stature: f64) -> (SetUp, f64) {
    let heel = figure.start().body.limb(Side::Near, LimbMark::Heel).x;
    let usual = SetUp::usual(tie, Some(stature));
    // A touch is told at the bone; the wall is as far beyond as a palm or forearm is thick.
    let thick = if tie == Tie::Palms { 0.012 } else { 0.020 } * stature;
    let hand = figure.start().touches.iter().map(|(_, place)| place.x).fold(f64::MIN, f64::max);
    match figure.rope {
        Some(rope) => {
            let (anchor, length) = (100.0 * rope.anchor.y, 100.0 * rope.length);
            let set_up = SetUp { anchor, handles: anchor - length, ..usual };
            (set_up, 100.0 * (rope.anchor.x - heel))
        }
        None => (usual, 100.0 * (hand - heel) + thick),
    }
}

/// Who does not say how tall they are gets a wider band; more lean is heels nearer to under the
/// anchor, and further from the wall.
#[test]
fn doubts_and_directions() {
    for tie in [Tie::Anchor, Tie::Palms, Tie::Forearms] {
        let (said, unsaid) = (SetUp::usual(tie, Some(172.0)), SetUp::usual(tie, None));
        let [a, b] = [said, unsaid].map(|one| one.heels(25.0).expect("a distance"));
        assert_eq!(a.value, b.value);
        assert!(a.band < b.band, "{tie:?}: {a:?} {b:?}");
        let further = said.heels(35.0).expect("a distance").value;
        assert_eq!(further > a.value, tie != Tie::Anchor, "{tie:?}");
        assert!(said.lean(1_000.0).is_none(), "nobody stands ten metres away");
    }
}

/// Facing away from the anchor nobody is told the heels of a row: the entry says where the toes stand with
/// straps of one length, and the drawn poses stand there.
#[test]
fn a_strap_push_up_is_set_up_by_its_toes() {
    let gym = starter();
    let push_up = &gym.library.movements[&"strap-push-up".into()];
    assert_eq!(tie_of(&gym, push_up), None);
    let said = [
        (30.0, -25.0, "25 cm ahead of the point under the anchor for a lean of 30 degrees"),
        (40.0, 20.0, "20 cm behind it for 40"),
        (50.0, 65.0, "65 cm behind it for 50"),
    ];
    for (lean, behind, words) in said {
        let at = [("lean", Quantity::new(lean, Unit::Degree))];
        let figure = posed(push_up, &at, &Person::default()).and_then(|posed| posed.figure);
        let figure = figure.expect("a figure");
        let rope = figure.rope.expect("straps");
        let toes = 100.0 * (rope.anchor.x - figure.start().body.limb(Side::Near, LimbMark::Ball).x);
        let hang = 100.0 * (rope.anchor.y - rope.length);
        println!("lean {lean}: handles hang {hang:.0} cm over the floor, toes {toes:.0} cm behind");
        assert!((hang - 33.0).abs() < 3.0, "{lean}: {hang}");
        assert!((toes - behind).abs() < 3.0, "{lean}: {toes}");
        assert!(push_up.body.markdown.contains(words), "{words}");
    }
    assert!(push_up.body.markdown.contains("handles hang 33 cm over the floor"));
}

#[test]
fn a_rung_says_where_the_heels_go() {
    let gym = starter();
    let words = |ladder: &str, at: usize| {
        set_up_words(&gym, &gym.library.ladders[&ladder.into()].rungs[at], None)
    };
    assert_eq!(words("row", 3).as_deref(), Some("heels about 60 cm from under the anchor"));
    assert_eq!(words("row", 5).as_deref(), Some("heels about 5 cm from under the anchor"));
    assert_eq!(words("push-up", 0).as_deref(), Some("heels about 90 cm from the wall"));
    assert_eq!(words("push-up", 1), None, "a height is measured as it stands");
}
