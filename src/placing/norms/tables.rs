//! The numbers of the published tables, with their protocols.
//! Never interpolates between age spans or beyond the last.

use super::Edges::{self, MiddleHalf, Steps};
use super::NormTest::{self, ChairStand, CurlUp, ForearmPlank, PushUp, SitToStand};
use super::Sex::{self, Female, Male};
use super::{Protocol, Row};

/// How each test is run, and where its table comes from.
pub const PROTOCOLS: &[Protocol] = &[
    Protocol {
        test: PushUp,
        how: "Men on the toes, women on the knees. Elbows to a right angle and straight again, no \
            time limit and no beat; the count ends when two running miss the standard.",
        source: "CSEP, as printed in ACSM's Guidelines for Exercise Testing and Prescription",
        from_memory: false,
    },
    Protocol {
        test: ChairStand,
        how: "Arms crossed, from sitting to a full stand and back, as often as possible in 30 s.",
        source: "Rikli RE, Jones CJ. J Aging Phys Act 1999;7:162-181; the lower edge also CDC STEADI",
        from_memory: false,
    },
    Protocol {
        test: SitToStand,
        how: "From sitting to a full stand and back without the hands, as often as possible in one \
            minute.",
        source: "Strassmann A et al. Int J Public Health 2013;58(6):949-953, \
            doi 10.1007/s00038-013-0504-z",
        from_memory: false,
    },
    Protocol {
        test: ForearmPlank,
        how: "On forearms and toes, one line from shoulders to heels, until the line is lost.",
        source: "Brigham CE, Chase KA. Student symposium 2014, 168 people of 18 to 25",
        from_memory: false,
    },
    Protocol {
        test: CurlUp,
        how: "Partial curl-ups to a beat of 25 a minute, 25 at most.",
        source: "CSEP, as printed in ACSM's Guidelines for Exercise Testing and Prescription",
        from_memory: true,
    },
];

