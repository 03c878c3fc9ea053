//! Reading what a member did in class: `done` of the roster.
//! Never asks whether there is such a session, nor what day it is.

use super::fields::{Fields, Reading};
use super::node::{Kind, Node};
use crate::library::{Done, SessionId};

/// The lines of a member's classes, in the order written.
pub(super) fn done(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Done> {
    let items = match fields.take("done") {
        // It is the roster as a whole that has a budget.
        Some(Node { kind: Kind::List(items), .. }) => items,
        Some(node) => reading.list(node, "`done`"),
        None => &[],
    };
    items.iter().filter_map(|item| class(item, reading)).collect()
}

fn class(item: &Node, reading: &mut Reading) -> Option<Done> {
    let mut fields = reading.fields(item, "a class that was done")?;
    for key in ["day", "session"] {
        reading.required(&mut fields, key, "this class");
    }
    let day = reading.text_of(&mut fields, "day");
    let session = reading.id_of::<SessionId>(&mut fields, "session");
    let wanted = "lines and what was done there, such as `{Row: \"Strap row, lean 37 deg\"}`";
    let lines = reading.map_of(&mut fields, "did", wanted);
    let did = lines.iter().filter_map(|(line, node)| {
        Some((line.value.clone(), reading.text(node, &format!("`{}`", line.value))?.value))
    });
    let did = did.collect();
    let left_out = reading.strings_of(&mut fields, "left-out");
    reading.no_more(&fields);
    Some(Done { day: day?, session: session?, did, left_out, span: item.span })
}
