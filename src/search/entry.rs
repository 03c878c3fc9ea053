//! Entries: what can be found, and its words by where they stand on the page.
//! Never ranks and never cuts a text into words.

use super::block;
use super::{HitKind, HitPart, fold};
use crate::gym::Gym;
use crate::library::{
    Caution, Cycle, Fault, IN_EACH_HAND, ItemWork, KitItem, KitKind, KnownFault, Ladder, Movement,
    Muscle, Noise, Pattern, Quantity, Rung, Session, Trait,
};
use pulldown_cmark::{Event, Parser};
use std::collections::BTreeSet;

/// Something that a question may ask to do without.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Without {
    /// A piece of kit, by its id.
    Kit(String),
    /// A sort of kit, by the last word of its names: "bar" is every bar.
    Sort(String),
    /// A trait, by its id.
    Trait(String),
    /// Any kit at all.
    AnyKit,
}

/// One page that can be found.
#[derive(Debug, Clone)]
pub struct Entry {
    /// What it is.
    pub kind: HitKind,
    /// Its id.
    pub id: String,
    /// The name shown.
    pub name: String,
    /// Other names, and what people say and type.
    pub also: Vec<String>,
    /// Short phrases that stand at a place of their own on the page.
    pub parts: Vec<(HitPart, String)>,
    /// Pattern, muscles, kit: words that many entries share.
    pub about: String,
    /// All the rest that a person reads.
    pub text: String,
    /// What it cannot do without or brings with it.
    pub needs: Vec<Without>,
    /// What it is the page to turn to without.
    pub answers: Vec<Without>,
}

impl Entry {
    pub(super) fn new(kind: HitKind, id: &str, name: &str) -> Entry {
        Entry {
            kind,
            id: id.to_string(),
            name: name.to_string(),
            also: Vec::new(),
            parts: Vec::new(),
            about: String::new(),
            text: String::new(),
            needs: Vec::new(),
            answers: Vec::new(),
        }
    }
}

/// Every entry of the gym. Their order decides what scores and places leave open: movements come
/// first, because a coach on the floor asks for a movement more often than for anything else, and
/// within a kind the names are in order, as a person who sees no ids expects.
pub fn entries(gym: &Gym) -> Vec<Entry> {
    let words = &gym.library.words;
    let mut entries: Vec<Entry> =
        gym.library.movements.values().map(|m| movement(gym, m)).collect();
    entries.extend(gym.library.ladders.values().map(|l| ladder(gym, l)));
    entries.extend(words.faults.values().map(fault));
    entries.extend(words.cautions.values().map(|c| caution(gym, c)));
    entries.extend(words.kit.values().map(kit));
    entries.extend(words.traits.values().map(trait_));
    entries.extend(words.patterns.values().map(|p| pattern(gym, p)));
    entries.extend(words.muscles.values().map(muscle));
    entries.extend(gym.library.sessions.values().map(|s| session(gym, s)));
    entries.extend(gym.library.cycles.values().map(|c| cycle(gym, c)));
    entries.extend(gym.library.sessions.values().flat_map(|s| block::blocks(gym, s)));
    entries.sort_by_cached_key(|entry| (entry.kind, fold::words(&entry.name), entry.id.clone()));
    entries
}

/// Texts one below the other, so that no phrase runs from one into the next.
pub(super) fn lines<'a>(texts: impl IntoIterator<Item = &'a str>) -> String {
    texts.into_iter().collect::<Vec<_>>().join("\n")
}

fn movement(gym: &Gym, movement: &Movement) -> Entry {
    let mut entry = Entry::new(HitKind::Movement, movement.id.as_str(), &movement.name.value);
    entry.also = movement.aliases.iter().map(|alias| alias.value.clone()).collect();
    let faults = movement.faults.iter().zip(1..);
    entry.parts = faults.map(|(f, n)| (HitPart::Fault(n), fault_words(gym, f))).collect();
    let cues = movement.cues.iter().zip(1..);
    entry.parts.extend(cues.map(|(c, n)| (HitPart::Cue(n), c.say.value.clone())));
    entry.about = lines(movement_about(gym, movement));
    entry.text = movement_text(movement);
    entry.needs = movement_needs(gym, movement);
    entry
}

