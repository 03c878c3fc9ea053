//! Ids of a coach's own library for `rungbook explain`: what kind of entry an id is, its name and its
//! place. Never explains the entry itself: its page and `rungbook find` do.

use crate::finding::{Span, did_you_mean};
use crate::library::Library;

/// What an id is: its kind, the name shown and where it is written.
type Known<'l> = (&'static str, &'l str, &'l str, Span);

/// What the library has under the id `asked`, a sentence each; nothing where it has no such id.
pub fn told(library: &Library, asked: &str) -> Vec<String> {
    let asked = asked.replace(' ', "-");
    let here = all(library).into_iter().filter(|(_, id, ..)| **id == *asked);
    here.map(|(kind, id, name, span)| {
        let file = library.sources.name(span.file);
        format!(
            "`{id}` is an id of your library: the {kind} \"{name}\", written in {file}\n  \
             = help: `rungbook find {id}` shows it; `rungbook explain {kind}` says how one is written\n"
        )
    })
    .collect()
}

/// The near spelling among the library's ids, or `otherwise`.
pub fn near(library: &Library, asked: &str, otherwise: &str) -> String {
    did_you_mean(asked, all(library).into_iter().map(|(_, id, ..)| id), otherwise)
}

fn all(library: &Library) -> Vec<Known<'_>> {
    let words = &library.words;
    let movements = library.movements.values();
    let movements = movements.map(|m| ("movement", m.id.as_str(), &*m.name.value, m.name.span));
    let ladders = library.ladders.values();
    let ladders = ladders.map(|l| ("ladder", l.id.as_str(), &*l.name.value, l.name.span));
    let sessions = library.sessions.values();
    let sessions = sessions.map(|s| ("session", s.id.as_str(), &*s.name.value, s.name.span));
    let cycles = library.cycles.values();
    let cycles = cycles.map(|c| ("cycle", c.id.as_str(), &*c.name.value, c.name.span));
    let kit = words.kit.values().map(|k| ("kit", k.id.value.as_str(), &*k.name, k.id.span));
    let traits = words.traits.values();
    let traits = traits.map(|t| ("trait", t.id.value.as_str(), &*t.name, t.id.span));
    let cautions = words.cautions.values();
    let cautions = cautions.map(|c| ("caution", c.id.value.as_str(), &*c.name, c.id.span));
    let faults = words.faults.values();
    let faults = faults.map(|f| ("fault", f.id.value.as_str(), &*f.name, f.id.span));
    let changes = words.changes.values();
    let changes = changes.map(|c| ("change", c.id.value.as_str(), &*c.name, c.id.span));
    let entries = movements.chain(ladders).chain(sessions).chain(cycles);
    entries.chain(kit).chain(traits).chain(cautions).chain(faults).chain(changes).collect()
}
