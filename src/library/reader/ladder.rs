//! Reading one ladder.
//! Never asks whether its movements exist or its rungs rise.

use super::entry::{dose, setting_values};
use super::fields::{Fields, Reading};
use super::node::Node;
use super::{add, id_from_name, yaml_file};
use crate::finding::{FileId, Placed, Span};
use crate::library::keys;
use crate::library::named::Named;
use crate::library::{Change, Ladder, LadderId, LadderTest, Library, MovementId, Rung};

/// Reads the ladder in `text` into the library.
pub fn read(name: &str, file: FileId, text: &str, library: &mut Library, reading: &mut Reading) {
    let id = LadderId(id_from_name(name, ".yaml", file, reading));
    let Some(root) = yaml_file("ladder", file, text, reading) else { return };
    let Some(mut fields) = reading.fields_of(&root, &keys::LADDER) else { return };
    let span = Span::whole(file);
    let ladder = Ladder {
        id: id.clone(),
        file: span,
        name: reading
            .required(&mut fields, "name", "this ladder")
            .and_then(|node| reading.text(node, "`name`"))
            .unwrap_or_else(|| Placed::new(id.to_string(), span)),
        goal: reading.text_of(&mut fields, "goal"),
        pattern: reading.id_of(&mut fields, "pattern"),
        about: reading.words_of(&mut fields, "about"),
        moves_up: reading.text_of(&mut fields, "moves-up"),
        moves_down: reading.words_of(&mut fields, "moves-down"),
        test: test(&mut fields, reading),
        dose: fields.take("dose").and_then(|node| dose(node, reading)),
        rungs: rungs(&mut fields, reading),
        sources: reading.ids_of(&mut fields, "sources"),
    };
    reading.formerly(&mut fields, Named::Ladder, id.as_str());
    reading.no_more(&fields);
    add(&mut library.ladders, id, ladder, span, |earlier| earlier.file, reading);
}

fn test(fields: &mut Fields<'_>, reading: &mut Reading) -> Option<LadderTest> {
    let node = fields.take("test")?;
    let mut fields = reading.fields_of(node, &keys::TEST)?;
    reading.required(&mut fields, "rung", "this test");
    let rung = reading.whole_of(&mut fields, "rung");
    let count = reading.words_of(&mut fields, "count");
    let stop = reading.words_of(&mut fields, "stop");
    reading.no_more(&fields);
    rung.map(|rung| LadderTest { rung, count, stop })
}

/// The most rungs of one ladder. The longest of the starter library has a twentieth of them.
const MOST_RUNGS: usize = 300;

fn rungs(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Rung> {
    let items = reading.list_of(fields, "rungs");
    let items = reading.at_most(items, MOST_RUNGS, "this ladder");
    items.iter().filter_map(|item| rung(item, reading)).collect()
}

fn rung(item: &Node, reading: &mut Reading) -> Option<Rung> {
    let mut fields = reading.fields_of(item, &keys::RUNG)?;
    let movement = reading.required(&mut fields, "movement", "this rung");
    let movement = movement.and_then(|node| reading.text(node, "`movement`"));
    let changes = reading.word_of(&mut fields, "changes", Change::from_word, Change::WORDS);
    let because = reading.words_of(&mut fields, "because");
    let dose = fields.take("dose").and_then(|node| dose(node, reading));
    let settings = setting_values(&mut fields, reading);
    movement.map(|movement| Rung {
        movement: Placed::new(MovementId(movement.value), movement.span),
        settings,
        changes,
        because,
        dose,
        span: item.span,
    })
}
