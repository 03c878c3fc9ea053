//! What holds of every own version: no answer has a trait above what the person may have, a limit never
//! makes an answer milder, kit never makes it stricter, files may be read in any order, and a ladder
//! that is rewritten moves nobody to something harder. Never a hand-picked person.

mod dice;
#[path = "own/first.rs"]
mod first;
#[path = "own/low.rs"]
mod low;
#[path = "own/somebody.rs"]
mod somebody;

use dice::Dice;
use proptest::prelude::*;
use rungbook::gym::Gym;
use rungbook::library::{
    Caution, KitId, Ladder, LadderId, Library, Quantity, Rung, TraitId, Unit, reader,
};
use rungbook::own::{
    Kind, Line, Member, Own, RungThen, Work, compared_as, line_of, of_line, of_rung, of_session,
    shown_rungs, standing, whose,
};
use rungbook::swap::{
    Fit, Person, RungOf, changes_of, fit, limits_of_situation, over, remaining, rungs_of, traits_of,
};
use somebody::{somebody, with_changes};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::LazyLock;

fn starter() -> Library {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    with_changes(reader::read(&root.join("content")).expect("the starter library"))
}

static GYM: LazyLock<Gym> = LazyLock::new(|| Gym::open(starter()));

/// Somebody, by a number.
fn person(seed: u64) -> Member {
    somebody(&GYM, &mut Dice(seed + 1))
}

fn line_own(gym: &Gym, at: usize, member: &Member) -> Own {
    line_and_own(gym, at, member).1
}

/// One line of one session, by a number, and how the person does it.
fn line_and_own<'g>(gym: &'g Gym, at: usize, member: &Member) -> (Line<'g>, Own) {
    let mut lines = Vec::new();
    for session in gym.library.sessions.values() {
        for (block, written) in session.blocks.iter().enumerate() {
            lines.extend(written.items.iter().map(|item| (session, block, item)));
        }
    }
    let (session, block, item) = lines[at % lines.len()];
    let line = line_of(gym, session, block, item);
    let own = of_line(gym, &line, member);
    (line, own)
}

/// The changes that are said, by their words, and what remains of the traits after them.
fn left_after<'g>(gym: &'g Gym, own: &Own, rung: &RungOf) -> BTreeMap<&'g TraitId, u8> {
    let movement = &gym.library.movements[&own.movement];
    let traits = traits_of(movement, rung);
    let said = |how: &str| own.change.contains(how.trim_end_matches('.'));
    let made: Vec<_> =
        changes_of(gym, movement).into_iter().filter(|change| said(change.how())).collect();
    if own.change.is_empty() { traits } else { remaining(&traits, &made) }
}

/// The rung that an answer orders, at the person's own height where it says one.
fn ordered(gym: &Gym, own: &Own) -> RungOf {
    let mut rung = match &own.rung {
        Some((ladder, number)) => RungOf::on(gym, ladder, *number as usize - 1).expect("a rung"),
        None => rungs_of(gym, &gym.library.movements[&own.movement]).swap_remove(0),
    };
    let cm = own.setting.strip_suffix(" cm").and_then(|said| said.rsplit(' ').next());
    if let (Some(cm), [(name, value)]) = (cm, rung.key.settings.as_mut_slice()) {
        *value = Quantity::new(cm.parse().expect("a height"), Unit::Centimetre);
        // What was measured at home serves there, however high such things usually stand.
        rung.measured = !own.setting.starts_with(name.as_str());
    }
    rung
}

