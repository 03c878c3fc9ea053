//! Near spellings: the word that was probably meant.
//! Never guesses far: at most a third of the letters may differ.

/// The candidate nearest to `word`, if one is near enough to suggest. Ties go to the first.
pub fn near<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if word.len() > LONGEST {
        return None;
    }
    let word = word.to_lowercase();
    let allowed = (word.chars().count() / 3).max(1);
    let letters = Letters::of(&word);
    candidates
        .into_iter()
        // Letters that only one of two words has are a cheap lower bound of their distance: most
        // of a long list is passed over by it.
        .filter(|candidate| letters.unlike(&Letters::of(candidate)) <= allowed)
        .map(|candidate| (strsim::osa_distance(&word, &candidate.to_lowercase()), candidate))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

/// Nobody meant a word of more letters than this, and comparing takes time by their square.
const LONGEST: usize = 100;

/// How often each ASCII letter stands in a word, letter case apart; signs share places with letters
/// and other letters are not counted, which only makes the bound lower.
struct Letters([i16; 32]);

impl Letters {
    fn of(word: &str) -> Letters {
        let mut counts = [0; 32];
        for letter in word.bytes().filter(u8::is_ascii) {
            counts[usize::from(letter | 0x20) % 32] += 1;
        }
        Letters(counts)
    }

    /// At least this many letters must be changed, added or taken away.
    fn unlike(&self, other: &Letters) -> usize {
        let (mut more, mut fewer) = (0, 0);
        for (one, two) in self.0.iter().zip(&other.0) {
            more += usize::from((one - two).max(0).unsigned_abs());
            fewer += usize::from((two - one).max(0).unsigned_abs());
        }
        more.max(fewer)
    }
}

/// A next step that names the near spelling, or else where the known words are.
pub fn did_you_mean<'a>(
    word: &str,
    candidates: impl IntoIterator<Item = &'a str>,
    otherwise: &str,
) -> String {
    match near(word, candidates) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => otherwise.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// The bound never passes over a word that is near enough (it is a shortcut, not a rule).
        #[test]
        fn the_shortcut_loses_nothing(word in "[a-eA-EäÄ-]{1,9}", other in "[a-eA-EäÄ-]{1,9}") {
            let (low, low_other) = (word.to_lowercase(), other.to_lowercase());
            let distance = strsim::osa_distance(&low, &low_other);
            prop_assert!(Letters::of(&word).unlike(&Letters::of(&other)) <= distance);
        }
    }
}
