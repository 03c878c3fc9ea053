//! Retests: a real change, noise, or not the same test.

use super::{dose, kg, reps, seconds, shares, sheet};
use rungbook::library::Counts;
use rungbook::placing::{Counted, RetestVerdict, Sheet, TestResult, compare, noise, noise_of_one};

/// Raters repeated their verdict on 42 to 85 % of push-up repetitions (quoted in the trade notes):
/// the noise of one count lies between what the best and the worst rater would give, twice the
/// square root of the repetitions judged otherwise.
#[test]
fn noise_of_one_count_lies_between_the_best_and_the_worst_rater() {
    for counted in 8..=60u32 {
        let rater = |repeated: f64| 2.0 * (f64::from(counted) * (1.0 - repeated)).sqrt();
        let ours = f64::from(noise_of_one(Counted::Reps(counted)));
        assert!(rater(0.85).floor() <= ours && ours <= rater(0.42), "{counted}: {ours}");
    }
    assert_eq!(noise_of_one(Counted::Seconds(60)), 9, "8.5 s: a fifth by the root of two");
}

/// Two counts wander each for itself: variances add, so between two of one size it is the square
/// root of two. By hand at 20 and 20: 2 * sqrt(0.365 * 40) = 7.64; at 12 and 20: 6.84.
#[test]
fn the_noise_of_a_difference_is_that_of_both_counts() {
    let between = |a, b| noise(Counted::Reps(a), Counted::Reps(b));
    assert_eq!([between(20, 20), between(12, 20), between(20, 12)], [7, 6, 6]);
    assert_eq!(noise_of_one(Counted::Reps(20)), 5, "2 * sqrt(0.365 * 20) = 5.40");
    assert_eq!(between(1, 1), 2, "never less than two repetitions");
    assert_eq!(noise(Counted::Seconds(60), Counted::Seconds(50)), 12, "a fifth of the longer");
}

#[test]
fn small_changes_are_noise_and_large_ones_likely_real() {
    let verdict = |first, second| compare(&sheet(3), &[], (&reps(2, first), &reps(2, second)));
    let small = verdict(12, 14);
    assert_eq!(small.verdict, RetestVerdict::WithinNoise);
    assert!(small.rule.is_some_and(|rule| rule.contains("42 to 85 %")));
    assert_eq!(verdict(12, 20).verdict, RetestVerdict::LikelyReal);
    assert_eq!(verdict(20, 12).verdict, RetestVerdict::LikelyReal, "a loss is a change too");
    assert_eq!(verdict(12, 12).verdict, RetestVerdict::WithinNoise);
}

#[test]
fn another_rung_is_converted_where_demands_are_known_and_refused_where_not() {
    let tests = (&reps(1, 12), &reps(2, 12));
    let unknown = compare(&sheet(2), &[None; 2], tests);
    assert_eq!(unknown.verdict, RetestVerdict::NotTheSameTest);
    assert!(unknown.say.contains("rung 1, then rung 2"), "{}", unknown.say);
    let alike = compare(&sheet(2), &shares(&[0.6, 0.61]), tests);
    assert_eq!(alike.verdict, RetestVerdict::WithinNoise);
    assert!(alike.say.contains("rung 1, then rung 2"), "{}", alike.say);
    let nowhere = compare(&sheet(2), &shares(&[0.6, 0.61]), (&reps(0, 12), &reps(0, 12)));
    assert_eq!(nowhere.verdict, RetestVerdict::WithinNoise, "the same test, wherever it stands");
    for tests in [(&reps(0, 12), &reps(2, 12)), (&reps(2, 12), &reps(0, 12))] {
        let change = compare(&sheet(2), &shares(&[0.6, 0.61]), tests);
        assert_eq!(change.verdict, RetestVerdict::NotTheSameTest, "no ladder has a rung 0");
    }
    let harder = compare(&sheet(2), &shares(&[0.5, 0.75]), tests);
    assert_eq!(harder.verdict, RetestVerdict::BeyondEstimate);
    assert!(harder.say.contains("the estimate is off"), "{}", harder.say);
}

#[test]
fn another_count_or_weight_is_another_test() {
    let added = TestResult { added: kg(5.0), ..reps(1, 12) };
    let change = compare(&sheet(2), &shares(&[0.6, 0.7]), (&reps(1, 12), &added));
    assert_eq!(change.verdict, RetestVerdict::NotTheSameTest);
    assert!(change.say.contains("0 kg added, then 5 kg"), "{}", change.say);
    let holds = Sheet { up: None, rungs: vec![Some(dose(Counts::Seconds, 20, 30)); 2] };
    let change = compare(&holds, &shares(&[0.6, 0.7]), (&reps(1, 12), &seconds(1, 40)));
    assert_eq!(change.verdict, RetestVerdict::NotTheSameTest);
}
