//! The three answers against a second, independent reading of the files, and what no person may meet.

use super::plain::{answer, brought, plain, traits};
use super::starter::gym;
use proptest::prelude::*;
use rungbook::library::{KitId, LadderId, Noise, Quantity, TraitId, Unit};
use rungbook::swap::weights::{FLOOR, WEIGHTS};
use rungbook::swap::{
    Answer, Compared, Fit, Person, RungOf, Space, Swap, compared, fit, ranked, remaining, rungs_of,
    swaps, traits_of,
};
use std::collections::{BTreeMap, BTreeSet};

fn found<'g>(answer: &'g Answer<'g>) -> &'g [Swap<'g>] {
    match answer {
        Answer::Swaps(found) => found,
        Answer::AskYourCoach { .. } => &[],
    }
}

fn some_kit() -> impl Strategy<Value = Option<BTreeSet<KitId>>> {
    let all: Vec<KitId> = gym().library.words.kit.keys().cloned().collect();
    let most = all.len();
    let some = proptest::sample::subsequence(all, 0..=most).prop_map(BTreeSet::from_iter);
    prop_oneof![1 => Just(None), 4 => some.prop_map(Some)]
}

fn some_limits() -> impl Strategy<Value = BTreeMap<TraitId, u8>> {
    let all: Vec<TraitId> = gym().library.words.traits.keys().cloned().collect();
    let ids = proptest::sample::subsequence(all, 0..=6);
    (ids, proptest::collection::vec(1_u8..=2, 6))
        .prop_map(|(ids, from)| ids.into_iter().zip(from).collect())
}

fn some_room() -> impl Strategy<Value = Option<Space>> {
    let side =
        || (5_u32..60).prop_map(|tenths| Quantity::new(f64::from(tenths) / 10.0, Unit::Metre));
    let height = prop_oneof![Just(None), side().prop_map(Some)];
    let space = (side(), side(), height);
    proptest::option::of(space.prop_map(|(length, width, height)| Space { length, width, height }))
}

fn some_rungs() -> impl Strategy<Value = BTreeMap<LadderId, usize>> {
    let all: Vec<(LadderId, usize)> =
        gym().library.ladders.values().map(|l| (l.id.clone(), l.rungs.len())).collect();
    let ladders = proptest::sample::subsequence(all, 0..=5);
    (ladders, proptest::collection::vec(0_usize..20, 5)).prop_map(|(ladders, places)| {
        let own = ladders.into_iter().zip(places);
        own.map(|((id, rungs), at)| (id, at % rungs.max(1))).collect()
    })
}

fn someone() -> impl Strategy<Value = Person> {
    let noise = prop_oneof![Just(Noise::Quiet), Just(Noise::Some), Just(Noise::Loud)];
    (some_kit(), some_limits(), noise, some_room(), some_rungs()).prop_map(
        |(kit, limits, noise, room, rungs)| Person {
            kit,
            limits,
            noise,
            room,
            rungs,
            ..Person::default()
        },
    )
}

/// Any rung of any movement.
fn any_rung() -> impl Strategy<Value = RungOf> {
    let movements = gym().library.movements.values();
    let all: Vec<RungOf> = movements.flat_map(|movement| rungs_of(gym(), movement)).collect();
    proptest::sample::select(all)
}

