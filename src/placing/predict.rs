//! What a result at one rung says about the others, always with a band.
//! Never compares repetitions with seconds, and gives a reason where it gives no number.

use super::compared::{Compared, compared};
use super::noise::{hold_wander, noise_of_one, settle, wander};
use super::relations::RELATIONS;
use super::words::{self, counts_words, fill};
use super::{Counted, RungDemand, Sheet, TestResult};
use crate::library::Counts;
use serde::Serialize;

/// No relation was tested beyond this many repetitions (Mayhew 2008: sets of 2 to 30).
pub const MOST_REPS: u32 = 30;
/// Beyond this a hold tests patience: common practice, no source.
pub const MOST_SECONDS: u32 = 120;
/// Up to here the relations are at their best.
pub const CLOSE_REPS: f64 = 10.0;
/// One standard deviation of a person's maximum around the relations up to ten repetitions: 10.5 %
/// for Brzycki and for Lander, 103 women. Mayhew JL et al. J Strength Cond Res 2008,
/// doi 10.1519/JSC.0b013e31817b02ad.
pub const CLOSE_SCATTER: f64 = 0.105;
/// The same for sets of 2 to 30: 70.7 % for Lander. Brzycki's 101.7 % comes from its own pole at 37.
pub const FAR_SCATTER: f64 = 0.707;
/// Nine in ten of a normal scatter lie within this many standard deviations.
pub const NINE_IN_TEN: f64 = 1.645;
/// A relation that sees no end to the repetitions is taken at this many.
pub const ENDLESS: f64 = 1000.0;

/// A number of repetitions or seconds with its band.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Band {
    /// Rounded down.
    pub low: u32,
    /// Rounded to the nearest.
    pub point: u32,
    /// Rounded up, at most 30 repetitions or 120 s where it is computed.
    pub high: u32,
    /// True when the upper end means "or more".
    pub open: bool,
    /// True when the point means "or more" too: it lies beyond what the relations were tested on.
    pub over: bool,
}

/// What is known of a rung.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Prediction {
    /// Counted in the test; the band is the noise of counting.
    Measured(Band),
    /// Computed from the test.
    Computed(Band),
    /// No number, and why.
    Unknown {
        /// The reason, as a sentence.
        why: String,
    },
}

impl Prediction {
    /// The band, where there is one.
    pub fn band(&self) -> Option<Band> {
        match self {
            Prediction::Measured(band) | Prediction::Computed(band) => Some(*band),
            Prediction::Unknown { .. } => None,
        }
    }

    /// The number with its band and how it was come by, or why there is none.
    pub fn said(&self) -> String {
        let (sentence, band) = match self {
            Prediction::Measured(band) => (words::KNOWN_MEASURED, band),
            Prediction::Computed(band) if band.over => (words::KNOWN_OVER, band),
            Prediction::Computed(band) => (words::KNOWN_COMPUTED, band),
            Prediction::Unknown { why } => return why.clone(),
        };
        let more = if band.open { words::OR_MORE.1 } else { "" };
        let holes: [(&str, &dyn std::fmt::Display); 4] =
            [("point", &band.point), ("low", &band.low), ("high", &band.high), ("more", &more)];
        fill(sentence, &holes)
    }
}

/// A prediction for every rung, without the weight that the test may have added.
pub(super) fn every_rung(
    sheet: &Sheet,
    demands: &[Option<RungDemand>],
    result: &TestResult,
) -> Vec<Prediction> {
    let rung = |at: usize| {
        let here = at + 1 == result.rung as usize;
        match computed(sheet, demands, (result, at)) {
            _ if here && result.is_as_written() => Prediction::Measured(counted(result.counted)),
            Ok(band) => Prediction::Computed(band),
            Err(_) if here && result.own.is_none() => Prediction::Measured(counted(result.counted)),
            Err(why) => Prediction::Unknown { why },
        }
    };
    (0..sheet.rungs.len()).map(rung).collect()
}

