//! Tension: what is written of how hard a band or a pulley pulls.
//! Only reads the words; how far a band is stretched, and what that comes to, is `pulls`'.

use super::number::{Kind, Settings, number};
use crate::mechanics::node::{PoseCode, PoseProblem};
use serde::{Deserialize, Serialize};

/// What pulls along a line, where somebody wrote it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Tension {
    /// So many kilograms over a pulley.
    Weight(f64),
    /// A band.
    Band {
        /// Its length at rest from end to end, metres.
        rest: f64,
        /// What all of it pulls when it is stretched to twice that, kilograms.
        at_twice: f64,
    },
}

const AT_REST: &str = " at rest";
const AT_TWICE: &str = " at twice";
const WEIGHS: &str = "weighs ";

/// The phrases of a line that say where it ends, and those that say how it pulls.
pub(super) fn apart(text: &str) -> (String, Vec<&str>) {
    let pulls = |phrase: &&str| {
        phrase.ends_with(AT_REST) || phrase.ends_with(AT_TWICE) || phrase.starts_with(WEIGHS)
    };
    let (said, place): (Vec<&str>, Vec<&str>) = text.split(',').map(str::trim).partition(pulls);
    (place.join(", "), said)
}

/// Read `60 at rest` and `4 at twice` of a band, `weighs 20` of a pulley.
pub(super) fn read(
    key: &str,
    said: &[&str],
    settings: Settings,
    at: usize,
) -> Result<Option<Tension>, PoseProblem> {
    // A band does not grow with whoever holds it.
    let settings = Settings { scale: 1.0, ..settings };
    let find = |phrase: &dyn Fn(&str) -> Option<String>, kind| {
        let found = said.iter().find_map(|one| phrase(one));
        found.map(|text| number(&text, kind, settings, at)).transpose()
    };
    let after = |word: &'static str| move |one: &str| one.strip_suffix(word).map(str::to_string);
    let rest = find(&after(AT_REST), Kind::Centimetres)?;
    let twice = find(&after(AT_TWICE), Kind::Kilograms)?;
    let weight = find(&|one| one.strip_prefix(WEIGHS).map(str::to_string), Kind::Kilograms)?;
    match (key, rest, twice, weight) {
        ("band" | "towel", None, None, None) => Ok(None),
        ("band", Some(rest), Some(kg), None) if rest >= LEAST_CM && kg > 0.0 => {
            Ok(Some(Tension::Band { rest: rest / 100.0, at_twice: kg }))
        }
        ("pulley", None, None, Some(kg)) if kg > 0.0 => Ok(Some(Tension::Weight(kg))),
        _ => Err(not_so(key, at)),
    }
}

/// A band that is shorter than a hand at rest is no band that anybody rows with.
const LEAST_CM: f64 = 10.0;

fn not_so(key: &str, at: usize) -> PoseProblem {
    let (sentence, next) = match key {
        "band" => (
            "What a band pulls is its length at rest, at least 10 cm, and its pull in kg at twice \
             that length, together.",
            "write both, such as `60 at rest, 4 at twice`, or neither",
        ),
        "pulley" => (
            "A pulley needs the weight that hangs from it.",
            "write it in kg, such as `weighs 20` or `weighs weight`",
        ),
        _ => ("A towel has no pull of its own.", "leave it out, or write `band` or `pulley`"),
    };
    PoseProblem::new(PoseCode::UnreadableValue, at, sentence, next)
}

#[cfg(test)]
mod tests {
    use super::super::props::{From, LineEnd, read_line};
    use super::*;

    const TALL: Settings = Settings { values: &[], scale: 1.1 };

    #[test]
    fn a_line_says_where_it_ends_and_how_it_pulls() {
        let band = "hands to anchor 205, 95 ahead of heels, 60 at rest, 4 at twice";
        let line = read_line("band", band, TALL, 0).unwrap();
        // Real centimetres, whoever holds it.
        assert_eq!(line.tension, Some(Tension::Band { rest: 0.6, at_twice: 4.0 }));
        let anchor = LineEnd::Anchor { height: 2.05, ahead: 0.95, aside: 0.0, from: From::Heels };
        assert_eq!(line.to, anchor);
        let pulley = "hands to anchor 100, 150 ahead, weighs 20";
        let line = read_line("pulley", pulley, TALL, 0).unwrap();
        assert!(line.is_pulley() && line.tension == Some(Tension::Weight(20.0)));
        let line = read_line("band", "hands to anchor 100, 150 ahead", TALL, 0).unwrap();
        assert_eq!(line.tension, None);
        let anchor = LineEnd::Anchor { height: 1.1, ahead: 1.65, aside: 0.0, from: From::Hips };
        assert!(format!("{:.6?}", line.to) == format!("{anchor:.6?}"), "{:?}", line.to);
    }

    #[test]
    fn half_a_pull_is_said_with_one_next_step() {
        let wrong = [
            ("band", "hands to feet, 60 at rest", "at twice"),
            ("band", "hands to feet, 4 at twice", "at rest"),
            ("band", "hands to feet, 60 at rest, 0 at twice", "at twice"),
            ("band", "hands to feet, 4 at rest, 4 at twice", "at rest"),
            ("band", "hands to feet, weighs 20", "at rest"),
            ("pulley", "hands to anchor 100", "weighs 20"),
            ("pulley", "hands to anchor 100, weighs 0", "weighs 20"),
            ("pulley", "hands to anchor 100, 60 at rest, 4 at twice", "weighs 20"),
            ("towel", "hands to feet, weighs 3", "pulley"),
        ];
        for (key, text, next) in wrong {
            let problem = read_line(key, text, TALL, 9).unwrap_err();
            assert_eq!((problem.code, problem.at), (PoseCode::UnreadableValue, 9), "{text}");
            assert!(problem.next.contains(next), "{text}: {}", problem.next);
        }
    }
}
