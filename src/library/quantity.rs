//! Quantities with units: `75 cm`, `45 deg`, `16 kg`, `90 s`; metric and imperial in, one form inside.
//! Never floating point: a millionth of the canonical unit, so that equal quantities are equal.

use serde::{Deserialize, Serialize};
use std::fmt;

/// The canonical units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Unit {
    /// Lengths and heights.
    Centimetre,
    /// Distances to cover.
    Metre,
    /// Angles.
    Degree,
    /// Weights.
    Kilogram,
    /// Times.
    Second,
}

impl Unit {
    /// Every canonical unit.
    pub const ALL: [Unit; 5] =
        [Unit::Centimetre, Unit::Metre, Unit::Degree, Unit::Kilogram, Unit::Second];
    /// Their symbols, as an entry's `unit:` key has them.
    pub const WORDS: &'static [&'static str] = &["cm", "m", "deg", "kg", "s"];

    /// The unit as written and shown.
    pub fn symbol(self) -> &'static str {
        match self {
            Unit::Centimetre => "cm",
            Unit::Metre => "m",
            Unit::Degree => "deg",
            Unit::Kilogram => "kg",
            Unit::Second => "s",
        }
    }

    /// The unit written as `symbol` in an entry's `unit:` key.
    pub fn from_symbol(symbol: &str) -> Option<Unit> {
        Unit::ALL.into_iter().find(|unit| unit.symbol() == symbol)
    }

    /// Units a person may write for this canonical one, for a help line.
    pub fn accepted(self) -> &'static str {
        match self {
            Unit::Centimetre | Unit::Metre => "mm, cm, m, in, ft",
            Unit::Degree => "deg",
            Unit::Kilogram => "kg, g, lb",
            Unit::Second => "s, min, h",
        }
    }

    /// The least and the most of it that a gym floor knows. Nothing beyond is read: a nought too many
    /// would be drawn, weighed and timed. Our own ends: a bar at 3 m, a stadium's length run, half a
    /// tonne, four hours.
    pub fn reach(self) -> (f64, f64) {
        match self {
            Unit::Centimetre => (0.0, 300.0),
            Unit::Metre => (0.0, 1_000.0),
            Unit::Degree => (0.0, 180.0),
            Unit::Kilogram => (0.0, 500.0),
            Unit::Second => (0.0, 14_400.0),
        }
    }

    /// Every symbol that is read for this canonical unit.
    pub fn symbols(self) -> &'static [&'static str] {
        match self {
            Unit::Centimetre | Unit::Metre => &["mm", "cm", "m", "in", "inch", "inches", "ft"],
            Unit::Degree => &["deg", "°"],
            Unit::Kilogram => &["kg", "g", "lb", "lbs"],
            Unit::Second => &["s", "min", "h"],
        }
    }

    /// Millionths of this unit in one `symbol`, if that measures the same thing.
    /// International yard and pound (1959): 1 in = 2.54 cm, 1 lb = 0.45359237 kg, exactly.
    fn micro_per(self, symbol: &str) -> Option<i64> {
        let centimetres = match symbol {
            "mm" => Some(100_000),
            "cm" => Some(1_000_000),
            "m" => Some(100_000_000),
            "in" | "inch" | "inches" => Some(2_540_000),
            "ft" => Some(30_480_000),
            _ => None,
        };
        match self {
            Unit::Centimetre => centimetres,
            Unit::Metre => centimetres.map(|n| n / 100),
            Unit::Degree => matches!(symbol, "deg" | "°").then_some(1_000_000),
            Unit::Kilogram => match symbol {
                "kg" => Some(1_000_000),
                "g" => Some(1_000),
                "lb" | "lbs" => Some(453_592),
                _ => None,
            },
            Unit::Second => match symbol {
                "s" => Some(1_000_000),
                "min" => Some(60_000_000),
                "h" => Some(3_600_000_000),
                _ => None,
            },
        }
    }
}

/// An amount of one canonical unit, in millionths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Quantity {
    /// The canonical unit.
    pub unit: Unit,
    /// Millionths of it.
    pub micro: i64,
}

/// Why a text is not a quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unreadable {
    /// No number at its start.
    NoNumber,
    /// A number and no unit.
    NoUnit,
    /// The unit is unknown or measures something else.
    WrongUnit,
    /// Less or more than a gym floor knows.
    OutOfReach,
}

impl Quantity {
    /// `number` of `unit`, such as 45 degrees.
    pub fn new(number: f64, unit: Unit) -> Self {
        Quantity { unit, micro: (number * 1_000_000.0).round() as i64 }
    }

    /// Whether it is nothing of its unit: a height of 0 cm, a weight of 0 kg. Nobody says it.
    pub fn is_nothing(self) -> bool {
        self.micro == 0
    }

