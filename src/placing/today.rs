//! The rung and dose for today: inside the rung's dose, with one to three repetitions in reserve.
//! Never leaps: the rung nearest to the tested one stands first, and an unknown rung is tried one step
//! beyond a known one at most.

use super::predict::counted;
use super::sheet::Target;
use super::words::{self, Words, fill};
use super::{MoveUp, Prediction, Sheet, TestResult, UpVerdict as Verdict};
use crate::library::Counts;
use serde::Serialize;

/// Repetitions left in reserve, the fewest and the most: usually 1 to 4 in the trade; 3 at most,
/// since people misjudge by over 2 when many are left (Hackett 2017,
/// doi 10.1519/JSC.0000000000001683).
pub const RESERVE: [u32; 2] = [1, 3];

/// Today's rung.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Today {
    /// The rung, from 1.
    pub rung: u32,
    /// How much, unless it is too much for today or no dose is written.
    pub dose: Option<Target>,
    /// The whole as a sentence.
    pub say: String,
}

/// How a rung's dose compares with what a person can do there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fit {
    /// Cannot reach the dose with one in reserve.
    Below,
    /// Part of the dose leaves the right reserve.
    Within(Target),
    /// The whole dose leaves more than the reserve.
    Above,
    /// Nobody knows.
    Unknown,
}

/// Chooses today's rung.
pub(super) fn choose(
    sheet: &Sheet,
    predicted: &[Prediction],
    (result, by_rule): (&TestResult, &MoveUp),
) -> Today {
    let tested = result.rung as usize - 1;
    let mut fits: Vec<Fit> =
        sheet.rungs.iter().zip(predicted).map(|(target, known)| fit(*target, known)).collect();
    let is_ready = by_rule.verdict == Verdict::Ready;
    let counted = |at: usize| matches!(predicted[at], Prediction::Measured(_));
    if counted(tested) {
        bow_to_the_count(&mut fits, tested);
    }
    let within = |at: usize| match fits[at] {
        Fit::Within(dose) => Some((at, dose)),
        _ => None,
    };
    // The nearer to the tested rung, the less is estimated; of two as near, the lower.
    if let Some((at, dose)) =
        (0..fits.len()).filter_map(within).min_by_key(|(at, _)| at.abs_diff(tested))
    {
        return say(if counted(at) { words::WITHIN } else { words::ESTIMATED }, at, dose);
    }
    let above = fits.iter().rposition(|fit| *fit == Fit::Above);
    let below = fits.iter().position(|fit| *fit == Fit::Below);
    match (above, below) {
        (Some(at), _) => climb(sheet, &fits, (at, counted(at), is_ready && at == tested)),
        (None, Some(at)) => step_down(sheet, predicted, at),
        (None, None) => nothing(tested),
    }
}

/// What was counted stands above what is estimated: whoever did more than the dose of the tested rung
/// is sent to none below it, and whoever did less to none above it.
fn bow_to_the_count(fits: &mut [Fit], tested: usize) {
    let contradicts: fn(usize, usize) -> bool = match fits[tested] {
        Fit::Above => |at, tested| at < tested,
        Fit::Below => |at, tested| at > tested,
        _ => return,
    };
    for (at, fit) in fits.iter_mut().enumerate() {
        if contradicts(at, tested) {
            *fit = Fit::Unknown;
        }
    }
}

/// What the test says about the same height or lean today, where that was one's own.
pub(super) fn at_own(sheet: &Sheet, result: &TestResult) -> Option<String> {
    result.own?;
    let target = *sheet.rungs.get(result.rung as usize - 1)?;
    let known = Prediction::Measured(counted(result.counted));
    Some(match fit(target, &known) {
        Fit::Within(dose) => {
            let holes: [(&str, &dyn std::fmt::Display); 2] =
                [("dose", &dose), ("reserve", &reserve_words(dose))];
            fill(words::OWN_WITHIN, &holes)
        }
        Fit::Above => fill(words::OWN_ABOVE, &[]),
        Fit::Below => fill(words::OWN_BELOW, &[]),
        Fit::Unknown => return None,
    })
}

