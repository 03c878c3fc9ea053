//! Reading sessions and cycles.
//! Never does their arithmetic.

use super::entry::{dose, setting_values};
use super::fields::{Fields, Reading};
use super::node::Node;
use super::{add, codes, id_from_name, yaml_file};
use crate::finding::{FileId, Placed, Span};
use crate::library::keys;
use crate::library::named::Named;
use crate::library::{
    Block, Count, Cycle, CycleId, CycleWeek, Format, Item, ItemWork, LadderId, Library, MovementId,
    Session, SessionId, Spread, Unit, WeekKind,
};

/// Reads the session in `text` into the library.
pub fn read_session(
    name: &str,
    file: FileId,
    text: &str,
    library: &mut Library,
    reading: &mut Reading,
) {
    let id = SessionId(id_from_name(name, ".yaml", file, reading));
    let Some(root) = yaml_file("session", file, text, reading) else { return };
    let Some(mut fields) = reading.fields_of(&root, &keys::SESSION) else { return };
    let span = Span::whole(file);
    let session = Session {
        id: id.clone(),
        file: span,
        name: name_of(&mut fields, id.as_ref(), "this session", reading),
        focus: reading.id_of(&mut fields, "focus"),
        length: reading.quantity_of(&mut fields, "length", Unit::Second).map(|q| q.value),
        about: reading.words_of(&mut fields, "about"),
        written: day(&mut fields, "written", reading),
        blocks: blocks(&mut fields, reading),
        sources: reading.ids_of(&mut fields, "sources"),
        in_week: None,
    };
    reading.formerly(&mut fields, Named::Session, id.as_str());
    reading.no_more(&fields);
    add(&mut library.sessions, id, session, span, |earlier| earlier.file, reading);
}

/// Reads the cycle in `text` into the library.
pub fn read_cycle(
    name: &str,
    file: FileId,
    text: &str,
    library: &mut Library,
    reading: &mut Reading,
) {
    let id = CycleId(id_from_name(name, ".yaml", file, reading));
    let Some(root) = yaml_file("cycle", file, text, reading) else { return };
    let Some(mut fields) = reading.fields_of(&root, &keys::CYCLE) else { return };
    let span = Span::whole(file);
    let cycle = Cycle {
        id: id.clone(),
        file: span,
        name: name_of(&mut fields, id.as_ref(), "this cycle", reading),
        about: reading.words_of(&mut fields, "about"),
        focus: focus(&mut fields, reading),
        days: reading.texts_of(&mut fields, "days"),
        starts: day(&mut fields, "starts", reading),
        weeks: weeks(&mut fields, reading),
        sources: reading.ids_of(&mut fields, "sources"),
    };
    reading.formerly(&mut fields, Named::Cycle, id.as_str());
    reading.no_more(&fields);
    add(&mut library.cycles, id, cycle, span, |earlier| earlier.file, reading);
}

/// A day as it stands; whether a calendar has it is a rule's business.
fn day(
    fields: &mut Fields<'_>,
    key: &'static str,
    reading: &mut Reading,
) -> Option<Placed<String>> {
    fields.take(key).and_then(|node| reading.text(node, &format!("`{key}`")))
}

fn name_of(fields: &mut Fields<'_>, id: &str, what: &str, reading: &mut Reading) -> Placed<String> {
    let span = fields.span;
    reading
        .required(fields, "name", what)
        .and_then(|node| reading.text(node, "`name`"))
        .unwrap_or_else(|| Placed::new(id.to_string(), span))
}

/// The most ladders that one cycle raises, the most weeks that it has, and the most lines of one
/// session, options included. Our own ends: three times what a club can keep in view.
const MOST_FOCUS: usize = 50;
const MOST_WEEKS: usize = 60;
const MOST_LINES: usize = 300;

