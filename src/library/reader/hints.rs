//! Hints: what a key that is not read, a value of the wrong shape or a number was probably meant
//! to be. Never reads a value; it only words what the reading of one found.

use super::codes;
use super::fields::{Fields, Reading};
use super::node::{Kind, Node};
use crate::finding::{Finding, Placed, Severity, did_you_mean, near};
use crate::library::{Quantity, Unit, quantity::Unreadable};

impl Reading {
    /// Reports every key that was not asked for.
    pub fn no_more(&mut self, fields: &Fields<'_>) {
        self.nothing_behind(fields);
        let known = fields.known();
        for (key, node) in fields.rest() {
            if self.after_a_comma(fields, key, node) {
                continue;
            }
            let all = format!("known here: {}", known.join(", "));
            let meant = fields.also_called(&key.value);
            let help = match meant {
                Some(meant) => format!("write `{meant}`"),
                None => did_you_mean(&key.value, known.iter().copied(), &all),
            };
            let headline = format!("`{}` is not a key that is read here", key.value);
            let finding =
                Finding::new(codes::UNKNOWN_KEY, Severity::Error, headline, key.span).help(help);
            // Where the right key stands too, somebody has to say which of the two is meant.
            let certain = meant.filter(|meant| !fields.has(meant));
            self.findings.push(match certain {
                Some(meant) => finding.mend(key.span, meant),
                None => finding,
            });
        }
    }

    /// Reports known keys with nothing behind them: what was meant is read as not written. Where a key
    /// must be there, its reader says so.
    fn nothing_behind(&mut self, fields: &Fields<'_>) {
        let quotes =
            |node: &Node| matches!(&node.kind, Kind::Scalar(text) if text.trim().is_empty());
        for (key, node) in fields.entries() {
            let is_empty = matches!(node.kind, Kind::Empty);
            let Some(known) = fields.described(&key.value) else { continue };
            // Of a key that must be there its reader says that it is not.
            if !(is_empty && !known.must || quotes(node)) {
                continue;
            }
            let headline = format!("nothing stands behind `{}`", key.value);
            let (severity, help) = match key.value.as_str() {
                // What can hurt somebody is an error until it is said.
                "traits" => (
                    Severity::Error,
                    format!("write `traits: {}`, or `traits: {{}}` for none", known.example),
                ),
                name if known.must => {
                    (Severity::Error, format!("write `{name}: {}`", known.example))
                }
                name => (
                    Severity::Warning,
                    format!("write `{name}: {}`, or take the key away", known.example),
                ),
            };
            self.findings
                .push(Finding::new(codes::WRONG_SHAPE, severity, headline, key.span).help(help));
        }
    }

