//! Swaps on the starter library: the equivalences that the trade accepts, doses, and words.

mod swaps {
    pub mod filters;
    pub mod plain;
    pub mod reach;
    pub mod starter;
    pub mod words;
}

use rungbook::finding::{Placed, Span};
use rungbook::library::{
    Amount, Count, Dose, KitId, LadderId, MovementId, Quantity, Sides, TraitId, Unit,
};
use rungbook::swap::{
    Answer, Candidate, Fit, Person, RungOf, Swap, as_text, asked_rung, converted_dose, fit,
    limits_from, ranked, rungs_of, sets_that_fit, swaps as swaps_for,
};
use swaps::starter::{gym, movement};

fn candidate(from: &str, to: &str) -> Candidate {
    let found = ranked(gym(), &from.into()).into_iter().find(|c| c.to.as_str() == to);
    found.unwrap_or_else(|| panic!("{to} is not among the swaps of {from}"))
}

fn rank(from: &str, to: &str) -> usize {
    let order = ranked(gym(), &from.into());
    order.iter().position(|c| c.to.as_str() == to).unwrap_or(usize::MAX)
}

fn with_kit(kit: &[&str]) -> Person {
    Person { kit: Some(kit.iter().map(|id| KitId::from(*id)).collect()), ..Person::default() }
}

fn rung(of: &str) -> RungOf {
    asked_rung(gym(), &of.into())
}

fn fitting(from: &str, person: &Person, dose: Option<&Dose>) -> Vec<Swap<'static>> {
    match swaps_for(gym(), &rung(from), person, dose) {
        Answer::Swaps(swaps) => swaps,
        Answer::AskYourCoach { why } => panic!("nothing in place of {from}: {why}"),
    }
}

fn reps(sets: u32, reps: u32, rest_s: f64) -> Dose {
    let one = |n| Count { from: n, to: n };
    Dose {
        sets: Some(one(sets)),
        amount: Some(Placed::new(Amount::Reps(one(reps)), Span::default())),
        rest: Some(Quantity::new(rest_s, Unit::Second)),
        per_side: None,
    }
}

/// Calatayud 2015 and Kikuchi & Nakazato 2017: a press lying down and a push-up give similar gains
/// when the demand is matched. So each stands for the other, in pattern and prime movers alike,
/// before anything of another pattern, and that the demand is for the coach to match is said.
#[test]
fn a_floor_press_and_a_push_up_stand_for_each_other_at_matched_demand() {
    for (from, to) in [("push-up", "floor-press"), ("floor-press", "push-up")] {
        let found = candidate(from, to);
        assert!(found.reason.starts_with("Same push, same prime movers"), "{}", found.reason);
        assert_eq!(found.score.demand, None);
        let other = ranked(gym(), &from.into()).iter().position(|c| c.score.pattern < 1000);
        assert!(other.is_none_or(|other| rank(from, to) < other));
        let answer = swaps_for(gym(), &rung(from), &Person::default(), None);
        assert!(as_text(gym(), &from.into(), &answer, false).contains("match the effort"));
    }
}

/// Saeterbakken 2015: one-arm and two-arm rows ask different things of the trunk, which has to be
/// said both ways, and not of two rows that are both done with two arms.
#[test]
fn one_arm_and_two_arms_say_that_the_trunk_works_differently() {
    assert!(candidate("bent-over-row", "one-arm-row").reason.contains("trunk"));
    assert!(candidate("one-arm-row", "bent-over-row").reason.contains("trunk"));
    assert!(!candidate("bent-over-row", "bar-row").reason.contains("trunk"));
}

