//! The spot: where on a page the words of a question are.
//! Never changes the order of the answers.

use super::entry::Entry;
use super::leaf::Leaf;
use super::question::{Choice, Question, Unit};
use super::vocabulary::{Token, Vocabulary};
use super::{HitKind, HitPart};
use std::collections::BTreeSet;

/// What is said of an entry in whose text alone the words are.
const IN_PASSING: &str = "in its text";

/// Where the words are.
#[derive(Debug, Clone)]
pub struct Spot {
    /// The part of the page.
    pub part: HitPart,
    /// A short phrase that names it.
    pub matched: String,
    /// How many words the phrase has, and whether it is a part: among equal answers the one that
    /// says little more than was asked comes first, and a name before a part.
    pub length: (usize, bool),
}

/// The part of the page that says most of the question. The earliest wins among equals: name, other
/// names, faults, cues, rungs.
pub fn spot(vocabulary: &Vocabulary, question: &Question, entry: &Entry, leaf: &Leaf) -> Spot {
    let mut best = said(vocabulary, question, &leaf.name, true);
    let found = |stems: &[Token], part, matched| {
        let matched: String = matched;
        Spot { part, matched, length: (stems.len(), part != HitPart::Page) }
    };
    let mut place = found(&leaf.name, HitPart::Page, kind_words(entry.kind).to_string());
    if best == 0.0 {
        // A word in passing is no advice: an entry may name a situation to warn of it.
        place.length = (usize::MAX, true);
        place.matched = IN_PASSING.to_string();
    }
    let also = leaf.also.iter().zip(&entry.also);
    for (stems, words) in also {
        let here = said(vocabulary, question, stems, true);
        if here > best {
            (best, place) = (here, found(stems, HitPart::Page, format!("also: {words}")));
        }
    }
    for (stems, (part, words)) in leaf.parts.iter().zip(&entry.parts) {
        // A fault is asked for together with its movement: "hips sag in plank".
        let here = said(vocabulary, question, &[leaf.name.as_slice(), stems].concat(), false);
        if here > best {
            let matched = format!("{}: {words}", part_words(*part));
            (best, place) = (here, found(stems, *part, matched));
        }
    }
    place
}

/// How much of the question a phrase says.
fn said(vocabulary: &Vocabulary, question: &Question, stems: &[Token], is_name: bool) -> f64 {
    let mut tokens: BTreeSet<Token> = stems.iter().copied().collect();
    tokens.extend(vocabulary.meanings_in(stems));
    let best = |choices: &[Choice]| {
        let here = choices.iter().filter(|choice| tokens.contains(&choice.token));
        let here = here.filter(|choice| is_name || !choice.names_only);
        here.map(|choice| f64::from(choice.sure)).fold(0.0, f64::max)
    };
    let unit = |unit: &Unit| {
        let words: f64 = unit.words.iter().map(|choices| best(choices)).sum();
        words.max(best(&unit.whole))
    };
    question.units.iter().map(unit).sum()
}

/// What a kind of entry is called.
pub fn kind_words(kind: HitKind) -> &'static str {
    match kind {
        HitKind::Movement => "movement",
        HitKind::Ladder => "ladder",
        HitKind::Fault => "fault",
        HitKind::Caution => "caution",
        HitKind::Kit => "kit",
        HitKind::Trait => "what to avoid",
        HitKind::Pattern => "pattern",
        HitKind::Muscle => "muscle",
        HitKind::Session => "session",
        HitKind::Cycle => "cycle",
        HitKind::Block => "block",
    }
}

/// What the sorts of parts are called, and whether their number is said: fault, cue, rung.
pub const PART_WORDS: [(&str, bool); 3] = [("fault", false), ("cue", false), ("rung", true)];

/// What a part of a page is called.
fn part_words(part: HitPart) -> String {
    match part {
        HitPart::Page => String::new(),
        HitPart::Fault(_) => PART_WORDS[0].0.to_string(),
        HitPart::Cue(_) => PART_WORDS[1].0.to_string(),
        HitPart::Rung(number) => format!("{} {number}", PART_WORDS[2].0),
    }
}
