//! The vocabulary: every word as written, its stem, and which words and phrases mean the same.
//! Never ranks, and never guesses at a word it does not know.

use super::Without;
use super::entry::{Entry, NO_KIT};
use super::fold;
use crate::gym::Gym;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use tantivy::tokenizer::{Language, RawTokenizer, Stemmer, TextAnalyzer};

/// A stem or, after the last stem, a meaning.
pub type Token = u32;

/// Words too common to tell one entry from another. They are left out of entries and questions.
const SMALL_WORDS: &[&str] = &[
    "a", "an", "and", "are", "as", "at", "be", "been", "but", "by", "do", "does", "for", "from",
    "has", "have", "how", "i", "if", "im", "in", "into", "is", "it", "its", "ive", "me", "my",
    "of", "on", "or", "our", "so", "than", "that", "the", "their", "them", "then", "there", "they",
    "this", "to", "was", "we", "what", "when", "which", "while", "who", "will", "with", "you",
    "your",
];

/// Two ways to say the same: a question that says one finds the other.
const LACKING: [&str; 2] = ["no", "without"];

/// How a word not in the vocabulary may differ from one that is: the ending it has, and what stands
/// there instead in the known word. Whether the stem stays the same is tried out for each word.
pub const ENDINGS: [(&str, &str); 9] = [
    ("s", ""),
    ("es", ""),
    ("ing", ""),
    ("ing", "e"),
    ("ed", ""),
    ("ed", "e"),
    ("ies", "y"),
    ("", "s"),
    ("", "ing"),
];

/// Endings before which the last letter may stand twice: `squatting`.
pub const DOUBLING: [&str; 2] = ["ing", "ed"];

/// A word as written.
#[derive(Debug, Clone)]
pub struct Surface {
    /// The word, folded.
    pub text: String,
    /// Its stem; none for a word that is too common.
    pub stem: Option<Token>,
    /// Bit n: with the n-th of [`ENDINGS`], then of [`DOUBLING`], its stem is still the same.
    pub endings: u16,
}

/// Words and phrases that mean the same.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Meaning {
    /// Each as its stems.
    pub phrases: BTreeSet<Vec<Token>>,
    /// What the meaning asks to do without.
    pub without: Option<Without>,
    /// Whether it is a fault that movements share.
    pub is_fault: bool,
}

/// What a word of a question turned out to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Known {
    /// Too common to matter.
    Small,
    /// A word with this stem.
    Stem(Token),
}

/// Every word, every stem and every meaning of a library.
#[derive(Debug, Default)]
pub struct Vocabulary {
    /// The words as written, sorted by their UTF-16 units, as the browser sorts.
    pub surfaces: Vec<Surface>,
    /// The stems, numbered in the order of the first word that has them.
    pub stems: Vec<String>,
    /// The meanings; the first is the token after the last stem.
    pub meanings: Vec<Meaning>,
    /// The stems that some entry has.
    written: BTreeSet<Token>,
    /// The meanings that have a phrase starting with a stem.
    by_first: BTreeMap<Token, Vec<(usize, Vec<Token>)>>,
}

impl Vocabulary {
    /// The vocabulary of these entries.
    pub fn of(gym: &Gym, entries: &[Entry]) -> Vocabulary {
        let groups = groups(gym, entries);
        let mut texts: BTreeSet<String> = entries
            .par_iter()
            .fold(BTreeSet::new, |mut texts, entry| {
                texts.extend(fold::words(&entry.name));
                texts.extend(entry.also.iter().flat_map(|also| fold::words(also)));
                texts.extend(entry.parts.iter().flat_map(|(_, part)| fold::words(part)));
                texts.extend(fold::words(&entry.about));
                texts.extend(fold::words(&entry.text));
                texts
            })
            .reduce(BTreeSet::new, |mut one, other| {
                one.extend(other);
                one
            });
        texts.extend(LACKING.map(String::from));
        let written = texts.clone();
        texts.extend(groups.iter().flat_map(|group| &group.said).flat_map(|p| fold::words(p)));
        let mut vocabulary = Vocabulary::default();
        vocabulary.add_surfaces(&texts, &written);
        vocabulary.add_meanings(&groups);
        vocabulary
    }

    fn add_surfaces(&mut self, texts: &BTreeSet<String>, written: &BTreeSet<String>) {
        let mut stemmer = EnglishStemmer::new();
        let known: BTreeSet<&str> = texts.iter().map(String::as_str).collect();
        let mut by_stem: BTreeMap<String, Token> = BTreeMap::new();
        let mut sorted: Vec<&String> = texts.iter().collect();
        sorted.sort_by_key(|text| text.encode_utf16().collect::<Vec<u16>>());
        for text in sorted {
            let stem = stemmer.stem(if text == LACKING[1] { LACKING[0] } else { text });
            let small = SMALL_WORDS.contains(&text.as_str());
            let token = (!small).then(|| {
                *by_stem.entry(stem.clone()).or_insert_with(|| {
                    self.stems.push(stem.clone());
                    self.stems.len() as Token - 1
                })
            });
            let endings = if small { 0 } else { stemmer.endings(text, &stem, &known) };
            self.written.extend(token.filter(|_| written.contains(text)));
            self.surfaces.push(Surface { text: text.clone(), stem: token, endings });
        }
    }

