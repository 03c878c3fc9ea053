//! Folding: from what a person typed or wrote to plain small words, the same for entries and questions.
//! Never stems and never drops a word.

use std::ops::Range;

/// Letters with a mark, and the plain letters that stand for them. The browser gets this table with
/// the index, because its own way of dropping marks differs on rare letters.
pub const FOLDS: &[(&str, &str)] = &[
    ("àáâãäåā", "a"),
    ("æ", "ae"),
    ("çćč", "c"),
    ("ďð", "d"),
    ("èéêëēėęě", "e"),
    ("ğ", "g"),
    ("ìíîïīį", "i"),
    ("ł", "l"),
    ("ñńň", "n"),
    ("òóôõöøō", "o"),
    ("œ", "oe"),
    ("ŕř", "r"),
    ("śšş", "s"),
    ("ß", "ss"),
    ("ťţ", "t"),
    ("ùúûüūůű", "u"),
    ("ýÿ", "y"),
    ("źżž", "z"),
];

/// Left out inside a word: `can't` is typed as `cant` as often as not.
pub const SILENT: &str = "'’‘`´";

/// The plain words of `text`, in order.
pub fn words(text: &str) -> Vec<String> {
    spans(text).into_iter().map(|(_, word)| word).collect()
}

/// The plain words of `text` and where each stands in it.
pub fn spans(text: &str) -> Vec<(Range<usize>, String)> {
    let mut spans = Vec::new();
    let mut word = String::new();
    let mut start = 0;
    let mut end = 0;
    for (at, letter) in text.char_indices() {
        let before = word.len();
        if word.is_empty() {
            start = at;
        }
        letter.to_lowercase().for_each(|small| fold(small, &mut word));
        if word.len() > before {
            end = at + letter.len_utf8();
        } else if !SILENT.contains(letter) && !word.is_empty() {
            spans.push((start..end, std::mem::take(&mut word)));
        }
    }
    if !word.is_empty() {
        spans.push((start..end, word));
    }
    spans
}

/// Adds what a small letter stands for; nothing if it is no letter and no digit.
fn fold(letter: char, word: &mut String) {
    // Most letters are plain already, and looking through the table takes longer than all else here.
    if letter.is_ascii() {
        if letter.is_ascii_alphanumeric() {
            word.push(letter);
        }
        return;
    }
    match FOLDS.iter().find(|(marked, _)| marked.contains(letter)) {
        Some((_, plain)) => word.push_str(plain),
        None if letter.is_alphanumeric() => word.push(letter),
        None => {}
    }
}

/// True when `text` breaks off inside its last word, so that the word may still grow.
pub fn is_open(text: &str) -> bool {
    text.chars().last().is_some_and(|letter| letter.is_alphanumeric() || SILENT.contains(letter))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_case_and_apostrophes_do_not_matter() {
        assert_eq!(words("CAN’T do a Push-Up, Zoë?"), ["cant", "do", "a", "push", "up", "zoe"]);
        assert!(is_open("push u") && !is_open("push ") && !is_open(""));
    }
}
