//! The words a person types: limits, kit, movements; and what is said when nothing is left.

use super::starter::gym;
use rungbook::gym::Gym;
use rungbook::library::{MovementId, TraitId};
use rungbook::swap::{
    Answer, Person, RungOf, Space, asked_rung, fit, kit_free_dead_ends, kit_from, limits_from,
    movement_called, swaps, unsaid_traits,
};
use std::collections::BTreeMap;

fn limits(words: &[&str]) -> Result<BTreeMap<String, u8>, String> {
    let words: Vec<String> = words.iter().map(ToString::to_string).collect();
    Ok(limits_from(gym(), &words)?.levels.into_iter().map(|(id, from)| (id.0, from)).collect())
}

fn pairs(found: &[(&str, u8)]) -> BTreeMap<String, u8> {
    found.iter().map(|(id, from)| (id.to_string(), *from)).collect()
}

#[test]
fn a_trait_a_level_a_caution_and_a_phrase() {
    assert_eq!(limits(&["kneeling"]), Ok(pairs(&[("kneeling", 1)])));
    assert_eq!(limits(&["impact=2"]), Ok(pairs(&[("impact", 2)])));
    assert_eq!(limits(&["impact=2", "impact"]), Ok(pairs(&[("impact", 1)])));
    assert_eq!(limits(&["Can’t kneel"]), Ok(pairs(&[("kneeling", 1)])));
}

/// Every precaution of a caution, from its own level, whether it leaves out or changes.
#[test]
fn a_caution_brings_all_that_it_names() {
    for (id, caution) in &gym().library.words.cautions {
        let found = limits(&[id.as_str()]).expect("a caution is known by its id");
        assert!(caution.precautions().count() > 0 || caution.keeps.is_some(), "{id}");
        for precaution in caution.precautions() {
            let level = found.get(precaution.about.value.as_str());
            assert!(level.is_some_and(|level| *level <= precaution.from), "{id}");
        }
    }
}

/// Some cautions leave out only a lot of a trait: their name must not bring in the trait's own words,
/// which stand for any of it.
#[test]
fn the_name_of_a_caution_asks_for_no_more_than_the_caution() {
    for caution in gym().library.words.cautions.values() {
        let own = rungbook::swap::limits_of_situation(caution).levels;
        let own: BTreeMap<String, u8> = own.into_iter().map(|(id, from)| (id.0, from)).collect();
        assert_eq!(limits(&[&caution.name]), Ok(own), "{}", caution.id.value);
    }
}

#[test]
fn unknown_words_get_their_near_spelling_all_at_once() {
    let said = limits(&["kneelling", "impact=3", "sore-wrist"]).expect_err("two are wrong");
    assert_eq!(said.lines().count(), 2, "{said}");
    assert!(said.contains("did you mean `kneeling`?") && said.contains("`impact=1`"), "{said}");
    let said = kit_from(gym(), &["ketlebell".to_string()]).expect_err("no such kit");
    assert!(said.contains("did you mean `kettlebell`?"), "{said}");
    let said = movement_called(gym(), "strap-rwo").expect_err("no such movement");
    assert!(said.contains("did you mean `strap-row`?"), "{said}");
}

/// A caution has levels of its own: a level behind it would loosen them, or say nothing. A trait keeps
/// the level, though a caution may be called the same.
#[test]
fn a_level_behind_a_caution_is_refused() {
    let said = limits(&["sore-wrist=2"]).expect_err("a caution has no level");
    assert!(said.contains("`sore-wrist` is a caution"), "{said}");
    assert!(said.contains("write `sore-wrist` alone"), "{said}");
    assert!(
        limits(&["Pregnant=1"]).expect_err("nor by another name").contains("`pregnancy` alone")
    );
    let wrist = limits(&["loaded-wrist-extension=2"]).expect("a trait");
    assert_eq!(wrist, BTreeMap::from([("loaded-wrist-extension".to_string(), 2)]));
}

