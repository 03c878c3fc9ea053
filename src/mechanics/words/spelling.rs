//! Near spellings: the known word an author most likely meant.
//! Suggests only; it never reads one word as another.

/// Edits that turn `a` into `b`: letters added, dropped, changed or two neighbours swapped.
fn distance(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let mut rows: Vec<Vec<usize>> = vec![(0..=b.len()).collect()];
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let change = rows[i - 1][j - 1] + usize::from(a[i - 1] != b[j - 1]);
            let mut best = change.min(rows[i - 1][j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                best = best.min(rows[i - 2][j - 2] + 1);
            }
            row.push(best);
        }
        rows.push(row);
    }
    rows[a.len()][b.len()]
}

/// The nearest of `known` to `word`, if it is near enough to be meant; the first wins a tie.
pub fn nearest<'a>(word: &str, known: &[&'a str]) -> Option<&'a str> {
    let allowed = (word.chars().count() / 3).clamp(1, 3);
    known
        .iter()
        .map(|k| (distance(&word.to_lowercase(), k), *k))
        .filter(|(d, _)| *d <= allowed)
        .min_by_key(|(d, _)| *d)
        .map(|(_, k)| k)
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