/// 0 fine, 1 changed, 2 left out.
fn how_strict(fit: &Fit<'_>) -> u8 {
    match fit {
        Fit::Fine => 0,
        Fit::Changed(_) => 1,
        Fit::Out(_) => 2,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Fine, changed by the very same changes, or left out: as written down a second time.
    #[test]
    fn the_answers_are_the_ones_written_down(rung in any_rung(), person in someone()) {
        let said = match fit(gym(), &person, &rung) {
            Fit::Fine => Some(Vec::new()),
            Fit::Changed(made) => Some(made.iter().map(|one| one.id().to_string()).collect()),
            Fit::Out(why) => {
                prop_assert!(!why.is_empty(), "left out without a reason");
                None
            }
        };
        prop_assert_eq!(said, answer(&person, &rung));
    }

    /// After every change that is made, no trait is at or above what the person may have; nothing
    /// asks more than what was asked, and nothing stands above the person's own rung.
    #[test]
    fn no_swap_hurts_or_asks_more(asked in any_rung(), person in someone()) {
        let answer = swaps(gym(), &asked, &person, None);
        for swap in found(&answer) {
            let movement = &gym().library.movements[&swap.candidate.to];
            let left = remaining(&traits_of(movement, &swap.rung), &swap.changes);
            for (id, level) in left {
                prop_assert!(person.limits.get(id).is_none_or(|from| level < *from), "{}", id);
            }
            prop_assert!(compared(gym(), &asked, &swap.rung) != Compared::Harder);
            let Some((ladder, at)) = &swap.rung.place else { continue };
            let own = person.rungs.get(ladder);
            prop_assert!(own.is_none_or(|own| at <= own), "{} {:?}", ladder, own);
            prop_assert!(!swap.start_here || own.is_none());
        }
    }

    /// Everything that a swap, as the person does it, has more of than the asked rung is said, and
    /// nothing else: not what a change took out, and what a change brings.
    #[test]
    fn what_it_brings_in_is_said(asked in any_rung(), person in someone()) {
        let answer = swaps(gym(), &asked, &person, None);
        for swap in found(&answer) {
            let brings = swap.brings.iter().map(|(id, level)| (id.to_string(), u64::from(*level)));
            let said: BTreeMap<String, u64> = brings.collect();
            let expected = brought(&person, &asked, &swap.rung);
            prop_assert_eq!(&said, &expected, "{} {:?}", swap.candidate.to, swap.changes);
            prop_assert_eq!(swap.brings_in.is_some(), !expected.is_empty());
        }
    }

    /// Fine ones come before changed ones, each in the order that no person changes; and every
    /// candidate that is missing has no rung that would do.
    #[test]
    fn the_order_is_the_builds(asked in any_rung(), person in someone()) {
        let answer = swaps(gym(), &asked, &person, None);
        let list = ranked(gym(), &asked.key.movement);
        let place = |swap: &Swap<'_>| {
            let at = list.iter().position(|candidate| candidate.to == swap.candidate.to);
            (!swap.changes.is_empty(), at)
        };
        let places: Vec<_> = found(&answer).iter().map(place).collect();
        prop_assert!(places.windows(2).all(|two| two[0] < two[1]), "{:?}", places);
        let given: BTreeSet<_> = found(&answer).iter().map(|swap| &swap.candidate.to).collect();
        for candidate in list.iter().filter(|candidate| !given.contains(&candidate.to)) {
            let rungs = rungs_of(gym(), &gym().library.movements[&candidate.to]);
            // On no ladder there is nothing to choose: it is left out or asks more.
            if let [only] = rungs.as_slice() && only.place.is_none() {
                let harder = compared(gym(), &asked, only) == Compared::Harder;
                prop_assert!(harder || super::plain::answer(&person, only).is_none());
            }
        }
    }

    /// Less kit, more limits, less noise, less room: no answer gets milder.
    #[test]
    fn asking_for_more_care_is_never_answered_with_less(
        rung in any_rung(), person in someone(), other in someone()
    ) {
        let mut careful = person.clone();
        for (id, level) in &other.limits {
            let limit = careful.limits.entry(id.clone()).or_insert(*level);
            *limit = (*limit).min(*level);
        }
        careful.kit = match (&person.kit, &other.kit) {
            (Some(kit), Some(some)) => Some(kit.intersection(some).cloned().collect()),
            (kit, _) => kit.clone(),
        };
        careful.noise = person.noise.min(other.noise);
        careful.room = person.room.or(other.room);
        let (before, after) = (fit(gym(), &person, &rung), fit(gym(), &careful, &rung));
        prop_assert!(how_strict(&before) <= how_strict(&after), "{:?} {:?}", before, after);
    }

    /// An entry that does not say its traits is for nobody with a limit, and so in no swap of theirs.
    #[test]
    fn what_is_not_said_is_not_assumed_harmless(rung in any_rung(), person in someone()) {
        let mut bare = UNSAID.with(|bare| bare.borrow_mut().take().unwrap_or_else(|| gym().clone()));
        let id = rung.key.movement.clone();
        let said = bare.library.movements.get_mut(&id).and_then(|movement| movement.traits.take());
        let out = matches!(fit(&bare, &person, &rung), Fit::Out(_));
        let entry = bare.library.movements.get_mut(&id).expect("it was there");
        entry.traits = said;
        UNSAID.with(|kept| *kept.borrow_mut() = Some(bare));
        prop_assert!(out || person.limits.is_empty());
    }
}

