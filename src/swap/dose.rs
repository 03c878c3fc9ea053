//! Dose: as much of the substitute as was planned of the first, by side, by pace, by time.
//! Never leaves a dose open: what counts something else is given the same time at work.
//!
//! Time at work is the bridge: a repetition, and a contact, takes the pace that its entry gives, 3 s
//! where it gives none; a carry or a walk covers one metre a second (common practice, no source:
//! repetitions and seconds say more of the effort than the distance does). A time that was for both
//! sides at once is shared between them where each works alone.

use crate::finding::{Placed, Span};
use crate::library::{Amount, Count, Counts, Dose, Movement, Quantity, Sides};

/// Seconds a repetition takes where an entry gives no pace: 1 to 2 s each way (ACSM 2009). A contact
/// takes as long, landing and next take-off; common practice, no source.
const PACE_S: i64 = 3;

/// Seconds a metre takes under a weight or on hands and feet; common practice, no source.
const METRE_S: u32 = 1;

/// Holds are rounded down to this many seconds, so that they can be called and are never longer than
/// what they stand for; common practice, no source.
const CALLED_S: u32 = 5;

const MICRO: i64 = 1_000_000;

/// A dose of the substitute.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ConvertedDose {
    /// The dose; no amount where none was planned.
    pub dose: Dose,
    /// The longest that one set takes, both sides, in seconds; nothing where no pace is known.
    pub set_seconds: Option<u32>,
    /// The dose, how long a set takes, and what fits, in one plain sentence.
    pub said: String,
}

/// `dose` of `from`, as a dose of `to`. The same repetitions for each side; between repetitions
/// and seconds the same time at work, by each movement's pace. With a `window` (in seconds, for
/// all sets and the rests between them) as many of the sets as fit.
pub fn converted_dose(
    from: &Movement,
    to: &Movement,
    dose: &Dose,
    window: Option<Quantity>,
) -> ConvertedDose {
    let amount = dose.amount.as_ref();
    let amount =
        amount.map(|planned| Placed::new(amount_of(from, to, dose, planned.value), planned.span));
    let per_side = amount.as_ref().and_then(|amount| per_side(from, to, dose, amount.value));
    let mut fitted = Dose { sets: dose.sets, amount, rest: dose.rest, per_side };
    let (before, now) = (set_seconds(from, dose), set_seconds(to, &fitted));
    let fits = window.zip(now).map(|(window, now)| fit(&mut fitted, window, now));
    let mut said = vec![in_words(&fitted)];
    said.extend(time_words(before, now));
    said.extend(fits);
    ConvertedDose { dose: fitted, set_seconds: now, said: format!("{}.", said.join("; ")) }
}

/// How many sets fit a time: (time + rest) / (set + rest), as the last set needs no rest after it.
/// All in seconds.
pub fn sets_that_fit(window: u32, set: u32, rest: u32) -> u32 {
    window.saturating_add(rest) / set.saturating_add(rest).max(1)
}

fn amount_of(from: &Movement, to: &Movement, dose: &Dose, planned: Amount) -> Amount {
    match same_work(from, to, dose, planned) {
        Amount::Seconds(n) if to.sides == Sides::Each && from.sides != Sides::Each => {
            Amount::Seconds(each_end(n, |n| called(n / 2)))
        }
        amount => amount,
    }
}

fn same_work(from: &Movement, to: &Movement, dose: &Dose, planned: Amount) -> Amount {
    match (planned, to.counts) {
        // Seconds of a movement that is counted are an interval, and stay one.
        (Amount::Seconds(n), _) if from.counts != Counts::Seconds => Amount::Seconds(n),
        (Amount::Reps(n) | Amount::Contacts(n), Counts::Reps) => {
            Amount::Reps(for_each_side(from, to, dose, n))
        }
        (Amount::Reps(n) | Amount::Contacts(n), Counts::Contacts) => {
            Amount::Contacts(for_each_side(from, to, dose, n))
        }
        (Amount::Seconds(n), Counts::Seconds) => Amount::Seconds(n),
        (Amount::Metres(n), Counts::Metres) => Amount::Metres(n),
        (Amount::Reps(n) | Amount::Contacts(n), _) => {
            lasting(to, each_end(n, |n| go_seconds(from, dose, n)))
        }
        (Amount::Seconds(n), _) => lasting(to, n),
        (Amount::Metres(n), _) => lasting(to, each_end(n, |n| n.saturating_mul(METRE_S))),
    }
}

