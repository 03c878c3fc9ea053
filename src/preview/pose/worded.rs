//! The words of a key pose as they stand in the text, each with the numbers in it that can be slid.
//! Only reads; what a number may be is asked of the same tables as the reader's.

use crate::library::reader::node::{Kind, Node};
use crate::mechanics::joints::Joint;
use crate::mechanics::skeleton::joint_range;
use crate::mechanics::words::contact::{Part, starts_with_surface};
use crate::mechanics::words::glossary::POSE;
use crate::mechanics::words::keypose::joint_of;
use serde::Serialize;

/// A word of a key pose with its value.
#[derive(Debug, Serialize)]
pub struct Worded {
    /// `near`, `far`, or nothing.
    side: &'static str,
    /// The word.
    word: String,
    /// Its value as written.
    value: String,
    /// What the word says.
    told: &'static str,
    /// The numbers in the value.
    numbers: Vec<Number>,
}

/// A number in a value.
#[derive(Debug, PartialEq, Serialize)]
pub struct Number {
    /// Where it stands in the value: how many letters are before it, and how many it has.
    at: (usize, usize),
    /// The number.
    value: f64,
    /// Its least and its most.
    range: (f64, f64),
    /// `deg`, `cm` or `%`.
    unit: &'static str,
    /// What stands beside it, to tell two of one word apart.
    beside: String,
}

/// Every word of a key pose's block, those of a side after the others.
pub fn worded(block: &Node) -> Vec<Worded> {
    let mut words = Vec::new();
    of_side(block, "", &mut words);
    words
}

fn of_side(block: &Node, side: &'static str, words: &mut Vec<Worded>) {
    let Kind::Map(entries) = &block.kind else { return };
    for (key, node) in entries {
        match (key.value.as_str(), &node.kind) {
            ("near" | "right", Kind::Map(_)) if side.is_empty() => of_side(node, "near", words),
            ("far" | "left", Kind::Map(_)) if side.is_empty() => of_side(node, "far", words),
            (word, Kind::Scalar(value)) => words.push(Worded {
                side,
                word: word.to_string(),
                value: value.clone(),
                told: told(word),
                numbers: numbers(word, value),
            }),
            _ => {}
        }
    }
}

/// What a word says.
pub fn told(word: &str) -> &'static str {
    let known = POSE.iter().find(|known| known.names.contains(&word));
    known.map_or("", |known| known.what)
}

/// The plain numbers of a value; one beside a factor is part of a sum with a setting, and stays.
fn numbers(word: &str, value: &str) -> Vec<Number> {
    let letters: Vec<char> = value.chars().collect();
    let mut found = Vec::new();
    let mut at = 0;
    while at < letters.len() {
        let starts = at == 0 || [' ', ',', '+'].contains(&letters[at - 1]);
        let long = if starts { length(&letters[at..]) } else { 0 };
        let text: String = letters[at..at + long].iter().collect();
        if let (false, Ok(number)) = (long == 0 || in_product(&letters, at, long), text.parse()) {
            let rest: String = letters[at + long..].iter().collect();
            let percent = rest.starts_with('%');
            let kind = kind(word, value, (at == 0, percent, rest.trim()));
            found.push(Number {
                at: (at, long),
                value: number,
                range: (kind.0.min(number), kind.1.max(number)),
                unit: kind.2,
                beside: beside(&letters, at, long),
            });
        }
        at += long.max(1);
    }
    found
}

/// How many letters a number has that begins here and ends before a blank, a comma or `%`.
fn length(letters: &[char]) -> usize {
    let sign = usize::from(letters.first() == Some(&'-'));
    let digits = letters[sign..].iter().take_while(|c| c.is_ascii_digit() || **c == '.').count();
    let after = letters.get(sign + digits);
    match digits > 0 && after.is_none_or(|c| [' ', ',', '%'].contains(c)) {
        true => sign + digits,
        false => 0,
    }
}

fn in_product(letters: &[char], at: usize, long: usize) -> bool {
    let before = letters[..at].iter().rev().find(|c| **c != ' ');
    let after = letters[at + long..].iter().find(|c| **c != ' ');
    before == Some(&'*') || after == Some(&'*')
}

/// The part of the value, between commas, in which a number stands, without it.
fn beside(letters: &[char], at: usize, long: usize) -> String {
    let start = letters[..at].iter().rposition(|c| *c == ',').map_or(0, |comma| comma + 1);
    let rest = &letters[at + long..];
    let end = at + long + rest.iter().position(|c| *c == ',').unwrap_or(rest.len());
    let part: String = letters[start..at].iter().chain(&letters[at + long..end]).collect();
    part.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Least, most and unit of a number.
fn kind(
    word: &str,
    value: &str,
    (alone, percent, rest): (bool, bool, &str),
) -> (f64, f64, &'static str) {
    if percent {
        return (0.0, 100.0, "%");
    }
    let touches = Part::from_word(word).is_some() && starts_with_surface(value);
    match (word, joint_of(word)) {
        _ if touches => match rest {
            _ if rest.starts_with("apart") => (0.0, 150.0, "cm"),
            _ if value.matches(',').count() == rest.matches(',').count() => (0.0, 260.0, "cm"),
            _ => (-120.0, 150.0, "cm"),
        },
        ("forearm", _) => (-180.0, 180.0, "deg"),
        (_, Some(Joint::Pitch | Joint::Roll | Joint::Yaw)) => (-180.0, 180.0, "deg"),
        (_, Some(joint)) if alone => (joint_range(joint).from, joint_range(joint).to, "deg"),
        ("trunk" | "thigh" | "shin" | "upper-arm" | "foot-angle" | "body", _) => {
            (-180.0, 180.0, "deg")
        }
        ("hands-at", _) => (-60.0, 60.0, "cm"),
        _ => (0.0, 220.0, "cm"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(word: &str, value: &str) -> Vec<(f64, (f64, f64), &'static str)> {
        numbers(word, value).into_iter().map(|n| (n.value, n.range, n.unit)).collect()
    }

    #[test]
    fn every_plain_number_can_be_slid_within_what_its_word_allows() {
        assert_eq!(found("knee", "90"), [(90.0, (0.0, 150.0), "deg")]);
        assert_eq!(found("hip", "-4"), [(-4.0, (-30.0, 134.0), "deg")]);
        let box_apart = [(45.0, (0.0, 260.0), "cm"), (30.0, (0.0, 150.0), "cm")];
        assert_eq!(found("hands", "box 45, 30 apart"), box_apart);
        assert_eq!(found("balance", "60% near foot"), [(60.0, (0.0, 100.0), "%")]);
        assert_eq!(found("body", "straight, lean 20"), [(20.0, (-180.0, 180.0), "deg")]);
    }

    #[test]
    fn what_is_reckoned_from_a_setting_stays_as_it_is_written() {
        assert_eq!(found("chest", "hands + 9"), [(9.0, (0.0, 220.0), "cm")]);
        assert_eq!(found("thigh", "lean * 0.5"), []);
        assert_eq!(found("thigh", "lean * -0.5"), []);
        assert_eq!(found("thigh", "2 * lean"), []);
        assert_eq!(found("feet", "floor"), []);
    }
}