thread_local! {
    /// One copy of the gym for all cases of the test above.
    static UNSAID: std::cell::RefCell<Option<rungbook::gym::Gym>> = const { std::cell::RefCell::new(None) };
}

/// Two limits at once, every pair of traits of every rung, with all kit: what chance seldom meets, two
/// changes of one part of the body, is asked here.
#[test]
fn every_pair_of_limits_is_answered_as_written_down() {
    let kit: BTreeSet<KitId> = gym().library.words.kit.keys().cloned().collect();
    let (mut changed, mut refused) = (0, 0);
    for movement in gym().library.movements.values() {
        for rung in rungs_of(gym(), movement) {
            let had: Vec<TraitId> = traits(&plain().movements[movement.id.as_str()], &rung)
                .into_keys()
                .map(|id| TraitId::from(id.as_str()))
                .collect();
            for (at, one) in had.iter().enumerate() {
                for other in &had[at..] {
                    let limits = BTreeMap::from([(one.clone(), 1), (other.clone(), 1)]);
                    let person = Person { kit: Some(kit.clone()), limits, ..Person::default() };
                    let said = match fit(gym(), &person, &rung) {
                        Fit::Fine => Some(Vec::new()),
                        Fit::Changed(made) => {
                            Some(made.iter().map(|one| one.id().to_string()).collect())
                        }
                        Fit::Out(_) => None,
                    };
                    changed +=
                        usize::from(said.as_ref().is_some_and(|made: &Vec<String>| made.len() > 1));
                    refused += usize::from(said.is_none());
                    assert_eq!(said, answer(&person, &rung), "{rung:?}: {one} and {other}");
                }
            }
        }
    }
    assert!(changed > 100 && refused > 100, "{changed} with two changes, {refused} left out");
}

/// A link that the coach wrote is always among the candidates, whatever its score.
#[test]
fn every_written_link_is_a_candidate() {
    let mut seen = 0;
    for (id, movement) in &gym().library.movements {
        let list = ranked(gym(), id);
        for link in &movement.beside {
            assert!(list.iter().any(|one| one.to == link.to.value), "{id} to {}", link.to.value);
            seen += 1;
        }
    }
    assert!(seen > 150, "only {seen} links");
}

/// The order and the totals again, from the parts: weights over what is known, ties by name.
#[test]
fn totals_follow_from_the_parts() {
    for id in gym().library.movements.keys() {
        let list = ranked(gym(), id);
        for found in &list {
            let score = &found.score;
            let (mut sum, mut weights) = (0, 0);
            for (_, weight, part) in score.parts() {
                sum += weight * part.unwrap_or(0);
                weights += if part.is_some() { weight } else { 0 };
                assert!(part.is_none_or(|part| part <= 1000));
            }
            assert_eq!(score.total, sum / weights + score.linked, "{id} {}", found.to);
            let linked = gym().library.movements[id].beside.iter();
            let linked = linked.map(|link| &link.to.value).any(|to| *to == found.to);
            assert!((linked || score.total >= FLOOR) && found.to != *id);
        }
        let order = list.windows(2).all(|two| {
            let key = |one: &rungbook::swap::Candidate| {
                let name = &gym().library.movements[&one.to].name.value;
                (std::cmp::Reverse(one.score.total), name.clone())
            };
            key(&two[0]) < key(&two[1])
        });
        assert!(order, "{id}");
    }
    let w = WEIGHTS;
    let must = w.pattern + w.movers + w.purpose + w.demand;
    assert_eq!(must + w.sides + w.plane + w.stability + w.grip + w.counts, 1000);
}
