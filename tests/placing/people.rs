//! Random people on random ladders, the same ones every time.

use super::{dose, kg};
use rungbook::library::Counts;
use rungbook::placing::{
    Across, Counted, PUBLISHED, RungDemand, Share, Sheet, Target, TestResult, UpRule,
};

/// A person: a ladder, its demands, a test and a retest.
pub struct Person {
    pub sheet: Sheet,
    pub demands: Vec<Option<RungDemand>>,
    pub test: TestResult,
    pub retest: TestResult,
}

/// Marsaglia's xorshift (J Stat Softw 2003;8(14)): enough chance for a test, and no clock.
pub struct Chance(pub u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// A whole number from `from` to `to`, both included.
    pub fn whole(&mut self, from: u32, to: u32) -> u32 {
        from + (self.next() % u64::from(to - from + 1)) as u32
    }

    /// A number from `from` to `to` with all its digits.
    pub fn number(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    pub fn one_in(&mut self, many: u32) -> bool {
        self.whole(1, many) == 1
    }

    pub fn person(&mut self) -> Person {
        let holds = self.one_in(4);
        let rungs = self.whole(1, 9);
        let sheet =
            Sheet { up: self.rule(), rungs: (0..rungs).map(|_| self.dose(holds)).collect() };
        let known = self.one_in(2);
        let demands = sheet.rungs.iter().map(|_| self.demand(known)).collect();
        let test = self.result(rungs, holds);
        let retest = if self.one_in(2) {
            self.result(rungs, holds)
        } else {
            let counted = self.result(rungs, holds).counted;
            TestResult { counted, ..test }
        };
        Person { sheet, demands, test, retest }
    }

    fn rule(&mut self) -> Option<UpRule> {
        let words = [
            "Two extra repetitions in the last set, two sessions running",
            "The top of the dose in every set",
            "When the coach nods",
        ];
        (!self.one_in(8)).then(|| UpRule::read(words[self.whole(0, 2) as usize]))
    }

    fn dose(&mut self, holds: bool) -> Option<Target> {
        if self.one_in(12) {
            return None;
        }
        let other = self.one_in(10);
        let counts = match (holds, other) {
            (false, false) => Counts::Reps,
            (false, true) => Counts::Metres,
            (true, false) => Counts::Seconds,
            (true, true) => Counts::Reps,
        };
        let from = self.whole(1, 20);
        let sets = (!self.one_in(5)).then(|| [3, self.whole(3, 4)]);
        Some(Target {
            sets,
            each_side: self.one_in(3),
            ..dose(counts, from, from + self.whole(0, 9))
        })
    }

    fn demand(&mut self, known: bool) -> Option<RungDemand> {
        let weight_kg = if self.one_in(6) { self.number(0.0, 20.0) } else { 0.0 };
        let (share, band) = (self.number(0.2, 1.0), self.number(0.0, 0.06));
        let (kind, in_mass) = (u32::from(self.one_in(8)), !self.one_in(8));
        let pose = self.whole(0, 2);
        let across = if self.one_in(3) {
            Across { factor: self.number(0.3, 1.5), band: self.number(0.05, 0.5), own: true }
        } else {
            PUBLISHED
        };
        let (at_end, around) = (self.number(0.3, 1.1), self.number(0.0, 0.06));
        let end = (!self.one_in(4)).then_some(Share { share: at_end, band: around });
        let demand = RungDemand { share, band, end, weight_kg, kind, pose, in_mass, across };
        (known || self.one_in(2)).then_some(demand)
    }

    fn result(&mut self, rungs: u32, holds: bool) -> TestResult {
        let counted = match holds {
            true => Counted::Seconds(self.whole(0, 150)),
            false if self.one_in(30) => Counted::Reps(900),
            false => Counted::Reps(self.whole(0, 34)),
        };
        let body_mass =
            if self.one_in(2) { kg(f64::from(self.whole(400, 1200)) / 10.0) } else { None };
        let added = if self.one_in(4) { kg(f64::from(self.whole(0, 80)) / 4.0) } else { None };
        let own = if self.one_in(5) { self.demand(true) } else { None };
        TestResult { rung: self.whole(1, rungs), counted, body_mass, added, own }
    }
}
