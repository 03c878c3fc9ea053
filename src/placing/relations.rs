//! Published relations between repetitions to the limit and the heaviest single repetition.
//! Never averages over people: each relation answers for itself, and `predict` shows the spread.

use serde::Serialize;

/// How a relation computes the maximum, as a multiple of the weight of the set.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Form {
    /// 1 + r / per.
    Line { per: f64 },
    /// top / (base - slope r).
    Fraction { top: f64, base: f64, slope: f64 },
    /// r to the power of `exponent`.
    Power { exponent: f64 },
    /// 100 / (base + range e^(-rate r)).
    Decay { base: f64, range: f64, rate: f64 },
}

/// A published relation.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Relation {
    /// The name it goes by in the trade.
    pub name: &'static str,
    /// How it computes.
    pub form: Form,
    /// Whether it has a vote on the point; a rounded copy widens the band at most.
    pub votes: bool,
    /// Where it was published.
    pub source: &'static str,
}

const BRZYCKI: &str = "Brzycki M. JOPERD 1993;64(1):88-90, \
    doi 10.1080/07303084.1993.10606684";

/// Every relation used.
pub const RELATIONS: [Relation; 8] = [
    relation(
        "Epley",
        Form::Line { per: 30.0 },
        "Epley B. Poundage chart. Boyd Epley Workout. 1985, p 86",
    ),
    relation("Brzycki", Form::Fraction { top: 36.0, base: 37.0, slope: 1.0 }, BRZYCKI),
    Relation {
        name: "Brzycki (decimal)",
        form: Form::Fraction { top: 1.0, base: 1.0278, slope: 0.0278 },
        votes: false,
        source: BRZYCKI,
    },
    relation(
        "Lander",
        Form::Fraction { top: 100.0, base: 101.3, slope: 2.67123 },
        "Lander J. NSCA J 1984/1985;6(6):60-61",
    ),
    relation(
        "Lombardi",
        Form::Power { exponent: 0.1 },
        "Lombardi VP. Beginning Weight Training. Brown 1989",
    ),
    relation(
        "O'Conner",
        Form::Line { per: 40.0 },
        "O'Conner B, Simmons J, O'Shea P. Weight Training Today. West 1989",
    ),
    relation(
        "Mayhew",
        Form::Decay { base: 52.2, range: 41.9, rate: 0.055 },
        "Mayhew JL et al. J Appl Sport Sci Res 1992;6(4):200-206",
    ),
    relation(
        "Wathan",
        Form::Decay { base: 48.8, range: 53.8, rate: 0.075 },
        "Wathan D. In: Essentials of Strength Training and Conditioning. 1994:435-446",
    ),
];

const fn relation(name: &'static str, form: Form, source: &'static str) -> Relation {
    Relation { name, form, votes: true, source }
}

impl Relation {
    /// The maximum after `reps` repetitions to the limit, as a multiple of the weight of the set;
    /// `None` where the relation has run out (Brzycki from 37 repetitions on).
    ///
    /// At one repetition most relations do not return 1: only Brzycki as a fraction and Lombardi do.
    pub fn maximum(&self, reps: f64) -> Option<f64> {
        let multiple = match self.form {
            Form::Line { per } => 1.0 + reps / per,
            Form::Fraction { top, base, slope } => top / (base - slope * reps),
            Form::Power { exponent } => reps.powf(exponent),
            Form::Decay { base, range, rate } => 100.0 / (base + range * (-rate * reps).exp()),
        };
        (multiple > 0.0 && multiple.is_finite()).then_some(multiple)
    }

    /// The repetitions at which the maximum is `multiple` times the weight: 0 where the weight is
    /// above the maximum, infinite where the relation sees no end to them.
    pub fn reps(&self, multiple: f64) -> f64 {
        let reps = match self.form {
            Form::Line { per } => (multiple - 1.0) * per,
            Form::Fraction { top, base, slope } => (base - top / multiple) / slope,
            Form::Power { exponent } => multiple.powf(1.0 / exponent),
            Form::Decay { base, range, rate } => {
                let left = (100.0 / multiple - base) / range;
                if left > 0.0 { -left.ln() / rate } else { f64::INFINITY }
            }
        };
        reps.max(0.0)
    }
}

/// The training chart of the NSCA: repetitions and per cent of the maximum. Its printings disagree
/// at twelve (70 or 67), so that row is left out. Haff GG, Triplett NT (eds). Essentials of Strength
/// Training and Conditioning, 4th ed.
pub const CHART: [(u32, u32); 12] = [
    (1, 100),
    (2, 95),
    (3, 93),
    (4, 90),
    (5, 87),
    (6, 85),
    (7, 83),
    (8, 80),
    (9, 77),
    (10, 75),
    (11, 70),
    (15, 65),
];

/// Per cent of the maximum at `reps` repetitions by the NSCA chart, where it has a row.
pub fn chart_percent(reps: u32) -> Option<u32> {
    CHART.iter().find(|(row, _)| *row == reps).map(|(_, percent)| *percent)
}