/// Fenwick 2009: of the rows tested the inverted row loads the spine least and the bent-over row
/// most. With a sore low back the row under a bar stays and the bent-over row goes.
#[test]
fn a_sore_low_back_rows_under_a_bar() -> Result<(), String> {
    let limits = limits_from(gym(), &["low-back".to_string()])?;
    let person = Person { limits: limits.levels, ..Person::default() };
    let spine = TraitId::from("axial-load");
    assert!(
        movement("bar-row").trait_level(&spine) < movement("bent-over-row").trait_level(&spine)
    );
    let ids = |from: &str| -> Vec<String> {
        fitting(from, &person, None).into_iter().map(|s| s.candidate.to.0).collect()
    };
    assert!(!ids("bent-over-row").contains(&"bar-row".to_string()), "high on its ladder");
    // Whoever does it already is led there.
    let rungs =
        [(LadderId::from("row"), gym().library.ladders[&LadderId::from("row")].rungs.len())];
    let able = Person { rungs: rungs.into_iter().collect(), ..person.clone() };
    let to: Vec<_> = fitting("bent-over-row", &able, None);
    assert!(to.iter().any(|swap| swap.candidate.to.as_str() == "bar-row"));
    // Bent over it comes back only with a hand on a bench, which takes the spine's share.
    let bent = |person: &Person| {
        let found = fitting("bar-row", person, None).into_iter();
        found.filter(|s| s.candidate.to.as_str() == "bent-over-row").collect::<Vec<_>>()
    };
    let hall = bent(&person);
    let on_bench = |s: &Swap<'_>| s.changes.iter().any(|c| c.id().as_str() == "hand-on-bench");
    assert!(hall.iter().all(on_bench), "{hall:?}");
    let no_bench = Person { kit: with_kit(&["dumbbell"]).kit, ..person.clone() };
    assert!(bent(&no_bench).is_empty());
    // What it brings in is said as it is done: the spine's load as it stands, not with a hand on a
    // bench, which brings a bent wrist instead.
    let brings = |found: Vec<Swap<'_>>| found.into_iter().find_map(|s| s.brings_in);
    let (as_it_stands, changed) = (brings(bent(&Person::default())), brings(hall));
    assert!(as_it_stands.is_some_and(|said| said.contains("weight down the spine")));
    let changed = changed.unwrap_or_default();
    assert!(
        changed.contains("wrist") && !changed.contains("weight down the spine (more)"),
        "{changed}"
    );
    Ok(())
}

/// A sore wrist takes no push-up away: on every rung the first answer is the fists, kit or none.
#[test]
fn a_sore_wrist_does_its_push_ups_on_fists() -> Result<(), String> {
    let limits = limits_from(gym(), &["sore-wrist".to_string()])?.levels;
    let ladder = LadderId::from("push-up");
    for at in 0..gym().library.ladders[&ladder].rungs.len() {
        let rung = RungOf::on(gym(), &ladder, at).expect("a rung");
        let person = Person { limits: limits.clone(), ..Person::default() };
        let Fit::Changed(made) = fit(gym(), &person, &rung) else { panic!("rung {at}") };
        let made: Vec<&str> = made.iter().map(|change| change.id().as_str()).collect();
        assert_eq!(made, ["fists"], "rung {at}");
    }
    Ok(())
}

/// Corrao 2010 leaves arms out and turned back away from a shoulder that slips; dips, which take
/// the elbow behind the body under weight, go with them, changed or not (common practice).
#[test]
fn a_shoulder_that_slips_does_no_dips() -> Result<(), String> {
    let limits = limits_from(gym(), &["unstable-shoulder".to_string()])?.levels;
    let person = Person { limits, ..Person::default() };
    for dip in ["dip", "foot-assisted-dip"] {
        assert!(rungs_of(gym(), movement(dip)).iter().all(|r| !fit(gym(), &person, r).is_in()));
        assert!(fitting(dip, &person, None).len() >= 3);
    }
    Ok(())
}

/// Lopes 2019: weights and bands give similar strength.
#[test]
fn weights_and_bands_stand_for_each_other() {
    for (weight, band) in [("floor-press", "band-press"), ("bent-over-row", "band-row")] {
        for (from, to) in [(weight, band), (band, weight)] {
            let found = candidate(from, to);
            assert!(found.reason.contains("same prime movers"), "{}", found.reason);
            assert_eq!((found.score.pattern, found.score.purpose), (1000, Some(1000)));
        }
    }
}

/// Accepted by the trade (common practice): a strap row, a supported one-arm row with a loaded
/// backpack, a towel row under the foot; the last is held, and so only a partial match.
#[test]
fn without_straps_a_backpack_or_a_towel_rows() {
    let person = with_kit(&["backpack", "chair", "towel"]);
    let found = fitting("strap-row", &person, None);
    let of = |id: &str| found.iter().find(|s| s.candidate.to.as_str() == id);
    let (one_arm, towel) = (of("one-arm-row"), of("towel-row"));
    let kit: Vec<&str> = one_arm.iter().flat_map(|s| &s.with).map(KitId::as_str).collect();
    assert_eq!(kit, ["backpack", "chair"]);
    let towel = &towel.expect("a towel row needs a towel and a chair").candidate;
    assert!(towel.score.counts < 1000 && towel.reason.contains("a partial match"));
    assert!(one_arm.is_some_and(|s| !s.candidate.reason.contains("partial")));
}

