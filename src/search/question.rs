//! Questions: what a person typed, turned into the tokens that may answer it and how surely.
//! Never looks at an entry: the same words give the same question whatever is asked of.

use super::fold;
use super::leaf::{Pair, pair};
use super::vocabulary::{Known, Token, Vocabulary};
use std::collections::BTreeMap;

/// How surely a word stands for a token. A rule of thumb, tuned on one half of the labelled
/// questions; the browser gets these numbers with the index.
pub const PREFIX: f32 = 0.75;
/// For one slip of the finger and for two; rules of thumb.
pub const SLIPS: [f32; 2] = [0.5, 0.3];
/// For another way to say the same; a rule of thumb.
pub const SAME: f32 = 0.9;
/// How much more a fault counts that is called by one of its names than the words of the name: who
/// types what they see wants that fault, not every page on knees. A rule of thumb.
pub const FAULT: f32 = 1.5;

/// Fewer letters than these, and an unfinished word stands in almost every text.
const SHORTEST: usize = 3;

/// A token that may be meant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Choice {
    /// The token.
    pub token: Token,
    /// How surely it is meant: up to 1 for each word that says it.
    pub sure: f32,
    /// Only names are searched: the word is too short.
    pub names_only: bool,
}

/// One or more words that are judged together: each word by itself, or all as one.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Unit {
    /// For each word, what may be meant.
    pub words: Vec<Vec<Choice>>,
    /// What may be meant by all of them together.
    pub whole: Vec<Choice>,
}

/// A question.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Question {
    /// What is asked for.
    pub units: Vec<Unit>,
    /// Words side by side: what pair each may be, and how surely.
    pub pairs: Vec<Vec<(Pair, f32)>>,
    /// Meanings that rule an entry out: "no bar".
    pub without: Vec<Token>,
    /// Words that nothing in the library says, nor anything near them.
    pub unknown: Vec<String>,
}

/// A word of the question and what it may be.
struct Said {
    text: String,
    choices: Vec<Choice>,
    /// The stems it may be in a phrase, with how surely.
    stems: Vec<(Token, f32)>,
}

/// The most letters of a question that are read, counted as a browser counts them (`question.js` says
/// the same number). Nobody asks in more, and a pasted page would keep a phone busy.
pub const LONGEST: usize = 200;

/// As much of what was typed as is read.
pub fn read_of(typed: &str) -> &str {
    let mut units = 0;
    let beyond = typed.char_indices().find(|(_, c)| {
        units += c.len_utf16();
        units > LONGEST
    });
    beyond.map_or(typed, |(at, _)| &typed[..at])
}

/// Understands what was typed.
pub fn ask(vocabulary: &Vocabulary, typed: &str) -> Question {
    let typed = read_of(typed);
    let words = fold::words(typed);
    let open = fold::is_open(typed);
    let last = words.len().saturating_sub(1);
    let said: Vec<Said> = words
        .into_iter()
        .enumerate()
        .flat_map(|(at, word)| hear(vocabulary, word, open && at == last))
        .collect();
    let mut question = Question::default();
    let mut at = 0;
    while at < said.len() {
        at += next_unit(vocabulary, &said[at..], &mut question);
    }
    let unknown = said.iter().filter(|word| word.choices.is_empty());
    question.unknown = unknown.map(|word| word.text.clone()).collect();
    let pairs = said.windows(2).map(|two| side_by_side(&two[0], &two[1]));
    question.pairs = pairs.filter(|pairs| !pairs.is_empty()).collect();
    question
}

/// Adds the unit that starts here; says how many words it took.
fn next_unit(vocabulary: &Vocabulary, said: &[Said], question: &mut Question) -> usize {
    let words = |length: usize| said[..length].iter().map(|word| word.choices.clone()).collect();
    if let Some((length, whole)) = longest_phrase(vocabulary, said) {
        let without = whole.iter().map(|choice| choice.token);
        let without: Vec<Token> = without.filter(|t| vocabulary.is_without(*t)).collect();
        // Without a bar means just that: pages that merely speak of bars are no answer.
        let words = if without.is_empty() { words(length) } else { Vec::new() };
        // Any other phrase counts for as much as its words.
        let times = if without.is_empty() { length } else { 1 };
        let scaled = whole.iter().map(|choice| {
            let sure = choice.sure * times as f32;
            let is_fault = vocabulary.is_fault(choice.token);
            Choice { sure: if is_fault { sure * FAULT } else { sure }, ..*choice }
        });
        let whole = scaled.collect();
        question.without.extend(without);
        question.units.push(Unit { words, whole });
        return length;
    }
    if let Some(whole) = joined(vocabulary, said) {
        question.units.push(Unit { words: words(2), whole });
        return 2;
    }
    question.units.push(Unit { words: words(1), whole: Vec::new() });
    1
}

