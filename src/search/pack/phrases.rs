//! Phrases of the exported index: names and short sentences as the numbers of their pieces, so that
//! one text serves to show a hit, to find where its words are, and to rank it.
//! Never loses a letter: what does not follow the rule is a piece of its own.

use super::letters::number;
use crate::search::fold;
use crate::search::vocabulary::Vocabulary;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// Ends a phrase.
const END: usize = 0;
/// The next word begins with a capital where none is expected, or the other way round.
const CAPITAL: usize = 1;
/// The number of the most frequent piece.
const FIRST_PIECE: usize = 2;

/// What a phrase is made of, besides capitals and its end.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Piece {
    /// A word in small letters, by its place among the surfaces.
    Word(usize),
    /// A word that is written in some other way.
    Written(usize, String),
    /// What stands before the next word or the end, where it is not one space.
    Between(String),
}

/// A piece with what comes before it.
enum Part {
    Capital,
    Piece(Piece),
}

/// Writes phrases; the most frequent pieces have the smallest numbers.
pub struct Phrases<'v> {
    vocabulary: &'v Vocabulary,
    by_frequency: Vec<Piece>,
    number_of: BTreeMap<Piece, usize>,
}

impl<'v> Phrases<'v> {
    /// Counts the pieces of all phrases; of each is said whether its first word is expected to have a
    /// capital.
    pub fn of<'t>(
        vocabulary: &'v Vocabulary,
        phrases: impl Iterator<Item = (&'t str, bool)>,
    ) -> Phrases<'v> {
        let mut counts: BTreeMap<Piece, usize> = BTreeMap::new();
        for part in phrases.flat_map(|(phrase, capital)| parts(vocabulary, phrase, capital)) {
            if let Part::Piece(piece) = part {
                *counts.entry(piece).or_default() += 1;
            }
        }
        let mut by_frequency: Vec<Piece> = counts.keys().cloned().collect();
        by_frequency.sort_by_key(|piece| Reverse(counts[piece]));
        let number_of =
            by_frequency.iter().enumerate().map(|(at, piece)| (piece.clone(), at)).collect();
        Phrases { vocabulary, by_frequency, number_of }
    }

    /// All pieces, the most frequent first: twice the place of a word, or twice the place among the
    /// others, plus one.
    pub fn pieces(&self) -> Vec<usize> {
        let mut others = 0;
        let mut number = |piece: &Piece| match piece {
            Piece::Word(at) => at * 2,
            _ => {
                others += 1;
                others * 2 - 1
            }
        };
        self.by_frequency.iter().map(&mut number).collect()
    }

    /// The pieces that are no plain words: what is written, and the place of the word if it is one.
    pub fn others(&self) -> impl Iterator<Item = (&str, Option<usize>)> {
        self.by_frequency.iter().filter_map(|piece| match piece {
            Piece::Word(_) => None,
            Piece::Written(at, written) => Some((written.as_str(), Some(*at))),
            Piece::Between(between) => Some((between.as_str(), None)),
        })
    }

    /// Appends a phrase. `capital` says whether its first word is expected to have one.
    pub fn write(&self, out: &mut String, phrase: &str, capital: bool) {
        for part in parts(self.vocabulary, phrase, capital) {
            match part {
                Part::Capital => number(out, CAPITAL),
                // Every piece was counted before.
                Part::Piece(piece) => number(
                    out,
                    self.number_of.get(&piece).copied().unwrap_or_default() + FIRST_PIECE,
                ),
            }
        }
        number(out, END);
    }
}

fn parts(vocabulary: &Vocabulary, phrase: &str, capital: bool) -> Vec<Part> {
    let mut parts = Vec::new();
    let mut done = 0;
    for (range, word) in fold::spans(phrase) {
        let between = &phrase[done..range.start];
        if between != usual_before(done) {
            parts.push(Part::Piece(Piece::Between(between.to_string())));
        }
        let written = &phrase[range.clone()];
        // Every word of an entry is in the vocabulary, which was made from the entries.
        let at = vocabulary.surface(&word).unwrap_or_default();
        match is_capital(written, &word) {
            None => parts.push(Part::Piece(Piece::Written(at, written.to_string()))),
            Some(is) => {
                if is != (capital && done == 0) {
                    parts.push(Part::Capital);
                }
                parts.push(Part::Piece(Piece::Word(at)));
            }
        }
        done = range.end;
    }
    if done < phrase.len() {
        parts.push(Part::Piece(Piece::Between(phrase[done..].to_string())));
    }
    parts
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
