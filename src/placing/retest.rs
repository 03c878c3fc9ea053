//! Whether a retest shows a real change or the noise of the test.
//! Never compares two different tests without saying what differs.

use super::noise::noise;
use super::predict::{Band, amount_words, computed};
use super::words::{self, Words, fill};
use super::{Counted, RungDemand, Sheet, TestResult};
use serde::Serialize;
use std::fmt::Display;

/// What a retest says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// More than the noise.
    LikelyReal,
    /// Not more than the noise.
    WithinNoise,
    /// Another test than the first, and outside what the first predicts: a change, or an estimate
    /// that is off for this person.
    BeyondEstimate,
    /// The two cannot be compared.
    NotTheSameTest,
}

/// A change with its sentence and the rule behind it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Change {
    /// The verdict.
    pub verdict: Verdict,
    /// The sentence; names what differs.
    pub say: String,
    /// The rule and its source.
    pub rule: Option<String>,
}

/// Compares two tests on one ladder. Tests that differ in rung or added weight are converted where
/// both demands are known, and that is said.
pub fn compare(
    sheet: &Sheet,
    demands: &[Option<RungDemand>],
    (first, second): (&TestResult, &TestResult),
) -> Change {
    let differs = differences(first, second);
    if differs.is_empty() {
        return same_test(first.counted, second.counted);
    }
    let differs = differs.join("; ");
    // An added weight in the second test would need a rung of its own to be converted to.
    let convertible = second.added_kg() == 0.0 && first.counted.counts() == second.counted.counts();
    let at = (second.rung as usize).checked_sub(1).filter(|_| convertible);
    let (first, demands) = each_as_done(demands, (first, second));
    match at.and_then(|at| computed(sheet, &demands, (&first, at)).ok()) {
        Some(expected) => converted(expected, second.counted, &differs),
        _ => told(Verdict::NotTheSameTest, words::NOT_SAME, &[("differs", &differs)], None),
    }
}

/// The first test with what it carried, and the demands with what the second carried on its rung.
pub(super) fn each_as_done(
    demands: &[Option<RungDemand>],
    (first, second): (&TestResult, &TestResult),
) -> (TestResult, Vec<Option<RungDemand>>) {
    let at = |rung: u32| (rung as usize).checked_sub(1);
    let written = at(first.rung).and_then(|at| demands.get(at).copied().flatten());
    let mut demands = demands.to_vec();
    if let Some(place) = at(second.rung).and_then(|at| demands.get_mut(at)) {
        *place = second.own.or(*place);
    }
    (TestResult { own: first.own.or(written), ..*first }, demands)
}

fn same_test(first: Counted, second: Counted) -> Change {
    let noise = noise(first, second);
    let real = first.amount().abs_diff(second.amount()) > noise;
    let (verdict, sentence) = match real {
        true => (Verdict::LikelyReal, words::REAL),
        false => (Verdict::WithinNoise, words::NOISE),
    };
    let rule = match first {
        Counted::Reps(_) => words::RULE_REPS,
        Counted::Seconds(_) => words::RULE_HOLD,
    };
    let (first, second) = (amount_words(first), amount_words(second));
    told(
        verdict,
        sentence,
        &[("first", &first), ("second", &second), ("noise", &noise)],
        Some(rule),
    )
}

/// Whether the second count lies in the band of the estimate, which has the noise of both counts.
fn converted(expected: Band, second: Counted, differs: &str) -> Change {
    let Band { low, high, open, .. } = expected;
    let amount = second.amount();
    let beyond = amount < low || (amount > high && !open);
    let (verdict, sentence) = match beyond {
        true => (Verdict::BeyondEstimate, words::BEYOND_ESTIMATE),
        false => (Verdict::WithinNoise, words::NOISE_CONVERTED),
    };
    let second = amount_words(second);
    let more = if open { words::OR_MORE.1 } else { "" };
    let holes: [(&str, &dyn Display); 5] = [
        ("differs", &differs),
        ("low", &low),
        ("high", &high),
        ("more", &more),
        ("second", &second),
    ];
    told(verdict, sentence, &holes, Some(words::RULE_CONVERTED))
}

fn differences(first: &TestResult, second: &TestResult) -> Vec<String> {
    let mut differs = Vec::new();
    if first.rung != second.rung {
        let holes: [(&str, &dyn Display); 2] = [("first", &first.rung), ("second", &second.rung)];
        differs.push(fill(words::DIFFERS_RUNG, &holes));
    }
    if first.own != second.own {
        differs.push(fill(words::DIFFERS_OWN, &[]));
    }
    if first.counted.counts() != second.counted.counts() {
        let (first, second) = (amount_words(first.counted), amount_words(second.counted));
        differs.push(fill(words::DIFFERS_COUNT, &[("first", &first), ("second", &second)]));
    }
    if first.added_kg() != second.added_kg() {
        let (first, second) = (first.added_kg(), second.added_kg());
        differs.push(fill(words::DIFFERS_ADDED, &[("first", &first), ("second", &second)]));
    }
    differs
}

fn told(
    verdict: Verdict,
    sentence: Words,
    holes: &[(&str, &dyn Display)],
    rule: Option<Words>,
) -> Change {
    let rule = rule.map(|rule| rule.1.to_string());
    Change { verdict, say: fill(sentence, holes), rule }
}
