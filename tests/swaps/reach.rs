//! Reach: on which rung of a swap somebody may be put, by what is known of them.
//! Never for a kit or a limit: that is for the filters.

use crate::swaps::starter::gym;
use rungbook::library::{CautionId, LadderId};
use rungbook::swap::{Compared, Person, RungOf, asked_rung, compared, rungs_of, within_reach};

/// Every pair of a movement asked for and another that stands on some ladder.
fn pairs() -> impl Iterator<Item = (RungOf, Vec<RungOf>, &'static rungbook::library::Movement)> {
    let movements = &gym().library.movements;
    let to = move |from: &'static rungbook::library::MovementId| {
        movements.values().map(move |to| (asked_rung(gym(), from), rungs_of(gym(), to), to))
    };
    movements.keys().flat_map(to)
}

fn ladder(rung: &RungOf) -> Option<&LadderId> {
    rung.place.as_ref().map(|(id, _)| id)
}

fn place(rung: &RungOf) -> usize {
    rung.place.as_ref().map_or(0, |(_, at)| *at)
}

/// The rung from which on a ladder is above its middle, from 0.
fn above_middle(id: &LadderId) -> usize {
    gym().library.ladders[id].rungs.len().div_ceil(2)
}

/// Of whom nothing is known nobody is put above the middle of a ladder, as a session puts nobody there;
/// whom a situation starts low stands on the lowest rung of a whole ladder or on none.
#[test]
fn whoever_is_not_known_starts_no_higher_than_the_middle() {
    let starts_low = gym().library.words.cautions.values().find(|one| one.start.is_some());
    let low: CautionId = starts_low.expect("one that starts low").id.value.clone();
    let low = Person { situations: [low].into(), ..Person::default() };
    let (mut started, mut high, mut lowest) = (0, 0, 0);
    for (asked, rungs, to) in pairs() {
        let here = asked.place.as_ref().map(|(id, _)| id.clone());
        for (rung, start) in within_reach(gym(), &asked, to, &Person::default()) {
            let Some(id) = ladder(&rung).filter(|id| Some(*id) != here.as_ref()) else { continue };
            assert!(start && place(&rung) < above_middle(id), "{asked:?}: {rung:?}");
            started += 1;
        }
        for (rung, start) in within_reach(gym(), &asked, to, &low) {
            let Some(_) = ladder(&rung).filter(|id| Some(*id) != here.as_ref()) else { continue };
            assert!(start && place(&rung) == 0, "{asked:?}: {rung:?}");
            lowest += 1;
        }
        high += usize::from(
            rungs.iter().all(|r| ladder(r).is_some_and(|id| place(r) >= above_middle(id))),
        );
    }
    // Otherwise the test says nothing.
    assert!(started > 500 && high > 500 && lowest > 100, "{started} {high} {lowest}");
}

/// A rung known on one ladder of a movement counts on every other that holds it: nobody is told to
/// start there because that one is not known.
#[test]
fn a_rung_known_on_one_ladder_counts_on_the_others() {
    let mut counted = 0;
    for (asked, rungs, to) in pairs() {
        let own = rungs.iter().filter_map(ladder).next();
        let others = rungs.iter().filter_map(ladder).any(|id| Some(id) != own);
        let Some(own) = own.filter(|_| others) else { continue };
        let person = Person { rungs: [(own.clone(), 0)].into(), ..Person::default() };
        for (rung, start) in within_reach(gym(), &asked, to, &person) {
            assert!(!start, "{asked:?}: {rung:?}");
            counted += 1;
        }
        counted += 1;
    }
    assert!(counted > 100, "{counted}");
}

/// Where no number compares, a harder landing or a deeper knee bend asks more, and so does a breath
/// held long where none was held: nobody is given them unasked.
#[test]
fn more_work_is_harder_where_no_number_compares() {
    let at = |id: &str| asked_rung(gym(), &id.into());
    let to = |id: &str| rungs_of(gym(), &gym().library.movements[&id.into()]);
    // A split squat beside a support bends the knee less than a squat to full depth.
    for rung in to("squat") {
        assert_eq!(compared(gym(), &at("supported-split-squat"), &rung), Compared::Harder);
    }
    for rung in to("top-half-squat") {
        assert_ne!(compared(gym(), &at("supported-split-squat"), &rung), Compared::Harder);
    }
    for rung in to("pogo-hop") {
        assert_eq!(compared(gym(), &at("calf-raise"), &rung), Compared::Harder);
    }
}
