//! Reading fields: keys are asked for by name, values are taken by shape, and every mismatch is a
//! finding at the exact word. Never stops at the first fault.

use super::codes;
use super::node::{Kind, Node};
use crate::finding::{Code, Finding, Placed, Severity, Span, did_you_mean};
use crate::library::{Count, Quantity, Unit, quantity::Unreadable};
use std::collections::BTreeMap;

/// Collects what could not be understood while one file is read.
#[derive(Debug, Default)]
pub struct Reading {
    /// The findings so far.
    pub findings: Vec<Finding>,
    /// Whether any id so far has a capital letter.
    pub capitals: bool,
}

/// The keys of one map, and which of them have been asked for.
pub struct Fields<'n> {
    entries: &'n [(Placed<String>, Node)],
    asked: Vec<&'static str>,
    /// Where the map starts.
    pub span: Span,
}

impl<'n> Fields<'n> {
    /// The value of a key; nothing when it is absent or empty.
    pub fn take(&mut self, key: &'static str) -> Option<&'n Node> {
        self.asked.push(key);
        let (_, node) = self.entries.iter().find(|(name, _)| name.value == key)?;
        (!matches!(node.kind, Kind::Empty)).then_some(node)
    }

    /// Whether a key is written with something behind it.
    pub fn has(&self, key: &str) -> bool {
        let written = |(name, node): &(Placed<String>, Node)| {
            name.value == key && !matches!(node.kind, Kind::Empty)
        };
        self.entries.iter().any(written)
    }

    /// Keys that have been asked for.
    pub fn known(&self) -> impl Iterator<Item = &'static str> {
        self.asked.iter().copied()
    }

    /// Keys that nobody has asked for, such as the settings of a rung.
    pub fn rest(&self) -> impl Iterator<Item = &'n (Placed<String>, Node)> {
        let asked = self.asked.clone();
        self.entries.iter().filter(move |(name, _)| !asked.contains(&name.value.as_str()))
    }
}

impl Reading {
    /// Records an error at `span`.
    pub fn error(&mut self, code: Code, headline: String, span: Span, help: impl Into<String>) {
        self.findings.push(Finding::new(code, Severity::Error, headline, span).help(help));
    }

