//! Faults: as a movement's page shows its own, and the page of a fault that movements share, with
//! all its movements. Never words a fault itself: the library does.

use super::frame::{Frame, Link, Maker, SourceLink};
use super::needs::Needs;
use super::wrong::{WrongRow, wrong_row};
use crate::gym::Gym;
use crate::library::{
    Fault, FaultId, FaultIn, KnownFault, Movement, MovementId, Pattern, Then, Unit,
};
use crate::site::routes::To;
use serde::Serialize;
use std::collections::BTreeMap;

/// A fault of a movement: see, cause, say, then.
#[derive(Debug, Serialize)]
pub struct FaultRow {
    see: String,
    cause: Option<String>,
    say: Option<String>,
    then: Option<ThenRow>,
    /// The fault that movements share, where it is one.
    known: Option<Link>,
    /// The fault drawn beside the good pose, where geometry can show it.
    drawn: Option<WrongRow>,
}

/// What to do then.
#[derive(Debug, Serialize)]
pub struct ThenRow {
    words: String,
    to: Option<String>,
    plain: Option<String>,
    /// What the movement that it names asks for.
    needs: Option<Needs>,
}

/// The context of `fault.html`.
#[derive(Debug, Serialize)]
pub struct FaultPage {
    page: Frame,
    name: String,
    also_said: Vec<String>,
    see: String,
    causes: Vec<String>,
    say: Option<String>,
    then: Option<ThenRow>,
    groups: Vec<FaultGroup>,
    sources: Vec<SourceLink>,
    /// The fault drawn on the first movement whose pose can show it.
    drawn: Option<WrongRow>,
}

/// The movements of a pattern that have the fault, and what differs there.
#[derive(Debug, Serialize)]
struct FaultGroup {
    pattern: Link,
    see: Option<String>,
    causes: Vec<String>,
    say: Option<String>,
    then: Option<ThenRow>,
    movements: Vec<FaultMovement>,
}

/// A movement that has the fault: its own words where they differ from those above it.
#[derive(Debug, Serialize)]
struct FaultMovement {
    link: Link,
    see: Option<String>,
    say: Option<String>,
    needs: Needs,
}

/// The context of `faults.html`.
#[derive(Debug, Serialize)]
pub struct FaultsPage {
    page: Frame,
    faults: Vec<FaultLine>,
}

#[derive(Debug, Serialize)]
struct FaultLine {
    link: Link,
    also_said: Vec<String>,
    say: Option<String>,
    count: usize,
}

/// A fault in three lines, for answers to a search.
#[derive(Debug, Serialize)]
pub struct Told {
    /// What is seen.
    pub see: String,
    /// The cue.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub say: Option<String>,
    /// What to do if it does not mend it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub then: Option<String>,
}

/// The faults of a movement.
pub fn fault_rows(maker: &Maker<'_>, movement: &Movement) -> Vec<FaultRow> {
    movement.faults.iter().map(|fault| fault_row(maker, movement, fault)).collect()
}

fn fault_row(maker: &Maker<'_>, movement: &Movement, fault: &Fault) -> FaultRow {
    let known =
        fault.of.as_ref().filter(|id| maker.gym.library.words.faults.contains_key(&id.value));
    FaultRow {
        see: fault.see.value.clone(),
        cause: fault.cause.clone(),
        say: fault.say.as_ref().map(|say| say.value.clone()),
        then: fault.then.as_ref().map(|then| then_row(maker, movement, &then.value)),
        known: known.map(|id| maker.known_fault(&id.value)),
        drawn: fault.of.as_ref().and_then(|id| wrong_row(maker, movement, &id.value)),
    }
}

/// What to do then, with a link where it names a movement or the rung below.
fn then_row(maker: &Maker<'_>, movement: &Movement, then: &Then) -> ThenRow {
    if then.names == RUNG_BELOW {
        let Some(below) = maker.rung_below(&movement.id) else { return known_then(maker, then) };
        let words = format!("the rung below: {}", named(&below.movement.text, &below.setting));
        let (to, plain) = (Some(below.movement.to), then.plain.clone());
        return ThenRow { words, to, plain, needs: Some(below.needs) };
    }
    let row = known_then(maker, then);
    if row.to.is_some() { row } else { ThenRow { words: setting_words(movement, then), ..row } }
}

const RUNG_BELOW: &str = "rung below";

