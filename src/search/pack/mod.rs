//! The exported index: everything that the browser needs to give the same answers as the command.
//! Never differs from run to run; never holds a member's data or an address of another host.
//!
//! # The format, version 3
//!
//! One text, which a script can hold between quotation marks and a page reads where it stands:
//! whole numbers take one letter each, frequent ones one byte (see `letters`). A text is its length,
//! then itself. A float is the number that its 32 bits are.
//!
//! 1. `RUNG3`.
//! 2. Floats: the boost of each field of `leaf::FIELDS`; the mean tokens of each and of pairs; then
//!    the boost of pairs, the gain of saying all, and how surely a prefix, one slip, two slips and
//!    another way to say the same are meant; the steps in which scores differ.
//! 3. Folds: how many, then letters and what stands for them; the silent letters.
//! 4. Endings: how many, then the ending and what it stands instead of; how many double, and which.
//! 5. Words, sorted by UTF-16 units, as one text with a space between; then for each, its stem: 0
//!    none, 1 the next new stem, else two more than the number of stems made since; for each, its
//!    endings times two, plus one if an entry has the word.
//! 6. Words in phrases: how many, then their places among the words, the most frequent first.
//! 7. Meanings: how many; for each, twice the number of its phrases, plus one for "without"; for each
//!    phrase, how many stems and which.
//! 8. Kinds: how many; for each, its word, how many entries, and what stands before and after an id
//!    in their addresses. Parts (fault, cue, rung): word, 1 if its number is shown, and what stands
//!    before and after its number in an address.
//! 9. Entries, all of one kind together: for each, how many other names, faults, cues, rungs.
//! 10. How many phrases there are; for each stem, how often it stands in them; the letters that all
//!     phrases take; the phrases of each entry in that order, its name first (see `phrases`).
//! 11. Entries that follow no rule: how many; for each, its place; 1 if its id is not its name with
//!     hyphens, plus 2 if its addresses are written out; that id; addresses of the page and each part.
//! 12. For each stem, then each meaning, the letters of its lists; then the lists. A stem has the
//!     entries that are *about* it, and those that mention it anywhere else than in a phrase or
//!     there, numbered as if there were no entries but those that have it in neither. A meaning has the entries that say it beside their phrases; for "without", those that are
//!     about it; those that mention it otherwise, numbered likewise; and for "without", those that it rules out.

mod letters;
mod phrases;

use super::entry::Entry;
use super::leaf::{FIELDS, Leaf, PAIR_BOOST};
use super::question::{PREFIX, SAME, SLIPS};
use super::ranking::{ALL, STEPS};
use super::vocabulary::{DOUBLING, ENDINGS, Token, Vocabulary};
use super::{Hit, HitKind, HitPart, fold, spot};
use letters::{Bits, floats, number, text};
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

/// Packs an index; `address` gives the address of a page or of a part of one.
pub fn pack(contents: &Contents<'_>, address: impl Fn(&Hit) -> String) -> String {
    let mut out = "RUNG3".to_string();
    numbers(&mut out, contents.averages);
    rules(&mut out);
    words(&mut out, contents.vocabulary);
    let texts = contents.entries.iter().flat_map(phrases_of).map(|(phrase, _)| phrase);
    let phrases = Phrases::of(contents.vocabulary, texts);
    number(&mut out, phrases.by_frequency.len());
    phrases.by_frequency.iter().for_each(|at| number(&mut out, *at));
    meanings(&mut out, contents.vocabulary);
    pages(&mut out, contents, &phrases, &address);
    lists(&mut out, contents);
    out
}

fn numbers(out: &mut String, averages: &[f32]) {
    floats(out, &FIELDS.map(|facts| facts.boost));
    floats(out, averages);
    floats(out, &[PAIR_BOOST, ALL, PREFIX, SLIPS[0], SLIPS[1], SAME, STEPS]);
}

fn rules(out: &mut String) {
    number(out, fold::FOLDS.len());
    for (marked, plain) in fold::FOLDS {
        text(out, marked);
        text(out, plain);
    }
    text(out, fold::SILENT);
    number(out, ENDINGS.len());
    for (ending, instead) in ENDINGS {
        text(out, ending);
        text(out, instead);
    }
    number(out, DOUBLING.len());
    DOUBLING.iter().for_each(|ending| text(out, ending));
}

fn words(out: &mut String, vocabulary: &Vocabulary) {
    let surfaces = &vocabulary.surfaces;
    // Written in full: a page cuts them apart in one step, which sharing beginnings would not allow.
    let all: Vec<&str> = surfaces.iter().map(|surface| surface.text.as_str()).collect();
    text(out, &all.join(" "));
    let mut made: Token = 0;
    for surface in surfaces {
        match surface.stem {
            None => number(out, 0),
            Some(stem) if stem == made => {
                made += 1;
                number(out, 1);
            }
            Some(stem) => number(out, (made - stem) as usize + 1),
        }
    }
    for surface in surfaces {
        number(out, usize::from(surface.endings) * 2 + usize::from(surface.written));
    }
}

fn meanings(out: &mut String, vocabulary: &Vocabulary) {
    number(out, vocabulary.meanings.len());
    for meaning in &vocabulary.meanings {
        number(out, meaning.phrases.len() * 2 + usize::from(meaning.without.is_some()));
        for phrase in &meaning.phrases {
            number(out, phrase.len());
            phrase.iter().for_each(|stem| number(out, *stem as usize));
        }
    }
}

