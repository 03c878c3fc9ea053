//! The three doors and what stands beside them: floor, home, learning, the picker, a missing page.
//! Never a person's own data: kit and limits stay on the device.

use super::drill::{DrillGroup, drill};
use super::frame::{Frame, Link, Maker};
use super::kit::{KitGroup, kit_groups};
use super::ladder::{LadderRow, ladder_rows};
use super::large::{Dealt, is_large};
use super::lists::{PatternGroup, pattern_groups, pattern_links};
use crate::gym::Gym;
use crate::library::{Caution, KitKind, Movement, Trait};
use crate::site::routes::To;
use serde::Serialize;
use std::collections::BTreeSet;

/// The context of `front.html`.
#[derive(Debug, Serialize)]
pub struct FrontPage {
    page: Frame,
    about: Option<String>,
    today: String,
    floor: String,
    home: String,
    learning: String,
    sessions: Vec<Link>,
    movements: usize,
    ladders: usize,
}

/// The context of `floor.html`.
#[derive(Debug, Serialize)]
pub struct FloorPage {
    page: Frame,
    quicks: Vec<QuickLimit>,
    ladders: Vec<LadderRow>,
    /// Where a library is large, the pages that have its ladders.
    pub dealt: Vec<Dealt>,
    /// On one of those, the way to the first.
    first: Option<String>,
    sessions: Vec<SessionLink>,
    a_to_z: String,
    picker: String,
}

/// A session to step through.
#[derive(Debug, Clone, Serialize)]
struct SessionLink {
    id: String,
    link: Link,
}

/// A limit that the coach sets with one touch: a trait or a situation by its id, or kit that lacks.
#[derive(Debug, Clone, Default, Serialize)]
struct QuickLimit {
    first: bool,
    words: String,
    limit: String,
    situation: String,
    kit: String,
}

/// The context of `home.html`.
#[derive(Debug, Serialize)]
pub struct HomePage {
    page: Frame,
    today: String,
    groups: Vec<PatternGroup>,
    /// Where a library is large, its patterns: what a household can do stands on their pages.
    patterns: Vec<Link>,
    sessions: Vec<Link>,
    picker: String,
    book: String,
    kit_list: String,
    cautions: String,
}

/// The context of `learning.html`.
#[derive(Debug, Serialize)]
pub struct LearningPage {
    page: Frame,
    ladders: Vec<LadderRow>,
    /// Where a library is large, its ladders by name.
    ladder_links: Vec<Link>,
    faults: Vec<DrillGroup>,
    /// Where a library is large, the pages that have its cards.
    pub dealt: Vec<Dealt>,
    /// On one of those, the way to the first.
    first: Option<String>,
}

/// The context of `picker.html`.
#[derive(Debug, Serialize)]
pub struct PickerPage {
    page: Frame,
    kit: Vec<KitGroup>,
    cautions: Vec<CautionChoice>,
    traits: Vec<TraitChoice>,
}

#[derive(Debug, Serialize)]
struct CautionChoice {
    id: String,
    name: String,
    link: Link,
}

#[derive(Debug, Serialize)]
struct TraitChoice {
    id: String,
    name: String,
    plain: Option<String>,
}

/// The context of `404.html`.
#[derive(Debug, Serialize)]
pub struct NotFoundPage {
    page: Frame,
    front: String,
    a_to_z: String,
    picker: String,
}

/// The front page.
pub fn front_page(gym: &Gym) -> FrontPage {
    let maker = Maker::new(gym, &To::Front);
    let club = &gym.library.club;
    let description = club.about.clone().unwrap_or_else(|| format!("{}: movements.", club.name));
    let facts = serde_json::json!({
        "@context": "https://schema.org",
        "@type": "WebSite",
        "name": club.name,
        "description": description,
        "inLanguage": club.language,
    });
    FrontPage {
        page: maker.frame(club.name.clone(), description).telling_to_move().with_facts(&facts),
        about: club.about.clone(),
        today: maker.links.to(&To::Today),
        floor: maker.links.to(&To::Floor),
        home: maker.links.to(&To::Home),
        learning: maker.links.to(&To::Learning),
        sessions: session_links(&maker),
        movements: gym.library.movements.len(),
        ladders: gym.library.ladders.len(),
    }
}

fn session_links(maker: &Maker<'_>) -> Vec<Link> {
    let sessions = maker.gym.library.sessions.values();
    sessions.map(|s| maker.link(s.name.value.clone(), &To::Session(&s.id))).collect()
}

/// The coach in class; `is_large`, its ladders are dealt over other pages.
pub fn floor_page(maker: &Maker<'_>, is_large: bool) -> FloorPage {
    let gym = maker.gym;
    let description = "For the coach in class: the rung below, a safe swap, one cue.";
    FloorPage {
        page: maker.frame("On the floor", description).telling_to_move(),
        quicks: quick_limits(gym),
        ladders: if is_large { Vec::new() } else { ladder_rows(maker) },
        dealt: Vec::new(),
        first: None,
        sessions: gym
            .library
            .sessions
            .values()
            .map(|session| SessionLink {
                id: session.id.to_string(),
                link: maker.link(session.name.value.clone(), &To::Session(&session.id)),
            })
            .collect(),
        a_to_z: maker.links.to(&To::AToZ),
        picker: maker.links.to(&To::Picker),
    }
}

impl FloorPage {
    /// The same floor with some of its ladders.
    pub fn of_one(&self, page: Frame, ladders: Vec<LadderRow>) -> FloorPage {
        FloorPage {
            page,
            quicks: self.quicks.clone(),
            ladders,
            dealt: Vec::new(),
            first: Some(To::Floor.file()),
            sessions: self.sessions.clone(),
            a_to_z: self.a_to_z.clone(),
            picker: self.picker.clone(),
        }
    }
}