/// Accepted by the trade (common practice): pull-up, band pulldown, row; with the row the
/// direction of the pull changes, which is said, and it comes after what keeps it.
#[test]
fn a_pulldown_then_a_row_for_a_pull_up() {
    let pulldown = rank("pull-up", "band-pulldown");
    for row in ["strap-row", "band-row", "bar-row", "bent-over-row"] {
        let found = candidate("pull-up", row);
        assert!(pulldown < rank("pull-up", row));
        assert!(found.reason.starts_with("A horizontal pull rather than a vertical one"));
        assert!(found.score.plane == Some(1000) || found.reason.contains("another plane"));
    }
}

/// What must match (common practice): no movement of a pattern that does less than half of the
/// same work is offered unless the coach has linked the two.
#[test]
fn a_jump_or_a_deadlift_does_not_stand_for_a_squat() {
    let patterns: Vec<String> = ranked(gym(), &"squat".into())
        .iter()
        .map(|c| movement(c.to.as_str()).pattern.value.to_string())
        .collect();
    assert!(patterns.contains(&"single-leg".to_string()));
    assert!(!patterns.iter().any(|p| p == "jump" || p == "hinge"));
}

/// Neighbours on a ladder say so, and which way; not how far, as any rung below may be the one given.
#[test]
fn the_ladder_and_the_way_are_named() {
    let reason = |from: &str, to: &str| candidate(from, to).reason;
    assert!(reason("push-up", "feet-raised-push-up").starts_with("Higher on the push-up ladder: "));
    assert!(reason("feet-raised-push-up", "push-up").starts_with("Lower on the push-up ladder: "));
    // Knees on the floor lie between a counter and a 60 cm box, by the sums of the body's parts.
    let either = candidate("knee-plank", "raised-plank").reason;
    assert!(either.starts_with("Lower and higher on the plank ladder: "), "{either}");
}

/// A link that the coach wrote is quoted, and lifts the score.
#[test]
fn the_coachs_own_link_is_quoted() {
    for (id, entry) in &gym().library.movements {
        for found in ranked(gym(), id) {
            let link = entry.beside.iter().find(|link| link.to.value == found.to);
            assert_eq!(link.is_some(), found.reason.contains("coach's note: "), "{id}");
            assert!(link.is_none() || found.score.linked > 0);
        }
    }
}

/// The examples of the plan-time rule: sets that fit 12 minutes with 8 repetitions at 3 s and 90 s
/// of rest are 7 with both sides at once and 5 with one side at a time.
#[test]
fn one_side_at_a_time_doubles_the_time() {
    assert_eq!((sets_that_fit(720, 24, 90), sets_that_fit(720, 48, 90)), (7, 5));
    let window = Some(Quantity::new(720.0, Unit::Second));
    let (row, one_arm) = (movement("bent-over-row"), movement("one-arm-row"));
    let fitted = converted_dose(row, one_arm, &reps(7, 8, 90.0), window);
    assert_eq!(fitted.set_seconds, Some(48));
    assert_eq!(fitted.dose.to_string(), "5 x 8, each side, rest 90 s");
    assert!(fitted.said.contains("48 s in place of 24 s"), "{}", fitted.said);
    // 10 a side at 3 s is 60 s and does not fit a slot of 40 s.
    let slot = Some(Quantity::new(40.0, Unit::Second));
    let every_minute = converted_dose(row, one_arm, &reps(1, 10, 0.0), slot);
    assert!(every_minute.said.contains("not one set fits"), "{}", every_minute.said);
}

#[test]
fn repetitions_become_the_same_time_held_and_back() {
    let (row, towel) = (movement("strap-row"), movement("towel-row"));
    let held = converted_dose(row, towel, &reps(3, 8, 90.0), None);
    // 8 at 3 s is 24 s, called as 20: never longer than what it stands for, there and back.
    assert_eq!(held.dose.to_string(), "3 x 20 s, rest 90 s");
    let back = converted_dose(towel, row, &held.dose, None);
    assert_eq!(back.dose.to_string(), "3 x 6, rest 90 s");
}

