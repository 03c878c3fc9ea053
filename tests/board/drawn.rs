//! Drawn classes: rosters by chance in a coach's own form, on the starter library.
//! Never a hand-picked person.

use crate::dice::Dice;
use rungbook::finding::Sources;
use rungbook::gym::Gym;
use rungbook::library::reader::{self, roster as roster_reader};
use rungbook::library::{Ladder, Member, Roster, Session, TraitId};
use rungbook::plan::Day;
use rungbook::swap::limits_of_situation;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::Path;
use std::sync::LazyLock;

/// The day of these classes, whatever the machine's clock says.
pub const TODAY: &str = "2026-11-30";

pub static GYM: LazyLock<Gym> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    Gym::open(reader::read(&root.join("content")).expect("the starter library"))
});

/// A roster of so many people.
pub fn drawn(dice: &mut Dice, people: usize) -> String {
    let words = &GYM.library.words;
    let kit: Vec<&str> = words.kit.keys().map(|id| id.as_str()).collect();
    let traits: Vec<&str> = words.traits.keys().map(|id| id.as_str()).collect();
    let cautions: Vec<&str> = words.cautions.keys().map(|id| id.as_str()).collect();
    let some = |dice: &mut Dice, all: &[&str], most: usize| -> Vec<String> {
        let mut found: Vec<String> =
            (0..dice.roll(most + 1)).map(|_| all[dice.roll(all.len())].to_string()).collect();
        found.sort();
        found.dedup();
        found
    };
    let mut text = String::new();
    for at in 0..people {
        let _ = writeln!(text, "bird{at}:");
        if dice.roll(3) == 0 {
            let _ = writeln!(text, "  trains: home");
            let _ = writeln!(text, "  kit: [{}]", some(dice, &kit, 6).join(", "));
        }
        let limits = some(dice, &traits, 2);
        if !limits.is_empty() && dice.roll(2) == 0 {
            let limits: Vec<String> =
                limits.iter().map(|id| format!("{id}: {}", 1 + dice.roll(2))).collect();
            let _ = writeln!(text, "  limits: {{{}}}", limits.join(", "));
        }
        if dice.roll(3) == 0 {
            let _ = writeln!(text, "  cautions: [{}]", some(dice, &cautions, 1).join(", "));
        }
        if dice.roll(4) == 0 {
            let sore = cautions[dice.roll(cautions.len())];
            let _ = writeln!(text, "  today: {{day: {TODAY}, cautions: [{sore}]}}");
        }
        let results: Vec<String> = GYM
            .library
            .ladders
            .values()
            .filter_map(|ladder| {
                let rung = 1 + dice.roll(ladder.rungs.len());
                (dice.roll(2) == 0).then(|| format!("{}: {}", ladder.id, own_rung(ladder, rung)))
            })
            .collect();
        let _ = writeln!(text, "  rungs: {{{}}}", results.join(", "));
    }
    text
}

/// A rung with what it is today, as `rungbook roster keep` writes it.
fn own_rung(ladder: &Ladder, number: usize) -> String {
    let rung = &ladder.rungs[number - 1];
    let at = rung.settings.iter().map(|(name, value)| {
        format!(", {}: {} {}", name.value, value.number(), value.unit.symbol())
    });
    let at: String = at.collect();
    format!("{{rung: {number}, was: {{movement: {}{at}}}}}", rung.movement.value)
}

/// A roster as it is read; without a word that cannot be.
pub fn roster(text: &str) -> Roster {
    let mut sources = Sources::default();
    let file = sources.add("roster.yaml", text);
    let (read, findings) = roster_reader::read(file, &sources);
    assert!(findings.is_empty(), "{text}\n{findings:?}");
    read.roster
}

/// A session of the starter library.
pub fn session_of(dice: &mut Dice) -> Session {
    let sessions: Vec<&Session> = GYM.library.sessions.values().collect();
    sessions[dice.roll(sessions.len())].clone()
}

/// Everything that somebody leaves out today, as their entry says it.
pub fn limits_of(member: &Member) -> BTreeMap<TraitId, u8> {
    let today = member
        .coming
        .today
        .as_ref()
        .filter(|today| Day::read(&today.day.value).is_some() && today.day.value == TODAY);
    let mut limits: BTreeMap<TraitId, u8> = BTreeMap::new();
    let mut lower = |id: &TraitId, from: u8| {
        let known = limits.entry(id.clone()).or_insert(from);
        *known = (*known).min(from);
    };
    let written = member.limits.iter().chain(today.iter().flat_map(|today| &today.limits));
    written.for_each(|(id, from)| lower(&id.value, *from));
    let cautions = member.cautions.iter().chain(today.iter().flat_map(|today| &today.cautions));
    for id in cautions {
        let caution = &GYM.library.words.cautions[&id.value];
        limits_of_situation(caution).levels.iter().for_each(|(id, from)| lower(id, *from));
    }
    limits
}
