//! Reading fields: keys are asked for by name, values are taken by shape, and every mismatch is a
//! finding at the exact word. Never stops at the first fault.

use super::codes;
use super::hints::in_everyday_words;
use super::node::{Kind, Node};
use crate::finding::{Code, Finding, Placed, Severity, Span, did_you_mean, near};
use crate::library::Formerly;
use crate::library::keys::{Key, Shape, Table};
use crate::library::named::Named;
use std::collections::BTreeMap;

/// The most items of one list, unless its reader knows better. Ten times the longest list of the
/// starter library.
const MOST_ITEMS: usize = 500;

/// The most letters of one text. Fifteen times the longest one of the starter library.
const MOST_LETTERS: usize = 5_000;

/// Collects what could not be understood while one file is read.
#[derive(Debug, Default)]
pub struct Reading {
    /// The findings so far.
    pub findings: Vec<Finding>,
    /// Whether any id so far has a capital letter.
    pub capitals: bool,
    /// Ids that entries had before.
    pub formerly: Vec<Formerly>,
}

/// The keys of one map, and which of them have been asked for.
pub struct Fields<'n> {
    entries: &'n [(Placed<String>, Node)],
    asked: Vec<&'static str>,
    table: Option<&'static Table>,
    in_braces: bool,
    /// Where the map starts.
    pub span: Span,
}

impl<'n> Fields<'n> {
    /// The value of a key; nothing when it is absent or empty.
    pub fn take(&mut self, key: &'static str) -> Option<&'n Node> {
        self.asked.push(key);
        #[cfg(test)]
        super::described::note(self.table, key);
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

    /// The keys that are read here: those that are described, else those asked for.
    pub fn known(&self) -> Vec<&'static str> {
        let mut known = match self.table {
            Some(table) => table.keys.iter().map(|key| key.name).collect(),
            None => self.asked.clone(),
        };
        known.sort_unstable();
        known.dedup();
        known
    }

    /// The key that people mean by another word for it.
    pub fn also_called(&self, word: &str) -> Option<&'static str> {
        self.table?.key_also_called(word).map(|key| key.name)
    }

    /// Whether a key stands here under a word that is not read: then that is said, and not that the
    /// key is missing.
    fn is_misspelt(&self, key: &str) -> bool {
        let Some(table) = self.table else { return false };
        let known = || table.keys.iter().map(|key| key.name);
        let unread = self.entries.iter().filter(|(name, _)| table.key(&name.value).is_none());
        let mut meant = unread.map(|(name, _)| {
            let glued = name.value.split_once([':', ';']).map(|(key, _)| key);
            let glued = glued.or_else(|| self.lone_words(name));
            glued.or_else(|| self.also_called(&name.value)).or_else(|| near(&name.value, known()))
        });
        meant.any(|meant| meant == Some(key))
    }

    /// Whether one of some keys stands here under another word: that is said.
    pub fn has_misspelt(&self, keys: &[&str]) -> bool {
        keys.iter().any(|key| self.is_misspelt(key))
    }