/// What to do then where no movement is given: a link where it names one.
fn known_then(maker: &Maker<'_>, then: &Then) -> ThenRow {
    let plain = then.plain.clone();
    let library = &maker.gym.library;
    if let Some(movement) = library.movements.get(&MovementId(then.names.clone())) {
        let link = maker.movement(&movement.id);
        let needs = Some(Needs::of(maker.gym, movement));
        return ThenRow { words: link.text, to: Some(link.to), plain, needs };
    }
    let words = if then.names == RUNG_BELOW { "the rung below" } else { &then.names };
    ThenRow { words: words.to_string(), to: None, plain, needs: None }
}

/// `hands more` as a coach says it: `hands higher`.
fn setting_words(movement: &Movement, then: &Then) -> String {
    let as_written = || then.names.clone();
    let Some((name, way)) = then.names.split_once(' ') else { return as_written() };
    let Some(setting) = movement.setting(name) else { return as_written() };
    let more = way == "more";
    if !more && way != "less" {
        return as_written();
    }
    match setting.unit {
        Unit::Centimetre | Unit::Metre if more => format!("{name} higher"),
        Unit::Centimetre | Unit::Metre => format!("{name} lower"),
        Unit::Second if more => format!("a longer {name}"),
        Unit::Second => format!("a shorter {name}"),
        Unit::Degree | Unit::Kilogram if more => format!("more {name}"),
        Unit::Degree | Unit::Kilogram => format!("less {name}"),
    }
}

fn named(name: &str, setting: &str) -> String {
    if setting.is_empty() { name.to_string() } else { format!("{name}, {setting}") }
}

/// A fault as a search tells it.
pub fn told(gym: &Gym, fault: &KnownFault) -> Told {
    let maker = Maker::new(gym, &To::Floor);
    let then = fault.general.then.as_ref().map(|then| known_then(&maker, &then.value));
    Told {
        see: fault.see().to_string(),
        say: say_of(&fault.general),
        then: then.map(|then| match then.plain {
            Some(plain) => format!("{}, {plain}", then.words),
            None => then.words,
        }),
    }
}

fn say_of(within: &FaultIn) -> Option<String> {
    within.say.as_ref().map(|say| say.value.clone())
}

/// The page of `fault`.
pub fn fault_page(gym: &Gym, fault: &KnownFault) -> FaultPage {
    let maker = Maker::new(gym, &To::KnownFault(&fault.id.value));
    let description = format!("{}: why, what to say, what then, and where it is seen.", fault.name);
    let then = fault.general.then.as_ref();
    FaultPage {
        page: maker.frame(fault.name.clone(), description).telling_to_move(),
        name: fault.name.clone(),
        also_said: fault.also_said.clone(),
        see: fault.see().to_string(),
        causes: fault.general.causes.clone(),
        say: say_of(&fault.general),
        then: then.map(|then| known_then(&maker, &then.value)),
        groups: groups(&maker, fault),
        drawn: first_drawn(&maker, fault),
        sources: maker.sources(fault.sources.iter().map(|id| &id.value)),
    }
}

/// The fault on the first movement whose pose can show it.
fn first_drawn(maker: &Maker<'_>, fault: &KnownFault) -> Option<WrongRow> {
    let mut with = with_fault(maker.gym, &fault.id.value).into_iter();
    with.find_map(|(movement, ..)| wrong_row(maker, movement, &fault.id.value))
}

/// The patterns in which movements have the fault, by name.
fn groups(maker: &Maker<'_>, fault: &KnownFault) -> Vec<FaultGroup> {
    let mut patterns: Vec<&Pattern> = maker.gym.library.words.patterns.values().collect();
    patterns.sort_by_key(|pattern| pattern.name.to_lowercase());
    let group = |pattern: &Pattern| {
        let own = fault.patterns.get(&pattern.id.value).cloned().unwrap_or_default();
        let then = own.then.as_ref().map(|then| known_then(maker, &then.value));
        FaultGroup {
            pattern: maker.pattern(&pattern.id.value),
            see: own.see.as_ref().map(|see| see.value.clone()),
            say: say_of(&own),
            causes: own.causes,
            then,
            movements: movements_with(maker, fault, pattern),
        }
    };
    let groups = patterns.into_iter().map(group);
    groups.filter(|group| !group.movements.is_empty()).collect()
}

fn movements_with(maker: &Maker<'_>, fault: &KnownFault, pattern: &Pattern) -> Vec<FaultMovement> {
    let within = fault.within(&pattern.id.value);
    let with = with_fault(maker.gym, &fault.id.value).into_iter();
    with.filter(|(movement, _, _)| movement.pattern.value == pattern.id.value)
        .map(|(movement, number, own)| FaultMovement {
            link: maker.link(movement.name.value.clone(), &To::Fault(&movement.id, number)),
            see: own.is_own(own.see.span).then(|| own.see.value.clone()),
            say: (own.say.as_ref().map(|say| &say.value) != within.say.as_ref().map(|s| &s.value))
                .then(|| own.say.as_ref().map(|say| say.value.clone()))
                .flatten(),
            needs: Needs::of(maker.gym, movement),
        })
        .collect()
}

