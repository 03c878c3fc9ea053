//! Heard: which words of a question nothing in the library says, and the nearest words that it has.
//! Never answers the question: whoever asks gets told what was understood, with or without answers.

use super::Index;
use super::question;

/// At most so many words are offered.
const OFFERED: usize = 3;

/// What was not understood.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Heard {
    /// Words that nothing says, nor anything near them.
    pub unknown: Vec<String>,
    /// The words nearest to the first of them, the nearest first.
    pub near: Vec<String>,
}

impl Index {
    /// What of these words was not understood.
    pub fn heard(&self, words: &str) -> Heard {
        let unknown = question::ask(&self.vocabulary, words).unknown;
        let near = unknown.first().map(|word| self.near(word)).unwrap_or_default();
        Heard { unknown, near }
    }

    fn near(&self, word: &str) -> Vec<String> {
        let typed: Vec<u16> = word.encode_utf16().collect();
        // A third of the letters may differ: beyond that it is another word.
        let most = typed.len() / 3;
        let apart = |text: &str| {
            let written: Vec<u16> = text.encode_utf16().collect();
            question::distance(&typed, &written, most).0
        };
        let surfaces = self.vocabulary.surfaces.iter().filter(|surface| surface.stem.is_some());
        let mut near: Vec<(usize, &str)> = surfaces
            .map(|surface| (apart(&surface.text), surface.text.as_str()))
            .filter(|(apart, _)| *apart <= most)
            .collect();
        near.sort();
        near.into_iter().take(OFFERED).map(|(_, text)| text.to_string()).collect()
    }
}
