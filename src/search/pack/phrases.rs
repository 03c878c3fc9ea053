//! Phrases of the exported index: names and short sentences as the numbers of their words, so that
//! one text serves to show a hit, to find where its words are, and to rank it.
//! Never loses a letter: what does not follow the rule is written out.

use super::letters::{self, number};
use crate::search::fold;
use crate::search::vocabulary::Vocabulary;
use std::collections::BTreeMap;

/// Ends a phrase.
const END: usize = 0;
/// A hyphen and no space before the next word.
const HYPHEN: usize = 1;
/// A comma and a space before the next word.
const COMMA: usize = 2;
/// The next word begins with a capital where none is expected, or the other way round.
const CAPITAL: usize = 3;
/// What follows, as a text, stands before the next word or the end.
const BETWEEN: usize = 4;
/// What follows, as a text, is how the next word is written.
const WRITTEN: usize = 5;
/// The number of the most frequent word.
const FIRST_WORD: usize = 6;

/// Writes phrases; the most frequent words have the smallest numbers.
pub struct Phrases<'v> {
    vocabulary: &'v Vocabulary,
    /// The words in phrases, the most frequent first, by their place among the surfaces.
    pub by_frequency: Vec<usize>,
    number_of: BTreeMap<usize, usize>,
}

impl<'v> Phrases<'v> {
    /// Counts the words of all phrases.
    pub fn of<'t>(vocabulary: &'v Vocabulary, texts: impl Iterator<Item = &'t str>) -> Phrases<'v> {
        let mut counts: BTreeMap<usize, usize> = BTreeMap::new();
        for word in texts.flat_map(fold::words) {
            if let Some(at) = vocabulary.surface(&word) {
                *counts.entry(at).or_default() += 1;
            }
        }
        let mut by_frequency: Vec<usize> = counts.keys().copied().collect();
        by_frequency.sort_by_key(|at| std::cmp::Reverse(counts[at]));
        let number_of = by_frequency.iter().enumerate().map(|(number, at)| (*at, number)).collect();
        Phrases { vocabulary, by_frequency, number_of }
    }

    /// Appends a phrase. `capital` says whether its first word is expected to have one.
    pub fn write(&self, out: &mut String, text: &str, capital: bool) {
        let mut done = 0;
        for (range, word) in fold::spans(text) {
            let between = &text[done..range.start];
            match between {
                _ if between == usual_before(done) => {}
                "-" => number(out, HYPHEN),
                ", " => number(out, COMMA),
                _ => write_out(out, BETWEEN, between),
            }
            let written = &text[range.clone()];
            let expected = capital && done == 0;
            match is_capital(written, &word) {
                Some(capital) if capital == expected => {}
                Some(_) => number(out, CAPITAL),
                None => write_out(out, WRITTEN, written),
            }
            // Every word of an entry is in the vocabulary, which was made from the entries.
            let code = self.vocabulary.surface(&word).and_then(|at| self.number_of.get(&at));
            number(out, code.copied().unwrap_or_default() + FIRST_WORD);
            done = range.end;
        }
        if done < text.len() {
            write_out(out, BETWEEN, &text[done..]);
        }
        number(out, END);
    }
}

fn write_out(out: &mut String, code: usize, text: &str) {
    number(out, code);
    letters::text(out, text);
}

/// Between words stands a space; before the first, nothing.
fn usual_before(done: usize) -> &'static str {
    if done == 0 { "" } else { " " }
}

/// Whether a word is written in small letters or with one capital; nothing if it is neither.
fn is_capital(written: &str, word: &str) -> Option<bool> {
    if written == word {
        return Some(false);
    }
    let first = word.chars().next()?;
    let capital = format!("{}{}", first.to_ascii_uppercase(), &word[first.len_utf8()..]);
    (written == capital).then_some(true)
}
