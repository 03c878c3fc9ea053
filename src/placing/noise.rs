//! Noise: how far a count wanders by itself.
//! Never says whether a change is real; the retest does.

use super::Counted;

/// The share of push-up repetitions on which raters repeated their own verdict, least and most.
/// Quoted without its paper in our notes; the paper is not known to us.
pub const VERDICT_REPEATED: [f64; 2] = [0.42, 0.85];
/// The share of a hold by which two holds of one strength may differ: common practice, no source.
pub const HOLD_NOISE: f64 = 0.2;
/// Noise between two counts is never less than this many repetitions: common practice, no source;
/// the rule for moving up also asks for two.
pub const LEAST_NOISE: u32 = 2;

/// The change that counting alone can make, in whole repetitions or seconds, between two results of
/// the same test.
///
/// Each count wanders for itself, so their difference wanders by the root of both squares: between
/// two counts of one size that is the square root of two times what one does ([`wander`]). Holds:
/// [`HOLD_NOISE`] of the longer.
pub fn noise(first: Counted, second: Counted) -> u32 {
    let [a, b] = [first, second].map(|one| f64::from(one.amount()));
    match first {
        Counted::Reps(_) => (settle(reps_wander(a + b)).floor() as u32).max(LEAST_NOISE),
        Counted::Seconds(_) => settle(a.max(b) * HOLD_NOISE).ceil() as u32,
    }
}

/// The noise of one count alone, in whole repetitions or seconds, at least one repetition.
pub fn noise_of_one(counted: Counted) -> u32 {
    let amount = f64::from(counted.amount());
    match counted {
        Counted::Reps(_) => settle(wander(amount)).floor() as u32,
        Counted::Seconds(_) => settle(hold_wander(amount)).ceil() as u32,
    }
}

/// How far one count of repetitions wanders: at the middle of [`VERDICT_REPEATED`], 36.5 % of them
/// could be judged the other way; if each goes up or down by chance the count wanders by the square
/// root of their number, and twice that is noise. That rule is our own.
pub(super) fn wander(reps: f64) -> f64 {
    reps_wander(reps).max(1.0)
}

fn reps_wander(reps: f64) -> f64 {
    let otherwise = 1.0 - (VERDICT_REPEATED[0] + VERDICT_REPEATED[1]) / 2.0;
    2.0 * (reps * otherwise).sqrt()
}

/// How far one hold wanders: two of one length then differ by [`HOLD_NOISE`].
pub(super) fn hold_wander(seconds: f64) -> f64 {
    seconds * HOLD_NOISE / 2.0_f64.sqrt()
}

/// Rounds to a thousand-millionth before rounding to whole numbers, so that the last bits in which
/// two languages' powers and logarithms differ never decide a digit.
pub(super) fn settle(number: f64) -> f64 {
    (number * 1e9).round() / 1e9
}
