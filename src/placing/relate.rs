//! Relate: what a club's own results say about repetitions across rungs.
//! Never from fewer than ten pairs of five people, never unshrunk, and never judged on the people it
//! was fitted to.
//!
//! A pair is one person on two rungs that compare. With the middle relation M, published for weights,
//! M(second) = M(first) * ratio^factor; the factor is a line through nothing in the two logarithms.

use super::across::{Across, PUBLISHED};
use super::compared::{Compared, compared};
use super::predict::{Band, MOST_REPS, NINE_IN_TEN, middle_maximum, reps_band};
use super::retest::each_as_done;
use super::{Counted, RungDemand, TestResult};
use std::collections::BTreeMap;

/// Fewer pairs say nothing: common practice, no source.
pub const FEWEST_PAIRS: usize = 10;
/// Fewer people are those people, not a club: common practice, no source.
pub const FEWEST_PEOPLE: usize = 5;
/// Two rungs nearer than this, as a ratio's logarithm, tell noise apart and nothing else; own rule.
const TOO_NEAR: f64 = 0.05;
/// However well pairs agree, a count is no surer than a repetition in ten to the middle relation; own
/// rule.
const LEAST_SCATTER: f64 = 0.03;
/// The factors that a club file takes.
pub const FACTORS: (f64, f64) = (0.1, 2.0);
/// The doubts that it takes.
pub const DOUBTS: (f64, f64) = (0.05, 1.0);

/// One person on two rungs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// Whose, by a number.
    pub person: usize,
    first: u32,
    second: u32,
    compared: Compared,
}

impl Pair {
    /// The logarithms of the ratio and of what the middle relation makes of the two counts.
    fn logarithms(&self) -> (f64, f64) {
        let [first, second] =
            [self.first, self.second].map(|reps| middle_maximum(f64::from(reps)).ln());
        (self.compared.ratio.ln(), second - first)
    }

    fn predicted(&self, across: Across) -> Band {
        reps_band(f64::from(self.first), &Compared { across, ..self.compared })
    }
}

/// How predictions compare with what was counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Off {
    /// Repetitions between what was predicted and counted, on average.
    pub reps: f64,
    /// Pairs whose second count lies inside the band.
    pub inside: usize,
}

/// What a club's results say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Related {
    /// The factor, drawn toward what was published, and its doubt.
    pub across: Across,
    /// How many pairs and people.
    pub pairs: usize,
    /// How many people.
    pub people: usize,
    /// With the published factor.
    pub before: Off,
    /// With the club's, each person predicted from the others alone.
    pub after: Off,
}

/// Too little to say anything: how many pairs and people there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TooFew {
    /// Pairs.
    pub pairs: usize,
    /// People.
    pub people: usize,
}

/// Two results of one person as a pair; nothing where they do not compare, where a count says little
/// about strength, or where the rungs are too near.
pub fn pair(
    person: usize,
    demands: &[Option<RungDemand>],
    (first, second): (&TestResult, &TestResult),
) -> Option<Pair> {
    let reps = |result: &TestResult| match result.counted {
        Counted::Reps(reps) if (1..=MOST_REPS).contains(&reps) => Some(reps),
        _ => None,
    };
    let (from, to) = (reps(first)?, reps(second)?);
    let at = (second.rung as usize).checked_sub(1).filter(|_| second.added_kg() == 0.0)?;
    let (first, demands) = each_as_done(demands, (first, second));
    let compared = compared(&demands, (&first, at)).ok()?;
    let far = compared.ratio.ln().abs() >= TOO_NEAR;
    far.then_some(Pair { person, first: from, second: to, compared })
}

/// The club's factor from its pairs.
///
/// # Errors
/// Where there are too few.
pub fn relate(pairs: &[Pair]) -> Result<Related, TooFew> {
    let mut people: Vec<usize> = pairs.iter().map(|pair| pair.person).collect();
    people.sort_unstable();
    people.dedup();
    if pairs.len() < FEWEST_PAIRS || people.len() < FEWEST_PEOPLE {
        return Err(TooFew { pairs: pairs.len(), people: people.len() });
    }
    let fitted = |left_out: Option<usize>| {
        let kept = pairs.iter().filter(|pair| Some(pair.person) != left_out);
        let points: Vec<(usize, f64, f64)> =
            kept.map(|pair| (pair.person, pair.logarithms().0, pair.logarithms().1)).collect();
        fit(&points)
    };
    let others: BTreeMap<usize, Across> =
        people.iter().map(|person| (*person, fitted(Some(*person)))).collect();
    let of_others = |pair: &Pair| others.get(&pair.person).copied().unwrap_or(PUBLISHED);
    Ok(Related {
        across: fitted(None),
        pairs: pairs.len(),
        people: people.len(),
        before: off(pairs, |_| PUBLISHED),
        after: off(pairs, of_others),
    })
}

fn off(pairs: &[Pair], across: impl Fn(&Pair) -> Across) -> Off {
    let bands: Vec<(u32, Band)> =
        pairs.iter().map(|pair| (pair.second, pair.predicted(across(pair)))).collect();
    let misses = bands.iter().map(|(second, band)| f64::from(band.point.abs_diff(*second)));
    let holds =
        |(second, band): &&(u32, Band)| band.low <= *second && (*second <= band.high || band.open);
    Off {
        reps: misses.sum::<f64>() / bands.len() as f64,
        inside: bands.iter().filter(holds).count(),
    }
}

/// The slope of a line through nothing, of points with whose they are; drawn toward 1 by what is
/// thought of the factor before anything is known (a normal of [`PUBLISHED`]'s doubt), and its doubt
/// for nine clubs in ten. Pairs of one person lean the same way: their errors are summed before they
/// are squared, and the larger of the two doubts counts.
pub fn fit(points: &[(usize, f64, f64)]) -> Across {
    let sum = |of: fn(&(usize, f64, f64)) -> f64| points.iter().map(of).sum::<f64>();
    let (xx, xy) = (sum(|(_, x, _)| x * x), sum(|(_, x, y)| x * y));
    let plain = xy / xx;
    let squares = points.iter().map(|(_, x, y)| (y - plain * x).powi(2)).sum::<f64>();
    let scatter = (squares / (points.len() as f64 - 1.0)).sqrt().max(LEAST_SCATTER);
    let before = PUBLISHED.band / NINE_IN_TEN;
    let pull = (scatter / before).powi(2);
    let factor = (pull * PUBLISHED.factor + xy) / (pull + xx);
    let mut people: BTreeMap<usize, f64> = BTreeMap::new();
    for (person, x, y) in points {
        *people.entry(*person).or_default() += x * (y - factor * x);
    }
    let many = people.len() as f64;
    let by_people = people.values().map(|error| error * error).sum::<f64>() * many / (many - 1.0);
    let variance = (scatter * scatter / (pull + xx)).max(by_people / (pull + xx).powi(2));
    let hundredths = |number: f64| (100.0 * number).round() / 100.0;
    Across {
        factor: hundredths(factor).clamp(FACTORS.0, FACTORS.1),
        band: hundredths(NINE_IN_TEN * variance.sqrt()).clamp(DOUBTS.0, DOUBTS.1),
        own: true,
    }
}