/// As much of a movement as takes so many seconds. A distance is not worked out: the time is kept
/// instead, however far that goes.
fn lasting(to: &Movement, seconds: Count) -> Amount {
    // Turn about, half of the time is each side's.
    let turns = if to.sides == Sides::Alternating { 2 } else { 1 };
    let often = |n| fewest_one(i64::from(n) * MICRO / (pace_micro(to) * turns));
    match to.counts {
        Counts::Seconds | Counts::Metres => Amount::Seconds(each_end(seconds, called)),
        Counts::Reps => Amount::Reps(each_end(seconds, often)),
        Counts::Contacts => Amount::Contacts(each_end(seconds, often)),
    }
}

/// Repetitions for each side; the whole count where both movements use the sides alike.
fn for_each_side(from: &Movement, to: &Movement, dose: &Dose, planned: Count) -> Count {
    let of_both = from.sides == Sides::Alternating && !said_per_side(dose);
    if of_both && to.sides != Sides::Alternating {
        return each_end(planned, |n| n.div_ceil(2));
    }
    planned
}

/// Whether the amount is for each side, said where it is.
fn per_side(from: &Movement, to: &Movement, dose: &Dose, amount: Amount) -> Option<Placed<bool>> {
    let counted = matches!(amount, Amount::Reps(_) | Amount::Contacts(_));
    let each = match to.sides {
        Sides::Together => false,
        Sides::Each => true,
        Sides::Alternating if from.sides == Sides::Alternating => said_per_side(dose),
        Sides::Alternating => counted,
    };
    let span = dose.amount.as_ref().map_or_else(Span::default, |amount| amount.span);
    each.then(|| Placed::new(true, span))
}

fn said_per_side(dose: &Dose) -> bool {
    dose.per_side.as_ref().is_some_and(|said| said.value)
}

/// The longest that a set takes, both sides, in seconds; nothing for a distance.
fn set_seconds(movement: &Movement, dose: &Dose) -> Option<u32> {
    let go = match dose.amount.as_ref()?.value {
        Amount::Reps(n) | Amount::Contacts(n) => go_seconds(movement, dose, n.to),
        Amount::Seconds(n) => n.to,
        Amount::Metres(_) => return None,
    };
    Some(if movement.sides == Sides::Each { go.saturating_mul(2) } else { go })
}

/// Seconds at work before the sides change over: one side's for `each`, the whole set otherwise.
fn go_seconds(movement: &Movement, dose: &Dose, reps: u32) -> u32 {
    let turns = movement.sides == Sides::Alternating && said_per_side(dose);
    let reps = i64::from(reps) * if turns { 2 } else { 1 };
    fewest_one((reps * pace_micro(movement) + MICRO - 1) / MICRO)
}

fn pace_micro(movement: &Movement) -> i64 {
    movement.pace.map_or(PACE_S * MICRO, |pace| pace.micro).max(1)
}

fn fewest_one(number: i64) -> u32 {
    u32::try_from(number.max(1)).unwrap_or(u32::MAX)
}

fn called(seconds: u32) -> u32 {
    if seconds < CALLED_S { seconds.max(1) } else { seconds / CALLED_S * CALLED_S }
}

fn each_end(count: Count, change: impl Fn(u32) -> u32) -> Count {
    Count { from: change(count.from), to: change(count.to) }
}

/// Cuts the sets to those that fit, and says so.
fn fit(dose: &mut Dose, window: Quantity, set: u32) -> String {
    let seconds = |time: Quantity| fewest_one(time.micro / MICRO);
    let fits = sets_that_fit(seconds(window), set, dose.rest.map_or(0, seconds));
    let planned = dose.sets;
    let time = in_minutes(seconds(window));
    if fits == 0 {
        return format!("not one set fits into {time}: do fewer, or choose another");
    }
    let cut = each_end(planned.unwrap_or(Count { from: fits, to: fits }), |n| n.min(fits));
    dose.sets = Some(cut);
    let verb = if fits == 1 { "fits" } else { "fit" };
    match planned {
        Some(planned) if planned.to > fits => {
            format!("only {fits} of the {planned} sets {verb} into {time}")
        }
        Some(_) => format!("fits into {time}"),
        None => format!("{fits} {verb} into {time}"),
    }
}

fn in_minutes(seconds: u32) -> String {
    match seconds % 60 {
        0 => format!("{} min", seconds / 60),
        _ => format!("{seconds} s"),
    }
}

fn in_words(dose: &Dose) -> String {
    match (&dose.amount, dose.sets) {
        (None, None) => "As much as planned".to_string(),
        _ => dose.to_string(),
    }
}

fn time_words(before: Option<u32>, now: Option<u32>) -> Option<String> {
    let now = now?;
    Some(match before {
        Some(before) if before != now => {
            format!("a set takes about {now} s in place of {before} s")
        }
        _ => format!("a set takes about {now} s"),
    })
}