/// Every row.
pub const ROWS: &[Row] = &[
    row(
        PushUp,
        Male,
        [15, 19],
        Steps(&[(18, "Fair"), (23, "Good"), (29, "Very good"), (39, "Excellent")]),
    ),
    row(
        PushUp,
        Male,
        [20, 29],
        Steps(&[(17, "Fair"), (22, "Good"), (29, "Very good"), (36, "Excellent")]),
    ),
    row(
        PushUp,
        Male,
        [30, 39],
        Steps(&[(12, "Fair"), (17, "Good"), (22, "Very good"), (30, "Excellent")]),
    ),
    // The printed sheets disagree on where "Excellent" begins (22 or 25), so it is not told apart.
    row(
        PushUp,
        Male,
        [40, 49],
        Steps(&[(10, "Fair"), (13, "Good"), (17, "Very good"), (22, "Very good or better")]),
    ),
    row(
        PushUp,
        Male,
        [50, 59],
        Steps(&[(7, "Fair"), (10, "Good"), (13, "Very good"), (21, "Excellent")]),
    ),
    row(
        PushUp,
        Male,
        [60, 69],
        Steps(&[(5, "Fair"), (8, "Good"), (11, "Very good"), (18, "Excellent")]),
    ),
    row(
        PushUp,
        Female,
        [15, 19],
        Steps(&[(12, "Fair"), (18, "Good"), (25, "Very good"), (33, "Excellent")]),
    ),
    row(
        PushUp,
        Female,
        [20, 29],
        Steps(&[(10, "Fair"), (15, "Good"), (21, "Very good"), (30, "Excellent")]),
    ),
    row(
        PushUp,
        Female,
        [30, 39],
        Steps(&[(8, "Fair"), (13, "Good"), (20, "Very good"), (27, "Excellent")]),
    ),
    row(
        PushUp,
        Female,
        [40, 49],
        Steps(&[(5, "Fair"), (11, "Good"), (15, "Very good"), (24, "Excellent")]),
    ),
    row(
        PushUp,
        Female,
        [50, 59],
        Steps(&[(2, "Fair"), (7, "Good"), (11, "Very good"), (21, "Excellent")]),
    ),
    row(
        PushUp,
        Female,
        [60, 69],
        Steps(&[(2, "Fair"), (5, "Good"), (12, "Very good"), (17, "Excellent")]),
    ),
    row(ChairStand, Male, [60, 64], MiddleHalf([14.0, 19.0])),
    row(ChairStand, Female, [60, 64], MiddleHalf([12.0, 17.0])),
    row(ChairStand, Male, [65, 69], MiddleHalf([12.0, 18.0])),
    row(ChairStand, Female, [65, 69], MiddleHalf([11.0, 16.0])),
    row(ChairStand, Male, [70, 74], MiddleHalf([12.0, 17.0])),
    row(ChairStand, Female, [70, 74], MiddleHalf([10.0, 15.0])),
    row(ChairStand, Male, [75, 79], MiddleHalf([11.0, 17.0])),
    row(ChairStand, Female, [75, 79], MiddleHalf([10.0, 15.0])),
    row(ChairStand, Male, [80, 84], MiddleHalf([10.0, 15.0])),
    row(ChairStand, Female, [80, 84], MiddleHalf([9.0, 14.0])),
    row(ChairStand, Male, [85, 89], MiddleHalf([8.0, 14.0])),
    row(ChairStand, Female, [85, 89], MiddleHalf([8.0, 13.0])),
    row(ChairStand, Male, [90, 94], MiddleHalf([7.0, 12.0])),
    row(ChairStand, Female, [90, 94], MiddleHalf([4.0, 11.0])),
    row(SitToStand, Male, [20, 24], MiddleHalf([41.0, 57.0])),
    row(SitToStand, Female, [20, 24], MiddleHalf([39.0, 55.0])),
    row(SitToStand, Male, [75, 79], MiddleHalf([25.0, 37.0])),
    row(SitToStand, Female, [75, 79], MiddleHalf([22.0, 30.0])),
    row(ForearmPlank, Male, [18, 25], MiddleHalf([77.0, 128.5])),
    row(ForearmPlank, Female, [18, 25], MiddleHalf([63.0, 121.0])),
    // From memory.
    row(
        CurlUp,
        Male,
        [20, 29],
        Steps(&[(11, "Fair"), (16, "Good"), (21, "Very good"), (25, "Excellent")]),
    ),
    row(
        CurlUp,
        Male,
        [30, 39],
        Steps(&[(11, "Fair"), (15, "Good"), (18, "Very good"), (25, "Excellent")]),
    ),
    row(
        CurlUp,
        Male,
        [40, 49],
        Steps(&[(6, "Fair"), (13, "Good"), (18, "Very good"), (25, "Excellent")]),
    ),
    row(
        CurlUp,
        Male,
        [50, 59],
        Steps(&[(8, "Fair"), (11, "Good"), (17, "Very good"), (25, "Excellent")]),
    ),
    row(
        CurlUp,
        Male,
        [60, 69],
        Steps(&[(6, "Fair"), (11, "Good"), (16, "Very good"), (25, "Excellent")]),
    ),
    row(
        CurlUp,
        Female,
        [20, 29],
        Steps(&[(5, "Fair"), (14, "Good"), (18, "Very good"), (25, "Excellent")]),
    ),
    row(
        CurlUp,
        Female,
        [30, 39],
        Steps(&[(6, "Fair"), (10, "Good"), (19, "Very good"), (25, "Excellent")]),
    ),
    row(
        CurlUp,
        Female,
        [40, 49],
        Steps(&[(4, "Fair"), (11, "Good"), (19, "Very good"), (25, "Excellent")]),
    ),
    row(
        CurlUp,
        Female,
        [50, 59],
        Steps(&[(6, "Fair"), (10, "Good"), (19, "Very good"), (25, "Excellent")]),
    ),
    row(
        CurlUp,
        Female,
        [60, 69],
        Steps(&[(3, "Fair"), (8, "Good"), (17, "Very good"), (25, "Excellent")]),
    ),
];

const fn row(test: NormTest, sex: Sex, ages: [u32; 2], edges: Edges) -> Row {
    Row { test, sex, ages, edges }
}
