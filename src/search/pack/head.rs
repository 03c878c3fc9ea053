//! The head of the exported index: what is too small to be worth packing, as JSON, which a browser
//! reads fastest.
//! Never holds what grows with the number of entries, but for ids and addresses that follow no rule.

use super::phrases::Phrases;
use super::{Address, Contents, sort_of};
use crate::search::entry::Entry;
use crate::search::leaf::{FIELDS, PAIR_BOOST};
use crate::search::question::{FAULT, PREFIX, SAME, SLIPS};
use crate::search::ranking::{ALL, EQUALS, STEPS};
use crate::search::vocabulary::{DOUBLING, ENDINGS, Meaning, Token};
use crate::search::{Hit, HitKind, HitPart, fold, spot};
use serde::Serialize;

/// The head, as it stands in the JSON. Numbers are exactly those that tantivy reckons with, which
/// have 32 bits.
#[derive(Serialize)]
pub struct Head<'i> {
    /// Of each field of `leaf::FIELDS`.
    boosts: Vec<f64>,
    /// The mean number of tokens in each, then of pairs.
    averages: Vec<f64>,
    pair_boost: f64,
    /// The gain of saying all that was asked.
    all: f64,
    /// How surely a prefix, one slip, two slips, and another way to say the same are meant.
    prefix: f64,
    slips: [f64; 2],
    same: f64,
    /// How much more a fault counts that is called by its name.
    fault: f64,
    /// The steps in which scores differ.
    steps: f64,
    /// How many equals are told apart by their phrases.
    equals: usize,
    /// Letters and what stands for them.
    folds: Vec<(&'static str, &'static str)>,
    silent: &'static str,
    /// An ending and what it stands instead of; then those before which a letter doubles.
    endings: Vec<(&'static str, &'static str)>,
    doubling: Vec<&'static str>,
    /// Sorted by UTF-16 units, with a space between.
    words: String,
    /// How many there are.
    stems: usize,
    pieces: usize,
    /// Pieces that are no plain words: what is written, and the place of the word if it is one.
    others: Vec<(&'i str, Option<usize>)>,
    /// 1 for "without", 2 for a fault, then its phrases as stems.
    meanings: Vec<(u8, Vec<&'i Vec<Token>>)>,
    /// The word for it, how many entries, and the frame of an id.
    kinds: Vec<(&'static str, usize, Frame)>,
    /// Fault, cue, rung: whether the number is shown, and the frame of a number.
    sorts: Vec<(&'static str, bool, Frame)>,
    /// Entries that follow no rule: the place; the id, if it is not the name with hyphens; the
    /// addresses of the page and each part, if they are not framed like those of others.
    odd: Vec<(usize, Option<&'i str>, Vec<String>)>,
}

/// What stands before and after an id or a number in an address.
type Frame = (String, String);

impl<'i> Head<'i> {
    /// The head of these contents.
    pub fn of(contents: &Contents<'i>, phrases: &'i Phrases<'i>, address: Address<'_>) -> Head<'i> {
        let entries = contents.entries;
        let kinds: Vec<Frame> =
            HitKind::ALL.iter().map(|kind| kind_frame(*kind, entries, address)).collect();
        let parts = [0, 1, 2].map(|sort| part_frame(sort, entries, address));
        let odd = |(at, entry): (usize, &'i Entry)| {
            let id = (entry.id != fold::words(&entry.name).join("-")).then_some(entry.id.as_str());
            let odd = !follows(entry, &kinds[entry.kind as usize], &parts, address);
            let addresses = places(entry).filter(|_| odd).map(|part| address(&hit(entry, part)));
            let addresses: Vec<String> = addresses.collect();
            (id.is_some() || odd).then_some((at, id, addresses))
        };
        let odd = entries.iter().enumerate().filter_map(odd).collect();
        let count = |kind: HitKind| entries.iter().filter(|entry| entry.kind == kind).count();
        let vocabulary = contents.vocabulary;
        let surfaces: Vec<&str> = vocabulary.surfaces.iter().map(|one| one.text.as_str()).collect();
        Head {
            boosts: FIELDS.iter().map(|facts| facts.boost.into()).collect(),
            averages: contents.averages.iter().copied().map(f64::from).collect(),
            pair_boost: PAIR_BOOST.into(),
            all: ALL.into(),
            prefix: PREFIX.into(),
            slips: SLIPS.map(f64::from),
            same: SAME.into(),
            fault: FAULT.into(),
            steps: STEPS.into(),
            equals: EQUALS,
            folds: fold::FOLDS.to_vec(),
            silent: fold::SILENT,
            endings: ENDINGS.to_vec(),
            doubling: DOUBLING.to_vec(),
            words: surfaces.join(" "),
            stems: vocabulary.stems.len(),
            pieces: phrases.pieces().len(),
            others: phrases.others().collect(),
            meanings: vocabulary
                .meanings
                .iter()
                .map(|one| (sort_of_meaning(one), one.phrases.iter().collect()))
                .collect(),
            kinds: HitKind::ALL
                .iter()
                .zip(&kinds)
                .map(|(kind, frame)| (kind.word(), count(*kind), frame.clone()))
                .collect(),
            sorts: spot::PART_WORDS
                .iter()
                .zip(&parts)
                .map(|((word, numbered), frame)| (*word, *numbered, frame.clone()))
                .collect(),
            odd,
        }
    }
}

fn sort_of_meaning(meaning: &Meaning) -> u8 {
    if meaning.is_fault { 2 } else { u8::from(meaning.without.is_some()) }
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

/// What stands round the ids of a kind, judged by its first entry.
fn kind_frame(kind: HitKind, entries: &[Entry], address: Address<'_>) -> Frame {
    let first = entries.iter().find(|entry| entry.kind == kind);
    first
        .and_then(|entry| frame(&address(&hit(entry, HitPart::Page)), &entry.id))
        .unwrap_or_default()
}

/// What stands round the numbers of a sort of part, judged by the first entry that has one.
fn part_frame(sort: usize, entries: &[Entry], address: Address<'_>) -> Frame {
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
fn follows(entry: &Entry, (before, after): &Frame, parts: &[Frame], address: Address<'_>) -> bool {
    let page = format!("{before}{}{after}", entry.id);
    places(entry).all(|part| {
        let expected = match sort_of(part).map(|sort| &parts[sort]) {
            None => page.clone(),
            Some((before, after)) => format!("{page}{before}{}{after}", number_of(part)),
        };
        address(&hit(entry, part)) == expected
    })
}