fn focus(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Placed<LadderId>> {
    let mut focus: Vec<Placed<LadderId>> = reading.ids_of(fields, "focus");
    if let Some(beyond) = focus.get(MOST_FOCUS) {
        let headline =
            format!("this cycle raises {} ladders; at most {MOST_FOCUS} are planned", focus.len());
        reading.error(codes::TOO_MUCH, headline, beyond.span, "split it into several");
        focus.truncate(MOST_FOCUS);
    }
    focus
}

fn blocks(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Block> {
    let items = reading.list_of(fields, "blocks");
    let mut blocks: Vec<Block> = Vec::new();
    let mut lines = 0;
    for item in items {
        let Some(block) = block(item, reading) else { continue };
        lines += block.items.iter().map(lines_of).sum::<usize>();
        if lines > MOST_LINES {
            let headline =
                format!("this session has over {MOST_LINES} lines; the rest is not read");
            reading.error(codes::TOO_MUCH, headline, item.span, "split it into several");
            break;
        }
        blocks.push(block);
    }
    blocks
}

/// The lines that an item takes, its options included.
fn lines_of(item: &Item) -> usize {
    match &item.work {
        ItemWork::Options(options) => 1 + options.iter().map(lines_of).sum::<usize>(),
        _ => 1,
    }
}

fn block(node: &Node, reading: &mut Reading) -> Option<Block> {
    let mut fields = reading.fields_of(node, &keys::BLOCK)?;
    let fields = &mut fields;
    let seconds = |key, fields: &mut Fields<'_>, reading: &mut Reading| {
        reading.quantity_of(fields, key, Unit::Second).map(|q| q.value)
    };
    let whole = |key, fields: &mut Fields<'_>, reading: &mut Reading| {
        reading.whole_of(fields, key).map(|n| n.value)
    };
    let block = Block {
        name: name_of(fields, "block", "this block", reading),
        purpose: reading.words_of(fields, "for"),
        format: reading.word_of(fields, "format", Format::from_word, Format::WORDS),
        spread: reading
            .word_of(fields, "spread", Spread::from_word, Spread::WORDS)
            .map(|spread| spread.value),
        rounds: reading.count_of(fields, "rounds", ("", Count::SETS)).map(|c| c.value),
        window: seconds("window", fields, reading),
        work: seconds("work", fields, reading),
        rest: seconds("rest", fields, reading),
        from: whole("from", fields, reading),
        to: whole("to", fields, reading),
        cap: seconds("cap", fields, reading),
        items: items_of("items", fields, reading),
    };
    reading.no_more(fields);
    Some(block)
}

fn items_of(key: &'static str, fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Item> {
    let items = reading.list_of(fields, key);
    items.iter().filter_map(|node| item(node, reading)).collect()
}

fn item(node: &Node, reading: &mut Reading) -> Option<Item> {
    let mut fields = reading.fields_of(node, &keys::ITEM)?;
    let fields = &mut fields;
    let ladder = reading.id_of::<LadderId>(fields, "ladder");
    let movement = reading.id_of::<MovementId>(fields, "movement");
    let below = reading.whole_of(fields, "below");
    let options = items_of("options", fields, reading);
    let note = reading.words_of(fields, "for");
    let mut dose = fields.take("dose").and_then(|node| dose(node, reading));
    if let Some(rest) = reading.quantity_of(fields, "rest", Unit::Second) {
        dose.get_or_insert_default().rest = Some(rest.value);
    }
    let settings = setting_values(fields, reading);
    let work = match (ladder, movement, options.is_empty()) {
        (Some(ladder), None, true) => ItemWork::Ladder(ladder),
        (None, Some(movement), true) => ItemWork::Movement(movement, settings),
        (None, None, false) => ItemWork::Options(options),
        (None, None, true) if fields.has_misspelt(&["ladder", "movement", "options"]) => {
            return None;
        }
        (None, None, true) => {
            let headline = "this item names nothing to do".to_string();
            let help = "add one of `ladder`, `movement` or `options`";
            reading.error(codes::MISSING_KEY, headline, node.span, help);
            return None;
        }
        _ => {
            let headline = "this item names two things to do".to_string();
            let help = "keep one of `ladder`, `movement` or `options`; give the other its own item";
            reading.error(codes::MISSING_KEY, headline, node.span, help);
            return None;
        }
    };
    Some(Item { work, below, dose, note, span: node.span })
}

fn weeks(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<CycleWeek> {
    let items = reading.list_of(fields, "weeks");
    let items = reading.at_most(items, MOST_WEEKS, "this cycle");
    items
        .iter()
        .filter_map(|node| {
            let mut fields = reading.fields_of(node, &keys::WEEK)?;
            reading.required(&mut fields, "week", "this week");
            let week = reading.whole_of(&mut fields, "week");
            let kind = reading.word_of(&mut fields, "kind", WeekKind::from_word, WeekKind::WORDS);
            let sessions = reading.ids_of(&mut fields, "sessions");
            let note = reading.words_of(&mut fields, "note");
            reading.no_more(&fields);
            let Placed { value: week, span } = week?;
            Some(CycleWeek { week, span, kind: kind.map(|k| k.value), sessions, note })
        })
        .collect()
}
