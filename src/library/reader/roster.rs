//! Reading a roster: `roster.yaml`, one key a member.
//! Never asks whether ladders, kit and traits exist; never read as part of a library.

use super::coming::coming;
use super::done::done;
use super::entry::setting_values;
use super::fields::{Fields, Reading};
use super::node::{self, Kind, Most, Node};
use super::{check_id, codes};
use crate::finding::{FileId, Finding, Placed, Sources, Span};
use crate::library::id::is_nickname;
use crate::library::{
    Counts, LadderId, Member, MemberResult, Nickname, OwnRung, Roster, RungWas, Unit,
};
use std::collections::BTreeMap;

/// A roster and how its file is laid out.
#[derive(Debug, Clone, Default)]
pub struct RosterFile {
    /// Who is in it.
    pub roster: Roster,
    /// The tree of the file; nothing where nothing is written.
    pub root: Option<Node>,
}

/// Reads the roster in `file`. Whatever cannot be understood is in the findings.
pub fn read(file: FileId, sources: &Sources) -> (RosterFile, Vec<Finding>) {
    let text = sources.text(file);
    let mut reading = Reading::default();
    let base = text.len() - text.trim_start_matches('\u{feff}').len();
    let root = match node::parse_at_most(Most::Roster, &text[base..], file, base) {
        Ok(Node { kind: Kind::Empty, .. }) => None,
        Ok(node) => Some(node),
        Err(finding) => return (RosterFile::default(), vec![*finding]),
    };
    let roster = root.as_ref().map(|root| members(root, &mut reading)).unwrap_or_default();
    (RosterFile { roster, root }, reading.findings)
}

fn members(root: &Node, reading: &mut Reading) -> Roster {
    let Some(fields) = reading.fields(root, "the roster") else { return Roster::default() };
    let mut roster = Roster::default();
    let mut first_at: BTreeMap<String, Span> = BTreeMap::new();
    for (name, node) in fields.rest() {
        let first = *first_at.entry(name.value.to_lowercase()).or_insert(name.span);
        if !is_nickname(&name.value) {
            bad_nickname(name, reading);
        } else if first != name.span {
            let headline = format!("`{}` stands twice on the roster", name.value);
            let finding = Finding::new(
                codes::DUPLICATE_ID,
                crate::finding::Severity::Error,
                headline,
                name.span,
            );
            let finding = finding.also(first, "first here");
            reading.findings.push(finding.help("put both under one nickname"));
        } else if let Some(member) = member(name, node, reading) {
            roster.members.push(member);
        }
    }
    roster
}

/// Reports a nickname that is more than one word.
pub(super) fn bad_nickname(name: &Placed<String>, reading: &mut Reading) {
    let headline = format!("`{}` cannot be a nickname", name.value);
    let help = "write one word of letters and digits, such as `wren` or `song-thrush`";
    reading.error(codes::BAD_ID, headline, name.span, help);
}

fn member(name: &Placed<String>, node: &Node, reading: &mut Reading) -> Option<Member> {
    let name = Placed::new(Nickname(name.value.clone()), name.span);
    if matches!(node.kind, Kind::Empty) {
        return Some(Member::named(name));
    }
    let mut fields = reading.fields(node, &format!("`{}`", name.value))?;
    let has_kit = fields.take("kit").is_some();
    let kit = reading.ids_of(&mut fields, "kit");
    let limits = limits(&mut fields, reading);
    let cautions = reading.ids_of(&mut fields, "cautions");
    let coming = coming(&mut fields, reading);
    let rungs = rungs(&mut fields, reading);
    let items = results_of(&mut fields, reading);
    let results = items.iter().filter_map(|item| result(item, reading)).collect();
    let done = done(&mut fields, reading);
    reading.no_more(&fields);
    let kit = has_kit.then_some(kit);
    Some(Member { name, kit, limits, cautions, coming, rungs, results, done })
}

/// All results of a member: it is the roster as a whole that has a budget.
fn results_of<'n>(fields: &mut Fields<'n>, reading: &mut Reading) -> &'n [Node] {
    match fields.take("results") {
        Some(Node { kind: Kind::List(items), .. }) => items,
        Some(node) => reading.list(node, "`results`"),
        None => &[],
    }
}