/// `none` beside kit says two things; which of them was meant decides what somebody is told to do.
#[test]
fn no_kit_and_some_kit_is_refused() {
    let kit = |words: &[&str]| {
        kit_from(gym(), &words.iter().map(|word| (*word).to_string()).collect::<Vec<_>>())
    };
    for words in [&["none", "chair"][..], &["chair", "none"], &["None", "hall"]] {
        assert!(kit(words).expect_err("both").contains("`none` alone, or only `"), "{words:?}");
    }
    assert!(kit(&["none"]).is_ok_and(|kit| kit.is_empty()));
}

#[test]
fn kit_and_movements_go_by_any_of_their_names() {
    let kit = |word: &str| kit_from(gym(), &[word.to_string()]).map(|kit| kit.len());
    assert_eq!(kit("none"), Ok(0));
    assert_eq!(kit("hall"), Ok(gym().library.club.hall_kit.len()));
    assert_eq!(kit_from(gym(), &["Rucksack".into()]), kit_from(gym(), &["backpack".into()]));
    // `no bar` helps a search; as kit at hand it would say the contrary.
    assert!(kit("no bar").is_err());
    assert_eq!(movement_called(gym(), "Body row"), movement_called(gym(), "body-row"));
}

fn told(from: &str, person: &Person) -> String {
    told_in(gym(), from, person)
}

fn told_in(gym: &Gym, from: &str, person: &Person) -> String {
    match swaps(gym, &asked_rung(gym, &MovementId::from(from)), person, None) {
        Answer::AskYourCoach { why } => why,
        Answer::Swaps(found) => panic!("{} swaps are left", found.len()),
    }
}

#[test]
fn nothing_left_says_which_filter_took_the_last_ones() {
    let no_kit = kit_from(gym(), &["none".into()]).expect("none is a word");
    let all = gym().library.words.traits.keys().map(|id| (id.clone(), 1)).collect();
    let kit_last = Person {
        kit: Some(no_kit),
        limits: BTreeMap::from([(TraitId::from("strong-grip"), 2)]),
        ..Person::default()
    };
    // A library without changes, and without the pull that needs nothing but a wall.
    let mut bare = gym().clone();
    bare.library.movements.remove(&MovementId::from("wall-elbow-press"));
    bare.library.movements.values_mut().for_each(|movement| movement.changes.clear());
    let why = told_in(&bare, "pull-up", &kit_last);
    assert!(why.contains("something you leave out (strong grip)"), "{why}");
    assert!(why.contains("the last") && why.contains("kit you do not have"), "{why}");
    assert!(!why.contains("door-frame bar"), "never suggested: {why}");
    let why = told_in(&bare, "push-up", &Person { limits: all, ..Person::default() });
    assert!(why.contains("all have something you leave out") && !why.contains("kit"), "{why}");
    let tiny = Space::read("0.2 m x 0.2 m").ok();
    let why = told("pull-up", &Person { room: tiny, ..Person::default() });
    assert!(why.contains("all need more room than you have"), "{why}");
}

/// A door-frame bar counts as kit at home only for a person who names it (falls are reported).
#[test]
fn a_door_frame_bar_is_off_until_it_is_named() {
    let bar = |movement: &&rungbook::library::Movement| {
        movement.kit.iter().any(|need| need.0.iter().any(|id| id.value.as_str() == "doorframe-bar"))
    };
    for hang in gym().library.movements.values().filter(bar) {
        let usual = RungOf::usual(&hang.id);
        assert!(
            fit(gym(), &Person::default(), &usual).is_in() || hang.kit.len() > 1,
            "{}",
            hang.id
        );
        let at_home = Person { kit: Some(Default::default()), ..Person::default() };
        assert!(!fit(gym(), &at_home, &usual).is_in(), "{}", hang.id);
    }
}