    fn add_meanings(&mut self, groups: &[Group]) {
        for Group { said, without, is_fault } in groups {
            let phrases = said.iter().filter_map(|phrase| self.phrase(phrase)).collect();
            let meaning = Meaning { phrases, without: without.clone(), is_fault: *is_fault };
            let says_something = meaning.phrases.len() > 1 || without.is_some();
            if says_something && !meaning.phrases.is_empty() {
                self.meanings.push(meaning);
            }
        }
        for (at, meaning) in self.meanings.iter().enumerate() {
            for phrase in &meaning.phrases {
                self.by_first.entry(phrase[0]).or_default().push((at, phrase.clone()));
            }
        }
    }

    /// A phrase as stems. One that keeps a single word of several ("pull in") would give that word
    /// a meaning it does not have, and is left out.
    fn phrase(&self, text: &str) -> Option<Vec<Token>> {
        let written = fold::words(text).len();
        let stems = self.stems_in(text);
        let whole = stems.len() > 1 || (stems.len() == 1 && written == 1);
        whole.then_some(stems)
    }

    /// The place of a word among the surfaces.
    pub fn surface(&self, word: &str) -> Option<usize> {
        self.surfaces
            .binary_search_by(|surface| surface.text.encode_utf16().cmp(word.encode_utf16()))
            .ok()
    }

    /// What a word is, as written or with another ending.
    pub fn known(&self, word: &str) -> Option<Known> {
        if let Some(at) = self.surface(word) {
            return Some(self.surfaces[at].stem.map_or(Known::Small, Known::Stem));
        }
        let other = |bit: usize, base: &str| {
            let surface = &self.surfaces[self.surface(base)?];
            let same = surface.endings & (1 << bit) != 0;
            surface.stem.filter(|_| same).map(Known::Stem)
        };
        let plain = ENDINGS.iter().enumerate().find_map(|(bit, (ending, instead))| {
            other(bit, &format!("{}{instead}", word.strip_suffix(ending)?))
        });
        plain.or_else(|| {
            DOUBLING.iter().zip(ENDINGS.len()..).find_map(|(ending, bit)| {
                let base = word.strip_suffix(ending)?;
                let last = base.chars().next_back()?;
                let base = base.strip_suffix(last)?;
                other(bit, base).filter(|_| base.ends_with(last))
            })
        })
    }

    /// Whether some entry has the word.
    pub fn is_written(&self, known: Known) -> bool {
        matches!(known, Known::Stem(stem) if self.written.contains(&stem))
    }

    /// The stems of a text in order, small words left out.
    pub fn stems_in(&self, text: &str) -> Vec<Token> {
        let known = |word: &String| match self.known(word) {
            Some(Known::Stem(stem)) => Some(stem),
            _ => None,
        };
        fold::words(text).iter().filter_map(known).collect()
    }

    /// The token of a meaning.
    pub fn meaning(&self, at: usize) -> Token {
        (self.stems.len() + at) as Token
    }

    /// Whether a token is a meaning that asks to do without something.
    pub fn is_without(&self, token: Token) -> bool {
        let at = (token as usize).checked_sub(self.stems.len());
        at.and_then(|at| self.meanings.get(at)).is_some_and(|meaning| meaning.without.is_some())
    }

    /// Whether a token is a meaning that is a fault.
    pub fn is_fault(&self, token: Token) -> bool {
        let at = (token as usize).checked_sub(self.stems.len());
        at.and_then(|at| self.meanings.get(at)).is_some_and(|meaning| meaning.is_fault)
    }

    /// The meanings that start at a stem: each with the stems of its phrase.
    pub fn starting_with(&self, stem: Token) -> &[(usize, Vec<Token>)] {
        self.by_first.get(&stem).map_or(&[], Vec::as_slice)
    }

    /// The meanings said anywhere in these stems.
    pub fn meanings_in(&self, stems: &[Token]) -> BTreeSet<Token> {
        let mut meanings = BTreeSet::new();
        for (at, stem) in stems.iter().enumerate() {
            let here = self.starting_with(*stem).iter();
            let said = here.filter(|(_, phrase)| stems[at..].starts_with(phrase));
            meanings.extend(said.map(|(meaning, _)| self.meaning(*meaning)));
        }
        meanings
    }

    /// The meaning that asks to do without this.
    pub fn without(&self, what: &Without) -> Option<Token> {
        let at = self.meanings.iter().position(|m| m.without.as_ref() == Some(what))?;
        Some(self.meaning(at))
    }
}

