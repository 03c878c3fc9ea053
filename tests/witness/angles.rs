//! Five poses worked out by hand, so that the witness measures what a protractor would.
//! Nothing here is read off the engine: lengths are `skeleton`'s fractions of stature, masses Winter's.
//!
//! Fractions of stature H: shank 0.246, thigh 0.245, trunk 0.288, upper arm 0.186, forearm 0.146,
//! arm 0.332; neck 0.030 and head 0.085 beyond the shoulder line. The figure is 1.72 m tall.

use super::starter;
use rungbook::gym::witness::{KeyName, PoseFacts, facts};
use rungbook::library::MovementId;
use rungbook::mechanics::joints::Side;
use rungbook::mechanics::solve::SolvedFigure;

/// What the drawing may be off: the solver stops within a degree or two of what is asked.
const OFF: f64 = 2.5;

fn figure(movement: &str) -> &'static SolvedFigure {
    let posed = &starter().posed[&MovementId(movement.to_string())];
    posed.figure.as_ref().expect("a figure")
}

fn pose(movement: &str, name: KeyName) -> PoseFacts<'static> {
    facts(figure(movement)).into_iter().find(|pose| pose.name == name).expect("the key pose")
}

fn is(what: &str, measured: f64, by_hand: f64, off: f64) {
    assert!((measured - by_hand).abs() <= off, "{what}: {measured:.1}, by hand {by_hand:.1}");
}

/// Thigh level, shin upright: the knee is the angle between them, 90. The trunk is upright: the
/// hip is 90 too.
#[test]
fn a_wall_sit() {
    let end = pose("wall-sit", KeyName::Start);
    is("knee", end.knee(Side::Near), 90.0, OFF);
    is("hip", end.hip(Side::Near), 90.0, OFF);
}

/// Thigh level, trunk leaning 42, arms straight ahead, balanced over the middle of the foot.
/// Hip: a level thigh is 90 from the upright, the trunk 42 the other way: 90 + 42 = 132.
/// Knee: 90 plus the shin's lean s, which balance gives. Forward of the ankle, in H, with
/// k = sin s: hip 0.246 k - 0.245. On the hip lie thighs (0.200 at +0.106), trunk (0.497 at
/// 0.144 sin 42 = +0.096), head (0.081 at 0.403 sin 42 + 0.006 = +0.276), upper arms (0.056 at
/// 0.193 + 0.081 = +0.274), forearms (0.032 at +0.442), hands (0.012 at +0.552): mass 0.878 and
/// moment 0.128. Shanks 0.093 at 0.1395 k, feet 0.029 at 0.036. The sole's middle is at 0.017.
/// 0.001 + 0.013 k + 0.878 (0.246 k - 0.245) + 0.128 = 0.017, so k = 0.452, s = 26.9:
/// the knee is bent 116.9.
#[test]
fn a_squat() {
    let end = pose("squat", KeyName::End);
    is("hip", end.hip(Side::Near), 132.0, OFF);
    is("knee", end.knee(Side::Near), 116.9, OFF);
    is("half of the body on one leg", end.on_leg(Side::Near), 50.0, 1.0);
}

/// Hands on 60 cm. The arms stand 72 degrees from the trunk (the arm rule's least). With the
/// trunk t from upright they point 72 - t ahead of straight down, and the shoulders are
/// 0.60 + 0.02 + 0.571 cos (72 - t) high. Ankles, on the balls of the feet, are about 0.12 high,
/// and ankle to shoulder is 0.779 H = 1.34: so cos t = (0.50 + 0.571 cos (72 - t)) / 1.34. With
/// t = 42: (0.50 + 0.495) / 1.34 = 0.742 = cos 42. Forearms 30 ahead of straight down on a level
/// palm leave the wrist bent back 90 - 30 = 60.
#[test]
fn an_incline_push_up() {
    let start = pose("incline-push-up", KeyName::Start);
    is("trunk", start.tilt(), 42.0, OFF);
    is("wrist", start.wrist_bend(Side::Near), 60.0, 2.0 * OFF);
}

/// On all fours, thighs and arms upright. Hips: knee 0.030 + thigh 0.245 = 0.275 H; shoulders:
/// wrist 0.012 + arm 0.332 = 0.344 H. The trunk rises 0.069 over 0.288: its cosine from upright
/// is 0.240, so 76.1. An upright forearm on a level palm bends the wrist back 90, and an upright
/// arm stands 76.1 from the trunk's line. The hip is bent by the same 76.1.
#[test]
fn a_bird_dog() {
    let start = pose("bird-dog", KeyName::Start);
    is("trunk", start.tilt(), 76.1, OFF);
    is("wrist", start.wrist_bend(Side::Far), 90.0, OFF);
    is("arm", start.raised(Side::Far), 76.1, OFF);
    is("hip", start.hip(Side::Near), 76.1, OFF);
}

/// Upside down and straight. The heart is taken a sixth of the trunk from the shoulder line:
/// 0.048 H above it here; the head's middle lies 0.030 + 0.085 cos 12 = 0.113 H below: together
/// 0.161 x 1.72 = 0.277 m. Both hands carry everything, half each, on wrists bent back 90.
#[test]
fn a_handstand() {
    let start = pose("wall-handstand-hold", KeyName::Start);
    is("head", 100.0 * start.head_drop(), 27.7, 1.0);
    is("wrist", start.wrist_bend(Side::Near), 90.0, OFF);
    is("on one hand", start.on_arm(Side::Near), 50.0, 1.0);
}
