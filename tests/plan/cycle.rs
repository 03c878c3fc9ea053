//! The starter cycle, week by week.

use crate::starter::gym;
use rungbook::library::{Amount, Cycle, CycleId, LadderId, WeekKind};
use rungbook::plan::{
    CyclePlan, Day, aim_number, cycle_plan, facts, starting_rungs, training_days, week_balance,
};

pub fn cycle() -> &'static Cycle {
    &gym().library.cycles[&CycleId::from("six-weeks-push-and-pull")]
}

fn planned(words: &[&str]) -> CyclePlan {
    let words: Vec<String> = words.iter().map(ToString::to_string).collect();
    cycle_plan(gym(), cycle(), &starting_rungs(gym(), cycle(), &words).expect("good rungs"))
}

/// Week, rung and aim of a ladder.
fn weeks(plan: &CyclePlan, ladder: &str) -> Vec<(u32, u32, Option<u32>)> {
    let found = plan.ladders.iter().find(|one| one.ladder == LadderId::from(ladder));
    let weeks = &found.expect("a focus ladder").weeks;
    weeks.iter().map(|week| (week.week, week.rung, week.aim.map(aim_number))).collect()
}

/// The cycle's own notes: week 2 the middle of the range, week 3 its top, then one rung up by the
/// ladder's rule; week 5 lighter on the same rung; week 6 the same test on the same rung.
#[test]
fn six_weeks_from_the_third_rung() {
    let plan = planned(&["push-up=3"]);
    let expected = [
        (1, 3, None),
        (2, 3, Some(8)),
        (3, 3, Some(10)),
        (4, 4, Some(6)),
        (5, 4, Some(6)),
        (6, 3, None),
    ];
    assert_eq!(weeks(&plan, "push-up"), expected);
    // The row starts at the rung of its own test.
    assert_eq!(weeks(&plan, "row")[0], (1, 4, None));
    let sets: Vec<_> = plan.ladders[0].weeks.iter().map(|w| w.sets.map(|n| n.to)).collect();
    assert_eq!(sets, [None, Some(4), Some(4), Some(4), Some(2), None]);
    assert!(matches!(plan.ladders[0].weeks[1].aim, Some(Amount::Reps(_))));
    assert!(plan.ladders.iter().all(|l| l.moves_up.is_some() && l.moves_down.is_some()));
}

#[test]
fn nobody_steps_off_the_top() {
    let plan = planned(&["push-up=9", "row=9"]);
    assert!(weeks(&plan, "push-up").iter().all(|(_, rung, _)| *rung == 9));
    assert!(weeks(&plan, "row").iter().all(|(_, rung, _)| *rung == 9));
}

/// From every rung: one step at most from week to week, and the retest where the test was.
#[test]
fn every_start_goes_up_by_single_steps() {
    let ladders = cycle().focus.iter().map(|id| &gym().library.ladders[&id.value]);
    for ladder in ladders {
        for start in 1..=ladder.rungs.len() as u32 {
            let plan = planned(&[&format!("{}={start}", ladder.id)]);
            let found = weeks(&plan, ladder.id.as_str());
            let built: Vec<u32> = found[..5].iter().map(|(_, rung, _)| *rung).collect();
            assert!(built.windows(2).all(|pair| pair[1] - pair[0] <= 1), "{found:?}");
            assert_eq!((found[0].1, found[5].1), (start, start), "{found:?}");
            let last = (start + 1).min(ladder.rungs.len() as u32);
            assert_eq!(built[4], last, "{found:?}");
        }
    }
}

#[test]
fn wrong_rungs_are_said_together() {
    let words = ["push-up=10", "rwo=2", "row", "row=0"].map(String::from);
    let said = starting_rungs(gym(), cycle(), &words).expect_err("four are wrong");
    assert_eq!(said.lines().count(), 4, "{said}");
    assert!(said.contains("rungs 1 to 9") && said.contains("did you mean `row`?"), "{said}");
}

#[test]
fn every_week_pulls_at_least_as_much_and_the_lighter_week_is_lighter() {
    for week in &cycle().weeks {
        let balance = week_balance(gym(), cycle(), week.week).expect("a week");
        assert!(!balance.pulls_less(), "{balance:?}");
        let sum: u32 = balance.sets.values().map(|sets| sets.to).sum();
        assert_eq!(balance.all.to, sum);
        if week.kind == Some(WeekKind::Lighter) {
            let before = week_balance(gym(), cycle(), week.week - 1).expect("a week before");
            assert!(balance.all.middle() <= before.all.middle() * 0.6, "{balance:?}");
        }
    }
    assert!(week_balance(gym(), cycle(), 7).is_none());
}

#[test]
fn the_starter_cycle_has_no_fact_against_it() {
    let g = gym();
    assert!(facts::that_do_not_fit(g).is_empty(), "{:?}", facts::that_do_not_fit(g));
    assert!(facts::too_long(g).is_empty(), "{:?}", facts::too_long(g));
    assert!(facts::cold_joints(g).is_empty(), "{:?}", facts::cold_joints(g));
    assert!(facts::that_tire_a_test(g).is_empty(), "{:?}", facts::that_tire_a_test(g));
    assert!(facts::weeks_that_pull_less(g).is_empty(), "{:?}", facts::weeks_that_pull_less(g));
    assert!(facts::jumps_in_sets(g).is_empty(), "{:?}", facts::jumps_in_sets(g));
    assert!(facts::nothing_left(g).is_empty(), "{:?}", facts::nothing_left(g));
    assert!(facts::kit_lacking(g).is_empty(), "{:?}", facts::kit_lacking(g));
    assert!(facts::tests_too_soon(g).is_empty(), "{:?}", facts::tests_too_soon(g));
}

/// Dates against the calendar on any wall: 2027-01-05 is a Tuesday, 2028 is a leap year, 2100 not.
#[test]
fn days_of_the_calendar() {
    let day = |text: &str| Day::read(text).expect("a day that exists");
    assert_eq!(day("2027-01-05").weekday_word(), "tuesday");
    assert_eq!(day("1970-01-01").weekday_word(), "thursday");
    assert_eq!(day("2028-02-28").later(1).to_string(), "2028-02-29");
    assert_eq!(day("2100-02-28").later(1).to_string(), "2100-03-01");
    assert_eq!(day("2027-12-31").later(1).since(day("2027-01-01")), 365);
    for wrong in ["2027-02-29", "2027-13-01", "2027-1-5", "27-01-05", "2027-01-05x", "+027-01-05"] {
        assert_eq!(Day::read(wrong), None, "{wrong}");
    }
    let days: Vec<i64> = training_days(cycle()).iter().map(|(_, _, after, _)| *after).collect();
    assert_eq!(&days[..6], [0, 2, 4, 7, 9, 11]);
}
