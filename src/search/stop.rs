//! Stop: whether somebody types one of the club's stop signs. Then stopping comes first, before any
//! answer. `stop.js` follows the same rule.
//! Never says that something is no stop sign: it knows words, and nobody's body.

use super::{fold, question};
use crate::gym::Gym;
use std::collections::BTreeSet;

/// Words from this many letters on may be typed with one slip.
const SLIPS_FROM: usize = 5;
/// So many letters at the end of a word may still be missing, once this many are typed.
const STILL_MISSING: usize = 2;
const BEGUN_FROM: usize = 4;

/// What people say of a stop sign, each as its plain words: the signs themselves and their other names.
pub fn stop_words(gym: &Gym) -> Vec<Vec<String>> {
    let club = &gym.library.club;
    let said = club.stop_signs.iter().chain(&club.stop_signs_said);
    said.map(|words| fold::words(words)).filter(|words| !words.is_empty()).collect()
}

/// Words of faults that would pass for a slip in a word of a stop sign: knees that collapse are no
/// person who collapsed, and whoever types it is answered.
pub fn fault_words_near(gym: &Gym) -> Vec<String> {
    let stop: BTreeSet<String> = stop_words(gym).into_iter().flatten().collect();
    let known = gym.library.words.faults.values();
    let named = known.flat_map(|fault| fault.also_said.iter().chain([&fault.name]));
    let movements = gym.library.movements.values();
    let seen = movements.flat_map(|movement| movement.faults.iter().map(|fault| &fault.see.value));
    let said: BTreeSet<String> = named.chain(seen).flat_map(|text| fold::words(text)).collect();
    let is_near =
        |word: &String| !stop.contains(word) && stop.iter().any(|one| is_meant(word, one));
    said.into_iter().filter(is_near).collect()
}

/// Whether what was typed says a stop sign: all the words of one of its names, in any order.
pub fn says_stop(gym: &Gym, typed: &str) -> bool {
    let typed = fold::words(typed);
    let faults = fault_words_near(gym);
    let says =
        |one: &String, word: &String| one == word || (!faults.contains(one) && is_meant(one, word));
    let is_said = |word: &String| typed.iter().any(|one| says(one, word));
    stop_words(gym).iter().any(|name| name.iter().all(is_said))
}

fn is_meant(typed: &str, word: &str) -> bool {
    let letters = |text: &str| text.encode_utf16().collect::<Vec<u16>>();
    let (typed, word) = (letters(typed), letters(word));
    let missing = word.len().saturating_sub(typed.len());
    let begun = typed.len() >= BEGUN_FROM && missing <= STILL_MISSING && word.starts_with(&typed);
    let slips = if word.len() >= SLIPS_FROM { 1 } else { 0 };
    begun || question::distance(&typed, &word, slips).0 <= slips
}
