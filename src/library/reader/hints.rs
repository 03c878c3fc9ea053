//! Hints: what a key that is not read, a value of the wrong shape or a number was probably meant
//! to be. Never reads a value; it only words what the reading of one found.

use super::codes;
use super::fields::{Fields, Reading};
use super::node::{Kind, Node};
use crate::finding::{Finding, Placed, Severity, did_you_mean};
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
            let help = match fields.also_called(&key.value) {
                Some(meant) => format!("write `{meant}`"),
                None => did_you_mean(&key.value, known.iter().copied(), &all),
            };
            self.findings.push(
                Finding::new(
                    codes::UNKNOWN_KEY,
                    Severity::Error,
                    format!("`{}` is not a key that is read here", key.value),
                    key.span,
                )
                .help(help),
            );
        }
    }

    /// Reports known keys with nothing behind them: what was meant is read as not written. Where a key
    /// must be there, its reader says so.
    fn nothing_behind(&mut self, fields: &Fields<'_>) {
        let empty = fields.entries().iter().filter(|(_, node)| matches!(node.kind, Kind::Empty));
        for (key, _) in empty {
            let Some(known) = fields.described(&key.value) else { continue };
            if known.must {
                continue;
            }
            let headline = format!("nothing stands behind `{}`", key.value);
            let help = format!("write `{}: {}`, or take the key away", key.value, known.example);
            self.findings.push(
                Finding::new(codes::WRONG_SHAPE, Severity::Warning, headline, key.span).help(help),
            );
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
        let glued = word.split_once(':').filter(|(key, value)| {
            !value.is_empty() && !value.starts_with("//") && fields.described(key).is_some()
        });
        let first = fields.entries().first().is_some_and(|(first, _)| first.span == key.span);
        let (headline, help) = match glued {
            Some((key, value)) => {
                (format!("no space stands after `{key}:`"), format!("write `{key}: {value}`"))
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
        self.error(codes::UNKNOWN_KEY, headline, key.span, help);
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
        let headline = format!("`{key}` is {}, not a list", node.kind.noun());
        self.error(codes::WRONG_SHAPE, headline, node.span, help);
    }
}

/// What people write for "none of these".
fn is_none(text: &str) -> bool {
    ["no", "none", "nothing", "-", "n/a", "~"].contains(&text.to_lowercase().as_str())
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
    let with_point = text.replace(',', ".");
    if with_point != text && Quantity::read(&with_point, unit).is_ok() {
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