    /// The key that words alone in braces lack, as in `{Elbows back}`: the text that must be there.
    pub(super) fn lone_words(&self, key: &Placed<String>) -> Option<&'static str> {
        let (first, node) = self.entries.first()?;
        let alone = self.in_braces && first.span == key.span && matches!(node.kind, Kind::Empty);
        let lacks = |known: &&Key| known.must && !self.has(known.name);
        let mut must = self.table?.keys.iter().filter(lacks);
        let text = must.next().filter(|known| matches!(known.shape, Shape::Text))?;
        (alone && key.value.contains(' ')).then_some(text.name)
    }

    /// Words that a comma cut off from a text in braces where a list belongs.
    pub(super) fn cut_off_after(&self, node: &Node) -> Vec<&'n str> {
        let at = self.entries.iter().position(|(_, value)| value.span == node.span);
        let after = at.filter(|_| self.in_braces).map_or(&[][..], |at| &self.entries[at + 1..]);
        let words = after.iter().take_while(|(_, value)| matches!(value.kind, Kind::Empty));
        words.map(|(key, _)| key.value.as_str()).collect()
    }

    /// Whether a key is such a word.
    pub(super) fn in_open_list(&self, key: &Placed<String>) -> bool {
        let is_list = |(name, node): &&(Placed<String>, Node)| {
            let list = |known: &Key| matches!(known.shape, Shape::List(_));
            matches!(node.kind, Kind::Scalar(_)) && self.described(&name.value).is_some_and(list)
        };
        let before = self.entries.iter().take_while(|(name, _)| name.span != key.span);
        let last = before.filter(|(_, node)| !matches!(node.kind, Kind::Empty)).last();
        self.in_braces && last.as_ref().is_some_and(is_list)
    }

    /// The keys and values, in the order written.
    pub(super) fn entries(&self) -> &'n [(Placed<String>, Node)] {
        self.entries
    }

    /// What is known of a key.
    pub(super) fn described(&self, key: &str) -> Option<&'static Key> {
        self.table?.key(key)
    }

    /// Whether the map stands in braces, where a comma ends a text.
    pub(super) fn in_braces(&self) -> bool {
        self.in_braces
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
        Some(Fields {
            entries,
            asked: Vec::new(),
            table: None,
            in_braces: node.in_braces,
            span: node.span,
        })
    }

    /// The keys and values of `node`, which are those of `table`.
    pub fn fields_of<'n>(&mut self, node: &'n Node, table: &'static Table) -> Option<Fields<'n>> {
        if !matches!(node.kind, Kind::Map(_)) {
            let wanted = format!("keys and values, such as `{}`", table.example);
            self.wrong_shape(node, table.said, &wanted);
            return None;
        }
        let fields = self.fields(node, table.said)?;
        Some(Fields { table: Some(table), ..fields })
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

    /// A key that must be there.
    pub fn required<'n>(
        &mut self,
        fields: &mut Fields<'n>,
        key: &'static str,
        what: &str,
    ) -> Option<&'n Node> {
        let node = fields.take(key);
        if node.is_none() && !fields.is_misspelt(key) {
            let headline = format!("{what} has no `{key}`");
            let example = fields.described(key).map_or("...", |key| key.example);
            let help = format!("add it, such as `{key}: {example}`");
            self.error(codes::MISSING_KEY, headline, fields.span, help);
        }
        node
    }

    /// One text.
    pub fn text(&mut self, node: &Node, what: &str) -> Option<Placed<String>> {
        match &node.kind {
            Kind::Scalar(text) => Some(Placed::new(self.cut(text.trim(), node.span), node.span)),
            _ => {
                self.wrong_shape(node, what, "one text");
                None
            }
        }
    }

    /// As much of a text as is read; more is said.
    fn cut(&mut self, text: &str, span: Span) -> String {
        let Some((at, _)) = text.char_indices().nth(MOST_LETTERS) else { return text.to_string() };
        let letters = text.chars().count();
        let headline = format!("this text has {letters} letters; at most {MOST_LETTERS} are read");
        self.error(
            codes::TOO_MUCH,
            headline,
            span,
            "say it in fewer words, or in the entry's body",
        );
        text[..at].to_string()
    }

    /// The text of an optional key.
    pub fn text_of(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
    ) -> Option<Placed<String>> {
        let node = fields.take(key)?;
        if let (false, Some(known)) = (matches!(node.kind, Kind::Scalar(_)), fields.described(key))
        {
            let wanted = format!("one text, such as `{key}: {}`", known.example);
            self.wrong_shape(node, &format!("`{key}`"), &wanted);
            return None;
        }
        self.text(node, &format!("`{key}`"))
    }

    /// The text of an optional key, without its place.
    pub fn words_of(&mut self, fields: &mut Fields<'_>, key: &'static str) -> Option<String> {
        self.text_of(fields, key).map(|text| text.value)
    }

    /// The first `most` of some `items`; more of them are said.
    pub fn at_most<'n>(&mut self, items: &'n [Node], most: usize, what: &str) -> &'n [Node] {
        let Some(beyond) = items.get(most) else { return items };
        let headline = format!("{what} has {} items; at most {most} are read", items.len());
        self.error(codes::TOO_MUCH, headline, beyond.span, "split it into several");
        &items[..most]
    }

    /// The items of a list; nothing written is an empty list.
    pub fn list<'n>(&mut self, node: &'n Node, what: &str) -> &'n [Node] {
        match &node.kind {
            Kind::List(items) => self.at_most(items, MOST_ITEMS, what),
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
            Some(node) if matches!(node.kind, Kind::List(_)) => {
                self.list(node, &format!("`{key}`"))
            }
            Some(node) => {
                self.no_list(node, fields, key);
                &[]
            }
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

    /// The ids that an entry had before.
    pub fn formerly(&mut self, fields: &mut Fields<'_>, of: Named, id: &str) {
        for was in self.texts_of(fields, "formerly") {
            self.formerly.push(Formerly { of, id: id.to_string(), was });
        }
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
                // Any letter is near to any other.
                let near = known.iter().copied().filter(|_| text.value.chars().count() > 1);
                let help = match in_everyday_words(&text.value, known) {
                    Some(meant) => format!("write `{meant}`"),
                    None => did_you_mean(&text.value, near, &all),
                };
                self.error(codes::UNKNOWN_WORD, headline, text.span, help);
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