/// A counted number and the noise of counting around it.
pub(super) fn counted(counted: Counted) -> Band {
    let (point, noise) = (counted.amount(), noise_of_one(counted));
    let (low, high) = (point.saturating_sub(noise), point.saturating_add(noise));
    Band { low, point, high, open: false, over: false }
}

/// The band at rung `at` (from 0), or why there is none.
pub(super) fn computed(
    sheet: &Sheet,
    demands: &[Option<RungDemand>],
    (result, at): (&TestResult, usize),
) -> Result<Band, String> {
    let number = at + 1;
    let counts = result.counted.counts();
    let target = sheet.rungs.get(at).copied().flatten();
    match target.map(|target| target.counts) {
        Some(other) if other != counts => {
            let holes: [(&str, &dyn std::fmt::Display); 3] = [
                ("rung", &number),
                ("counts", &counts_words(other)),
                ("tested", &counts_words(counts)),
            ];
            return Err(fill(words::OTHER_COUNT, &holes));
        }
        None => return Err(fill(words::NO_COUNT, &[("rung", &number)])),
        _ => {}
    }
    let compared = compared(demands, (result, at))?;
    match result.counted {
        Counted::Reps(0) | Counted::Seconds(0) => Err(fill(words::NONE_COUNTED, &[])),
        Counted::Reps(reps) if reps > MOST_REPS => {
            Err(fill(words::OVER_RELATIONS, &[("most", &MOST_REPS)]))
        }
        Counted::Reps(reps) => Ok(reps_band(f64::from(reps), &compared)),
        Counted::Seconds(seconds) => Ok(hold_band(f64::from(seconds), &compared)),
    }
}

/// Repetitions on the other rung after `reps` (1 to 30): the middle relation is the point, and the
/// band is meant to hold nine people in ten: the answer of every relation, the doubts of the shares,
/// people's scatter around the relations, and the noise of both counts.
///
/// A person's scatter was measured where a set is turned into a maximum; on a rung nearer to the
/// tested one it counts in proportion to the way there, since at the tested rung itself there is
/// nothing to estimate. That proportion is our own rule.
pub(super) fn reps_band(reps: f64, compared: &Compared) -> Band {
    let ratio = compared.in_reps();
    let [shares, factor] = compared.doubt_in_reps();
    let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
    let (mut lows, mut points, mut highs) = (Vec::new(), Vec::new(), Vec::new());
    for relation in &RELATIONS {
        let Some(multiple) = relation.maximum(reps) else { continue };
        let plain = relation.reps(multiple * ratio).min(ENDLESS);
        (least, most) = (least.min(plain), most.max(plain));
        if relation.votes {
            let way = ((1.0 / ratio - 1.0).abs() / (multiple - 1.0).max(1e-9)).min(1.0);
            let people = NINE_IN_TEN * scatter(reps.max(plain)) * way;
            let doubt = root([shares, factor, people]).min(0.99);
            lows.push(relation.reps(multiple * ratio * (1.0 - doubt)));
            points.push(plain);
            highs.push(relation.reps(multiple * ratio * (1.0 + doubt)).min(ENDLESS));
        }
    }
    let point = middle(points);
    let (low, high) = (least.min(middle(lows)), most.max(middle(highs)));
    let (one, there) = (wander(reps), wander(point));
    let fewer = middle_reps((reps - one).max(1.0), ratio);
    let more = middle_reps(reps + one, ratio);
    let three = [
        (point - root([point - low, point - fewer, there])).max(0.0),
        point,
        point + root([high - point, more - point, there]),
    ];
    band(in_order(three, (reps, one), (ratio, compared.ordered)), MOST_REPS)
}

/// The middle relation's maximum after a count, as a multiple of the weight of the set.
pub(super) fn middle_maximum(reps: f64) -> f64 {
    let voting = RELATIONS.iter().filter(|relation| relation.votes);
    middle(voting.map(|one| one.maximum(reps).unwrap_or(ENDLESS)).collect())
}