/// Pattern, muscles, kit and purpose, and for what lack another entry sends people here.
fn movement_about<'g>(gym: &'g Gym, movement: &'g Movement) -> Vec<&'g str> {
    let words = &gym.library.words;
    let mut about: Vec<&str> = Vec::new();
    about.extend(words.patterns.get(&movement.pattern.value).map(|p| p.name.as_str()));
    let muscles = movement.muscles.prime.iter().chain(&movement.muscles.assist);
    about.extend(muscles.filter_map(|m| words.muscles.get(&m.value)).map(|m| m.name.as_str()));
    let kit = movement.kit.iter().flat_map(|need| &need.0);
    about.extend(kit.filter_map(|id| words.kit.get(&id.value)).map(|item| item.name.as_str()));
    if movement.kit.is_empty() {
        about.push(NO_KIT[0]);
    }
    about.extend(movement.purpose.map(|purpose| purpose.word()));
    about.extend(movement.room.noise.filter(|noise| *noise != Noise::Some).map(|n| n.word()));
    for other in gym.library.movements.values() {
        let here = other.beside.iter().filter(|beside| beside.to.value == movement.id);
        about.extend(here.filter_map(|beside| beside.because.as_deref()));
    }
    about
}

/// How people ask for work without any kit.
pub const NO_KIT: [&str; 4] = ["no kit", "no equipment", "no gear", "nothing to use"];

fn movement_text(movement: &Movement) -> String {
    let mut text: Vec<&str> = Vec::new();
    text.extend(movement.standard.as_ref().map(|standard| standard.value.as_str()));
    text.extend(movement.cues.iter().filter_map(|cue| cue.when.as_deref()));
    text.extend(movement.faults.iter().flat_map(fault_text));
    text.extend(movement.caution.as_ref().map(|caution| caution.value.as_str()));
    for (_, setting) in &movement.settings {
        text.extend(setting.each_hand.then_some(IN_EACH_HAND));
        text.push(setting.means.as_str());
    }
    text.extend(movement.beside.iter().filter_map(|beside| beside.because.as_deref()));
    let body = plain(&movement.body.markdown);
    text.push(&body);
    lines(text)
}

/// What is found of a fault: its name in the catalogue, so that whoever types the name lands on it,
/// and what is seen where that is particular to the movement or to its pattern.
fn fault_words(gym: &Gym, fault: &Fault) -> String {
    let see = &fault.see.value;
    let known = fault.of.as_ref().and_then(|id| gym.library.words.faults.get(&id.value));
    let Some(known) = known else { return see.clone() };
    let (said, name) = (fold::words(see), fold::words(&known.name));
    if see == known.see() {
        return known.name.clone();
    }
    let says_name = said.windows(name.len().max(1)).any(|words| words == name);
    if says_name { see.clone() } else { format!("{}: {see}", known.name) }
}

fn fault_text(fault: &Fault) -> impl Iterator<Item = &str> {
    let say = fault.say.as_ref().map(|say| say.value.as_str());
    let then = fault.then.as_ref().and_then(|then| then.value.plain.as_deref());
    [fault.cause.as_deref(), say, then].into_iter().flatten()
}

/// The words of a Markdown text, without its marks and addresses.
fn plain(markdown: &str) -> String {
    let mut text = String::new();
    for event in Parser::new(markdown) {
        match event {
            Event::Text(words) | Event::Code(words) => text.push_str(&words),
            Event::SoftBreak => text.push(' '),
            Event::HardBreak | Event::End(_) => text.push('\n'),
            _ => {}
        }
    }
    text
}

/// What the movement cannot do without, and the traits it has: "no bar" and "no jumping" leave it
/// out. Kit that something else may stand in for is no need, unless that is of the same sort.
fn movement_needs(gym: &Gym, movement: &Movement) -> Vec<Without> {
    let kit = &gym.library.words.kit;
    let lacked = |id| kit.get(id).is_none_or(|item| item.kind != KitKind::Anywhere);
    let needs = movement.kit.iter().filter(|need| need.0.iter().all(|id| lacked(&id.value)));
    let mut without: Vec<Without> = Vec::new();
    for need in needs {
        without.push(Without::AnyKit);
        if let [only] = need.0.as_slice() {
            without.push(Without::Kit(only.to_string()));
        }
        let sorts: BTreeSet<Option<String>> = need
            .0
            .iter()
            .map(|id| kit.get(&id.value).and_then(|item| sort_of(&item.name)))
            .collect();
        if sorts.len() == 1 {
            without.extend(sorts.into_iter().flatten().map(Without::Sort));
        }
    }
    let traits = movement.traits.iter().flatten();
    without.extend(traits.map(|of| Without::Trait(of.id.to_string())));
    without
}

