//! Reading what a member hands to the coach: one line a result, through any messenger or mail.
//! Never reads limits: such a line has no place for them.

use super::fields::Reading;
use super::{codes, roster};
use crate::finding::{FileId, Finding, Placed, Sources, Span};
use crate::library::id::is_nickname;
use crate::library::{
    Counts, LadderId, MemberResult, MovementId, Nickname, Quantity, RungWas, SettingName, Unit,
};

/// How a line is written, for every next step.
const LIKE: &str = "write it like `wren push-up rung 4 12 reps 2026-11-25`";

/// A result and whose it is.
#[derive(Debug, Clone)]
pub struct Handed {
    /// The member.
    pub name: Placed<Nickname>,
    /// What they counted.
    pub result: MemberResult,
}

/// Reads every line of `file`; blank lines and those that start with `#` are passed over.
pub fn read(file: FileId, sources: &Sources) -> (Vec<Handed>, Vec<Finding>) {
    let mut reading = Reading::default();
    let mut found = Vec::new();
    let text = sources.text(file);
    for line in text.split_inclusive('\n') {
        let start = line.as_ptr() as usize - text.as_ptr() as usize;
        let words = words(line, file, start);
        if !words.first().is_none_or(|first| first.value.starts_with('#')) {
            found.extend(handed(line, &words, &mut reading));
        }
    }
    (found, reading.findings)
}

/// The words of a line with their places. What mail and messengers put in is passed over: marks of a
/// quotation or a list, letters of no width, other kinds of hyphen.
fn words(line: &str, file: FileId, start: usize) -> Vec<Placed<String>> {
    let is_gap = |c: char| c.is_whitespace() || is_unseen(c);
    let mut words = Vec::new();
    for word in line.split(is_gap).filter(|word| !word.is_empty()) {
        let at = start + (word.as_ptr() as usize - line.as_ptr() as usize);
        let plain = word.replace(['\u{2010}', '\u{2011}', '\u{2012}', '\u{2013}', '\u{2212}'], "-");
        if words.is_empty() && [">", ">>", "-", "*", "•"].contains(&plain.as_str()) {
            continue;
        }
        words.push(Placed::new(plain, Span::new(file, at, at + word.len())));
    }
    words
}

fn is_unseen(c: char) -> bool {
    matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
}

fn handed(line: &str, words: &[Placed<String>], reading: &mut Reading) -> Option<Handed> {
    let whole_line = Span {
        start: words.first().map_or(0, |word| word.span.start),
        end: words.last().map_or(0, |word| word.span.end),
        ..words.first()?.span
    };
    let [name, ladder, rung_word, rung, amount, unit, day, rest @ ..] = words else {
        return no_result(whole_line, reading);
    };
    if rung_word.to_lowercase() != "rung" {
        return no_result(whole_line, reading);
    }
    let counts = counts(unit, reading);
    let rung = roster::whole(rung, reading);
    let amount = roster::whole(amount, reading);
    let day = Placed::new(day.trim_end_matches([',', '.']).to_string(), day.span);
    let mut result = MemberResult {
        ladder: Placed::new(LadderId(ladder.to_lowercase()), ladder.span),
        rung: rung?,
        counts: counts?,
        amount: amount?,
        day,
        settings: Vec::new(),
        was: None,
        added: None,
        note: None,
        span: whole_line,
    };
    let name = nickname(name, reading)?;
    extras(line, rest, &mut result, reading).then_some(Handed { name, result })
}

fn no_result<T>(line: Span, reading: &mut Reading) -> Option<T> {
    reading.error(codes::WRONG_SHAPE, "this line is no result".to_string(), line, LIKE);
    None
}

fn nickname(word: &Placed<String>, reading: &mut Reading) -> Option<Placed<Nickname>> {
    // Messengers put a capital at the start of a line.
    let plain = Placed::new(word.trim_end_matches(':').to_lowercase(), word.span);
    if is_nickname(&plain.value) {
        return Some(Placed::new(Nickname(plain.value), plain.span));
    }
    roster::bad_nickname(&plain, reading);
    None
}

fn counts(unit: &Placed<String>, reading: &mut Reading) -> Option<Counts> {
    match unit.to_lowercase().trim_end_matches(',') {
        "reps" | "rep" | "repetitions" | "repetition" => Some(Counts::Reps),
        "s" | "sec" | "seconds" | "second" => Some(Counts::Seconds),
        _ => {
            let headline = format!("`{}` is neither `reps` nor `s`", unit.value);
            reading.error(codes::UNKNOWN_WORD, headline, unit.span, LIKE);
            None
        }
    }
}

/// What stands after the day: `hands 92 cm, added 5 kg, of incline-push-up hands 90 cm, note slow`. What
/// the rung was stands after `of`. False when something in it cannot be read.
fn extras(
    line: &str,
    words: &[Placed<String>],
    result: &mut MemberResult,
    reading: &mut Reading,
) -> bool {
    let mut left = words;
    while let [name, rest @ ..] = left {
        if name.value == "," {
            left = rest;
            continue;
        }
        let key = name.trim_end_matches(':').to_lowercase();
        if key == "note" {
            result.note = note(line, name);
            return true;
        }
        if let ("of", [movement, rest @ ..]) = (key.as_str(), rest) {
            let plain = movement.trim_end_matches(',').to_lowercase();
            let movement = Placed::new(MovementId(plain), movement.span);
            result.was = Some(RungWas { movement, settings: Vec::new() });
            left = rest;
            continue;
        }
        let [number, unit, rest @ ..] = rest else {
            return no_extra(name, name.span.end, reading);
        };
        let Some(value) = quantity(number, unit, &key) else {
            return no_extra(name, unit.span.end, reading);
        };
        match key.as_str() {
            "added" => result.added = Some(value),
            _ => settings_of(result).push((Placed::new(SettingName(key), name.span), value)),
        }
        left = rest;
    }
    result.settings.sort_by(|a, b| a.0.value.cmp(&b.0.value));
    true
}

/// Where the next setting goes: after `of` and a movement they are those that the rung had.
fn settings_of(result: &mut MemberResult) -> &mut Vec<(Placed<SettingName>, Placed<Quantity>)> {
    match &mut result.was {
        Some(was) => &mut was.settings,
        None => &mut result.settings,
    }
}

/// The rest of the line after the word `note`, as it was written.
fn note(line: &str, word: &Placed<String>) -> Option<String> {
    let at = line.to_lowercase().find(&word.to_lowercase())? + word.value.len();
    let note = line.get(at..)?.replace(char::is_control, " ");
    let note = note.trim_start_matches(':').trim();
    (!note.is_empty()).then(|| note.to_string())
}

fn quantity(number: &Placed<String>, unit: &Placed<String>, key: &str) -> Option<Placed<Quantity>> {
    let text = format!("{number} {}", unit.trim_end_matches([',', '.']), number = number.value);
    let units: &[Unit] = match key {
        "added" => &[Unit::Kilogram],
        _ => &[Unit::Centimetre, Unit::Degree, Unit::Kilogram, Unit::Second],
    };
    let value = units.iter().find_map(|unit| Quantity::read(&text, *unit).ok())?;
    Some(Placed::new(value, Span { end: unit.span.end, ..number.span }))
}

fn no_extra(name: &Placed<String>, end: u32, reading: &mut Reading) -> bool {
    let headline = format!("what stands after the day cannot be read from `{}` on", name.value);
    let help = "write `hands 92 cm`, `added 5 kg` or `note` and your words, or leave it out";
    reading.error(codes::BAD_QUANTITY, headline, Span { end, ..name.span }, help);
    false
}