    /// Reports what only a slip inside braces makes: words that a comma cut off from the text before
    /// them, as in `{say: Chest up, tall}`, and a key glued to its value; false for anything else.
    pub fn after_a_comma(
        &mut self,
        fields: &Fields<'_>,
        key: &Placed<String>,
        node: &Node,
    ) -> bool {
        if !fields.in_braces() || !matches!(node.kind, Kind::Empty) {
            return false;
        }
        let word = &key.value;
        let is_known = |(key, value): &(&str, &str)| {
            !value.is_empty() && !value.starts_with("//") && fields.described(key).is_some()
        };
        let glued = word.split_once(':').filter(is_known);
        let semicolon = word.split_once(';').filter(is_known);
        let first = fields.entries().first().is_some_and(|(first, _)| first.span == key.span);
        if fields.in_open_list(key) {
            // Said at the list whose brackets are missing.
            return true;
        }
        let equals = word.split_once('=').map(|(key, value)| (key.trim(), value.trim()));
        let no_colon = word.split_once(' ').filter(|(key, _)| fields.described(key).is_some());
        let alone = fields.lone_words(key);
        let (headline, help) = match glued {
            Some((key, value)) => {
                (format!("no space stands after `{key}:`"), format!("write `{key}: {value}`"))
            }
            None if semicolon.is_some() => {
                let (key, value) = semicolon.unwrap_or_default();
                let value = value.trim_start();
                (format!("a semicolon stands after `{key}`"), format!("write `{key}: {value}`"))
            }
            None if equals.is_some_and(|(key, value)| !key.contains(' ') && !value.is_empty()) => {
                let (key, value) = equals.unwrap_or_default();
                let headline = format!("an equals sign stands after `{key}`");
                (headline, format!("write `{key}: {value}`"))
            }
            None if no_colon.is_some() => {
                let (key, value) = no_colon.unwrap_or_default();
                (format!("no colon stands after `{key}`"), format!("write `{key}: {value}`"))
            }
            None if alone.is_some() => {
                let key = alone.unwrap_or_default();
                (format!("no key stands before `{word}`"), format!("write `{{{key}: {word}}}`"))
            }
            None if first => return false,
            None if word.chars().all(|c| c.is_ascii_digit()) => (
                format!("`{word}` is cut off from the number before it by a comma"),
                "write a decimal with a point, such as `1.5`".to_string(),
            ),
            None => (
                format!("`{word}` is cut off from the text before it by a comma"),
                "put quotes round the whole text: between `{` and `}` a comma ends it".to_string(),
            ),
        };
        let finding =
            Finding::new(codes::UNKNOWN_KEY, Severity::Error, headline, key.span).help(help);
        self.findings.push(match glued.or(semicolon) {
            Some((name, value)) => {
                finding.mend(key.span, format!("{name}: {}", value.trim_start()))
            }
            None => finding,
        });
        true
    }

    /// Reports a key among those that the coach chooses that is meant for another one, as what stands
    /// behind it has no unit; false for anything else.
    pub fn is_misspelt_key(
        &mut self,
        key: &Placed<String>,
        node: &Node,
        fields: &Fields<'_>,
    ) -> bool {
        let Kind::Scalar(text) = &node.kind else { return false };
        if text.contains(|c: char| c.is_ascii_digit()) {
            return false;
        }
        let called = fields.also_called(&key.value).map(|meant| format!("write `{meant}`"));
        let meant =
            || near(&key.value, fields.known()).map(|near| format!("did you mean `{near}`?"));
        let Some(help) = called.or_else(meant) else { return false };
        let headline = format!("`{}` is not a key that is read here", key.value);
        let finding =
            Finding::new(codes::UNKNOWN_KEY, Severity::Error, headline, key.span).help(help);
        let certain = fields.also_called(&key.value).filter(|meant| !fields.has(meant));
        self.findings.push(match certain {
            Some(meant) => finding.mend(key.span, meant),
            None => finding,
        });
        true
    }

    /// Reports that `node` has the wrong shape; `wanted` may end in `, such as` and an example.
    pub fn wrong_shape(&mut self, node: &Node, what: &str, wanted: &str) {
        let (shape, like) = wanted.split_once(", such as ").unwrap_or((wanted, ""));
        let headline = format!("{what} is {}, not {shape}", node.kind.noun());
        let help = match like {
            "" => format!("write {shape}"),
            like => format!("write it like {like}"),
        };
        self.error(codes::WRONG_SHAPE, headline, node.span, help);
    }

