//! Numbers in a pose: plain ones, and the movement's own settings by name.
//!
//! Wherever a number stands, the name of a setting may stand instead, the two may be added, and either multiplied by a plain number:
//! `box hands`, `chest: hands + 9`, `lean lean`, `60 - feet`, `lean * 0.5`.
//! A factor also turns one unit into another: `130 - lean * 1.6` cm. So one pose serves every height.
//! Plain centimetres are written for a person of 172 cm and scale with stature; settings are
//! real centimetres and do not.
//! It never guesses a unit: a height wants cm, an angle wants deg, a weight wants kg.

use super::spelling::hint;
use crate::mechanics::node::{PoseCode, PoseProblem};

/// What kind of number stands in a place of a pose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Heights and distances, written in centimetres.
    Centimetres,
    /// Angles, written in degrees.
    Degrees,
    /// Weights, written in kilograms.
    Kilograms,
    /// Shares in per cent.
    Percent,
}

impl Kind {
    /// The most that a pose may say, either way. Our own ends: three times a hall's ceiling, a whole
    /// turn, half a tonne.
    fn reach(self) -> f64 {
        match self {
            Kind::Centimetres | Kind::Percent => 1_000.0,
            Kind::Degrees => 360.0,
            Kind::Kilograms => 500.0,
        }
    }

    fn unit(self) -> &'static str {
        match self {
            Kind::Centimetres => "cm",
            Kind::Degrees => "deg",
            Kind::Kilograms => "kg",
            Kind::Percent => "%",
        }
    }
}

/// A setting of the movement with the value at which the pose is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingValue {
    /// As in the entry: `hands`, `lean`, `weight`.
    pub name: String,
    /// In `unit`.
    pub value: f64,
    /// `cm`, `deg`, `kg`, `s` or `m`.
    pub unit: String,
}

/// The stature that plain centimetres in a pose are written for, metres: the drawn figure's.
pub const WRITTEN_FOR: f64 = 1.72;

/// What numbers of a pose are read with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings<'a> {
    /// The settings they may name. Settings are real centimetres, whoever does the movement.
    pub values: &'a [SettingValue],
    /// Plain centimetres are written for a person of `WRITTEN_FOR` and are multiplied by this
    /// for others: a shorter person takes a shorter step and chooses a lower bar.
    pub scale: f64,
}

