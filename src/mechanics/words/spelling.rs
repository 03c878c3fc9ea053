//! Near spellings: the known word an author most likely meant.
//! Suggests only; it never reads one word as another.

use crate::finding::near;

/// The nearest of `known` to `word`, if it is near enough to be meant; the first wins a tie.
pub fn nearest<'a>(word: &str, known: &[&'a str]) -> Option<&'a str> {
    near(word, known.iter().copied())
}

/// "did you mean `x`?" or, with nothing near, the words that fit here.
pub fn hint(word: &str, known: &[&str]) -> String {
    match nearest(word, known) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("write one of: {}", known.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_what_was_meant() {
        let known = ["floor", "box", "bench", "wall"];
        assert_eq!(nearest("flor", &known), Some("floor"));
        assert_eq!(nearest("folor", &known), Some("floor"));
        assert_eq!(nearest("trampoline", &known), None);
    }
}