/// How mild an answer is: fine, changed, then anything else that is done, then nothing.
fn strictness(kind: Kind) -> u8 {
    match kind {
        Kind::Fine => 0,
        Kind::Changed => 1,
        Kind::Swap => 2,
        Kind::Ask => 3,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..Default::default() })]

    #[test]
    fn no_answer_has_what_the_person_leaves_out(seed in 1_u64..1 << 40, at in 0_usize..4000) {
        let member = person(seed);
        let own = line_own(&GYM, at, &member);
        if own.kind != Kind::Ask && own.rung.is_some() {
            let rung = ordered(&GYM, &own);
            let left = left_after(&GYM, &own, &rung);
            prop_assert!(!over(&left, &member.person.limits), "{own:?} for {member:?}");
            prop_assert!(fit(&GYM, &member.person, &rung).is_in(), "{own:?} for {member:?}");
            let has_changes = matches!(fit(&GYM, &member.person, &rung), Fit::Changed(_));
            prop_assert_eq!(has_changes, !own.change.is_empty());
        }
    }

    #[test]
    fn a_limit_never_makes_a_rungs_answer_milder(
        seed in 1_u64..1 << 40, which in 0_usize..100, limit in 0_usize..100, level in 1_u8..=2,
    ) {
        let mut member = person(seed);
        let ladders: Vec<_> = GYM.library.ladders.values().collect();
        let ladder = ladders[which % ladders.len()];
        let top = ladder.rungs.len() as u32;
        let before = of_rung(&GYM, ladder, top, &member);
        let traits: Vec<_> = GYM.library.words.traits.keys().collect();
        let from = member.person.limits.entry(traits[limit % traits.len()].clone()).or_insert(level);
        *from = level.min(*from);
        let after = of_rung(&GYM, ladder, top, &member);
        let own = |own: &Own| match (own.kind, &own.rung) {
            (Kind::Fine | Kind::Changed, Some((_, rung))) => *rung,
            _ => 0,
        };
        prop_assert!(own(&after) <= own(&before), "{before:?}\n{after:?}");
        if own(&after) == own(&before) && own(&after) > 0 && after.setting == before.setting {
            prop_assert!(strictness(after.kind) >= strictness(before.kind));
        }
        prop_assert!(before.kind != Kind::Ask || after.kind == Kind::Ask);
    }

    #[test]
    fn kit_never_makes_it_stricter(seed in 1_u64..1 << 40, which in 0_usize..100) {
        let mut member = person(seed);
        member.heights.clear();
        let ladders: Vec<_> = GYM.library.ladders.values().collect();
        let ladder = ladders[which % ladders.len()];
        let top = ladder.rungs.len() as u32;
        let before = of_rung(&GYM, ladder, top, &member);
        let all: Vec<KitId> = GYM.library.words.kit.keys().cloned().collect();
        member.person.kit = Some(all.into_iter().collect());
        let after = of_rung(&GYM, ladder, top, &member);
        let rung = |own: &Own| own.rung.as_ref().filter(|_| own.kind != Kind::Swap).map_or(0, |r| r.1);
        prop_assert!(rung(&after) >= rung(&before), "{before:?}\n{after:?}");
        prop_assert!(before.kind == Kind::Ask || after.kind != Kind::Ask);
    }

    #[test]
    fn nobody_is_asked_for_more_than_the_line_asks(seed in 1_u64..1 << 40, at in 0_usize..4000) {
        let mut member = person(seed);
        member.results.clear();
        let session = at % 1000;
        member.rungs.values_mut().for_each(|(_, then)| *then = None);
        let (line, own) = line_and_own(&GYM, session, &member);
        let asked = match &line.work {
            Work::Ladder(ladder, middle) => {
                let known = member.rungs.get(&ladder.id).map(|(rung, _)| *rung);
                let rung = known.map_or(*middle, |rung| rung.saturating_sub(line.below).max(1));
                // A test asks for the ladder's own rung.
                let rung = if line.tests && known.is_none() { u32::MAX } else { rung };
                Some((ladder.id.clone(), rung))
            }
            Work::Movement(movement, rung) => {
                let place = compared_as(&GYM, movement, rung).1.place;
                place.map(|(ladder, at)| (ladder, at as u32 + 1))
            }
            Work::Options(_) | Work::Nothing => None,
        };
        if let (Some((ladder, rung)), Some((on, most))) = (&own.rung, &asked) {
            let known = member.rungs.get(ladder).map(|(rung, _)| *rung);
            if ladder == on {
                prop_assert!(rung <= most, "{own:?} for {member:?}");
            } else if let Some(known) = known {
                prop_assert!(*rung <= known.saturating_sub(line.below).max(1), "{own:?}");
            } else {
                prop_assert!(own.why.iter().any(|why| why.starts_with("Start here")), "{own:?}");
            }
        }
    }

    #[test]
    fn a_rewritten_ladder_moves_nobody_to_something_harder(
        seed in 1_u64..1 << 40, which in 0_usize..100, lower in 1_usize..4,
    ) {
        let mut member = person(seed);
        let mut library = GYM.library.clone();
        let names: Vec<_> = library.ladders.keys().cloned().collect();
        let id = &names[which % names.len()];
        let at = (seed as usize) % GYM.library.ladders[id].rungs.len();
        let rung = &GYM.library.ladders[id].rungs[at];
        let settings = rung.settings.iter();
        let settings = settings.map(|(name, v)| (name.value.to_string(), v.value.number())).collect();
        member.rungs = BTreeMap::from([(
            id.clone(), (at as u32 + 1, Some((rung.movement.value.clone(), settings))),
        )]);
        let now = library.ladders.get_mut(id).expect("a ladder");
        // The coach takes the lowest rungs away: every number now means something harder.
        now.rungs.drain(..lower.min(now.rungs.len() - 1));
        let gym = Gym { library, posed: BTreeMap::new(), ..GYM.clone() };
        let ladder = &gym.library.ladders[id];
        let found = standing(&gym, ladder, &member).expect("an own rung");
        let there = &ladder.rungs[found.rung as usize - 1];
        let same = there.movement.value == rung.movement.value;
        let below = GYM.library.ladders[id].rungs.iter()
            .position(|one| one.movement.value == there.movement.value
                && one.settings.iter().map(|s| s.1.value).eq(there.settings.iter().map(|s| s.1.value)));
        let lowest = found.rung == 1 && found.why.contains("start at its lowest");
        prop_assert!(lowest || same || below.is_some_and(|place| place <= at), "{found:?}");
        if !lowest {
            prop_assert!(below.is_some_and(|place| place <= at), "{found:?} for rung {}", at + 1);
        }
    }
}

