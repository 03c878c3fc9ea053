//! Reading how a member comes to class: `trains`, `today` and `with` of the roster.
//! Never asks what day it is, nor whether a name is known.

use super::fields::{Fields, Reading};
use super::node::Node;
use super::roster::limits;
use crate::library::{Coming, OfToday, Trains};

/// What a member's entry says about coming to class.
pub(super) fn coming(fields: &mut Fields<'_>, reading: &mut Reading) -> Coming {
    let trains = reading.word_of(fields, "trains", Trains::from_word, Trains::WORDS);
    let today = fields.take("today").and_then(|node| today(node, reading));
    Coming { trains, today, with: reading.id_of(fields, "with") }
}

fn today(node: &Node, reading: &mut Reading) -> Option<OfToday> {
    let mut fields = reading.fields(node, "`today`")?;
    reading.required(&mut fields, "day", "`today`");
    let day = reading.text_of(&mut fields, "day");
    let limits = limits(&mut fields, reading);
    let cautions = reading.ids_of(&mut fields, "cautions");
    reading.no_more(&fields);
    Some(OfToday { day: day?, limits, cautions })
}
