//! Folding: from what a person typed or wrote to plain small words, the same for entries and questions.
//! Never stems and never drops a word.

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
    let mut words = Vec::new();
    let mut word = String::new();
    for letter in text.chars().flat_map(char::to_lowercase) {
        if let Some((_, plain)) = FOLDS.iter().find(|(marked, _)| marked.contains(letter)) {
            word.push_str(plain);
        } else if letter.is_alphanumeric() {
            word.push(letter);
        } else if !SILENT.contains(letter) && !word.is_empty() {
            words.push(std::mem::take(&mut word));
        }
    }
    if !word.is_empty() {
        words.push(word);
    }
    words
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