/// Somebody of whom only a situation is known.
fn only(situation: &Caution) -> Member {
    let limits = limits_of_situation(situation);
    let (limits, situations) = (limits.levels, limits.situations);
    Member { person: Person { limits, situations, ..Person::default() }, ..Member::default() }
}

/// Every line of every session of the library.
fn all_lines(gym: &Gym) -> Vec<Line<'_>> {
    let mut lines = Vec::new();
    for session in gym.library.sessions.values() {
        for (at, block) in session.blocks.iter().enumerate() {
            lines.extend(block.items.iter().map(|item| line_of(gym, session, at, item)));
        }
    }
    lines
}

/// What a rung, from 1, is today.
fn then(ladder: &Ladder, rung: u32) -> Option<RungThen> {
    let rung = ladder.rungs.get(rung as usize - 1)?;
    let settings = rung.settings.iter();
    let settings = settings.map(|(name, value)| (name.value.to_string(), value.value.number()));
    Some((rung.movement.value.clone(), settings.collect()))
}

/// What a change takes away or replaces is said in no name: not "12 kg, without a weight".
#[test]
fn a_changed_name_does_not_contradict_itself() {
    let library = reader::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("content"));
    let gym = Gym::open(library.expect("the starter library"));
    let (mut gone, mut kept) = (0, 0);
    for ladder in gym.library.ladders.values() {
        for (at, rung) in ladder.rungs.iter().enumerate() {
            for id in gym.library.words.traits.keys() {
                let limits = BTreeMap::from([(id.clone(), 1)]);
                let person = Person { limits, ..Person::default() };
                let member = Member { person, ..Member::default() };
                let own = of_rung(&gym, ladder, at as u32 + 1, &member);
                let here = own.rung.as_ref() == Some(&(ladder.id.clone(), at as u32 + 1));
                if own.kind != Kind::Changed || !here {
                    continue;
                }
                let made = changes_of(&gym, &gym.library.movements[&own.movement]);
                let made = made.into_iter().filter(|one| own.change_brief.contains(one.name()));
                let takes: Vec<&str> =
                    made.flat_map(|one| one.takes()).map(|name| name.as_str()).collect();
                for (name, value) in rung.settings.iter().filter(|(_, v)| !v.value.is_nothing()) {
                    let said = own.setting.contains(&format!("{} {}", name.value, value.value));
                    assert_eq!(said, !takes.contains(&name.value.as_str()), "{own:?}");
                    if said { kept += 1 } else { gone += 1 }
                }
            }
        }
    }
    assert!(gone > 20 && kept > 100, "{gone} settings taken away, {kept} kept");
}

/// Somebody with this kit alone, of whom nothing is measured.
fn with_kit(kit: &[&str]) -> Member {
    let kit = Some(kit.iter().map(|id| KitId::from(*id)).collect());
    Member { person: Person { kit, ..Person::default() }, ..Member::default() }
}

