//! Changes: what they leave is true, and a lot never becomes none by a word.

use crate::gym;
use crate::laid::Laid;
use rungbook::gym::Gym;
use rungbook::library::{ChangeId, MovementId, TraitId};
use rungbook::swap::{Fit, Person, RungOf, fit};
use std::collections::BTreeMap;

/// A row with a lot of straining, and three changes: less weight leaves some, breathing out takes
/// one level off.
const STRAINING: &str = r#"
```add words/traits.yaml
breath-hold: {name: Straining}
```

```file words/changes.yaml
breathe-out: {name: breathing out, how: Breathe out, part: breath, eases: [breath-hold]}
lighter: {name: lighter, how: Less weight, part: weight, leaves: {breath-hold: 1}}
```

```change movements/pull-horizontal/towel-row.md
-traits: {}
+traits: {breath-hold: LEVEL}
+changes: [OWN, lighter]
```
"#;

/// The changes that are made for someone who avoids straining from `limit` on; nothing where the
/// row is left out.
fn made(level: &str, own: &str, limit: u8) -> Option<Vec<String>> {
    let page = STRAINING.replace("LEVEL", level).replace("OWN", own);
    let gym = Gym::open(Laid::on("tiny", &page).read());
    let limits = BTreeMap::from([(TraitId::from("breath-hold"), limit)]);
    let kit = gym.library.words.kit.keys().cloned().collect();
    let person = Person { limits, kit: Some(kit), ..Person::default() };
    match fit(&gym, &person, &RungOf::usual(&MovementId::from("towel-row"))) {
        Fit::Fine => Some(Vec::new()),
        Fit::Changed(made) => Some(made.iter().map(|one| one.id().to_string()).collect()),
        Fit::Out(_) => None,
    }
}

fn names(list: &[&str]) -> Option<Vec<String>> {
    Some(list.iter().map(ToString::to_string).collect())
}

#[test]
fn breathing_out_takes_one_level_off_and_no_more() {
    assert_eq!(made("1", "breathe-out", 1), names(&["breathe-out"]));
    assert_eq!(made("2", "breathe-out", 2), names(&["breathe-out"]));
    // Of a lot some remains; with less weight as well, none.
    assert_eq!(made("2", "breathe-out", 1), names(&["breathe-out", "lighter"]));
}

/// An entry that says what remains says all of it: the general words ease nothing beside it.
#[test]
fn what_an_entry_leaves_stands_in_place_of_what_is_eased() {
    let own = "{use: breathe-out, leaves: {breath-hold: 1}}";
    assert_eq!(made("2", own, 1), None);
    assert_eq!(made("2", own, 2), names(&["breathe-out"]));
    let own = "{use: breathe-out, eases: []}";
    assert_eq!(made("1", own, 1), None);
}

/// Where a hand on the wall, a breath or a stop of the range cannot take all of it away, the words of
/// the library never say that it does. Each was argued from what the change does to the body.
#[test]
fn no_change_leaves_less_than_is_true() {
    let changes = &gym().library.words.changes;
    for (id, about) in [
        ("breathe-out", "breath-hold"),
        ("breathe-out", "abdominal-pressure"),
        ("count-aloud", "breath-hold"),
        ("hand-on-wall", "balance"),
        ("hand-on-chair", "balance"),
        ("wider-stance", "balance"),
        ("toes-down", "balance"),
        ("elbows-close", "shoulder-abducted-rotated"),
        ("elbows-stop-at-ribs", "arm-behind-body"),
        ("shorter-hold", "maximal-hold"),
        ("ribs-down", "back-arched"),
    ] {
        let change = &changes[&ChangeId::from(id)];
        assert!(change.eases.iter().any(|eased| eased.as_str() == about), "{id} {about}");
        assert!(change.leaves.iter().all(|(left, _)| left.as_str() != about), "{id} {about}");
    }
    // Less weight is still weight, a pad is still a knee, a low jump still lands.
    for (id, about) in [
        ("lighter", "axial-load"),
        ("lighter", "breath-hold"),
        ("lighter", "abdominal-pressure"),
        ("pad-under-knee", "kneeling"),
        ("low-jump", "impact"),
        ("hands-raised", "loaded-wrist-extension"),
        ("shoulders-raised", "supine"),
        ("talking-pace", "raised-pulse"),
    ] {
        let leaves = &changes[&ChangeId::from(id)].leaves;
        let left = leaves.iter().find(|(left, _)| left.as_str() == about).map(|(_, level)| *level);
        assert_eq!(left, Some(1), "{id} {about}");
    }
}

/// A chair beside somebody does not bring them up from the floor.
#[test]
fn nothing_on_the_floor_is_said_to_spare_the_way_down() {
    for (id, change) in &gym().library.words.changes {
        let spares = change.leaves.iter().any(|(left, _)| left.as_str() == "floor-transfer");
        let off_the_floor =
            ["hands-raised", "seated", "standing", "standing-at-wall", "on-a-raised-surface"];
        assert!(!spares || off_the_floor.contains(&id.as_str()), "{id}");
    }
}
