//! Near spellings: the word that was probably meant.
//! Never guesses far: at most a third of the letters may differ.

/// The candidate nearest to `word`, if one is near enough to suggest. Ties go to the first.
pub fn near<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    let length = word.chars().count();
    let allowed = (length / 3).max(1);
    candidates
        .into_iter()
        // A different length alone is a distance: most of a long list is passed over cheaply.
        .filter(|candidate| candidate.chars().count().abs_diff(length) <= allowed)
        .map(|candidate| (strsim::damerau_levenshtein(&word, &candidate.to_lowercase()), candidate))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
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
