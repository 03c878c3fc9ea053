//! The exported index: everything that the browser needs to give the same answers as the command.
//! Never differs from run to run; never holds a member's data or an address of another host.
//!
//! # The format, version 5
//!
//! One text, which a script can hold between quotation marks and a page reads where it stands:
//! whole numbers take one letter each, or go on in the next, frequent ones one byte (see `letters`).
//! Numbers *in one letter* never go on, so that a page finds any of them without reading the others.
//! A text is its length, then itself.
//!
//! 1. `RUNG5`, and the sum of the letters that follow (see `sum`): a spoilt file is not read.
//! 2. The head, a text of JSON: what is small (see `head`).
//! 3. For each word in one letter, its stem: 0 none, 1 the next new stem, else one more than the
//!    number of stems made since its own. Then for each word in one letter, its endings.
//! 4. Pieces of phrases in one letter each, the most frequent first: twice its place among the words,
//!    or twice its place among the other pieces, plus one.
//! 5. Entries, all of one kind together: for each, in one letter, how many other names, faults, cues,
//!    rungs.
//! 6. For each stem, how often it stands in phrases; the phrases of each entry in that order, its name
//!    first, as one text (see `phrases`).
//! 7. For each stem, then each meaning, the letters of its lists; then the lists. A stem has the
//!    entries that are *about* it, and those that mention it anywhere else than in a phrase or
//!    there, numbered as if there were no entries but those that have it in neither; one that no entry
//!    has takes no letters. A meaning has the entries that say it beside their phrases; for
//!    "without", those that are about it; those that mention it otherwise, numbered likewise; and for
//!    "without", those that it rules out.

mod head;
mod letters;
mod phrases;

use super::entry::Entry;
use super::leaf::Leaf;
use super::vocabulary::{Known, Token, Vocabulary};
use super::{Hit, HitPart, SearchError};
use head::Head;
use letters::{Bits, number, one_letter, text};
use phrases::Phrases;
use std::collections::BTreeSet;

/// What is packed.
pub struct Contents<'i> {
    /// The entries, all of one kind together.
    pub entries: &'i [Entry],
    /// Their tokens.
    pub leaves: &'i [Leaf],
    /// The words.
    pub vocabulary: &'i Vocabulary,
    /// The mean number of tokens in each field and of pairs.
    pub averages: &'i [f32],
}

/// Gives the address of a page or of a part of one.
pub type Address<'a> = &'a dyn Fn(&Hit) -> String;

/// Packs an index.
///
/// # Errors
/// When the library holds more than its letters can count.
pub fn pack(contents: &Contents<'_>, address: Address<'_>) -> Result<String, SearchError> {
    let phrases = Phrases::of(contents.vocabulary, contents.entries.iter().flat_map(phrases_of));
    let mut out = String::new();
    text(&mut out, &serde_json::to_string(&Head::of(contents, &phrases, address))?);
    words(&mut out, contents.vocabulary)?;
    phrases.pieces().iter().try_for_each(|piece| one_letter(&mut out, *piece))?;
    contents.entries.iter().try_for_each(|entry| shape(&mut out, entry))?;
    how_often(contents).into_iter().for_each(|times| number(&mut out, times));
    let mut written = String::new();
    for (phrase, capital) in contents.entries.iter().flat_map(phrases_of) {
        phrases.write(&mut written, phrase, capital);
    }
    text(&mut out, &written);
    lists(&mut out, contents);
    let mut whole = "RUNG5".to_string();
    number(&mut whole, sum(&out));
    Ok(whole + &out)
}

/// The sum by which a page knows a whole file: each UTF-16 unit added to 31 times the sum of those before
/// it, below 2 to the 28th.
fn sum(letters: &str) -> usize {
    letters.encode_utf16().fold(0, |sum, unit| (sum * 31 + usize::from(unit)) % 0x1000_0000)
}

fn words(out: &mut String, vocabulary: &Vocabulary) -> Result<(), SearchError> {
    let mut made: Token = 0;
    for surface in &vocabulary.surfaces {
        match surface.stem {
            None => one_letter(out, 0)?,
            Some(stem) if stem == made => {
                made += 1;
                one_letter(out, 1)?;
            }
            Some(stem) => one_letter(out, (made - stem) as usize + 1)?,
        }
    }
    let mut endings = vocabulary.surfaces.iter().map(|surface| usize::from(surface.endings));
    endings.try_for_each(|endings| one_letter(out, endings))
}

