//! Libraries that are spoilt: by a die from a seed, and number by number.
//! Never twice the same from two seeds, always the same from one.

use super::case::{Case, Lay};
use super::dice::Dice;
use std::fs;
use std::path::Path;

/// A file of a library of `tests/libraries`.
pub fn library(base: &str, file: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/libraries").join(base).join(file);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// A text in double quotes, which YAML and JSON read alike.
pub fn quoted(text: &str) -> String {
    serde_json::to_string(text).expect("a text")
}

/// `file` of `base` with its first `from` written as `to`.
pub fn edit(base: &'static str, file: &str, from: &str, to: &str) -> Case {
    let text = library(base, file);
    assert!(text.contains(from), "{base}/{file} has no {from:?}");
    let lay = Lay::file(&format!("content/{file}"), text.replacen(from, to, 1));
    let shown: String = to.chars().take(40).collect();
    Case::built(format!("{file}: {shown:?}"), base, vec![lay])
}

const FILES: [&str; 14] = [
    "movements/pull-horizontal/strap-row.md",
    "movements/pull-horizontal/towel-row.md",
    "movements/push-horizontal/incline-push-up.md",
    "ladders/row.yaml",
    "ladders/push-up.yaml",
    "sessions/monday.yaml",
    "cycles/spring.yaml",
    "words/kit.yaml",
    "words/traits.yaml",
    "words/cautions.yaml",
    "words/faults.yaml",
    "words/patterns.yaml",
    "words/synonyms.yaml",
    "club.yaml",
];

/// Signs that mean something, and bytes that mean nothing.
const TELLING: [&[u8]; 20] = [
    b"{",
    b"}",
    b"[",
    b"]",
    b": ",
    b"- ",
    b"#",
    b"&a ",
    b"*a",
    b"!!binary ",
    b"|\n",
    b">\n",
    b"'",
    b"\"",
    b"%",
    b"\t",
    b"\r",
    b"\xff\xfe",
    b"\0",
    b"<<: *a\n",
];

/// Numbers that a file's numbers are written as.
const NUMBERS: [&str; 16] = [
    "0",
    "-1",
    "nan",
    ".inf",
    "1e308",
    "-0",
    "1e-320",
    "4294967296",
    "99999999999999999999",
    "0x10",
    "1_000",
    "0.1.2",
    "+5",
    "10000",
    "１２",
    "1e400",
];

/// `count` files spoilt by chance.
pub fn cases(seed: u64, count: usize) -> Vec<Case> {
    let mut dice = Dice(seed);
    (0..count).map(|nth| one(nth, &mut dice)).collect()
}

fn one(nth: usize, dice: &mut Dice) -> Case {
    let file = FILES[dice.roll(FILES.len())];
    let mut bytes = library("hall", file).into_bytes();
    let (what, spoilt) = match nth % 6 {
        0 => ("cut short", bytes[..dice.roll(bytes.len())].to_vec()),
        1 => {
            for _ in 0..=dice.roll(4) {
                let at = dice.roll(bytes.len());
                bytes[at] ^= 1 << dice.roll(8);
            }
            ("a bit turned", bytes)
        }
        2 => {
            let at = dice.roll(bytes.len());
            let sign = TELLING[dice.roll(TELLING.len())];
            bytes.splice(at..at, sign.iter().copied());
            ("a sign put in", bytes)
        }
        3 => ("a number", numbered(&bytes, dice)),
        4 => {
            let mut lines: Vec<&[u8]> = bytes.split_inclusive(|b| *b == b'\n').collect();
            let (one, other) = (dice.roll(lines.len()), dice.roll(lines.len()));
            lines.swap(one, other);
            ("lines changed", lines.concat())
        }
        _ => {
            let (at, to) = (dice.roll(bytes.len()), dice.roll(bytes.len()));
            let part = bytes[at.min(to)..at.max(to)].to_vec();
            bytes.splice(at..at, part);
            ("a part twice", bytes)
        }
    };
    let lay = Lay::File(format!("content/{file}"), spoilt);
    Case::built(format!("seeded: {file} {what} #{nth}"), "hall", vec![lay])
}

/// One of the file's numbers as another; some files have none.
fn numbered(bytes: &[u8], dice: &mut Dice) -> Vec<u8> {
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let starts: Vec<usize> =
        (0..bytes.len()).filter(|at| digit(*at) && (*at == 0 || !digit(at - 1))).collect();
    let number = NUMBERS[dice.roll(NUMBERS.len())];
    if starts.is_empty() {
        return [bytes, number.as_bytes()].concat();
    }
    let start = starts[dice.roll(starts.len())];
    let end = (start..bytes.len()).find(|at| !digit(*at)).unwrap_or(bytes.len());
    [&bytes[..start], number.as_bytes(), &bytes[end..]].concat()
}
