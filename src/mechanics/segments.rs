//! Segment tables: how much of a person each part is, and where its centre of mass lies.
//! Three published tables, copied to the printed digit; nothing here is fitted.
//! The three are alike in shape alone: no number of one is reckoned from another's, and each stands
//! whole, to be held against its printed page.

use serde::{Deserialize, Serialize};

/// A segment's share of body mass (one side, for limbs) and its centre of mass as a fraction of
/// its length from the proximal joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// Fraction of body mass.
    pub mass: f64,
    /// Fraction of segment length from the proximal end (trunk: from the hip).
    pub centre: f64,
}

const fn seg(mass: f64, centre: f64) -> Segment {
    Segment { mass, centre }
}

/// Which published table to compute with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Table {
    /// Winter 2009, table 4.1, after Dempster 1955. The default.
    Winter,
    /// de Leva 1996, table 4, women.
    DeLevaWomen,
    /// de Leva 1996, table 4, men.
    DeLevaMen,
}

impl Table {
    /// Every table, the default first.
    pub const ALL: [Table; 3] = [Table::Winter, Table::DeLevaWomen, Table::DeLevaMen];

    /// The name shown beside a number.
    pub fn name(self) -> &'static str {
        match self {
            Table::Winter => "Winter 2009 (Dempster)",
            Table::DeLevaWomen => "de Leva 1996, women",
            Table::DeLevaMen => "de Leva 1996, men",
        }
    }

    /// The numbers.
    pub fn segments(self) -> &'static Segments {
        match self {
            Table::Winter => &WINTER,
            Table::DeLevaWomen => &DE_LEVA_WOMEN,
            Table::DeLevaMen => &DE_LEVA_MEN,
        }
    }
}

/// One table's eight segments; limbs are for one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segments {
    /// Ankle to ball of the foot.
    pub foot: Segment,
    /// Knee to ankle.
    pub shank: Segment,
    /// Hip to knee.
    pub thigh: Segment,
    /// Hip to shoulder line.
    pub trunk: Segment,
    /// Head and neck.
    pub head: Segment,
    /// Shoulder to elbow.
    pub upper_arm: Segment,
    /// Elbow to wrist.
    pub forearm: Segment,
    /// The hand.
    pub hand: Segment,
    /// How the trunk's mass splits into pelvis, waist and chest, as printed (fractions of body
    /// mass; they sum to the trunk).
    pub trunk_parts: [f64; 3],
}

impl Segments {
    /// The sum of all segments: 1 within the tables' rounding.
    pub fn total(&self) -> f64 {
        let limbs = self.foot.mass
            + self.shank.mass
            + self.thigh.mass
            + self.upper_arm.mass
            + self.forearm.mass
            + self.hand.mass;
        self.trunk.mass + self.head.mass + 2.0 * limbs
    }

    /// One lower leg with its foot.
    pub fn lower_leg(&self) -> f64 {
        self.shank.mass + self.foot.mass
    }

    /// One forearm with its hand.
    pub fn lower_arm(&self) -> f64 {
        self.forearm.mass + self.hand.mass
    }

    /// Where the three trunk parts' centres lie, as fractions from hip to shoulder line of a
    /// straight trunk. Pelvis and waist stand at the middle of their thirds; the chest is placed
    /// so that the straight trunk keeps the table's own centre of mass.
    pub fn trunk_centres(&self) -> [f64; 3] {
        let [pelvis, waist, chest] = self.trunk_parts;
        let (low, middle) = (1.0 / 6.0, 0.5);
        let high = (self.trunk.mass * self.trunk.centre - pelvis * low - waist * middle) / chest;
        [low, middle, high]
    }
}

/// Winter DA, Biomechanics and Motor Control of Human Movement, 4th ed., Wiley 2009, table 4.1.
const WINTER: Segments = Segments {
    foot: seg(0.0145, 0.500),
    shank: seg(0.0465, 0.433),
    thigh: seg(0.100, 0.433),
    trunk: seg(0.497, 0.500),
    head: seg(0.081, 1.000),
    upper_arm: seg(0.028, 0.436),
    forearm: seg(0.016, 0.430),
    hand: seg(0.006, 0.506),
    trunk_parts: [0.142, 0.139, 0.216],
};

/// de Leva P, J Biomech 1996;29(9):1223-1230, table 4, women. Trunk: MIDS-MIDH (37.82 % from the
/// shoulders, so 1 - 0.3782 from the hip); shank KJC-AJC; forearm EJC-WJC; hand WJC-MET3.
const DE_LEVA_WOMEN: Segments = Segments {
    foot: seg(0.0129, 0.4014),
    shank: seg(0.0481, 0.4352),
    thigh: seg(0.1478, 0.3612),
    trunk: seg(0.4257, 1.0 - 0.3782),
    head: seg(0.0668, 1.000),
    upper_arm: seg(0.0255, 0.5754),
    forearm: seg(0.0138, 0.4559),
    hand: seg(0.0056, 0.7474),
    trunk_parts: [0.1247, 0.1465, 0.1545],
};

/// de Leva P, as above, men. Trunk: MIDS-MIDH, 43.10 % from the shoulders.
const DE_LEVA_MEN: Segments = Segments {
    foot: seg(0.0137, 0.4415),
    shank: seg(0.0433, 0.4395),
    thigh: seg(0.1416, 0.4095),
    trunk: seg(0.4346, 1.0 - 0.4310),
    head: seg(0.0694, 1.000),
    upper_arm: seg(0.0271, 0.5772),
    forearm: seg(0.0162, 0.4574),
    hand: seg(0.0061, 0.7900),
    trunk_parts: [0.1117, 0.1633, 0.1596],
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn masses_sum_to_one() {
        for table in Table::ALL {
            let total = table.segments().total();
            assert!((total - 1.0).abs() <= 0.0002 + 1e-9, "{}: {total}", table.name());
        }
    }

    #[test]
    fn trunk_parts_sum_to_the_trunk() {
        for table in Table::ALL {
            let s = table.segments();
            assert!((s.trunk_parts.iter().sum::<f64>() - s.trunk.mass).abs() < 1e-9);
        }
    }
}