/// Quick limits from the words files: kit first (`quick` of kit, one button for all that share its
/// words), then situations, then traits (`avoid`) that no situation is named after.
fn quick_limits(gym: &Gym) -> Vec<QuickLimit> {
    let words = &gym.library.words;
    let mut quicks: Vec<QuickLimit> = Vec::new();
    for item in words.kit.values() {
        let Some(quick) = &item.quick else { continue };
        match quicks.iter_mut().find(|known| known.words == *quick) {
            Some(known) => known.kit.push_str(&format!(" {}", item.id.value)),
            None => quicks.push(QuickLimit {
                words: quick.clone(),
                kit: item.id.value.to_string(),
                ..QuickLimit::default()
            }),
        }
    }
    let situations = words.cautions.values().map(|caution| QuickLimit {
        words: caution.name.clone(),
        situation: caution.id.value.to_string(),
        ..QuickLimit::default()
    });
    quicks.extend(situations);
    let traits = words.traits.values().filter_map(|item| {
        let limit = item.id.value.to_string();
        Some(QuickLimit { words: item.avoid.clone()?, limit, ..QuickLimit::default() })
    });
    // Where both have one name the situation says more.
    let said: BTreeSet<String> = quicks.iter().map(|quick| quick.words.to_lowercase()).collect();
    quicks.extend(traits.filter(|quick| !said.contains(&quick.words.to_lowercase())));
    let first = &gym.library.club.quick_limits;
    let place = |quick: &QuickLimit| first.iter().position(|words| words.value == quick.words);
    quicks.iter_mut().for_each(|quick| quick.first = place(quick).is_some());
    quicks.sort_by_key(|quick| place(quick).unwrap_or(first.len()));
    quicks
}

/// The member at home: movements that a household can do.
pub fn home_page(gym: &Gym) -> HomePage {
    let maker = Maker::new(gym, &To::Home);
    let description = "For the member at home: your kit, your limits, your version.";
    HomePage {
        page: maker.frame("At home", description).telling_to_move(),
        today: maker.links.to(&To::Today),
        groups: match is_large(gym) {
            true => Vec::new(),
            false => pattern_groups(&maker, |movement| a_household_can(gym, movement)),
        },
        patterns: pattern_links(&maker, |movement| a_household_can(gym, movement)),
        sessions: session_links(&maker),
        picker: maker.links.to(&To::Picker),
        book: maker.links.to(&To::Book),
        kit_list: maker.links.to(&To::KitList),
        cautions: maker.links.to(&To::Cautions),
    }
}

fn a_household_can(gym: &Gym, movement: &Movement) -> bool {
    let kit = &gym.library.words.kit;
    let at_home = |id| kit.get(id).is_some_and(|item| item.kind != KitKind::Hall);
    movement.kit.iter().all(|need| need.0.iter().any(|id| at_home(&id.value)))
}

/// The new coach: ladders to study, faults to name before opening the answer; `is_large`, these are
/// dealt over other pages and those are named.
pub fn learning_page(maker: &Maker<'_>, is_large: bool) -> LearningPage {
    let description = "For the new coach: ladders to know, faults to name, one cue each.";
    LearningPage {
        page: maker.frame("Learning to coach", description).telling_to_move(),
        ladders: if is_large { Vec::new() } else { ladder_rows(maker) },
        ladder_links: match is_large {
            true => maker.gym.library.ladders.keys().map(|id| maker.ladder(id)).collect(),
            false => Vec::new(),
        },
        faults: if is_large { Vec::new() } else { drill(maker) },
        dealt: Vec::new(),
        first: None,
    }
}

impl LearningPage {
    /// A page with some of its cards.
    pub fn of_one(&self, page: Frame, cards: DrillGroup) -> LearningPage {
        LearningPage {
            page,
            ladders: Vec::new(),
            ladder_links: Vec::new(),
            faults: vec![cards],
            dealt: Vec::new(),
            first: Some(To::Learning.file()),
        }
    }
}

/// The picker of kit and limits.
pub fn picker_page(gym: &Gym) -> PickerPage {
    let maker = Maker::new(gym, &To::Picker);
    let words = &gym.library.words;
    let description = "Say what kit is at hand and what to leave out; it stays on this device.";
    PickerPage {
        page: maker.frame("Kit and limits", description).telling_to_move(),
        kit: kit_groups(&maker),
        cautions: words.cautions.values().map(|c| caution_choice(&maker, c)).collect(),
        traits: words.traits.values().map(trait_choice).collect(),
    }
}

fn caution_choice(maker: &Maker<'_>, caution: &Caution) -> CautionChoice {
    CautionChoice {
        id: caution.id.value.to_string(),
        name: caution.name.clone(),
        link: maker.link("what this says", &To::Caution(&caution.id.value)),
    }
}

fn trait_choice(item: &Trait) -> TraitChoice {
    let id = item.id.value.to_string();
    TraitChoice { id, name: item.name.clone(), plain: item.plain.clone() }
}

/// The page for an address that does not exist.
pub fn not_found_page(gym: &Gym) -> NotFoundPage {
    let maker = Maker::anywhere(gym, &To::NotFound);
    NotFoundPage {
        page: maker.frame("Not here", "This page does not exist."),
        front: maker.links.to(&To::Front),
        a_to_z: maker.links.to(&To::AToZ),
        picker: maker.links.to(&To::Picker),
    }
}
