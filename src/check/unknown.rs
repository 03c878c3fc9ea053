//! Ids that nothing has: one way to say it for every kind of entry.
//! Never blames an id whose own file is there and could not be read: that is said once, there.

use super::Rule;
use crate::finding::{Finding, Placed, Severity, near};
use crate::library::Library;
use std::collections::{BTreeMap, BTreeSet};

/// The ids of one kind of entry.
pub struct Known<'l> {
    /// What the kind is called, such as `movement`.
    pub kind: &'static str,
    /// Where one is written.
    pub home: &'static str,
    ids: BTreeSet<&'l str>,
    /// Other words that people have for them, in lower case.
    called: BTreeMap<String, &'l str>,
    /// Their file is there and nothing in it could be read.
    unread: bool,
    /// Ids of another kind that is often confused with this one, each with the word for it.
    others: Vec<(&'l str, &'static str)>,
}

impl<'l> Known<'l> {
    /// The ids of entries that have a file each, in `folder`.
    pub fn files(library: &'l Library, kind: &'static str, folder: &str) -> Known<'l> {
        let home = match folder {
            "movements" => "movements/<pattern>/",
            "ladders" => "ladders/",
            "sessions" => "sessions/",
            _ => "cycles/",
        };
        let mut ids = stems(library, folder);
        if folder == "movements" {
            ids.extend(misplaced(library));
        }
        Known {
            kind,
            home,
            ids,
            called: formerly(library, kind),
            unread: false,
            others: others(library, kind),
        }
    }

    /// The ids of `entries`, which stand together in a file of `words/`.
    pub fn words<T: AsRef<str>, V>(
        library: &'l Library,
        kind: &'static str,
        home: &'static str,
        entries: &'l BTreeMap<T, V>,
    ) -> Known<'l> {
        let stem = home.trim_start_matches("words/").trim_end_matches(".yaml");
        let unread = entries.is_empty() && stems(library, "words").contains(stem);
        let ids = entries.keys().map(AsRef::as_ref).collect();
        Known { kind, home, ids, called: formerly(library, kind), unread, others: Vec::new() }
    }

    /// The same, which also knows the other words of each entry: an id and a word for it.
    pub fn also(mut self, words: impl Iterator<Item = (&'l str, &'l str)>) -> Known<'l> {
        for (id, word) in words {
            self.called.entry(word.to_lowercase()).or_insert(id);
        }
        self
    }

    /// One finding for each of `mentions` that names nothing.
    pub fn missing<'m, T: AsRef<str> + 'm>(
        &self,
        rule: &Rule,
        mentions: impl IntoIterator<Item = &'m Placed<T>>,
    ) -> Vec<Finding> {
        if self.unread {
            return Vec::new();
        }
        // The same slip often stands in many entries: its near spelling is looked for once.
        let mut help: BTreeMap<&str, String> = BTreeMap::new();
        let elsewhere =
            |word: &str| self.others.iter().find(|(id, _)| *id == word).map(|(_, kind)| *kind);
        let mut findings = Vec::new();
        for mention in mentions {
            let word = mention.value.as_ref();
            if self.ids.contains(word) {
                continue;
            }
            let help = help.entry(word).or_insert_with(|| match elsewhere(word) {
                Some(kind) => format!("`{word}` is a {kind}; name a {} here", self.kind),
                None => self.help(word),
            });
            let headline = format!("there is no {} `{word}`", self.kind);
            findings.push(rule.finding(headline, mention.span).help(help.as_str()));
        }
        findings
    }

    /// True for an id that is there, or whose file could not be read.
    pub fn has(&self, id: &str) -> bool {
        self.unread || self.ids.contains(id)
    }

    /// Every id, in order.
    pub fn ids(&self) -> impl Iterator<Item = &'l str> {
        self.ids.iter().copied()
    }

    /// The id that was probably meant.
    pub fn nearest(&self, id: &str) -> Option<&'l str> {
        near(id, self.ids())
    }

    fn help(&self, word: &str) -> String {
        let spaced = word.to_lowercase().replace('-', " ");
        let called = self.called.get(&word.to_lowercase()).or_else(|| self.called.get(&spaced));
        match called.copied().or_else(|| self.nearest(word)) {
            Some(meant) => format!("did you mean `{meant}`?"),
            None => format!("write it in {}, or name one that is there", self.home),
        }
    }
}

/// Movements stand on ladders, and a line of a session names either.
fn others<'l>(library: &'l Library, kind: &str) -> Vec<(&'l str, &'static str)> {
    match kind {
        "movement" => library.ladders.keys().map(|id| (id.as_str(), "ladder")).collect(),
        "ladder" => library.movements.keys().map(|id| (id.as_str(), "movement")).collect(),
        _ => Vec::new(),
    }
}

/// The ids that entries of a kind had before.
fn formerly<'l>(library: &'l Library, kind: &str) -> BTreeMap<String, &'l str> {
    let of_kind = library.formerly.iter().filter(|former| former.of.word() == kind);
    of_kind.map(|former| (former.was.value.clone(), former.id.as_str())).collect()
}

/// The names, without their ending, of every file below `folder`, read or not.
fn stems<'l>(library: &'l Library, folder: &str) -> BTreeSet<&'l str> {
    let sources = &library.sources;
    let stem = |name: &'l str| {
        let (folders, file) = name.rsplit_once('/')?;
        folders.split('/').any(|part| part == folder).then_some(file)?.rsplit_once('.')
    };
    sources.ids().filter_map(|file| stem(sources.name(file))).map(|(stem, _)| stem).collect()
}

/// The names of movements that stand beside the folders, where nothing reads them: that is said there.
fn misplaced(library: &Library) -> impl Iterator<Item = &str> {
    let stray = library.findings.iter().filter(|finding| finding.code.0 == "stray-file");
    let names = stray.map(|finding| library.sources.name(finding.place.span.file));
    names.filter_map(|name| name.rsplit('/').next()?.strip_suffix(".md"))
}

/// True when some file of the library could not be read, so that nobody can say what is unused.
pub fn something_is_unread(library: &Library) -> bool {
    let words = &library.words;
    let read = library.movements.len()
        + library.ladders.len()
        + library.sessions.len()
        + library.cycles.len();
    let files = ["movements", "ladders", "sessions", "cycles"];
    let there: usize = files.iter().map(|folder| stems(library, folder).len()).sum();
    let files_of_words = stems(library, "words");
    let lost = |stem: &str, empty: bool| empty && files_of_words.contains(stem);
    misplaced(library).next().is_some()
        || library.findings.iter().any(|finding| finding.severity == Severity::Error)
        || there > read
        || lost("kit", words.kit.is_empty())
        || lost("traits", words.traits.is_empty())
        || lost("cautions", words.cautions.is_empty())
        || lost("patterns", words.patterns.is_empty())
}

/// True where nobody can say what is unused: something could not be read, or no movement is written
/// yet, as in a library that has just been started.
pub fn use_is_unknown(library: &Library) -> bool {
    library.movements.is_empty() || something_is_unread(library)
}
