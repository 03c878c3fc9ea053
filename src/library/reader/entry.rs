//! Parts that several kinds of entry share: doses, settings of a rung, front matter.
//! Never reads a disk.

use super::codes;
use super::fields::{Fields, Reading};
use super::node::{Kind, Node};
use crate::finding::{Finding, Placed, Severity, Span, did_you_mean};
use crate::library::keys;
use crate::library::{Amount, Count, Dose, Quantity, SettingName, Unit, quantity::Unreadable};

/// The YAML part of a Markdown file, with its opening `---`, and where the body starts.
pub fn front_matter(text: &str) -> Option<(&str, usize)> {
    let start = text.len() - text.trim_start_matches('\u{feff}').len();
    let mut at = start;
    for (number, line) in text[start..].split_inclusive('\n').enumerate() {
        let closes = line.trim_end() == "---";
        if number == 0 && !closes {
            return None;
        }
        if number > 0 && closes {
            return Some((&text[start..at], at + line.len()));
        }
        at += line.len();
    }
    None
}

/// A dose: `3 x 8`, `3 x 6-10`, `2 x 20 s`, or keys `sets`, `reps`, `seconds`, `metres`,
/// `contacts`, `rest`, `per-side`.
pub fn dose(node: &Node, reading: &mut Reading) -> Option<Dose> {
    if let Kind::Scalar(text) = &node.kind {
        let dose = dose_in_words(text, node.span);
        if dose.is_none() {
            let headline = format!("`{text}` is not a dose");
            let help = "write it like `3 x 8`, `3 x 6-10` or `2 x 20 s`";
            reading.error(codes::BAD_QUANTITY, headline, node.span, help);
        }
        return dose;
    }
    let mut fields = reading.fields_of(node, &keys::DOSE)?;
    let sets = reading.count_of(&mut fields, "sets", ("", Count::SETS));
    let amounts = [
        reading
            .count_of(&mut fields, "reps", ("", Count::REPS))
            .map(|c| Placed::new(Amount::Reps(c.value), c.span)),
        seconds(&mut fields, reading),
        reading
            .count_of(&mut fields, "metres", ("m", Count::METRES))
            .map(|c| Placed::new(Amount::Metres(c.value), c.span)),
        reading
            .count_of(&mut fields, "contacts", ("", Count::REPS))
            .map(|c| Placed::new(Amount::Contacts(c.value), c.span)),
    ];
    let amounts: Vec<_> = amounts.into_iter().flatten().collect();
    if let [first, second, ..] = amounts.as_slice() {
        let headline = "a dose counts one thing".to_string();
        let help = "leave one of them out; a second movement, or a second line, counts the other";
        let twice = Finding::new(codes::WRONG_SHAPE, Severity::Error, headline, second.span);
        reading.findings.push(twice.also(first.span, "counted here too").help(help));
    }
    let dose = Dose {
        sets: sets.map(|count| count.value),
        amount: amounts.into_iter().next(),
        rest: reading.quantity_of(&mut fields, "rest", Unit::Second).map(|rest| rest.value),
        per_side: reading.truth_of(&mut fields, "per-side"),
    };
    reading.no_more(&fields);
    Some(dose)
}

fn seconds(fields: &mut Fields<'_>, reading: &mut Reading) -> Option<Placed<Amount>> {
    let count = reading.count_of(fields, "seconds", ("s", Count::SECONDS))?;
    Some(Placed::new(Amount::Seconds(count.value), count.span))
}

/// `3 x 6-10`, `3 x 20 s`, `4 x 15 m`, with an optional `each side` after it.
fn dose_in_words(text: &str, span: Span) -> Option<Dose> {
    let (text, per_side) = match text.trim().strip_suffix("each side") {
        Some(rest) => (rest.trim().trim_end_matches(',').trim(), Some(Placed::new(true, span))),
        None => (text.trim(), None),
    };
    let (sets, amount) = text.split_once(" x ").or_else(|| text.split_once(" × "))?;
    let sets = Count::read(sets, Count::SETS)?;
    let amount = amount.trim();
    let read = |unit: &str, most| Count::read(amount.strip_suffix(unit)?.trim_end(), most);
    let amount = if let Some(count) = Count::read(amount, Count::REPS) {
        Amount::Reps(count)
    } else if let Some(count) = read("s", Count::SECONDS) {
        Amount::Seconds(count)
    } else {
        Amount::Metres(read("m", Count::METRES)?)
    };
    let amount = Some(Placed::new(amount, span));
    Some(Dose { sets: Some(sets), amount, rest: None, per_side })
}

/// The values of settings among keys that were not asked for: `lean: 45 deg`. The unit decides the
/// canonical unit; whether the movement has the setting is for checks to say.
pub fn setting_values(
    fields: &mut Fields<'_>,
    reading: &mut Reading,
) -> Vec<(Placed<SettingName>, Placed<Quantity>)> {
    let rest: Vec<&(Placed<String>, Node)> = fields.rest().collect();
    let mut values = Vec::new();
    for (key, node) in rest {
        if reading.after_a_comma(fields, key, node) {
            continue;
        }
        if !matches!(node.kind, Kind::Scalar(_)) {
            reading.wrong_shape(node, &format!("`{}`", key.value), "a value with a unit");
            continue;
        }
        if reading.is_misspelt_key(key, node, fields) {
            continue;
        }
        if let Some(value) = any_quantity(node, &key.value, fields, reading) {
            values.push((Placed::new(SettingName(key.value.clone()), key.span), value));
        }
    }
    values.sort_by(|a, b| a.0.value.cmp(&b.0.value));
    values
}

fn any_quantity(
    node: &Node,
    key: &str,
    fields: &Fields<'_>,
    reading: &mut Reading,
) -> Option<Placed<Quantity>> {
    let Kind::Scalar(text) = &node.kind else { return None };
    let units = [Unit::Centimetre, Unit::Degree, Unit::Kilogram, Unit::Second];
    let read = Quantity::read_any(text, &units);
    if let Err((unit, Unreadable::OutOfReach)) = read {
        reading.out_of_reach(text, unit, node.span);
    } else if read.is_err() {
        let headline = format!("`{text}` is not a value with a unit");
        let otherwise = format!(
            "if `{key}` is a setting write it like `45 deg`, `60 cm` or `16 kg`; if not, remove the key"
        );
        let help = match fields.also_called(key) {
            Some(meant) => format!("write `{meant}`"),
            None => did_you_mean(key, fields.known(), &otherwise),
        };
        reading.error(codes::BAD_QUANTITY, headline, node.span, help);
    }
    read.ok().map(|quantity| Placed::new(quantity, node.span))
}