/// The pairs that two words side by side may be. A guess among many is no pair.
fn side_by_side(one: &Said, other: &Said) -> Vec<(Pair, f32)> {
    if one.stems.len().max(other.stems.len()) > 4 {
        return Vec::new();
    }
    let mut pairs = BTreeMap::new();
    for (first, sure) in &one.stems {
        for (second, also) in &other.stems {
            let best = pairs.entry(pair(*first, *second)).or_insert(0.0_f32);
            *best = best.max(sure.min(*also));
        }
    }
    pairs.into_iter().collect()
}

/// The meanings of the longest phrase of two or more words that starts here.
fn longest_phrase(vocabulary: &Vocabulary, said: &[Said]) -> Option<(usize, Vec<Choice>)> {
    let mut length = 2;
    let mut found: BTreeMap<Token, f32> = BTreeMap::new();
    for (stem, _) in &said[0].stems {
        for (meaning, phrase) in vocabulary.starting_with(*stem) {
            let Some(sure) = says(said, phrase).filter(|_| phrase.len() >= length) else {
                continue;
            };
            if phrase.len() > length {
                length = phrase.len();
                found.clear();
            }
            let best = found.entry(vocabulary.meaning(*meaning)).or_insert(0.0);
            *best = best.max(sure * SAME);
        }
    }
    let choice = |(token, sure)| Choice { token, sure, names_only: false };
    (!found.is_empty()).then(|| (length, found.into_iter().map(choice).collect()))
}

/// How surely these words say the phrase: as surely as the least sure word.
fn says(said: &[Said], phrase: &[Token]) -> Option<f32> {
    let mut least: f32 = 1.0;
    for (at, stem) in phrase.iter().enumerate() {
        let (_, sure) = said.get(at)?.stems.iter().find(|(known, _)| known == stem)?;
        least = least.min(*sure);
    }
    Some(least)
}

/// Two words written as one in the library: `dead lift`.
fn joined(vocabulary: &Vocabulary, said: &[Said]) -> Option<Vec<Choice>> {
    let [first, second, ..] = said else { return None };
    let at = vocabulary.surface(&format!("{}{}", first.text, second.text))?;
    let mut choices = BTreeMap::new();
    choose(&mut choices, vocabulary.surfaces[at].stem?, 1.0);
    Some(with_meanings(vocabulary, choices, false))
}

/// What a word may be; nothing for a small word, two for a word nobody wrote that is two known
/// words: `deadbug`.
fn hear(vocabulary: &Vocabulary, text: String, open: bool) -> Vec<Said> {
    let known = vocabulary.known(&text);
    let written = known.filter(|known| *known != Known::Small && vocabulary.is_written(*known));
    let mut choices: BTreeMap<Token, f32> = BTreeMap::new();
    if let Some(Known::Stem(stem)) = known {
        choose(&mut choices, stem, 1.0);
    }
    let mut stems: Vec<(Token, f32)> = choices.iter().map(|(stem, sure)| (*stem, *sure)).collect();
    // A word nobody wrote is most often the beginning of one: `pul up`.
    let begins = open || (known.is_none() && text.encode_utf16().count() >= SHORTEST);
    if begins {
        for surface in &vocabulary.surfaces {
            if let Some(stem) = surface.stem.filter(|_| surface.text.starts_with(&text)) {
                choose(&mut choices, stem, PREFIX);
            }
        }
    }
    if known == Some(Known::Small) && choices.is_empty() {
        return Vec::new();
    }
    if !open {
        stems = choices.iter().map(|(stem, sure)| (*stem, *sure)).collect();
    }
    if written.is_none()
        && let Some((one, other)) = split(vocabulary, &text)
    {
        let halves = [one, other].into_iter();
        return halves.flat_map(|half| hear(vocabulary, half, false)).collect();
    }
    if choices.is_empty() {
        choices = slipped(vocabulary, &text, open);
        stems = choices.iter().map(|(stem, sure)| (*stem, *sure)).collect();
    }
    let short = open && text.encode_utf16().count() < SHORTEST;
    vec![Said { choices: with_meanings(vocabulary, choices, short), text, stems }]
}