/// How many other names, faults, cues and rungs an entry has.
fn shape(out: &mut String, entry: &Entry) -> Result<(), SearchError> {
    one_letter(out, entry.also.len())?;
    (0..3).try_for_each(|sort| {
        let parts = entry.parts.iter().filter(|(part, _)| sort_of(*part) == Some(sort));
        one_letter(out, parts.count())
    })
}

/// Every phrase of an entry, and whether it is expected to begin with a capital.
fn phrases_of(entry: &Entry) -> impl Iterator<Item = (&str, bool)> {
    let also = entry.also.iter().map(|also| (also.as_str(), false));
    let parts = entry.parts.iter().map(|(_, part)| (part.as_str(), true));
    std::iter::once((entry.name.as_str(), true)).chain(also).chain(parts)
}

/// Fault, cue, rung: the sorts of parts as they stand in the format.
fn sort_of(part: HitPart) -> Option<usize> {
    match part {
        HitPart::Page => None,
        HitPart::Fault(_) => Some(0),
        HitPart::Cue(_) => Some(1),
        HitPart::Rung(_) => Some(2),
    }
}

/// How often each stem stands in a phrase.
fn how_often(contents: &Contents<'_>) -> Vec<usize> {
    let mut times = vec![0; contents.vocabulary.stems.len()];
    for leaf in contents.leaves {
        let phrases = [&leaf.name].into_iter().chain(&leaf.also).chain(&leaf.parts);
        phrases.flatten().for_each(|stem| times[*stem as usize] += 1);
    }
    times
}

/// The entries of one token, by how they have it.
#[derive(Default, Clone)]
struct Lists {
    same: Vec<usize>,
    about: Vec<usize>,
    /// Numbered among the entries that have it in no other way.
    mention: Vec<usize>,
    /// How many have it in another way.
    known: usize,
    ruled_out: Vec<usize>,
}

fn lists(out: &mut String, contents: &Contents<'_>) {
    let stems = contents.vocabulary.stems.len();
    let by_token = by_token(contents);
    let below = contents.leaves.len();
    let mut all = String::new();
    for (token, lists) in by_token.iter().enumerate() {
        let is_stem = token < stems;
        let is_without = contents.vocabulary.is_without(token as Token);
        let mut bits = Bits::default();
        if !is_stem {
            bits.list(&lists.same, below);
        }
        if is_stem || is_without {
            bits.list(&lists.about, below);
        }
        bits.list(&lists.mention, below - lists.known);
        if is_without {
            bits.list(&lists.ruled_out, below);
        }
        // What no entry has, and stands in the vocabulary as another word for something, takes nothing.
        let has_any = !is_stem || contents.vocabulary.is_written(Known::Stem(token as Token));
        let packed = if has_any { bits.letters() } else { String::new() };
        number(out, packed.len());
        all.push_str(&packed);
    }
    out.push_str(&all);
}

fn by_token(contents: &Contents<'_>) -> Vec<Lists> {
    let tokens = contents.vocabulary.stems.len() + contents.vocabulary.meanings.len();
    let mut lists = vec![Lists::default(); tokens];
    for (at, leaf) in contents.leaves.iter().enumerate() {
        let in_phrases = leaf.in_phrases();
        let elsewhere = leaf.same.difference(&leaf.same_in_phrases);
        elsewhere.for_each(|token| lists[*token as usize].same.push(at));
        leaf.about.iter().for_each(|token| lists[*token as usize].about.push(at));
        leaf.needs.iter().for_each(|token| lists[*token as usize].ruled_out.push(at));
        let mut known: BTreeSet<Token> = in_phrases;
        known.extend(leaf.about.iter().chain(&leaf.same));
        for token in leaf.text.difference(&known) {
            let lists = &mut lists[*token as usize];
            lists.mention.push(at - lists.known);
        }
        known.iter().for_each(|token| lists[*token as usize].known += 1);
    }
    lists
}