/// Every phrase of an entry, and whether it is expected to begin with a capital.
fn phrases_of(entry: &Entry) -> impl Iterator<Item = (&str, bool)> {
    let also = entry.also.iter().map(|also| (also.as_str(), false));
    let parts = entry.parts.iter().map(|(_, part)| (part.as_str(), true));
    std::iter::once((entry.name.as_str(), true)).chain(also).chain(parts)
}

/// What stands before and after an id or a number in an address.
type Frame = (String, String);

fn pages(
    out: &mut String,
    contents: &Contents<'_>,
    phrases: &Phrases<'_>,
    address: &dyn Fn(&Hit) -> String,
) {
    let entries = contents.entries;
    let kinds: Vec<Frame> =
        HitKind::ALL.iter().map(|kind| kind_frame(*kind, entries, address)).collect();
    number(out, kinds.len());
    for (kind, (before, after)) in HitKind::ALL.iter().zip(&kinds) {
        text(out, kind.word());
        number(out, entries.iter().filter(|entry| entry.kind == *kind).count());
        text(out, before);
        text(out, after);
    }
    let parts: Vec<Frame> = [0, 1, 2].map(|sort| part_frame(sort, entries, address)).to_vec();
    for (sort, (before, after)) in parts.iter().enumerate() {
        let (word, numbered) = spot::PART_WORDS[sort];
        text(out, word);
        number(out, usize::from(numbered));
        text(out, before);
        text(out, after);
    }
    let (mut written, mut odd, mut odd_entries) = (String::new(), String::new(), 0);
    for (at, entry) in entries.iter().enumerate() {
        let count =
            |sort| entry.parts.iter().filter(|(part, _)| sort_of(*part) == Some(sort)).count();
        number(out, entry.also.len());
        [0, 1, 2].iter().for_each(|sort| number(out, count(*sort)));
        phrases_of(entry)
            .for_each(|(phrase, capital)| phrases.write(&mut written, phrase, capital));
        let page = &kinds[entry.kind as usize];
        odd_entries += usize::from(write_odd(&mut odd, (at, entry), (page, &parts), address));
    }
    number(out, entries.iter().flat_map(phrases_of).count());
    how_often(contents).into_iter().for_each(|times| number(out, times));
    number(out, written.encode_utf16().count());
    out.push_str(&written);
    number(out, odd_entries);
    out.push_str(&odd);
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

/// Writes the id and the addresses that no rule gives; says whether there are any.
fn write_odd(
    odd: &mut String,
    (at, entry): (usize, &Entry),
    (page, parts): (&Frame, &[Frame]),
    address: &dyn Fn(&Hit) -> String,
) -> bool {
    let odd_id = entry.id != fold::words(&entry.name).join("-");
    let odd_address = !follows(entry, page, parts, address);
    if odd_id || odd_address {
        number(odd, at);
        number(odd, usize::from(odd_id) + 2 * usize::from(odd_address));
    }
    if odd_id {
        text(odd, &entry.id);
    }
    if odd_address {
        places(entry).for_each(|part| text(odd, &address(&hit(entry, part))));
    }
    odd_id || odd_address
}

/// The page, then each of its parts.
fn places(entry: &Entry) -> impl Iterator<Item = HitPart> {
    std::iter::once(HitPart::Page).chain(entry.parts.iter().map(|(part, _)| *part))
}

/// An answer as the maker of addresses wants to see it.
fn hit(entry: &Entry, part: HitPart) -> Hit {
    Hit {
        kind: entry.kind,
        id: entry.id.clone(),
        name: entry.name.clone(),
        part,
        matched: String::new(),
        score: 0.0,
    }
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

/// What stands round the ids of a kind, judged by its first entry.
fn kind_frame(kind: HitKind, entries: &[Entry], address: &dyn Fn(&Hit) -> String) -> Frame {
    let first = entries.iter().find(|entry| entry.kind == kind);
    first
        .and_then(|entry| frame(&address(&hit(entry, HitPart::Page)), &entry.id))
        .unwrap_or_default()
}

/// What stands round the numbers of a sort of part, judged by the first entry that has one.
fn part_frame(sort: usize, entries: &[Entry], address: &dyn Fn(&Hit) -> String) -> Frame {
    let mut all = entries.iter().flat_map(|entry| places(entry).map(move |part| (entry, part)));
    let first = all.find(|(_, part)| sort_of(*part) == Some(sort));
    let framed = first.and_then(|(entry, part)| {
        let page = address(&hit(entry, HitPart::Page));
        frame(address(&hit(entry, part)).strip_prefix(&page)?, &number_of(part).to_string())
    });
    framed.unwrap_or_default()
}

/// What stands before and after the last `inner` of an address.
fn frame(address: &str, inner: &str) -> Option<Frame> {
    let (before, after) = address.rsplit_once(inner)?;
    Some((before.to_string(), after.to_string()))
}

fn number_of(part: HitPart) -> usize {
    match part {
        HitPart::Page => 0,
        HitPart::Fault(number) | HitPart::Cue(number) | HitPart::Rung(number) => number,
    }
}

/// Whether all addresses of an entry are what its kind and its parts let one expect.
fn follows(
    entry: &Entry,
    (before, after): &Frame,
    parts: &[Frame],
    address: &dyn Fn(&Hit) -> String,
) -> bool {
    let page = format!("{before}{}{after}", entry.id);
    places(entry).all(|part| {
        let expected = match sort_of(part).map(|sort| &parts[sort]) {
            None => page.clone(),
            Some((before, after)) => format!("{page}{before}{}{after}", number_of(part)),
        };
        address(&hit(entry, part)) == expected
    })
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
        let packed = bits.letters();
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