    /// Reads `text` as a quantity of `unit`; a unit must be written.
    pub fn read(text: &str, unit: Unit) -> Result<Self, Unreadable> {
        let text = text.trim();
        let split = text
            .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+')))
            .unwrap_or(text.len());
        let (number, symbol) = text.split_at(split);
        let number: f64 = number.parse().map_err(|_| Unreadable::NoNumber)?;
        if symbol.trim().is_empty() {
            return Err(Unreadable::NoUnit);
        }
        let factor = unit.micro_per(symbol.trim()).ok_or(Unreadable::WrongUnit)?;
        let micro = number * factor as f64;
        // Beyond this i64 would saturate; who asks says what cannot be of a stature or a height.
        if !micro.is_finite() || micro.abs() > 9e15 {
            return Err(Unreadable::NoNumber);
        }
        Ok(Quantity { unit, micro: micro.round() as i64 })
    }

    /// Reads `text` as a coach writes it into a library: no more of `unit` than a gym floor knows.
    pub fn read_in_reach(text: &str, unit: Unit) -> Result<Self, Unreadable> {
        match Quantity::read(text, unit) {
            Ok(quantity) => Quantity::within_reach(quantity.number(), unit),
            // A number that is too large to hold is beyond reach too.
            Err(Unreadable::NoNumber) if starts_with_number(text) => Err(Unreadable::OutOfReach),
            Err(why) => Err(why),
        }
    }

    /// `number` of `unit`, where a gym floor knows that much of it.
    pub fn within_reach(number: f64, unit: Unit) -> Result<Self, Unreadable> {
        let (least, most) = unit.reach();
        // What is no number is in no reach either.
        let is_within = (least..=most).contains(&number);
        is_within.then(|| Quantity::new(number, unit)).ok_or(Unreadable::OutOfReach)
    }

    /// Reads `text` in whichever of `units` it is written in, within reach.
    pub fn read_any(text: &str, units: &[Unit]) -> Result<Self, (Unit, Unreadable)> {
        let mut refused = (Unit::Second, Unreadable::WrongUnit);
        for unit in units {
            match Quantity::read_in_reach(text, *unit) {
                Ok(quantity) => return Ok(quantity),
                Err(Unreadable::WrongUnit) => {}
                Err(why) => refused = (*unit, why),
            }
        }
        Err(refused)
    }

    /// The number of canonical units.
    pub fn number(self) -> f64 {
        self.micro as f64 / 1_000_000.0
    }
}

/// Whether what stands before the unit is a number, however large.
fn starts_with_number(text: &str) -> bool {
    let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '+');
    let text = text.trim();
    let number = &text[..text.find(|c| !is_number(c)).unwrap_or(text.len())];
    number.parse::<f64>().is_ok()
}

impl fmt::Display for Quantity {
    /// At most one decimal: `45 deg`, `2.5 kg`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tenths = (self.micro as f64 / 100_000.0).round() as i64;
        let (whole, tenth) = (tenths / 10, (tenths % 10).abs());
        let sign = if tenths < 0 && whole == 0 { "-" } else { "" };
        match tenth {
            0 => write!(f, "{sign}{whole} {}", self.unit.symbol()),
            _ => write!(f, "{sign}{whole}.{tenth} {}", self.unit.symbol()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_symbol_that_is_listed_is_read() {
        for unit in Unit::ALL {
            assert!(Unit::WORDS.contains(&unit.symbol()));
            for symbol in unit.symbols() {
                assert!(Quantity::read(&format!("2 {symbol}"), unit).is_ok(), "{symbol}");
            }
            for symbol in unit.accepted().split(", ") {
                assert!(unit.symbols().contains(&symbol), "{symbol} is told and not listed");
            }
        }
    }

    #[test]
    fn imperial_in_metric_inside() {
        let read = |text, unit| Quantity::read(text, unit).map(|q| q.to_string());
        assert_eq!(read("24 in", Unit::Centimetre).as_deref(), Ok("61 cm"));
        assert_eq!(read("35 lb", Unit::Kilogram).as_deref(), Ok("15.9 kg"));
        assert_eq!(read("1.5 min", Unit::Second).as_deref(), Ok("90 s"));
        assert_eq!(read("2m", Unit::Centimetre).as_deref(), Ok("200 cm"));
        assert_eq!(read("45", Unit::Degree), Err(Unreadable::NoUnit));
        assert_eq!(read("45 kg", Unit::Degree), Err(Unreadable::WrongUnit));
        assert_eq!(read("many kg", Unit::Kilogram), Err(Unreadable::NoNumber));
    }

    #[test]
    fn a_nought_too_many_is_not_read() {
        let read = |text, unit| Quantity::read_in_reach(text, unit).map(|q| q.to_string());
        let beyond = [
            ("10500 cm", Unit::Centimetre),
            ("3.001 m", Unit::Centimetre),
            ("-1 cm", Unit::Centimetre),
            ("180.1 deg", Unit::Degree),
            ("-3 s", Unit::Second),
            ("5 h", Unit::Second),
            ("-3 m", Unit::Metre),
            ("9000000000 kg", Unit::Kilogram),
        ];
        for (text, unit) in beyond {
            assert_eq!(read(text, unit), Err(Unreadable::OutOfReach), "{text}");
        }
        assert_eq!(read("3 m", Unit::Centimetre).as_deref(), Ok("300 cm"));
        assert_eq!(read("180 deg", Unit::Degree).as_deref(), Ok("180 deg"));
        assert_eq!(Quantity::within_reach(f64::NAN, Unit::Degree), Err(Unreadable::OutOfReach));
    }
}