pub(super) fn limits(
    fields: &mut Fields<'_>,
    reading: &mut Reading,
) -> Vec<(Placed<crate::library::TraitId>, u8)> {
    let wanted = "traits and the level from which to leave them out, such as `{impact: 1}`";
    let entries = reading.map_of(fields, "limits", wanted);
    let mut found = Vec::new();
    for (name, node) in entries {
        let Some(level) = reading.text(node, &format!("`{}`", name.value)) else { continue };
        match level.value.as_str() {
            "1" => found.push((Placed::new(name.value.as_str().into(), name.span), 1)),
            "2" => found.push((Placed::new(name.value.as_str().into(), name.span), 2)),
            _ => {
                let headline = format!("`{}` is not a level", level.value);
                let help =
                    "write 1 to leave out every movement with it, 2 to leave out a lot of it";
                reading.error(codes::BAD_QUANTITY, headline, level.span, help);
            }
        }
    }
    found
}

fn rungs(fields: &mut Fields<'_>, reading: &mut Reading) -> Vec<(Placed<LadderId>, OwnRung)> {
    let entries = reading.map_of(fields, "rungs", "ladders and rungs, such as `{row: 3}`");
    let rung = |(name, node): &(Placed<String>, Node)| {
        let ladder = Placed::new(LadderId(name.value.clone()), name.span);
        Some((ladder, own_rung(&name.value, node, reading)?))
    };
    entries.iter().filter_map(rung).collect()
}

/// A rung by its number, or with what it was: `{rung: 4, was: {movement: incline-push-up}}`.
fn own_rung(ladder: &str, node: &Node, reading: &mut Reading) -> Option<OwnRung> {
    if !matches!(node.kind, Kind::Map(_)) {
        let rung = reading.text(node, &format!("`{ladder}`"))?;
        return Some(OwnRung { rung: whole(&rung, reading)?, was: None });
    }
    let mut fields = reading.fields(node, &format!("the rung of `{ladder}`"))?;
    reading.required(&mut fields, "rung", "this rung");
    let rung = reading.whole_of(&mut fields, "rung");
    let was = fields.take("was").and_then(|node| was(node, reading));
    reading.no_more(&fields);
    Some(OwnRung { rung: rung?, was })
}

/// A whole number, or a finding at its place.
pub(super) fn whole(text: &Placed<String>, reading: &mut Reading) -> Option<Placed<u32>> {
    match text.value.parse() {
        Ok(number) => Some(Placed::new(number, text.span)),
        Err(_) => {
            let headline = format!("`{}` is not a whole number", text.value);
            reading.error(codes::BAD_QUANTITY, headline, text.span, "write a number such as `12`");
            None
        }
    }
}

fn result(item: &Node, reading: &mut Reading) -> Option<MemberResult> {
    let mut fields = reading.fields(item, "a result")?;
    for key in ["ladder", "rung", "day"] {
        reading.required(&mut fields, key, "this result");
    }
    let ladder = reading.id_of::<LadderId>(&mut fields, "ladder");
    if let Some(ladder) = &ladder {
        check_id(ladder.as_str(), ladder.span, reading);
    }
    let rung = reading.whole_of(&mut fields, "rung");
    let day = reading.text_of(&mut fields, "day");
    let reps = reading.whole_of(&mut fields, "reps");
    let seconds = reading.whole_of(&mut fields, "seconds");
    if reps.is_some() == seconds.is_some() {
        let help = "write one of the two, such as `reps: 12` or `seconds: 45`";
        let headline = "this result needs either `reps` or `seconds`".to_string();
        reading.error(codes::MISSING_KEY, headline, item.span, help);
    }
    let added = reading.quantity_of(&mut fields, "added", Unit::Kilogram);
    let note = reading.words_of(&mut fields, "note");
    let was = fields.take("was").and_then(|node| was(node, reading));
    let settings = setting_values(&mut fields, reading);
    let counts = if reps.is_some() { Counts::Reps } else { Counts::Seconds };
    Some(MemberResult {
        ladder: ladder?,
        rung: rung?,
        counts,
        amount: reps.or(seconds)?,
        day: day?,
        settings,
        was,
        added,
        note,
        span: item.span,
    })
}

/// What the rung was on the day of the test: `{movement: incline-push-up, hands: 60 cm}`.
fn was(node: &Node, reading: &mut Reading) -> Option<RungWas> {
    let mut fields = reading.fields(node, "`was`")?;
    reading.required(&mut fields, "movement", "`was`");
    let movement = reading.id_of(&mut fields, "movement");
    let settings = setting_values(&mut fields, reading);
    Some(RungWas { movement: movement?, settings })
}
