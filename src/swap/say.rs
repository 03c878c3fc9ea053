//! Say: an answer as plain text, for a terminal or a printed sheet.
//! Never colours it and never prints it.

use super::fits::{Fit, fit};
use super::reason::with_kit;
use super::rungs::RungOf;
use super::{Answer, Person, Swap, why_words};
use crate::gym::Gym;
use crate::library::MovementId;
use std::fmt::Write;

/// The answer as lines of text, ending in a line break. With `parts` every part of each score is
/// shown.
pub fn as_text(gym: &Gym, from: &MovementId, answer: &Answer<'_>, parts: bool) -> String {
    let name = name(gym, from);
    match answer {
        Answer::AskYourCoach { why } => format!("In place of {name}: ask your coach.\n{why}\n"),
        Answer::Swaps(swaps) => {
            let mut text = format!("In place of {name}, best first:\n");
            for (at, swap) in swaps.iter().enumerate() {
                one(gym, at + 1, swap, &mut text);
                if parts {
                    text.push_str(&parts_of(swap));
                }
            }
            if swaps.iter().any(|swap| swap.candidate.score.demand.is_none()) {
                text.push_str(UNKNOWN_DEMAND);
            }
            text
        }
    }
}

/// What a person is told of a rung itself, as a line of text: fine, changed like this, or left out
/// and why. Said before any swap: a change comes before another movement.
pub fn itself_as_text(gym: &Gym, asked: &RungOf, person: &Person) -> String {
    let name = name(gym, &asked.key.movement);
    match fit(gym, person, asked) {
        Fit::Fine => format!("Fine as it stands: {name}.\n"),
        Fit::Changed(changes) => {
            let how = changes.iter().map(|change| change.how().trim_end_matches('.'));
            format!("Change {name} like this: {}.\n", how.collect::<Vec<_>>().join("; "))
        }
        Fit::Out(why) => {
            format!("Leave out {name}: {}.\n", why_words(gym, person, &why))
        }
    }
}

/// Said once under a list: a demand that is not known has neither raised nor lowered a swap.
pub const UNKNOWN_DEMAND: &str = "\nOff the ladders demand is not compared: match the effort, \
and stop with as many repetitions left as planned.\n";

fn name(gym: &Gym, id: &MovementId) -> String {
    gym.library.movements.get(id).map_or_else(|| id.to_string(), |m| m.name.value.to_lowercase())
}

fn one(gym: &Gym, number: usize, swap: &Swap<'_>, text: &mut String) {
    let candidate = &swap.candidate;
    let title = gym.library.movements.get(&candidate.to).map(|movement| &movement.name.value);
    let title = title.map_or(candidate.to.as_str(), String::as_str);
    let title = match swap.rung.said_changed(&swap.changes) {
        said if said.is_empty() => title.to_string(),
        said => format!("{title}, {said}"),
    };
    // Writing to a String cannot fail.
    let _ = write!(text, "\n{number}. {title} ({})\n   {}\n", candidate.to, candidate.reason);
    let mut line = |words: &str| {
        let _ = writeln!(text, "   {words}");
    };
    for change in &swap.changes {
        line(&format!("Change it: {}.", change.how().trim_end_matches('.')));
    }
    if swap.start_here {
        line(&start_here("your own"));
    }
    if let Some(brings_in) = &swap.brings_in {
        line(&format!("{brings_in}."));
    }
    if !swap.with.is_empty() {
        line(&format!("With: {}.", with_kit(gym, &swap.with)));
    }
    if let Some(dose) = &swap.dose {
        line(&format!("Dose: {}", dose.said));
    }
}

/// That somebody starts with a swap, `own` being `your own` or `their own`.
pub fn start_here(own: &str) -> String {
    format!("Start here, with the easiest way of it: {own} rung is not known.")
}

fn parts_of(swap: &Swap<'_>) -> String {
    let score = &swap.candidate.score;
    let parts = score.parts().map(|(name, weight, part)| match part {
        Some(part) => format!("{name} {part} x {weight}"),
        None => format!("{name} not known"),
    });
    let linked =
        if score.linked > 0 { format!(", linked +{}", score.linked) } else { String::new() };
    format!("   Score {}: {}{linked}\n", score.total, parts.join(", "))
}