/// The numbers of the push-up ladder's rungs with hands on an edge that somebody is sent to as written.
fn edges_for(member: &Member) -> Vec<u32> {
    let ladder = &GYM.library.ladders[&LadderId::from("push-up")];
    let here = |rung: &u32| {
        let own = of_rung(&GYM, ladder, *rung, member);
        let edge = own.movement.as_str() == "incline-push-up";
        edge && own.rung.as_ref().is_some_and(|(_, at)| at == rung)
    };
    (1..=ladder.rungs.len() as u32).filter(here).collect()
}

/// A chair's seat is 43 to 48 cm high (its entry in words/kit.yaml): no edge for hands at 90, 75, 60 or 30.
/// Heights of the other things: facts/surfaces of the project's own pages, common practice, no source.
#[test]
fn only_what_stands_at_the_height_of_a_rung_serves_it() {
    let ladder = &GYM.library.ladders[&LadderId::from("push-up")];
    let at = |cm: f64| {
        let is = |rung: &Rung| {
            rung.settings
                .iter()
                .any(|(name, value)| name.value.as_str() == "hands" && value.value.number() == cm)
        };
        ladder.rungs.iter().position(is).map(|at| at as u32 + 1).expect("a rung at this height")
    };
    assert_eq!(edges_for(&with_kit(&["chair"])), [at(45.0)]);
    assert_eq!(edges_for(&with_kit(&["counter"])), [at(90.0)]);
    assert_eq!(edges_for(&with_kit(&["table"])), [at(75.0)]);
    assert_eq!(edges_for(&with_kit(&[])), [0; 0]);
    let own = of_rung(&GYM, ladder, at(90.0), &with_kit(&["chair"]));
    assert!(own.why.iter().any(|why| why.contains("needs")), "{own:?}");
    // What somebody measured at home serves at its own height, whatever such things usually are.
    let mut tall = with_kit(&["chair"]);
    tall.heights.insert(KitId::from("chair"), 62.0);
    let own = of_rung(&GYM, ladder, at(60.0), &tall);
    assert!(own.setting.contains("chair 62 cm"), "{own:?}");
}

/// Who stands on rung 2 is given no rung above it by asking for its number.
#[test]
fn a_rung_asked_by_number_is_never_above_the_persons_own() {
    let mut held = 0;
    for ladder in GYM.library.ladders.values() {
        for own in 1..=ladder.rungs.len() as u32 {
            let mut member = Member::default();
            member.rungs.insert(ladder.id.clone(), (own, then(ladder, own)));
            for rung in 1..=ladder.rungs.len() as u32 {
                let given = of_rung(&GYM, ladder, rung, &member);
                let Some((_, at)) = given.rung.filter(|(id, _)| *id == ladder.id) else { continue };
                assert_eq!(
                    at,
                    rung.min(own),
                    "{}: {rung} asked of {own}: {:?}",
                    ladder.id,
                    given.why
                );
                held += usize::from(rung > own);
            }
        }
    }
    assert!(held > 100, "{held} rungs held to the person's own");
}

/// A page for a whole class says whose each of its three rungs is: everybody's, and nobody's that is
/// above what the line asks of them.
#[test]
fn a_class_is_sent_to_no_rung_above_its_own() {
    for ladder in GYM.library.ladders.values() {
        for below in 0..4 {
            let shown = shown_rungs(ladder, below);
            let ranges = whose(ladder, below, &shown);
            let mut said = 0;
            for (at, (from, to)) in shown.iter().zip(&ranges) {
                for own in *from..=*to {
                    let asked = own.saturating_sub(below as usize).max(1);
                    assert!(*at < asked, "{}: {own} is sent to {}", ladder.id, at + 1);
                    said += 1;
                }
            }
            assert_eq!(said, ladder.rungs.len(), "{}: everybody once", ladder.id);
        }
    }
}

#[test]
fn the_order_of_files_does_not_matter() {
    let member = person(77);
    let session = GYM.library.sessions.values().next().expect("a session");
    let before = of_session(&GYM, session, &member);
    let mut library = starter();
    // The same files, read in another order: every map is filled anew from the other end.
    library.movements = library.movements.into_iter().rev().collect();
    library.ladders = library.ladders.into_iter().rev().collect();
    library.words.traits = library.words.traits.into_iter().rev().collect();
    library.words.kit = library.words.kit.into_iter().rev().collect();
    library.words.cautions = library.words.cautions.into_iter().rev().collect();
    let gym = Gym::open(library);
    let session = &gym.library.sessions[&session.id];
    assert_eq!(of_session(&gym, session, &member), before);
}