/// The sort of a piece of kit: the last word of its name.
fn sort_of(name: &str) -> Option<String> {
    fold::words(name).pop()
}

/// What people ask a ladder for; the same words on every ladder.
const LADDER_ABOUT: &str =
    "ladder\neasier\nharder\nrung below\nrung above\ncan't do it yet\nfirst one";

fn ladder(gym: &Gym, ladder: &Ladder) -> Entry {
    let mut entry = Entry::new(HitKind::Ladder, ladder.id.as_str(), &ladder.name.value);
    entry.also = vec![format!("{} ladder", ladder.name.value)];
    let rungs = ladder.rungs.iter().zip(1..);
    entry.parts = rungs.map(|(rung, n)| (HitPart::Rung(n), rung_words(gym, rung))).collect();
    let pattern = ladder.pattern.as_ref().and_then(|p| gym.library.words.patterns.get(&p.value));
    let pattern = pattern.map(|pattern| pattern.name.as_str());
    entry.about = lines(pattern.into_iter().chain([LADDER_ABOUT]));
    let mut text: Vec<&str> = Vec::new();
    text.extend(ladder.goal.as_ref().map(|goal| goal.value.as_str()));
    text.extend(ladder.about.as_deref());
    text.extend(ladder.moves_up.as_ref().map(|up| up.value.as_str()));
    text.extend(ladder.moves_down.as_deref());
    text.extend(
        ladder.test.iter().flat_map(|test| [&test.count, &test.stop]).flatten().map(|s| &**s),
    );
    text.extend(ladder.rungs.iter().filter_map(|rung| rung.because.as_deref()));
    entry.text = lines(text);
    entry
}

/// A rung as a person says it: `Strap row, lean 45 deg`.
fn rung_words(gym: &Gym, rung: &Rung) -> String {
    let id = &rung.movement.value;
    let name = gym.library.movements.get(id).map_or(id.as_str(), |m| m.name.value.as_str());
    let settings = rung.settings.iter();
    settings.fold(name.to_string(), |words, (setting, value)| {
        format!("{words}, {} {}", setting.as_str().replace('-', " "), value.value)
    })
}

/// What people ask a fault's page for; the same words on every one.
const FAULT_ABOUT: &str = "fault\nmistake\nwhat goes wrong";

fn fault(fault: &KnownFault) -> Entry {
    let mut entry = Entry::new(HitKind::Fault, fault.id.value.as_str(), &fault.name);
    entry.also = fault.also_said.clone();
    let sees = fault.all().filter_map(|within| within.see.as_ref()).map(|see| see.value.as_str());
    entry.about = lines(sees.chain([FAULT_ABOUT]));
    let mut text: Vec<&str> = Vec::new();
    for within in fault.all() {
        text.extend(within.causes.iter().map(String::as_str));
        text.extend(within.say.as_ref().map(|say| say.value.as_str()));
        text.extend(within.then.as_ref().and_then(|then| then.value.plain.as_deref()));
    }
    entry.text = lines(text);
    entry
}

fn caution(gym: &Gym, caution: &Caution) -> Entry {
    let mut entry = Entry::new(HitKind::Caution, caution.id.value.as_str(), &caution.name);
    entry.also = caution.also_said.clone();
    let traits = caution.precautions().filter_map(|p| gym.library.words.traits.get(&p.about.value));
    entry.about = lines(traits.map(|trait_| trait_.name.as_str()));
    let mut text: Vec<&str> = caution.precautions().filter_map(|p| p.how.as_deref()).collect();
    text.extend(caution.says.as_deref());
    text.extend(caution.clinician.as_deref());
    text.extend(caution.keeps.as_deref());
    text.extend(caution.stop.iter().map(String::as_str));
    text.extend(caution.emergency.iter().flat_map(|e| [e.sign.as_str(), e.act.as_str()]));
    entry.text = lines(text);
    entry
}

fn kit(item: &KitItem) -> Entry {
    let mut entry = Entry::new(HitKind::Kit, item.id.value.as_str(), &item.name);
    entry.also = item.aliases.clone();
    let mut text: Vec<&str> = Vec::new();
    text.extend(item.about.as_deref());
    text.extend(item.check.as_deref());
    text.extend(item.hazards.iter().map(String::as_str));
    text.extend(item.never.iter().flat_map(|never| [never.what.as_str(), never.because.as_str()]));
    entry.text = lines(text);
    entry.answers = vec![Without::Kit(item.id.value.to_string())];
    entry.answers.extend(sort_of(&item.name).map(Without::Sort));
    entry
}