    /// The keys and values of `node`; a key written twice is a finding and counts once.
    pub fn fields<'n>(&mut self, node: &'n Node, what: &str) -> Option<Fields<'n>> {
        let Kind::Map(entries) = &node.kind else {
            self.wrong_shape(node, what, "keys and values, such as `name: ...`");
            return None;
        };
        self.each_once(entries);
        Some(Fields { entries, asked: Vec::new(), span: node.span })
    }

    /// Reports every key that is written twice.
    fn each_once(&mut self, entries: &[(Placed<String>, Node)]) {
        let mut first_at: BTreeMap<&str, Span> = BTreeMap::new();
        for (key, _) in entries {
            let Some(first) = first_at.get(key.value.as_str()) else {
                first_at.insert(&key.value, key.span);
                continue;
            };
            let headline = format!("`{}` is written twice", key.value);
            self.findings.push(
                Finding::new(codes::DUPLICATE_KEY, Severity::Error, headline, key.span)
                    .label("again here")
                    .also(*first, "first here")
                    .help("keep one of the two"),
            );
        }
    }

    /// The keys and values of an optional map whose keys the coach chooses, such as `traits`.
    pub fn map_of<'n>(
        &mut self,
        fields: &mut Fields<'n>,
        key: &'static str,
        wanted: &str,
    ) -> &'n [(Placed<String>, Node)] {
        match fields.take(key) {
            Some(Node { kind: Kind::Map(entries), .. }) => {
                self.each_once(entries);
                entries
            }
            Some(node) => {
                self.wrong_shape(node, &format!("`{key}`"), wanted);
                &[]
            }
            None => &[],
        }
    }

    /// Reports every key that was not asked for.
    pub fn no_more(&mut self, fields: &Fields<'_>) {
        let mut known: Vec<&str> = fields.asked.clone();
        known.sort_unstable();
        known.dedup();
        for (key, _) in fields.rest() {
            let all = format!("known here: {}", known.join(", "));
            let help = did_you_mean(&key.value, known.iter().copied(), &all);
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

    /// A key that must be there.
    pub fn required<'n>(
        &mut self,
        fields: &mut Fields<'n>,
        key: &'static str,
        what: &str,
    ) -> Option<&'n Node> {
        let node = fields.take(key);
        if node.is_none() {
            let headline = format!("{what} has no `{key}`");
            let help = format!("add a line `{key}: ...`");
            self.error(codes::MISSING_KEY, headline, fields.span, help);
        }
        node
    }

    /// Reports that `node` has the wrong shape.
    pub fn wrong_shape(&mut self, node: &Node, what: &str, wanted: &str) {
        let headline = format!("{what} is {}, not {wanted}", node.kind.noun());
        self.error(codes::WRONG_SHAPE, headline, node.span, format!("write {wanted}"));
    }

    /// One text.
    pub fn text(&mut self, node: &Node, what: &str) -> Option<Placed<String>> {
        match &node.kind {
            Kind::Scalar(text) => Some(Placed::new(text.trim().to_string(), node.span)),
            _ => {
                self.wrong_shape(node, what, "one text");
                None
            }
        }
    }

    /// The text of an optional key.
    pub fn text_of(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
    ) -> Option<Placed<String>> {
        let node = fields.take(key)?;
        self.text(node, &format!("`{key}`"))
    }

    /// The text of an optional key, without its place.
    pub fn words_of(&mut self, fields: &mut Fields<'_>, key: &'static str) -> Option<String> {
        self.text_of(fields, key).map(|text| text.value)
    }

    /// The items of a list; nothing written is an empty list.
    pub fn list<'n>(&mut self, node: &'n Node, what: &str) -> &'n [Node] {
        match &node.kind {
            Kind::List(items) => items,
            Kind::Empty => &[],
            _ => {
                self.wrong_shape(node, what, "a list, such as `[one, two]`");
                &[]
            }
        }
    }

    /// The items of an optional list.
    pub fn list_of<'n>(&mut self, fields: &mut Fields<'n>, key: &'static str) -> &'n [Node] {
        match fields.take(key) {
            Some(node) => self.list(node, &format!("`{key}`")),
            None => &[],
        }
    }

    /// The texts of an optional list.
    pub fn texts_of(&mut self, fields: &mut Fields<'_>, key: &'static str) -> Vec<Placed<String>> {
        let items = self.list_of(fields, key);
        items.iter().filter_map(|item| self.text(item, &format!("an item of `{key}`"))).collect()
    }

    /// The texts of an optional list, without places.
    pub fn strings_of(&mut self, fields: &mut Fields<'_>, key: &'static str) -> Vec<String> {
        self.texts_of(fields, key).into_iter().map(|text| text.value).collect()
    }

    /// Ids of an optional list.
    pub fn ids_of<T: for<'s> From<&'s str>>(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
    ) -> Vec<Placed<T>> {
        let texts = self.texts_of(fields, key);
        texts.into_iter().map(|text| Placed::new(T::from(&text.value), text.span)).collect()
    }

    /// An id of an optional key.
    pub fn id_of<T: for<'s> From<&'s str>>(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
    ) -> Option<Placed<T>> {
        let text = self.text_of(fields, key)?;
        Some(Placed::new(T::from(&text.value), text.span))
    }

    /// One word of a fixed list.
    pub fn word_of<T>(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
        from_word: impl Fn(&str) -> Option<T>,
        known: &[&'static str],
    ) -> Option<Placed<T>> {
        let text = self.text_of(fields, key)?;
        match from_word(&text.value) {
            Some(value) => Some(Placed::new(value, text.span)),
            None => {
                let headline = format!("`{}` is not a word for `{key}`", text.value);
                let all = format!("write one of: {}", known.join(", "));
                let help = did_you_mean(&text.value, known.iter().copied(), &all);
                self.error(codes::UNKNOWN_WORD, headline, text.span, help);
                None
            }
        }
    }

    /// A quantity of an optional key.
    pub fn quantity_of(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
        unit: Unit,
    ) -> Option<Placed<Quantity>> {
        let node = fields.take(key)?;
        self.quantity(node, key, unit)
    }

    /// A quantity with its unit written.
    pub fn quantity(&mut self, node: &Node, key: &str, unit: Unit) -> Option<Placed<Quantity>> {
        let text = self.text(node, &format!("`{key}`"))?;
        match Quantity::read(&text.value, unit) {
            Ok(quantity) => Some(Placed::new(quantity, text.span)),
            Err(why) => {
                let (headline, help) = unreadable(&text.value, key, unit, why);
                self.error(codes::BAD_QUANTITY, headline, text.span, help);
                None
            }
        }
    }

    /// A number in `unit`, with or without the unit written.
    pub fn number_in(&mut self, node: &Node, key: &str, unit: Unit) -> Option<Placed<Quantity>> {
        let text = self.text(node, &format!("`{key}`"))?;
        match text.value.parse::<f64>() {
            Ok(number) if number.abs() < 1e9 => {
                Some(Placed::new(Quantity::new(number, unit), text.span))
            }
            _ => self.quantity(node, key, unit),
        }
    }

    /// A whole number of an optional key.
    pub fn whole_of(&mut self, fields: &mut Fields<'_>, key: &'static str) -> Option<Placed<u32>> {
        let text = self.text_of(fields, key)?;
        match text.value.parse() {
            Ok(number) => Some(Placed::new(number, text.span)),
            Err(_) => {
                let headline = format!("`{}` is not a whole number", text.value);
                self.error(codes::BAD_QUANTITY, headline, text.span, "write a number such as `3`");
                None
            }
        }
    }

    /// A count such as `8` or `6-10`, with an optional unit after it.
    pub fn count_of(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
        unit: &str,
    ) -> Option<Placed<Count>> {
        let text = self.text_of(fields, key)?;
        let bare = text.value.trim_end_matches(unit).trim_end();
        match Count::read(bare) {
            Some(count) => Some(Placed::new(count, text.span)),
            None => {
                let headline = format!("`{}` is not a count for `{key}`", text.value);
                let help = "write a number or a span such as `8` or `6-10`";
                self.error(codes::BAD_QUANTITY, headline, text.span, help);
                None
            }
        }
    }

    /// `true` or `false` of an optional key.
    pub fn truth_of(&mut self, fields: &mut Fields<'_>, key: &'static str) -> Option<Placed<bool>> {
        let known = |word: &str| match word {
            "true" | "yes" => Some(true),
            "false" | "no" => Some(false),
            _ => None,
        };
        self.word_of(fields, key, known, &["true", "false"])
    }
}

fn unreadable(text: &str, key: &str, unit: Unit, why: Unreadable) -> (String, String) {
    let example = match unit {
        Unit::Centimetre => "75 cm",
        Unit::Metre => "20 m",
        Unit::Degree => "45 deg",
        Unit::Kilogram => "16 kg",
        Unit::Second => "90 s",
    };
    let headline = match why {
        Unreadable::NoNumber => format!("`{text}` does not start with a number"),
        Unreadable::NoUnit => format!("`{text}` has no unit"),
        Unreadable::WrongUnit => format!("`{text}` is not in a unit of `{key}`"),
    };
    (headline, format!("write it like `{example}` (read here: {})", unit.accepted()))
}