impl<'a> Settings<'a> {
    /// For a person of `stature` metres.
    pub fn for_stature(values: &'a [SettingValue], stature: f64) -> Settings<'a> {
        Settings { values, scale: stature / WRITTEN_FOR }
    }
}

/// Read a number at byte offset `at`: a sum of plain numbers and setting names,
/// each perhaps multiplied by a number.
pub fn number(text: &str, kind: Kind, settings: Settings, at: usize) -> Result<f64, PoseProblem> {
    let tokens = tokens(text);
    let mut total = 0.0;
    let mut sign = 1.0;
    let mut seen = false;
    let mut i = 0;
    while i < tokens.len() {
        match tokens[i].as_str() {
            "+" => sign = 1.0,
            "-" => sign = -sign,
            word => {
                let factor = factor_after(&tokens[i + 1..]);
                let one = match factor {
                    Some((f, _)) => f * any_unit(word, settings, kind, at)?,
                    None => value(word, kind, settings, at)?,
                };
                i += factor.map_or(0, |(_, used)| used);
                total += sign * one;
                (sign, seen) = (1.0, true);
            }
        }
        i += 1;
    }
    if !seen {
        return Err(unreadable(text, kind, settings, at));
    }
    if total.abs() > kind.reach() || total.is_nan() {
        return Err(out_of_reach(text, kind, at));
    }
    Ok(total)
}

/// What comes of it is more than a hall has room for, or no number at all.
fn out_of_reach(text: &str, kind: Kind, at: usize) -> PoseProblem {
    PoseProblem::new(
        PoseCode::UnreadableValue,
        at,
        format!("`{}` is more than a pose can show.", text.trim()),
        format!("write at most {} {}", kind.reach(), kind.unit()),
    )
}

/// `* 0.5` or `* -0.5`: the factor, and how many tokens it takes.
fn factor_after(tokens: &[String]) -> Option<(f64, usize)> {
    let (star, rest) = tokens.split_first()?;
    if star != "*" {
        return None;
    }
    match rest {
        [minus, number, ..] if minus == "-" => Some((-number.parse::<f64>().ok()?, 3)),
        [number, ..] => Some((number.parse().ok()?, 2)),
        [] => None,
    }
}

/// A setting in its own unit: a factor says what one of it is worth here.
fn any_unit(word: &str, settings: Settings, kind: Kind, at: usize) -> Result<f64, PoseProblem> {
    match settings.values.iter().find(|s| s.name == word) {
        Some(setting) => Ok(setting.value),
        None => value(word, kind, settings, at),
    }
}

/// Split at blanks and at signs; a hyphen inside a word belongs to the word.
fn tokens(text: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let mut word = String::new();
    for c in text.chars() {
        let sign =
            c == '+' || c == '*' || (c == '-' && !word.starts_with(|w: char| w.is_alphabetic()));
        if sign || c.is_whitespace() {
            if !word.is_empty() {
                out.push(std::mem::take(&mut word));
            }
            if sign {
                out.push(c.to_string());
            }
        } else {
            word.push(c);
        }
    }
    if !word.is_empty() {
        out.push(word);
    }
    out.into_iter().filter(|w| !matches!(w.as_str(), "cm" | "deg" | "kg" | "%")).collect()
}

fn value(word: &str, kind: Kind, settings: Settings, at: usize) -> Result<f64, PoseProblem> {
    if let Some(setting) = settings.values.iter().find(|s| s.name == word) {
        if setting.unit != kind.unit() {
            return Err(PoseProblem::new(
                PoseCode::WrongUnit,
                at,
                format!(
                    "The setting `{word}` is in {}, but this place wants {}.",
                    setting.unit,
                    kind.unit()
                ),
                format!("write a number in {} here, or use a setting in {0}", kind.unit()),
            ));
        }
        return Ok(setting.value);
    }
    let plain = word.trim_end_matches('%').trim_end_matches("cm").trim_end_matches("deg");
    let plain = plain.trim_end_matches("kg");
    match plain.parse::<f64>() {
        Ok(v) if v.is_finite() && kind == Kind::Centimetres => Ok(v * settings.scale),
        Ok(v) if v.is_finite() => Ok(v),
        _ => Err(unreadable(word, kind, settings, at)),
    }
}

fn unreadable(text: &str, kind: Kind, settings: Settings, at: usize) -> PoseProblem {
    let names: Vec<&str> = settings.values.iter().map(|s| s.name.as_str()).collect();
    let next = if names.is_empty() {
        format!("write a number of {}", kind.unit())
    } else {
        format!(
            "write a number of {}, or a setting of this movement: {}",
            kind.unit(),
            hint(text, &names)
        )
    };
    PoseProblem::new(
        PoseCode::UnreadableValue,
        at,
        format!("`{}` is not a number.", text.trim()),
        next,
    )
}

/// A weight in kilograms, for `holds`.
pub(super) fn kilograms(text: &str, settings: Settings, at: usize) -> Result<f64, PoseProblem> {
    number(text, Kind::Kilograms, settings, at)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hands() -> Vec<SettingValue> {
        vec![SettingValue { name: "hands".into(), value: 60.0, unit: "cm".into() }]
    }

    #[test]
    fn reads_numbers_settings_and_sums() {
        let s = hands();
        let read = |t| number(t, Kind::Centimetres, Settings::for_stature(&s, 1.72), 0);
        assert_eq!(read("42"), Ok(42.0));
        assert_eq!(read("-5 cm"), Ok(-5.0));
        assert_eq!(read("hands + 9"), Ok(69.0));
        assert_eq!(read("hands+9"), Ok(69.0));
        assert_eq!(read("90 - hands"), Ok(30.0));
        assert_eq!(read("hands * 0.5 + 3"), Ok(33.0));
        assert_eq!(read("3 - hands * -0.5"), Ok(33.0));
    }

    #[test]
    fn plain_centimetres_scale_and_settings_do_not() {
        let s = hands();
        let tall = Settings::for_stature(&s, 1.72 * 1.1);
        let read = number("hands + 10", Kind::Centimetres, tall, 0).unwrap();
        assert!((read - 71.0).abs() < 1e-9);
    }

    #[test]
    fn says_what_does_not_fit() {
        let s = hands();
        let s = Settings::for_stature(&s, 1.72);
        assert_eq!(number("hands", Kind::Degrees, s, 3).unwrap_err().code, PoseCode::WrongUnit);
        for beyond in
            ["5 * nan", "9 * 1e30", "1e12", "-1001", "2 * inf", "hands * inf - hands * inf"]
        {
            let refused = number(beyond, Kind::Centimetres, s, 3).unwrap_err();
            assert_eq!(refused.code, PoseCode::UnreadableValue, "{beyond}");
        }
        let typo = number("hnads", Kind::Centimetres, s, 3).unwrap_err();
        assert!(typo.next.contains("did you mean `hands`"), "{}", typo.next);
    }
}
