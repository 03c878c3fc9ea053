//! Reading faults: those of the catalogue, those of a movement, and what a movement takes over from
//! the catalogue. Never asks whether the ids they name exist.

use super::check_id;
use super::fields::{Fields, Reading};
use super::node::Node;
use super::words::name_of;
use crate::finding::Placed;
use crate::library::keys;
use crate::library::{Fault, FaultId, FaultIn, KnownFault, Library, PatternId, Then, Words};

/// A fault of `words/faults.yaml`.
pub fn known(id: Placed<String>, fields: &mut Fields<'_>, reading: &mut Reading) -> KnownFault {
    let name = name_of(&id, fields, reading);
    let wanted =
        "patterns, each with what differs there, such as `{squat: {say: Spread the floor}}`";
    let nodes = reading.map_of(fields, "patterns", wanted);
    let by_pattern = nodes.iter().filter_map(|(pattern, node)| {
        check_id(&pattern.value, pattern.span, reading);
        let mut fields = reading.fields_of(node, &keys::FAULT_IN)?;
        let within = within(&mut fields, reading);
        reading.no_more(&fields);
        Some((Placed::new(PatternId(pattern.value.clone()), pattern.span), within))
    });
    let by_pattern: Vec<(Placed<PatternId>, FaultIn)> = by_pattern.collect();
    KnownFault {
        name,
        also_said: reading.strings_of(fields, "also-said"),
        general: within(fields, reading),
        written_patterns: by_pattern.iter().map(|(pattern, _)| pattern.clone()).collect(),
        patterns: by_pattern.into_iter().map(|(id, within)| (id.value, within)).collect(),
        sources: reading.ids_of(fields, "sources"),
        id: Placed::new(FaultId(id.value), id.span),
    }
}

fn within(fields: &mut Fields<'_>, reading: &mut Reading) -> FaultIn {
    FaultIn {
        see: reading.text_of(fields, "see"),
        causes: reading.strings_of(fields, "causes"),
        say: reading.text_of(fields, "say"),
        then: reading.text_of(fields, "then").map(then),
    }
}

/// The faults of a movement, as far as the entry itself says them.
pub fn in_movement(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<Fault> {
    let items = reading.list_of(fields, "faults");
    items.iter().filter_map(|item| fault(item, reading)).collect()
}

fn fault(item: &Node, reading: &mut Reading) -> Option<Fault> {
    let mut fields = reading.fields_of(item, &keys::FAULT)?;
    let of: Option<Placed<FaultId>> = reading.id_of(&mut fields, "fault");
    let see = match &of {
        Some(_) => reading.text_of(&mut fields, "see"),
        None => {
            let see = reading.required(&mut fields, "see", "this fault");
            see.and_then(|node| reading.text(node, "`see`"))
        }
    };
    let cause = reading.words_of(&mut fields, "cause");
    let say = reading.text_of(&mut fields, "say");
    let then = reading.text_of(&mut fields, "then").map(then);
    reading.no_more(&fields);
    // Until the catalogue is read, and where it has no such fault, the id stands for what is seen.
    let named = of.as_ref().map(|id| Placed::new(id.value.as_str().replace('-', " "), id.span));
    let see = see.or(named)?;
    Some(Fault { of, see, cause, say, then })
}

fn then(text: Placed<String>) -> Placed<Then> {
    let (names, plain) = match text.value.split_once(',') {
        Some((names, plain)) => (names.trim().to_string(), Some(plain.trim().to_string())),
        None => (text.value.clone(), None),
    };
    Placed::new(Then { names, plain }, text.span)
}

/// Gives every fault of a movement what its entry leaves to the catalogue. Files are read in the
/// order of their names, movements before words, so that this comes when all is read.
pub fn take_over(library: &mut Library) {
    let words = &library.words;
    for movement in library.movements.values_mut() {
        for fault in &mut movement.faults {
            complete(fault, words, &movement.pattern.value);
        }
    }
}

fn complete(fault: &mut Fault, words: &Words, pattern: &PatternId) {
    let Some(of) = &fault.of else { return };
    let Some(known) = words.faults.get(&of.value) else { return };
    let span = of.span;
    let within = known.within(pattern);
    if fault.see.span == span {
        let see = within.see.as_ref().map_or(&known.name, |see| &see.value);
        fault.see = Placed::new(see.clone(), span);
    }
    fault.cause = fault.cause.take().or_else(|| within.cause());
    let here = |text: Placed<String>| Placed::new(text.value, span);
    fault.say = fault.say.take().or_else(|| within.say.map(here));
    fault.then =
        fault.then.take().or_else(|| within.then.map(|then| Placed::new(then.value, span)));
}