/// What the middle relation makes of a count.
fn middle_reps(reps: f64, ratio: f64) -> f64 {
    let voting = RELATIONS.iter().filter(|relation| relation.votes);
    let answers = voting.map(|one| match one.maximum(reps) {
        Some(multiple) => one.reps(multiple * ratio).min(ENDLESS),
        None => ENDLESS,
    });
    middle(answers.collect())
}

/// Independent doubts together: the root of their squares.
fn root(doubts: [f64; 3]) -> f64 {
    let [a, b, c] = doubts;
    (a * a + b * b + c * c).sqrt()
}

/// The middle one of an odd number of numbers.
fn middle(mut numbers: Vec<f64>) -> f64 {
    numbers.sort_by(f64::total_cmp);
    numbers[numbers.len() / 2]
}

/// Which of two rungs asks less is surer than how much less, where one pose or the numbers say it:
/// at a lighter rung nobody does less than was counted, at a heavier one nobody does more, beyond
/// what the noise of two counts, each `one`, can do.
fn in_order(
    [low, point, high]: [f64; 3],
    (counted, one): (f64, f64),
    (ratio, ordered): (f64, bool),
) -> [f64; 3] {
    let noise = root([one, one, 0.0]);
    match () {
        () if ordered && ratio > 1.0 => [low.max(counted - noise), point, high],
        () if ordered && ratio < 1.0 => [low, point, high.min(counted + noise)],
        () => [low, point, high],
    }
}

/// The scatter of people around the relations: flat to ten repetitions, then a straight line to the
/// published one at thirty; the line is our own rule.
fn scatter(reps: f64) -> f64 {
    let most = f64::from(MOST_REPS);
    let beyond = (reps.clamp(CLOSE_REPS, most) - CLOSE_REPS) / (most - CLOSE_REPS);
    CLOSE_SCATTER + (FAR_SCATTER - CLOSE_SCATTER) * beyond
}

/// Seconds on the other rung after `seconds`: with the inverse square of what is carried, and for
/// the band with the inverse powers 1.5 and 2.5 and the noise of both holds. From memory: Frey Law
/// LA, Avin KG. Ergonomics 2010;53(1):109-129, whose joints lie between those powers.
fn hold_band(seconds: f64, compared: &Compared) -> Band {
    let powers = |ratio: f64| [ratio * ratio.sqrt(), ratio * ratio * ratio.sqrt()];
    let ratio = compared.ratio;
    let doubt = compared.doubt.min(0.99);
    let [slow, steep] = powers(ratio * (1.0 - doubt));
    let [slow_high, steep_high] = powers(ratio * (1.0 + doubt));
    let point = seconds * (ratio * ratio);
    let (low, high) = (seconds * slow.min(steep), seconds * slow_high.max(steep_high));
    let noise = hold_wander(point);
    let three = [
        (point - root([point - low, noise, noise])).max(0.0),
        point,
        point + root([high - point, noise, noise]),
    ];
    let one = hold_wander(seconds);
    band(in_order(three, (seconds, one), (ratio, compared.ordered)), MOST_SECONDS)
}

/// Rounds down, to the nearest and up, and cuts at `most`.
fn band([low, point, high]: [f64; 3], most: u32) -> Band {
    let most_f = f64::from(most);
    let cut = |number: f64| number.min(most_f) as u32;
    let (low, point, high) = (settle(low), settle(point), settle(high));
    Band {
        low: cut(low.floor()),
        point: cut(point.round()),
        high: cut(high.ceil()),
        open: high > most_f,
        over: point.round() > most_f,
    }
}

/// What is counted, in words: `12 repetitions`, `30 s`.
pub(super) fn amount_words(counted: Counted) -> String {
    match (counted.counts(), counted.amount()) {
        (Counts::Reps, 1) => words::ONE_REP.1.to_string(),
        (Counts::Reps, n) => fill(words::REPS, &[("n", &n)]),
        (_, n) => fill(words::SECONDS, &[("n", &n)]),
    }
}
