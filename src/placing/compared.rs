//! How two rungs compare by what they carry: their ratio, and how far that may be off.
//! Never takes a doubt that two rungs share for one that each has alone, nor the other way.

use super::across::Across;
use super::demand::{Carried, at_one_instant, carried};
use super::words::{self, fill};
use super::{RungDemand, TestResult};

/// What was carried in a test against what another rung carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Compared {
    /// Carried in the test, as a multiple of what the other rung carries.
    pub ratio: f64,
    /// How far the ratio may be off, as a share of itself.
    pub doubt: f64,
    /// Whether it is sure which of the two asks more.
    pub ordered: bool,
    /// How far the difference shows in repetitions.
    pub across: Across,
}

impl Compared {
    /// The ratio as repetitions feel it.
    pub fn in_reps(&self) -> f64 {
        self.ratio.powf(self.across.factor)
    }

    /// How far that may be off, as a share of itself: the doubts of the shares, and of the factor,
    /// which weighs the more the further two rungs are apart.
    pub fn doubt_in_reps(&self) -> [f64; 2] {
        [self.doubt * self.across.factor, self.ratio.ln().abs() * self.across.band]
    }
}

/// What the test carried against what rung `at` (from 0) carries, or why nobody knows.
pub(super) fn compared(
    demands: &[Option<RungDemand>],
    (result, at): (&TestResult, usize),
) -> Result<Compared, String> {
    let known = |rung: usize| {
        let why = || fill(words::NEEDS_DEMAND, &[("rung", &rung)]);
        let demand = rung.checked_sub(1).and_then(|at| demands.get(at).copied().flatten());
        demand.ok_or_else(why)
    };
    let tested_rung = result.rung as usize;
    let (wanted, tested) = (known(at + 1)?, result.own.map_or_else(|| known(tested_rung), Ok)?);
    if wanted.kind != tested.kind {
        let holes: [(&str, &dyn std::fmt::Display); 2] =
            [("rung", &(at + 1)), ("tested", &tested_rung)];
        return Err(fill(words::OTHER_WORK, &holes));
    }
    let [wanted, tested] = at_one_instant(wanted, tested);
    let weighted = tested.weight_kg + wanted.weight_kg + result.added_kg() != 0.0;
    let body = match (result.body_mass, weighted) {
        (Some(mass), _) => mass.number(),
        // Without weights the body mass cancels.
        (None, false) => 1.0,
        (None, true) => return Err(fill(words::NEEDS_BODY_MASS, &[])),
    };
    let carried = |demand, added, rung: usize| {
        let why = || fill(words::NEEDS_DEMAND, &[("rung", &rung)]);
        carried(demand, body, added).ok_or_else(why)
    };
    let from = carried(tested, result.added_kg(), tested_rung)?;
    let to = carried(wanted, 0.0, at + 1)?;
    let alike = wanted.pose == tested.pose;
    let doubt = doubt_of_ratio(from, to, alike);
    let ratio = from.weight / to.weight;
    let ordered = alike || (ratio - 1.0).abs() > doubt;
    Ok(Compared { ratio, doubt, ordered, across: wanted.across })
}

/// The doubt of a ratio of two weights, each with its own. Two poses err each for itself. One pose
/// at two settings errs alike, but the less the further the settings are apart: what the model gets
/// wrong grows or turns with the height (which way the hand presses). Shared is the doubt's part in
/// doubt and distance together, both in weight; that rule is our own.
fn doubt_of_ratio(from: Carried, to: Carried, alike: bool) -> f64 {
    let band = (from.doubt * from.weight + to.doubt * to.weight) / 2.0;
    let shared = match alike && band > 0.0 {
        true => band / (band + (from.weight - to.weight).abs()),
        false => 0.0,
    };
    let (a, b) = (from.doubt, to.doubt);
    (a * a + b * b - 2.0 * shared * a * b).max(0.0).sqrt()
}

#[cfg(test)]
mod tests {
    use super::super::{Counted, PUBLISHED, Share};
    use super::*;

    fn of_ratio(from: (f64, f64), to: (f64, f64), alike: bool) -> f64 {
        let carried = |(weight, band): (f64, f64)| Carried { weight, doubt: band / weight };
        doubt_of_ratio(carried(from), carried(to), alike)
    }

    /// By hand: 0.05 / 0.50 and 0.05 / 0.40 apart; shared 0.05 / (0.05 + 0.10) = a third of one pose.
    #[test]
    fn two_poses_err_apart_and_one_pose_errs_partly_alike() {
        let (a, b): (f64, f64) = (0.1, 0.125);
        let apart = of_ratio((0.5, 0.05), (0.4, 0.05), false);
        assert!((apart - a.hypot(b)).abs() < 1e-12, "{apart}");
        let alike = of_ratio((0.5, 0.05), (0.4, 0.05), true);
        let by_hand = (a * a + b * b - 2.0 * a * b / 3.0).sqrt();
        assert!((alike - by_hand).abs() < 1e-12, "{alike}");
        assert_eq!(of_ratio((0.5, 0.05), (0.5, 0.05), true), 0.0, "the same setting");
        assert_eq!(of_ratio((0.5, 0.0), (0.4, 0.0), true), 0.0, "no doubt, none in the ratio");
    }

    /// By hand: 12 on 36 points straight and 59 at the bottom, the other 67 and 78.
    #[test]
    fn two_rungs_compare_where_a_set_ends_or_else_with_the_arms_straight() {
        let end = |share| Some(Share { share, band: 0.01 });
        let of = |share, end| {
            let (weight_kg, kind, pose, in_mass) = (0.0, 0, 0, true);
            Some(RungDemand {
                share,
                band: 0.01,
                end,
                weight_kg,
                kind,
                pose,
                in_mass,
                across: PUBLISHED,
            })
        };
        let (counted, body_mass, added, own) = (Counted::Reps(12), None, None, None);
        let result = TestResult { rung: 1, counted, body_mass, added, own };
        let ratio = |one, other| compared(&[one, other], (&result, 1)).map(|known| known.ratio);
        let both = ratio(of(0.36, end(0.59)), of(0.67, end(0.78)));
        assert!((both.expect("known") - 0.59 / 0.78).abs() < 1e-12);
        let first_alone = ratio(of(0.36, end(0.59)), of(0.67, None));
        assert!((first_alone.expect("known") - 0.36 / 0.67).abs() < 1e-12);
        let second_alone = ratio(of(0.36, None), of(0.67, end(0.78)));
        assert!((second_alone.expect("known") - 0.36 / 0.67).abs() < 1e-12);
    }

    /// An error that grows with the height is never cancelled by its own growth.
    #[test]
    fn doubts_of_the_same_share_of_themselves_do_not_cancel() {
        assert!(of_ratio((0.2, 0.1), (0.4, 0.2), true) > 0.3);
    }
}