/// The two known words that a word is made of.
fn split(vocabulary: &Vocabulary, text: &str) -> Option<(String, String)> {
    let letters: Vec<char> = text.chars().collect();
    (3..letters.len().saturating_sub(1)).find_map(|at| {
        let half = |letters: &[char]| {
            let half: String = letters.iter().collect();
            let known = vocabulary.known(&half)?;
            (known != Known::Small && vocabulary.is_written(known)).then_some(half)
        };
        Some((half(&letters[..at])?, half(&letters[at..])?))
    })
}

/// Keeps the surest reading of a token.
fn choose(choices: &mut BTreeMap<Token, f32>, token: Token, sure: f32) {
    let best = choices.entry(token).or_insert(sure);
    *best = best.max(sure);
}

/// Adds the meanings that a single word may have. What a short word only begins counts in names.
fn with_meanings(
    vocabulary: &Vocabulary,
    mut choices: BTreeMap<Token, f32>,
    short: bool,
) -> Vec<Choice> {
    for (stem, sure) in choices.clone() {
        for (meaning, phrase) in vocabulary.starting_with(stem) {
            if phrase.len() == 1 {
                choose(&mut choices, vocabulary.meaning(*meaning), sure * SAME);
            }
        }
    }
    let choice = |(token, sure)| Choice { token, sure, names_only: short && sure <= PREFIX };
    choices.into_iter().map(choice).collect()
}

/// The words nearest to a word nobody wrote: one slip from four letters on, two from eight.
fn slipped(vocabulary: &Vocabulary, text: &str, open: bool) -> BTreeMap<Token, f32> {
    let typed: Vec<u16> = text.encode_utf16().collect();
    let most = match typed.len() {
        0..4 => 0,
        4..8 => 1,
        _ => 2,
    };
    for slips in 1..=most {
        let mut choices = BTreeMap::new();
        for surface in &vocabulary.surfaces {
            let Some(stem) = surface.stem else { continue };
            let written: Vec<u16> = surface.text.encode_utf16().collect();
            // Two slips and another first letter is another word.
            if slips == 2 && typed[0] != written[0] {
                continue;
            }
            let sure = SLIPS[slips - 1];
            let (whole, begun) = distance(&typed, &written, slips);
            if whole == slips {
                choose(&mut choices, stem, sure);
            } else if open && begun == slips {
                choose(&mut choices, stem, sure * PREFIX);
            }
        }
        if !choices.is_empty() {
            return choices;
        }
    }
    BTreeMap::new()
}

/// Slips between what was typed and a word, and between it and the beginning of the word: letters
/// changed, left out, put in, or two neighbours exchanged. Anything above `most` counts as one more
/// than it.
pub(super) fn distance(typed: &[u16], written: &[u16], most: usize) -> (usize, usize) {
    let far = most + 1;
    if typed.len() > written.len() + most {
        return (far, far);
    }
    // No more letters of the word than this can matter.
    let width = written.len().min(typed.len() + far);
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=width).collect();
    for (row, letter) in typed.iter().enumerate() {
        let mut line = vec![row + 1; width + 1];
        for column in 0..width {
            let same = usize::from(*letter != written[column]);
            let mut cost = (last[column] + same).min(last[column + 1] + 1).min(line[column] + 1);
            let exchanged = row > 0
                && column > 0
                && *letter == written[column - 1]
                && typed[row - 1] == written[column];
            if exchanged {
                cost = cost.min(before[column - 1] + 1);
            }
            line[column + 1] = cost;
        }
        if line.iter().min().is_some_and(|least| *least > most) {
            return (far, far);
        }
        before = std::mem::replace(&mut last, line);
    }
    let begun = last.iter().min().copied().unwrap_or(far).min(far);
    let whole = if width == written.len() { last[width].min(far) } else { far };
    (whole, begun)
}