/// Repetitions or seconds that leave the right reserve: for holds two thirds to four fifths of the
/// best one (common practice, no source).
pub fn kept(counts: Counts, most: u32) -> Option<(u32, u32)> {
    match counts {
        Counts::Reps => Some((most.saturating_sub(RESERVE[1]), most.saturating_sub(RESERVE[0]))),
        Counts::Seconds => {
            let share = |of: u64, by: u64| u32::try_from(u64::from(most) * of / by).unwrap_or(most);
            Some((share(2, 3), share(4, 5)))
        }
        Counts::Metres | Counts::Contacts => None,
    }
}

fn fit(target: Option<Target>, known: &Prediction) -> Fit {
    let (Some(target), Some(band)) = (target, known.band()) else { return Fit::Unknown };
    let Some((from, to)) = kept(target.counts, band.point) else { return Fit::Unknown };
    match () {
        () if to < target.from => Fit::Below,
        () if from > target.to => Fit::Above,
        () => Fit::Within(Target { from: from.max(target.from), to: to.min(target.to), ..target }),
    }
}

/// Everything known is above its dose or too much: from the highest rung that is done with ease, as it
/// was counted or as it is estimated.
fn climb(sheet: &Sheet, fits: &[Fit], (at, counted, is_ready): (usize, bool, bool)) -> Today {
    let top_of = |target: Target| Target { from: target.to, ..target };
    match (sheet.rungs[at], fits.get(at + 1), sheet.rungs.get(at + 1)) {
        (Some(dose), None, _) => {
            say(if counted { words::TOP } else { words::TOP_ESTIMATED }, at, top_of(dose))
        }
        (_, Some(Fit::Unknown), Some(Some(dose))) => say(words::TRY_UP, at + 1, *dose),
        (Some(dose), _, _) if is_ready => say(words::BY_RULE, at, top_of(dose)),
        (Some(dose), _, _) if counted => say(words::GAP, at, top_of(dose)),
        (Some(dose), _, _) => say(words::GAP_ESTIMATED, at, top_of(dose)),
        (None, _, _) => nothing(at),
    }
}

/// Everything known is too much: the rung below the lowest of it.
fn step_down(sheet: &Sheet, predicted: &[Prediction], at: usize) -> Today {
    if let Some(Some(dose)) = at.checked_sub(1).map(|below| sheet.rungs[below]) {
        return say(words::TRY_DOWN, at - 1, dose);
    }
    let less = || {
        let target = sheet.rungs[at]?;
        let (from, to) = kept(target.counts, predicted[at].band()?.point)?;
        (to > 0).then_some(Target { from: from.max(1), to, ..target })
    };
    match less() {
        Some(dose) if at == 0 => say(words::UNDER, at, dose),
        _ if at == 0 => without(words::TOO_MUCH, at),
        _ => nothing(at - 1),
    }
}

fn nothing(at: usize) -> Today {
    without(words::NO_DOSE, at)
}

fn without(sentence: Words, at: usize) -> Today {
    Today { rung: at as u32 + 1, dose: None, say: fill(sentence, &[("rung", &(at + 1))]) }
}

fn say(sentence: Words, at: usize, dose: Target) -> Today {
    let reserve = reserve_words(dose);
    let holes: [(&str, &dyn std::fmt::Display); 6] = [
        ("rung", &(at + 1)),
        ("next", &(at + 2)),
        ("back", &at),
        ("dose", &dose),
        ("from", &dose.from),
        ("reserve", &reserve),
    ];
    Today { rung: at as u32 + 1, dose: Some(dose), say: fill(sentence, &holes) }
}

fn reserve_words(dose: Target) -> &'static str {
    match dose.counts {
        Counts::Seconds => words::RESERVE_HOLD.1,
        _ => words::RESERVE_REPS.1,
    }
}