fn trait_(trait_: &Trait) -> Entry {
    let mut entry = Entry::new(HitKind::Trait, trait_.id.value.as_str(), &trait_.name);
    entry.also =
        trait_.avoid.iter().chain(&trait_.plain).chain(&trait_.also_said).cloned().collect();
    entry.text = trait_.about.clone().unwrap_or_default();
    entry.answers = vec![Without::Trait(trait_.id.value.to_string())];
    entry
}

fn pattern(gym: &Gym, pattern: &Pattern) -> Entry {
    let mut entry = Entry::new(HitKind::Pattern, pattern.id.value.as_str(), &pattern.name);
    let muscles = pattern.prime.iter().filter_map(|m| gym.library.words.muscles.get(&m.value));
    entry.about = lines(muscles.map(|muscle| muscle.name.as_str()));
    entry.text = pattern.about.clone().unwrap_or_default();
    entry
}

/// What people ask a muscle's page for; the same words on every one.
const MUSCLE_ABOUT: &str = "muscle\nexercises";

fn muscle(muscle: &Muscle) -> Entry {
    let mut entry = Entry::new(HitKind::Muscle, muscle.id.value.as_str(), &muscle.name);
    entry.also = muscle.plain.iter().chain(&muscle.also_said).cloned().collect();
    entry.about = MUSCLE_ABOUT.to_string();
    entry.text = muscle.where_found.clone().unwrap_or_default();
    entry
}

/// What people ask a session for; the same words on every session.
const SESSION_ABOUT: &str = "session\nclass\nworkout\nlesson";

fn session(gym: &Gym, session: &Session) -> Entry {
    let mut entry = Entry::new(HitKind::Session, session.id.as_str(), &session.name.value);
    entry.also = session.length.iter().map(|length| session_length(*length)).collect();
    let focus = session.focus.as_ref().and_then(|p| gym.library.words.patterns.get(&p.value));
    entry.about =
        lines(focus.map(|pattern| pattern.name.as_str()).into_iter().chain([SESSION_ABOUT]));
    let mut text: Vec<&str> = session.about.as_deref().into_iter().collect();
    for block in &session.blocks {
        text.push(&block.name.value);
        text.extend(block.purpose.as_deref());
        for item in &block.items {
            text.extend(item.note.as_deref());
            text.extend(item_name(gym, &item.work));
        }
    }
    entry.text = lines(text);
    entry
}

/// `60 min`, as people ask for a class that fits their hour.
fn session_length(length: Quantity) -> String {
    format!("{} min", (length.number() / 60.0).round())
}

/// What people ask a cycle for; the same words on every cycle.
const CYCLE_ABOUT: &str = "cycle\ntraining plan\nprogramme\nprogram\nschedule";

fn cycle(gym: &Gym, cycle: &Cycle) -> Entry {
    let library = &gym.library;
    let mut entry = Entry::new(HitKind::Cycle, cycle.id.as_str(), &cycle.name.value);
    entry.also = vec![format!("{} weeks", cycle.weeks.len()), format!("{} cycle", entry.name)];
    let focus = cycle.focus.iter().filter_map(|id| library.ladders.get(&id.value));
    let focus = focus.map(|ladder| ladder.name.value.as_str());
    let kinds = cycle.weeks.iter().filter_map(|week| week.kind).map(|kind| kind.word());
    let kinds: BTreeSet<String> = kinds.map(|kind| format!("{kind} week")).collect();
    entry.about = lines(focus.chain(kinds.iter().map(String::as_str)).chain([CYCLE_ABOUT]));
    let mut text: Vec<&str> = cycle.about.as_deref().into_iter().collect();
    text.extend(cycle.weeks.iter().filter_map(|week| week.note.as_deref()));
    let sessions = cycle.weeks.iter().flat_map(|week| &week.sessions);
    let sessions = sessions.filter_map(|id| library.sessions.get(&id.value));
    text.extend(sessions.map(|session| session.name.value.as_str()));
    entry.text = lines(text);
    entry
}

fn item_name<'g>(gym: &'g Gym, work: &ItemWork) -> Option<&'g str> {
    match work {
        ItemWork::Ladder(id) => gym.library.ladders.get(&id.value).map(|l| l.name.value.as_str()),
        ItemWork::Movement(id, _) => {
            gym.library.movements.get(&id.value).map(|m| m.name.value.as_str())
        }
        ItemWork::Options(_) => None,
    }
}