/// Every movement with the fault, by name, with the fault's number in it from 1.
pub fn with_fault<'g>(gym: &'g Gym, id: &FaultId) -> Vec<(&'g Movement, usize, &'g Fault)> {
    let has = |fault: &Fault| fault.of.as_ref().is_some_and(|of| of.value == *id);
    let mut with: Vec<_> = gym
        .library
        .movements
        .values()
        .flat_map(|movement| {
            let numbered = movement.faults.iter().zip(1..);
            numbered.map(move |(fault, number)| (movement, number, fault))
        })
        .filter(|(_, _, fault)| has(fault))
        .collect();
    with.sort_by_key(|(movement, number, _)| (movement.name.value.to_lowercase(), *number));
    with
}

/// The list of faults that movements share.
pub fn faults_page(gym: &Gym) -> FaultsPage {
    let maker = Maker::new(gym, &To::Faults);
    let mut known: Vec<&KnownFault> = gym.library.words.faults.values().collect();
    known.sort_by_key(|fault| fault.name.to_lowercase());
    let line = |fault: &KnownFault| FaultLine {
        link: maker.known_fault(&fault.id.value),
        also_said: fault.also_said.clone(),
        say: say_of(&fault.general),
        count: with_fault(gym, &fault.id.value).len(),
    };
    let faults = known.into_iter().map(line).collect();
    let description = "What a coach sees go wrong, what to say, and every movement that shows it.";
    FaultsPage { page: maker.frame("Faults", description).telling_to_move(), faults }
}

/// The file of a fault for the floor's script, below the site's folder.
pub fn fault_file(id: &FaultId) -> String {
    format!("cards/faults/{id}.js")
}

#[derive(Serialize)]
struct FaultCard {
    id: String,
    name: String,
    page: String,
    see: String,
    cause: Option<String>,
    say: Option<String>,
    then: Option<ThenRow>,
    movements: Vec<CardMovement>,
    /// The fault drawn on the first movement whose pose can show it.
    drawn: Option<WrongRow>,
}

#[derive(Serialize)]
struct CardMovement {
    name: String,
    /// Its fault on its page.
    to: String,
    /// What is seen, where that is not just the fault.
    see: Option<String>,
    /// What is said there, where that is not the fault's own cue.
    say: Option<String>,
    needs: Needs,
}

/// A fault as a script that hands it to `rungbookFault`.
pub fn fault_card(gym: &Gym, fault: &KnownFault) -> String {
    let maker = Maker::new(gym, &To::Floor);
    let then = fault.general.then.as_ref();
    let with = with_fault(gym, &fault.id.value).into_iter();
    let general = fault.general.say.as_ref().map(|say| &say.value);
    let card = FaultCard {
        id: fault.id.value.to_string(),
        name: fault.name.clone(),
        page: To::KnownFault(&fault.id.value).file(),
        see: fault.see().to_string(),
        cause: fault.general.cause(),
        say: say_of(&fault.general),
        then: then.map(|then| known_then(&maker, &then.value)),
        drawn: first_drawn(&maker, fault),
        movements: with
            .map(|(movement, number, own)| CardMovement {
                name: movement.name.value.clone(),
                to: maker.links.to(&To::Fault(&movement.id, number)),
                see: (own.see.value != fault.see()).then(|| own.see.value.clone()),
                say: own
                    .say
                    .as_ref()
                    .map(|say| say.value.clone())
                    .filter(|say| general != Some(say)),
                needs: Needs::of(gym, movement),
            })
            .collect(),
    };
    // Strings, numbers and lists of them always serialise.
    format!("rungbookFault({});\n", serde_json::to_string(&card).unwrap_or_default())
}

/// What answers to a search say of every fault, below the site's folder.
pub const FAULTS_FILE: &str = "data/faults.js";

/// Every fault in three lines by its id, as a script.
pub fn fault_words(gym: &Gym) -> String {
    let faults = gym.library.words.faults.iter();
    let told: BTreeMap<&str, Told> =
        faults.map(|(id, fault)| (id.as_str(), told(gym, fault))).collect();
    let told = serde_json::to_string(&told).unwrap_or_default();
    format!("window.rungbookFaultWords={told};\n")
}