/// What means the same, as written.
#[derive(Default)]
struct Group {
    said: Vec<String>,
    without: Option<Without>,
    is_fault: bool,
}

impl Group {
    fn of(said: Vec<String>) -> Group {
        Group { said, ..Group::default() }
    }

    fn without(said: Vec<String>, what: Without) -> Group {
        Group { said, without: Some(what), is_fault: false }
    }
}

/// What the coach says means the same, and every way to say "without this".
fn groups(gym: &Gym, entries: &[Entry]) -> Vec<Group> {
    let same = gym.library.words.same.iter();
    let written = same.map(|group| group.iter().map(|word| word.value.clone()).collect());
    let mut groups: Vec<Group> = written.map(Group::of).collect();
    // Whatever a fault is called, it is the same fault wherever one of its names is written.
    let faults = gym.library.words.faults.values();
    let names = faults.map(|fault| std::iter::once(&fault.name).chain(&fault.also_said));
    groups
        .extend(names.map(|names| Group { is_fault: true, ..Group::of(names.cloned().collect()) }));
    let any = NO_KIT.iter().map(|phrase| phrase.to_string()).collect();
    groups.push(Group::without(any, Without::AnyKit));
    let mut ways: BTreeMap<Without, Vec<String>> = BTreeMap::new();
    for entry in entries {
        for what in &entry.answers {
            ways.entry(what.clone()).or_default().extend(ways_to_lack(entry, what));
        }
    }
    groups.extend(ways.into_iter().map(|(what, said)| Group::without(said, what)));
    share_ways_to_ask(&mut groups);
    groups
}

/// How people ask to do without what this page is about.
fn ways_to_lack(entry: &Entry, what: &Without) -> Vec<String> {
    let names = || vec![entry.name.clone(), entry.id.replace('-', " ")];
    let names = match what {
        Without::Sort(sort) => vec![sort.clone()],
        Without::Kit(_) => [names(), entry.also.clone()].concat(),
        // Of what is said of a trait, only the plain "no ..." asks to leave it out; "wrist hurts"
        // must still find the push-up.
        _ => {
            let said = entry.also.iter().filter(|also| lacking(also).is_some());
            names().into_iter().chain(said.cloned()).collect()
        }
    };
    let plain = names.iter().map(|name| lacking(name).unwrap_or(name));
    plain.map(|name| format!("{} {name}", LACKING[0])).collect()
}

/// Whatever the coach says means the same as one way to ask "without this" asks for it too.
fn share_ways_to_ask(groups: &mut [Group]) {
    let plain = |phrase: &String| fold::words(phrase);
    let same: Vec<Vec<String>> = groups
        .iter()
        .filter(|group| group.without.is_none())
        .map(|group| group.said.clone())
        .collect();
    for Group { said: asked, without, .. } in groups {
        let ways: BTreeSet<Vec<String>> = asked.iter().map(plain).collect();
        let shared = same.iter().filter(|said| said.iter().any(|s| ways.contains(&plain(s))));
        // A single word ("quiet") is too weak a sign to leave movements out.
        let shared = shared.flatten().filter(|said| fold::words(said).len() > 1);
        let shared: Vec<String> = shared.cloned().collect();
        if without.is_some() {
            asked.extend(shared);
        }
    }
}

/// What is asked to be left out: the words after "no".
fn lacking(phrase: &str) -> Option<&str> {
    phrase.strip_prefix("no ").or_else(|| phrase.strip_prefix("No "))
}

/// tantivy's English stemmer, one word at a time.
struct EnglishStemmer(TextAnalyzer);

impl EnglishStemmer {
    fn new() -> EnglishStemmer {
        let stemmer = Stemmer::new(Language::English);
        EnglishStemmer(TextAnalyzer::builder(RawTokenizer::default()).filter(stemmer).build())
    }

    fn stem(&mut self, word: &str) -> String {
        let mut stream = self.0.token_stream(word);
        if stream.advance() { stream.token().text.clone() } else { word.to_string() }
    }

    /// The endings that can be put on a word without changing its stem. Words that are known
    /// themselves need none.
    fn endings(&mut self, word: &str, stem: &str, known: &BTreeSet<&str>) -> u16 {
        let last = word.chars().next_back();
        let plain = ENDINGS.iter().map(|(ending, instead)| {
            let base = word.strip_suffix(instead)?;
            (base.len() > 2).then(|| format!("{base}{ending}"))
        });
        let doubled = DOUBLING.iter().map(|ending| Some(format!("{word}{}{ending}", last?)));
        let mut endings = 0;
        for (bit, other) in plain.chain(doubled).enumerate() {
            let other = other.filter(|other| !known.contains(other.as_str()));
            if other.is_some_and(|other| self.stem(&other) == stem) {
                endings |= 1 << bit;
            }
        }
        endings
    }
}
