//! The page of a session: blocks in order, three rungs an item.
//! Never does their arithmetic; the room `plan` will.

use super::frame::{Frame, Link, Maker, SourceLink};
use super::needs::Needs;
use super::standing::{RungRow, dose_words};
use crate::gym::Gym;
use crate::library::{Block, Cycle, Dose, Format, Item, ItemWork, Quantity, Session, Sides};
use crate::site::routes::To;
use serde::Serialize;

/// The context of `session.html`.
#[derive(Debug, Serialize)]
pub struct SessionPage {
    page: Frame,
    name: String,
    about: Option<String>,
    focus: Option<Link>,
    length: Option<String>,
    blocks: Vec<BlockRow>,
    cycles: Vec<Link>,
    sources: Vec<SourceLink>,
}

#[derive(Debug, Serialize)]
struct BlockRow {
    name: String,
    purpose: Option<String>,
    format: Option<String>,
    items: Vec<ItemRow>,
}

#[derive(Debug, Serialize)]
struct ItemRow {
    ladder: Option<Link>,
    rungs: Vec<RungRow>,
    movement: Option<Link>,
    setting: String,
    needs: Needs,
    options: Vec<ItemRow>,
    dose: Option<String>,
    note: Option<String>,
    cue: Option<String>,
}

/// The page of `session`.
pub fn session_page(gym: &Gym, session: &Session) -> SessionPage {
    let maker = Maker::new(gym, &To::Session(&session.id));
    let description = session
        .about
        .clone()
        .unwrap_or_else(|| format!("{}: its blocks in order.", session.name.value));
    let holds = |cycle: &&Cycle| {
        let mut weeks = cycle.weeks.iter();
        weeks.any(|week| week.sessions.iter().any(|id| id.value == session.id))
    };
    let cycles = gym.library.cycles.values().filter(holds);
    SessionPage {
        page: maker.frame(session.name.value.clone(), description).telling_to_move().with_feed(),
        name: session.name.value.clone(),
        about: session.about.clone(),
        focus: session.focus.as_ref().map(|id| maker.pattern(&id.value)),
        length: session.length.map(clock_words),
        blocks: session.blocks.iter().map(|block| block_row(&maker, block)).collect(),
        cycles: cycles.map(|c| maker.link(c.name.value.clone(), &To::Cycle(&c.id))).collect(),
        sources: maker.sources(session.sources.iter().map(|id| &id.value)),
    }
}

fn block_row(maker: &Maker<'_>, block: &Block) -> BlockRow {
    BlockRow {
        name: block.name.value.clone(),
        purpose: block.purpose.clone(),
        format: block.format.as_ref().map(|format| format_words(format.value, block)),
        items: block.items.iter().map(|item| item_row(maker, item)).collect(),
    }
}

/// A block's format as a coach reads it out.
fn format_words(format: Format, block: &Block) -> String {
    let window = block.window.map(clock_words);
    let rounds = block.rounds.map(|rounds| match rounds.to {
        1 => "1 round".to_string(),
        _ => format!("{rounds} rounds"),
    });
    let start = match format {
        Format::Rounds => rounds.clone().unwrap_or_else(|| "Rounds".to_string()),
        Format::TimedSets => "Sets inside a window".to_string(),
        Format::MostRounds => "As many rounds as possible".to_string(),
        Format::EveryMinute => "Every minute, on the minute".to_string(),
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
    parts.extend(window.map(|window| format!("{window} window")));
    parts.extend(block.cap.map(|cap| format!("cap {}", clock_words(cap))));
    parts.join(", ")
}

/// `12 min`, `90 s`.
pub(super) fn clock_words(time: Quantity) -> String {
    let seconds = time.number().round() as i64;
    if seconds >= 120 && seconds % 60 == 0 {
        format!("{} min", seconds / 60)
    } else {
        time.to_string()
    }
}

fn item_row(maker: &Maker<'_>, item: &Item) -> ItemRow {
    let mut row = ItemRow {
        ladder: None,
        rungs: Vec::new(),
        movement: None,
        setting: String::new(),
        needs: Needs::default(),
        options: Vec::new(),
        dose: item.dose.as_ref().map(|dose| dose_words(dose, false)),
        note: item.note.clone(),
        cue: None,
    };
    match &item.work {
        ItemWork::Ladder(id) => {
            row.ladder = Some(maker.ladder(&id.value));
            row.rungs = three_rungs(maker, &id.value);
        }
        ItemWork::Movement(id, settings) => {
            row.movement = Some(maker.movement(&id.value));
            let words =
                settings.iter().map(|(name, value)| format!("{} {}", name.value, value.value));
            row.setting = words.collect::<Vec<_>>().join(", ");
            if let Some(movement) = maker.gym.library.movements.get(&id.value) {
                row.needs = Needs::of(maker.gym, movement);
                row.cue = movement.cues.first().map(|cue| cue.say.value.clone());
                let each = movement.sides == Sides::Each;
                row.dose = item.dose.as_ref().map(|dose: &Dose| dose_words(dose, each));
            }
        }
        ItemWork::Options(options) => {
            row.options = options.iter().map(|option| item_row(maker, option)).collect();
        }
    }
    row
}

/// Three rungs of a ladder for a mixed class: the lowest, the middle, the top.
fn three_rungs(maker: &Maker<'_>, id: &crate::library::LadderId) -> Vec<RungRow> {
    let Some(ladder) = maker.gym.library.ladders.get(id) else { return Vec::new() };
    let top = ladder.rungs.len().saturating_sub(1);
    let mut at = vec![0, top / 2, top];
    at.dedup();
    at.into_iter().filter_map(|at| maker.rung_row(ladder, at)).collect()
}

/// A session for the coach in class, block by block.
#[derive(Serialize)]
struct Steps {
    id: String,
    name: String,
    page: String,
    blocks: Vec<BlockRow>,
}

/// The file of a session's blocks below the site's folder.
pub fn steps_file(id: &crate::library::SessionId) -> String {
    format!("cards/session-{id}.js")
}

/// The blocks of `session` as a script that hands them to `rungbookSession`; links start at the
/// site's folder, as on the floor.
pub fn steps(gym: &Gym, session: &Session) -> String {
    let maker = Maker::new(gym, &To::Floor);
    let steps = Steps {
        id: session.id.to_string(),
        name: session.name.value.clone(),
        page: maker.links.to(&To::Session(&session.id)),
        blocks: session.blocks.iter().map(|block| block_row(&maker, block)).collect(),
    };
    // Strings, numbers and lists of them always serialise.
    format!("rungbookSession({});\n", serde_json::to_string(&steps).unwrap_or_default())
}
