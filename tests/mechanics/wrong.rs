//! Deliberately wrong poses, thirty and more: each is told, at its own word, with a sentence that leads
//! to the fix.
//! Never checks a whole sentence: its code, and the word without which nobody could mend it.

use super::facts::pose;
use rungbook::mechanics::guard::checked;
use rungbook::mechanics::solve::Person;
use rungbook::mechanics::words::number::SettingValue;

/// Code, a word of the sentence or of the next step, the pose; `hands` (60 cm) and `lean` (20 deg)
/// are its settings.
const WRONG: &[(&str, &str, &str)] = &[
    ("pose-unknown-word", "`floor`", "{start: {hands: flor, toes: floor}}"),
    (
        "pose-not-plausible",
        "bear 126 %",
        "{start: {heels: floor, hands: \"straps 160, anchor over heels -60\", body: \"lean -30\", hip: 90, knee: 0}}",
    ),
    (
        "pose-not-plausible",
        "toes would have to be pulled down",
        "{start: {hands: box 60, toes: floor, hip: 40, knee: 10, trunk: -20}}",
    ),
    ("pose-unknown-word", "knee", "{start: {feet: floor, knees-bend: 90}}"),
    (
        "pose-unknown-word",
        "`elbow`",
        "{start: {hands: floor, toes: floor, body: straight, elbw: 0}}",
    ),
    ("pose-unknown-word", "`overhead`", "{start: {feet: floor, arms: overhed, balance: feet}}"),
    ("pose-unknown-word", "`feet`", "{start: {feet: floor, balance: feets}}"),
    ("pose-unknown-word", "`start`", "{strat: {feet: floor}, start: {feet: floor, balance: feet}}"),
    ("pose-unknown-word", "`side`", "{view: sde, start: {feet: floor, balance: feet}}"),
    (
        "pose-unknown-word",
        "`kettlebell`",
        "{holds: ketlebell 12, start: {feet: floor, arms: hang, balance: feet}}",
    ),
    (
        "pose-unknown-word",
        "place",
        "{start: {hands: \"floor, beneath shoulders\", toes: floor, body: straight}}",
    ),
    (
        "pose-unknown-word",
        "`ribs`",
        "{start: {heels: floor, hands: straps 220, body: \"straight, lean -45\"}, end: {body: straight, hands-at: rib}}",
    ),
    (
        "pose-unreadable-value",
        "needs a height",
        "{start: {hands: box, toes: floor, body: straight}}",
    ),
    ("pose-unreadable-value", "not a number", "{start: {feet: floor, knee: much, balance: feet}}"),
    (
        "pose-unreadable-value",
        "did you mean `hands`",
        "{start: {hands: box hnads, toes: floor, body: straight}}",
    ),
    ("pose-unreadable-value", "no `start`", "{end: {feet: floor}}"),
    ("pose-unreadable-value", "two ends", "{band: hands, start: {feet: floor, balance: feet}}"),
    ("pose-wrong-unit", "deg", "{start: {hands: box lean, toes: floor, body: straight}}"),
    (
        "pose-joint-limit",
        "at most 150",
        "{start: {hands: floor, toes: floor, body: straight, elbow: 0}, end: {elbow: 200}}",
    ),
    ("pose-joint-limit", "at least -60", "{start: {feet: floor, shoulder: -90, balance: feet}}"),
    (
        "pose-mirrored",
        "without the minus",
        "{start: {feet: floor, knee: -60, trunk: 30, balance: feet}}",
    ),
    (
        "pose-mirrored",
        "exchanged",
        "{start: {near: {foot: floor, knee: 12}, far: {toes: \"floor, 70 behind near foot\", knee: 10}, trunk: 3}, end: {near: {toes: \"floor, 70 behind far foot\", knee: 10}, far: {foot: floor, knee: 12}, trunk: 3}}",
    ),
    (
        "pose-out-of-reach",
        "cm",
        "{start: {hands: \"box 60, 210 ahead of near toes\", toes: floor, body: straight, elbow: 0}}",
    ),
    (
        "pose-out-of-reach",
        "cm",
        "{start: {hands: \"floor, 230 ahead of near toes\", toes: floor, body: straight, elbow: 0}}",
    ),
    ("pose-out-of-reach", "cm", "{start: {hands: bar 300, feet: floor, elbow: 0}}"),
    (
        "pose-angle-not-met",
        "degrees",
        "{start: {feet: floor, knee: 0, hip: 0, trunk: 60, balance: feet}}",
    ),
    (
        "pose-off-balance",
        "backwards",
        "{start: {near: {foot: floor, knee: 90}, far: {toes: floor, knee: 90, hip: 90}, trunk: 0, shin: 0}}",
    ),
    (
        "pose-off-balance",
        "would fall",
        "{start: {feet: floor, trunk: 0, arms: sides, balance: feet}, end: {thigh: horizontal, trunk: 0, shin: 0, arms: sides, balance: \"50% near foot\"}}",
    ),
    (
        "pose-off-balance",
        "forwards",
        "{start: {feet: floor, knee: 5, trunk: 75, arms: hang, shin: 5}}",
    ),
    ("pose-no-contact", "Nothing touches", "{start: {trunk: 0, knee: 5}}"),
    (
        "pose-nothing-moves",
        "same",
        "{start: {feet: floor, knee: 5, balance: feet}, end: {knee: 6, balance: feet}}",
    ),
    (
        "pose-through-kit",
        "box",
        "{start: {near: {foot: box 40}, far: {foot: \"floor, 5 ahead of near foot\"}, trunk: 5, balance: near foot}}",
    ),
    (
        "pose-angle-not-met",
        "upper-arm",
        "{start: {hands: bar 120, elbow: 0, hip: 0, knee: 0, upper-arm: 180, balance: hands}}",
    ),
    ("pose-through-floor", "below the floor", "{start: {feet: floor, hips: 0, trunk: 20}}"),
    (
        "pose-angle-not-met",
        "trunk",
        "{start: {feet: floor, hands: \"bench 45, 20 behind hips\", knee: 5, trunk: -10, elbow: 0, hip: 20}}",
    ),
    (
        "pose-joint-at-limit",
        "limit of 150 degrees on both sides",
        "{start: {hands: bar 225, elbow: 0, balance: hands}, end: {chin: over bar, balance: hands}}",
    ),
    (
        "pose-joint-at-limit",
        "straight over it",
        "{shape: all fours, start: {hands: \"floor, under shoulders -14\", knees: floor, toes: floor, thigh: 0, elbow: 0}}",
    ),
    (
        "pose-joint-at-limit",
        "`hip: -20` in the far block",
        "{start: {near: {foot: floor, knee: 10}, far: {toes: \"bench 45, 62 behind near foot\", ankle: -20}, trunk: 8, arms: sides}}",
    ),
    (
        "pose-forearm-off-upright",
        "on the hands",
        "{start: {hands: \"floor, 40 apart\", toes: floor, body: straight, elbow: 0}, end: {body: straight, chest: 9}}",
    ),
    (
        "pose-forearm-off-upright",
        "on the hands",
        "{start: {hands: parallel bars 120, elbow: 0, balance: hands}, end: {elbow: 110, upper-arm: 60, balance: hands}}",
    ),
    (
        "pose-forearm-off-upright",
        "in the hand",
        "{holds: dumbbells 10, start: {feet: floor, knee: 28, trunk: 62, arms: hang, balance: feet}, end: {knee: 28, trunk: 62, hands-at: \"ribs, 3 below\", balance: feet}}",
    ),
];

#[test]
fn every_wrong_pose_is_told() {
    let settings = [("hands", 60.0, "cm"), ("lean", 20.0, "deg")]
        .map(|(n, value, u)| SettingValue { name: n.into(), value, unit: u.into() });
    let mut missed = Vec::new();
    for (code, words, text) in WRONG {
        let (_, problems) = checked(&pose(text), 0, &settings, &Person::default());
        for p in &problems {
            println!("{:22} {} -> {}", p.code.name(), p.sentence, p.next);
            assert!(p.sentence.ends_with('.') && !p.next.ends_with('.'), "{p:?}");
        }
        let told = |p: &rungbook::mechanics::node::PoseProblem| {
            p.code.name() == *code && format!("{} {}", p.sentence, p.next).contains(words)
        };
        if !problems.iter().any(told) {
            missed.push((code, text, problems));
        }
    }
    assert!(missed.is_empty(), "{missed:#?}");
    assert!(WRONG.len() >= 36);
}
