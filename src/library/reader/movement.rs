//! Reading one movement: front matter for the machine, a body for people.
//! Never asks whether the ids it names exist.

use super::entry::front_matter;
use super::fields::{Fields, Reading};
use super::node::{Kind, Node};
use super::{add, check_id, codes, cut_off, fault, id_from_name, node, traits, unseen, unwritten};
use crate::finding::{FileId, Finding, Placed, Severity, Span};
use crate::library::keys::{self, Shape};
use crate::library::named::Named;
use crate::library::{
    Beside, Body, Counts, Cue, Harder, Library, Movement, MovementId, Muscles, Noise, PatternId,
    Plane, Purpose, Quantity, Room, Setting, SettingName, Sides, Unit,
};

/// A movement as its file alone says it.
pub struct Alone {
    movement: Option<Movement>,
    reading: Reading,
}

impl Alone {
    /// Reads the movement in `text`. Nothing else of the library is looked at, so that every core can
    /// read some.
    pub fn read(folders: &[&str], name: &str, file: FileId, text: &str) -> Alone {
        let mut reading = Reading::default();
        let id = MovementId(id_from_name(name, ".md", file, &mut reading));
        let movement = movement(id, folders.join("/"), file, text, &mut reading);
        Alone { movement, reading }
    }

    /// Puts it into the library.
    pub fn add_to(self, library: &mut Library, reading: &mut Reading) {
        reading.findings.extend(self.reading.findings);
        reading.formerly.extend(self.reading.formerly);
        let Some(movement) = self.movement else { return };
        let (id, span) = (movement.id.clone(), movement.file);
        add(&mut library.movements, id, movement, span, |earlier| earlier.file, reading);
    }
}

fn movement(
    id: MovementId,
    folder: String,
    file: FileId,
    text: &str,
    reading: &mut Reading,
) -> Option<Movement> {
    if text.trim_matches(['\u{feff}', ' ', '\n', '\r', '\t']).is_empty() {
        let help = "write the entry, or remove the file";
        let headline = "nothing is written in this file".to_string();
        reading.error(codes::EMPTY_FILE, headline, Span::whole(file), help);
        return None;
    }
    let Some((yaml, body_start)) = front_matter(text) else {
        no_front_matter(text, file, reading);
        return None;
    };
    let base = text.len() - text.trim_start_matches('\u{feff}').len();
    let root = match node::parse(yaml, file, base) {
        Ok(root) => root,
        Err(finding) => {
            reading.findings.push(*finding);
            return None;
        }
    };
    unseen::report(&root, reading);
    unseen::report_in_body(&text[body_start..], Span::whole(file), body_start, reading);
    cut_off::texts(&root, &Shape::Map(&keys::MOVEMENT), (file, text), reading);
    unwritten::report(&root, (&text[body_start..], body_start), reading);
    let mut fields = reading.fields_of(&root, &keys::MOVEMENT)?;
    let body = Body {
        markdown: text[body_start..].to_string(),
        start: u32::try_from(body_start).unwrap_or(u32::MAX),
    };
    let movement = from_fields(id, folder, body, &mut fields, reading);
    reading.no_more(&fields);
    Some(movement)
}

fn no_front_matter(text: &str, file: FileId, reading: &mut Reading) {
    let start = text.len() - text.trim_start_matches('\u{feff}').len();
    if text[start..].lines().next().is_some_and(|line| line.trim_end() == "---") {
        let headline = "the front matter that starts here is never closed".to_string();
        let help = "add a line `---` after the last key";
        reading.error(codes::NO_FRONT_MATTER, headline, Span::new(file, start, start + 3), help);
        return;
    }
    let headline = "this movement has no front matter between two lines `---`".to_string();
    let help = "start the file with a line `---`, then the keys, then a line `---`";
    reading.error(codes::NO_FRONT_MATTER, headline, Span::whole(file), help);
}

fn from_fields(
    id: MovementId,
    folder: String,
    body: Body,
    fields: &mut Fields<'_>,
    reading: &mut Reading,
) -> Movement {
    let file = Span::whole(fields.span.file);
    let name = reading
        .required(fields, "name", "this movement")
        .and_then(|node| reading.text(node, "`name`"))
        .unwrap_or_else(|| Placed::new(id.to_string(), file));
    let pattern = reading
        .required(fields, "pattern", "this movement")
        .and_then(|node| reading.text(node, "`pattern`"))
        .map_or_else(
            || Placed::new(PatternId(folder.clone()), file),
            |text| Placed::new(PatternId(text.value), text.span),
        );
    let value = |word: Option<Placed<_>>| word.map(|w| w.value);
    reading.formerly(fields, Named::Movement, id.as_str());
    let settings = settings(fields, reading);
    let (traits, traits_unread) = traits::traits(fields, &settings, reading);
    Movement {
        written_id: reading.id_of(fields, "id"),
        name,
        aliases: reading.texts_of(fields, "aliases"),
        pattern,
        purpose: value(reading.word_of(fields, "purpose", Purpose::from_word, Purpose::WORDS)),
        counts: reading
            .word_of(fields, "counts", Counts::from_word, Counts::WORDS)
            .map_or(Counts::Reps, |word| word.value),
        sides: reading
            .word_of(fields, "sides", Sides::from_word, Sides::WORDS)
            .map_or(Sides::Together, |word| word.value),
        plane: reading
            .word_of(fields, "plane", Plane::from_word, Plane::WORDS)
            .map(|word| word.value),
        muscles: muscles(fields, reading),
        kit: traits::kit(fields, reading),
        traits,
        traits_unread,
        changes: traits::changes(fields, reading),
        settings,
        room: room(fields, reading),
        pace: pace(fields, reading),
        standard: reading.text_of(fields, "standard"),
        cues: cues(fields, reading),
        faults: fault::in_movement(fields, reading),
        caution: reading.text_of(fields, "caution"),
        beside: beside(fields, reading),
        figure: fields.take("figure").cloned(),
        no_figure: reading.text_of(fields, "no-figure"),
        sources: reading.ids_of(fields, "sources"),
        id,
        file,
        folder,
        body,
    }
}