/// Whatever the pair: a dose in seconds takes no longer, both sides counted, than what it stands for;
/// so it fits the slot that a clock gives the line.
#[test]
fn a_time_is_never_longer_than_what_it_stands_for() {
    let entries = || gym().library.movements.values();
    let seconds = |n| Dose {
        amount: Some(Placed::new(Amount::Seconds(Count { from: n, to: n }), Span::default())),
        ..reps(3, 8, 60.0)
    };
    let mut seen = 0;
    for from in entries().filter(|movement| movement.counts.word() != "metres") {
        let held = from.counts.word() == "seconds";
        for n in [1, 4, 12, 20, 45] {
            let dose = if held { seconds(n) } else { reps(3, n, 60.0) };
            let before = if held || from.sides != Sides::Each {
                f64::from(n) * if held { 1.0 } else { from.pace.map_or(3.0, Quantity::number) }
            } else {
                continue;
            };
            let before = if from.sides == Sides::Each { 2.0 * before } else { before };
            for to in entries() {
                let fitted = converted_dose(from, to, &dose, None).dose;
                let Some(Amount::Seconds(now)) = fitted.amount.map(|amount| amount.value) else {
                    continue;
                };
                let sides = if to.sides == Sides::Each { 2.0 } else { 1.0 };
                let least = sides;
                let now = f64::from(now.to) * sides;
                assert!(
                    now <= before.ceil().max(least),
                    "{} {n} {}: {now} for {before}",
                    from.id,
                    to.id
                );
                seen += 1;
            }
        }
    }
    assert!(seen > 10_000, "{seen}");
}

/// Whatever the pair: repetitions stay the same for each side, a hold keeps the time at work, and
/// a set done one side at a time counts the time twice.
#[test]
fn each_side_gets_the_repetitions_that_were_planned() {
    let dose = reps(3, 8, 60.0);
    let entries = || gym().library.movements.values();
    let mut seen = 0;
    for from in entries().filter(|m| m.counts.word() == "reps" && m.sides != Sides::Alternating) {
        for to in entries().filter(|m| m.counts.word() == "reps") {
            let fitted = converted_dose(from, to, &dose, None);
            let per_side = fitted.dose.per_side.as_ref().is_some_and(|side| side.value);
            assert_eq!(per_side, to.sides != Sides::Together, "{} {}", from.id, to.id);
            assert_eq!(fitted.dose.amount, dose.amount, "{} {}", from.id, to.id);
            let pace = to.pace.map_or(3.0, Quantity::number);
            let goes = if to.sides == Sides::Together { 8.0 } else { 16.0 };
            let longest = fitted.set_seconds.map(f64::from).unwrap_or_default();
            assert!((longest - goes * pace).abs() < 2.0, "{} {longest}", to.id);
            seen += 1;
        }
    }
    assert!(seen > 1000, "only {seen} pairs");
}

/// Said for every pair of the library: one sentence, with no word left empty or doubled.
#[test]
fn every_reason_is_one_sentence() {
    let mut seen = 0;
    for id in gym().library.movements.keys() {
        for found in ranked(gym(), id) {
            let reason = &found.reason;
            assert!(reason.ends_with('.') && !reason.trim_end_matches('.').contains(". "));
            assert!(reason.starts_with(|c: char| c.is_uppercase()), "{reason}");
            for fault in ["  ", ", ,", ";;", "; ;", "()", " ,", " ;", "..", "the the", "-"] {
                let said = reason.split("coach's note").next().unwrap_or_default();
                let ladders = gym().library.ladders.values();
                let mut names: Vec<String> =
                    ladders.map(|ladder| ladder.name.value.to_lowercase()).collect();
                // The longest first: a hinge is in a single-leg hinge.
                names.sort_by_key(|name| std::cmp::Reverse(name.len()));
                let said =
                    names.iter().fold(said.to_lowercase(), |said, name| said.replace(name, "a"));
                assert!(!said.contains(fault), "{id}: {reason}");
            }
            seen += 1;
        }
    }
    assert!(seen > 500, "only {seen} pairs");
}

#[test]
fn an_unknown_movement_gets_its_near_spelling() {
    let answer =
        swaps_for(gym(), &RungOf::usual(&MovementId::from("pull-upp")), &Person::default(), None);
    let Answer::AskYourCoach { why } = answer else { panic!("there is no such movement") };
    assert_eq!(why, "There is no movement `pull-upp`; did you mean `pull-up`?");
}