    /// Reports that one value stands where the list of a key belongs.
    pub(super) fn no_list(&mut self, node: &Node, fields: &Fields<'_>, key: &str) {
        let example = fields.described(key).map_or("[one, two]", |key| key.example);
        let one_word = |text: &&String| !text.is_empty() && !example.starts_with("[{");
        let help = match &node.kind {
            Kind::Scalar(text) if is_none(text) => format!("write `{key}: []` for none"),
            Kind::Scalar(text) if one_word(&text) => {
                format!("put it in square brackets: `{key}: [{text}]`")
            }
            _ => format!("write it like `{key}: {example}`"),
        };
        let more = fields.cut_off_after(node);
        let help = match &node.kind {
            Kind::Scalar(text) if !more.is_empty() => {
                format!("put it in square brackets: `{key}: [{text}, {}]`", more.join(", "))
            }
            _ => help,
        };
        let headline = format!("`{key}` is {}, not a list", node.kind.noun());
        let finding =
            Finding::new(codes::WRONG_SHAPE, Severity::Error, headline, node.span).help(help);
        let is_id = |text: &str| crate::library::id::is_well_formed(text);
        self.findings.push(match &node.kind {
            Kind::Scalar(text) if is_none(text) => finding.mend(node.span, "[]"),
            // One id in a list of ids; several words may be several items.
            Kind::Scalar(text) if one_word(&text) && is_id(text) && more.is_empty() => {
                finding.mend(node.span, format!("[{text}]"))
            }
            _ => finding,
        });
    }
}

/// Everyday words, and the one of a fixed list that they stand for.
const EVERYDAY: [(&str, &[&str]); 16] = [
    ("reps", &["repetitions", "rep", "repeats"]),
    ("seconds", &["time", "secs", "sec", "hold", "s"]),
    ("metres", &["meters", "distance", "m"]),
    ("contacts", &["landings", "jumps"]),
    ("together", &["both", "bilateral", "two"]),
    ("each", &["one", "single", "unilateral", "per-side", "each-side", "per side", "each side"]),
    ("alternating", &["alternate", "alternately", "in turn"]),
    ("deg", &["degrees", "degree", "°", "angle"]),
    ("cm", &["centimetres", "centimeters", "centimetre", "height"]),
    ("m", &["metres", "meters"]),
    ("kg", &["kilograms", "kilos", "kilo", "weight"]),
    ("s", &["seconds", "secs", "sec"]),
    ("quiet", &["silent", "low", "none"]),
    ("loud", &["noisy", "high"]),
    ("home", &["household", "house"]),
    ("lighter", &["deload", "easy", "rest", "light"]),
];

/// The word of a fixed list that an everyday one stands for.
pub(super) fn in_everyday_words(word: &str, known: &[&'static str]) -> Option<&'static str> {
    let word = word.trim().to_lowercase();
    let meant = EVERYDAY.iter().filter(|(_, everyday)| everyday.contains(&word.as_str()));
    meant.map(|(meant, _)| *meant).find(|meant| known.contains(meant))
}

/// What people write for "none of these".
fn is_none(text: &str) -> bool {
    ["no", "none", "nothing", "-", "n/a", "~"].contains(&text.to_lowercase().as_str())
}

/// A quantity with a point where a comma stands, where it can then be read.
pub(super) fn with_point(text: &str, unit: Unit) -> Option<String> {
    let with_point = text.replace(',', ".");
    (with_point != text && Quantity::read(&with_point, unit).is_ok()).then_some(with_point)
}

/// What is wrong with a quantity, and how it is written.
pub(super) fn unreadable(text: &str, key: &str, unit: Unit, why: Unreadable) -> (String, String) {
    let example = match unit {
        Unit::Centimetre => "75 cm",
        Unit::Metre => "20 m",
        Unit::Degree => "45 deg",
        Unit::Kilogram => "16 kg",
        Unit::Second => "90 s",
    };
    if let Some(with_point) = with_point(text, unit) {
        let headline = format!("`{text}` has a comma where a decimal has a point");
        return (headline, format!("write `{with_point}`"));
    }
    let headline = match why {
        Unreadable::NoNumber => format!("`{text}` does not start with a number"),
        Unreadable::NoUnit => format!("`{text}` has no unit"),
        Unreadable::WrongUnit | Unreadable::OutOfReach => {
            format!("`{text}` is not in a unit of `{key}`")
        }
    };
    (headline, format!("write it like `{example}` (read here: {})", unit.accepted()))
}
