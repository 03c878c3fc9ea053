//! Format: what a block's clock counts, in words.
//! Never how many a person does: that is the line's.

use crate::library::{Block, Format, Quantity};

/// A block's format as a coach reads it out; nothing where it has none.
pub fn format_words(block: &Block) -> Option<String> {
    let format = block.format.as_ref()?.value;
    let window = block.window.map(clock_words);
    let rounds = block.rounds.map(|rounds| match rounds.to {
        1 => "1 round".to_string(),
        _ => format!("{rounds} rounds"),
    });
    let start = match format {
        Format::Rounds => rounds.clone().unwrap_or_else(|| "Rounds".to_string()),
        Format::TimedSets => "Sets inside a window".to_string(),
        Format::MostRounds => "As many rounds as possible".to_string(),
        Format::EveryMinute => "Every minute on the minute".to_string(),
        Format::Intervals => "Intervals".to_string(),
        Format::Descending => match (block.from, block.to) {
            (Some(from), Some(to)) => format!("Counting down from {from} to {to}"),
            _ => "Counting down".to_string(),
        },
        Format::ForTime => "For time, as fast as form allows".to_string(),
        Format::Holds => "Holds in sequence".to_string(),
    };
    let mut parts = vec![start];
    if format != Format::Rounds {
        parts.extend(rounds);
    }
    parts.extend(block.work.map(|work| format!("{} work", clock_words(work))));
    parts.extend(block.rest.map(|rest| format!("{} rest", clock_words(rest))));
    match (format, window) {
        (Format::TimedSets, Some(window)) => parts[0] = format!("Sets inside {window}"),
        (_, Some(window)) => parts.push(window),
        (_, None) => {}
    }
    parts.extend(block.cap.map(|cap| format!("cap {}", clock_words(cap))));
    Some(parts.join(", "))
}

/// `12 min`, `90 s`.
pub fn clock_words(time: Quantity) -> String {
    let seconds = time.number().round() as i64;
    if seconds >= 120 && seconds % 60 == 0 {
        format!("{} min", seconds / 60)
    } else {
        time.to_string()
    }
}
