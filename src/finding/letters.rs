//! The first letter of a sentence that becomes part of another, or begins one.
//! Never touches another letter.

/// With a capital first letter: `Heels under the hips`.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// With a small first letter: `heels under the hips`.
pub fn small(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_lowercase().chain(letters).collect())
}