/// Taking the household kit and the bare walls away strands what only kit can swap.
#[test]
fn dead_ends_appear_when_home_has_nothing() {
    let before = kit_free_dead_ends(gym());
    let mut bare = gym().clone();
    bare.library.words.kit.retain(|_, item| item.kind == rungbook::library::KitKind::Hall);
    let after = kit_free_dead_ends(&bare);
    assert!(before.iter().all(|id| after.contains(id)));
    assert!(after.contains(&MovementId::from("pull-up")), "{after:?}");
    assert!(!after.contains(&MovementId::from("push-up")), "no kit is needed for it");
    assert!(!before.contains(&MovementId::from("pull-up")), "a bare wall is always there");
}

/// A link that says nothing of a trait is found; saying it in the link mends it.
#[test]
fn a_trait_is_said_or_found() {
    let mut told = gym().clone();
    let (from, to) = (MovementId::from("wall-push-up"), MovementId::from("floor-press"));
    // The entry's own caution says it; without that only the link can.
    told.library.movements.get_mut(&to).expect("a starter movement").caution = None;
    let add = |gym: &mut rungbook::gym::Gym, because: &str| {
        let span = rungbook::finding::Span::default();
        let to = rungbook::finding::Placed::new(to.clone(), span);
        let entry = gym.library.movements.get_mut(&from).expect("a starter movement");
        entry.beside = vec![rungbook::library::Beside { to, because: Some(because.to_string()) }];
    };
    let found = |gym: &rungbook::gym::Gym| -> Vec<String> {
        let here = unsaid_traits(gym).into_iter().filter(|u| u.from == from && u.to == to);
        here.flat_map(|u| u.traits).map(|(id, _)| id.0).collect()
    };
    add(&mut told, "there is a weight");
    assert_eq!(found(&told), ["supine"]);
    add(&mut told, "lying flat is fine and there is a weight");
    assert_eq!(found(&told), Vec::<String>::new());
}

/// A slip in a trait's name or level may hide the very one that somebody leaves out: such an entry is
/// for nobody with a limit, whatever the limit.
#[test]
fn a_trait_that_cannot_be_read_is_not_assumed_harmless() {
    let careful = Person { limits: BTreeMap::from([("impact".into(), 1)]), ..Person::default() };
    let rung = RungOf::usual(&MovementId::from("push-up"));
    assert!(fit(gym(), &careful, &rung).is_in(), "a push-up lands nowhere");
    let mut misspelt = gym().clone();
    let entry = misspelt.library.movements.get_mut(&rung.key.movement).expect("a push-up");
    entry.traits.as_mut().expect("traits")[0].id.value = TraitId::from("loaded-wrist-extention");
    assert!(!fit(&misspelt, &careful, &rung).is_in());
    assert!(fit(&misspelt, &Person::default(), &rung).is_in(), "nobody in particular may");
    let mut unread = gym().clone();
    let entry = unread.library.movements.get_mut(&rung.key.movement).expect("a push-up");
    entry.traits_unread = true;
    assert!(!fit(&unread, &careful, &rung).is_in());
}

/// What reading makes of traits: a level that is none, a key without a value, a list in place of keys.
#[test]
fn what_cannot_be_read_of_traits_is_remembered() {
    for (written, unread) in [
        ("traits: {impact: 2}", false),
        ("traits: {}", false),
        ("traits: {impact: 3}", true),
        ("traits: {impact: a lot}", true),
        ("traits: {impact: }", true),
        ("traits: [impact]", true),
        ("traits: {impact: {level: 1, hight: up to 30 cm}}", true),
    ] {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::create_dir_all(folder.path().join("movements/jump")).expect("a folder");
        std::fs::write(folder.path().join("club.yaml"), "name: Hall\n").expect("a file");
        let entry = format!("---\nname: Hop\npattern: jump\n{written}\n---\n");
        std::fs::write(folder.path().join("movements/jump/hop.md"), entry).expect("a file");
        let library = rungbook::library::reader::read(folder.path()).expect("a library");
        let hop = &library.movements[&MovementId::from("hop")];
        assert_eq!(hop.traits_unread, unread, "{written}");
    }
}