/// Seconds of a repetition: some, and fewer than ten minutes.
fn pace(fields: &mut Fields<'_>, reading: &mut Reading) -> Option<Quantity> {
    let pace = reading.quantity_of(fields, "pace", Unit::Second)?;
    if pace.is_nothing() || pace.number() > 600.0 {
        let headline = format!("no repetition takes {}", pace.value);
        let help = "write how long one repetition takes, such as `3 s`, or leave the key out";
        reading.error(codes::BAD_QUANTITY, headline, pace.span, help);
        return None;
    }
    Some(pace.value)
}

fn muscles(fields: &mut Fields<'_>, reading: &mut Reading) -> Muscles {
    let Some(node) = fields.take("muscles") else { return Muscles::default() };
    let Some(mut fields) = reading.fields_of(node, &keys::MUSCLES) else {
        return Muscles::default();
    };
    let muscles = Muscles {
        prime: reading.ids_of(&mut fields, "prime"),
        assist: reading.ids_of(&mut fields, "assist"),
    };
    reading.no_more(&fields);
    muscles
}

fn settings(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<(Placed<SettingName>, Setting)> {
    let wanted = "settings by name, such as `lean: {unit: deg, from: 15, to: 75}`";
    reading
        .map_of(fields, "settings", wanted)
        .iter()
        .filter_map(|(name, node)| {
            check_id(&name.value, name.span, reading);
            let setting = setting(node, name.span, reading)?;
            Some((Placed::new(SettingName(name.value.clone()), name.span), setting))
        })
        .collect()
}

fn setting(node: &Node, span: Span, reading: &mut Reading) -> Option<Setting> {
    let mut fields = reading.fields_of(node, &keys::SETTING)?;
    reading.required(&mut fields, "unit", "a setting");
    let unit = reading.word_of(&mut fields, "unit", Unit::from_symbol, Unit::WORDS)?.value;
    let written = fields.has("from") && fields.has("to");
    let mut number = |key: &'static str, reading: &mut Reading| {
        let node = fields.take(key)?;
        reading.number_in(node, key, unit)
    };
    let (from, to, usual) =
        (number("from", reading), number("to", reading), number("usual", reading));
    let harder = reading.word_of(&mut fields, "harder", Harder::from_word, Harder::WORDS);
    let means = reading.words_of(&mut fields, "means").unwrap_or_default();
    let each_hand = reading.truth_of(&mut fields, "each-hand").is_some_and(|said| said.value);
    reading.no_more(&fields);
    let (Some(from), Some(to)) = (from, to) else {
        if !written {
            let headline = "a setting needs `from` and `to`".to_string();
            reading.error(codes::MISSING_KEY, headline, span, "add both ends of its range");
        }
        return None;
    };
    let (from, to) = (from.value.min(to.value), from.value.max(to.value));
    Some(Setting { unit, from, to, usual, harder: harder.map(|h| h.value), means, each_hand, span })
}

fn room(fields: &mut Fields<'_>, reading: &mut Reading) -> Room {
    let Some(node) = fields.take("room") else { return Room::default() };
    let Some(mut fields) = reading.fields_of(node, &keys::ROOM) else { return Room::default() };
    let room = Room {
        length: reading.quantity_of(&mut fields, "length", Unit::Metre).map(|q| q.value),
        width: reading.quantity_of(&mut fields, "width", Unit::Metre).map(|q| q.value),
        height: reading.quantity_of(&mut fields, "height", Unit::Metre).map(|q| q.value),
        noise: reading
            .word_of(&mut fields, "noise", Noise::from_word, Noise::WORDS)
            .map(|noise| noise.value),
    };
    reading.no_more(&fields);
    room
}

fn cues(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Cue> {
    let items = reading.list_of(fields, "cues");
    items.iter().filter_map(|item| cue(item, reading)).collect()
}

fn cue(item: &Node, reading: &mut Reading) -> Option<Cue> {
    if let Kind::Scalar(text) = &item.kind {
        if let Some(words) = text.strip_prefix("say ").filter(|_| item.span.end > item.span.start) {
            let headline = "no colon stands after `say`".to_string();
            let help = format!("write `- {{say: {words}}}`, or the words alone");
            let warning =
                Finding::new(codes::UNKNOWN_KEY, Severity::Warning, headline, item.span).help(help);
            reading.findings.push(warning);
        }
        return reading.text(item, "a cue").map(|say| Cue { say, when: None });
    }
    let mut fields = reading.fields_of(item, &keys::CUE)?;
    let say = reading.required(&mut fields, "say", "this cue");
    let say = say.and_then(|node| reading.text(node, "`say`"));
    let when = reading.words_of(&mut fields, "when");
    reading.no_more(&fields);
    say.map(|say| Cue { say, when })
}

fn beside(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Beside> {
    let items = reading.list_of(fields, "beside");
    items
        .iter()
        .filter_map(|item| {
            let mut fields = reading.fields_of(item, &keys::BESIDE)?;
            let to = reading.required(&mut fields, "to", "this link");
            let to = to.and_then(|node| reading.text(node, "`to`"));
            let because = reading.words_of(&mut fields, "because");
            reading.no_more(&fields);
            to.map(|to| Beside { to: Placed::new(MovementId(to.value), to.span), because })
        })
        .collect()
}
