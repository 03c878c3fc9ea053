//! The pages of kit: what it is, what to check, what must never stand in for it.
//! Never says who owns what.

use super::frame::{Frame, Link, Maker, SourceLink};
use crate::gym::Gym;
use crate::library::{KitId, KitItem, KitKind};
use crate::site::routes::To;
use serde::Serialize;

/// The context of `kit.html`.
#[derive(Debug, Serialize)]
pub struct KitPage {
    page: Frame,
    name: String,
    kind: &'static str,
    about: Option<String>,
    check: Option<String>,
    hazards: Vec<String>,
    never: Vec<NeverRow>,
    aliases: Vec<String>,
    in_hall: Option<u32>,
    needed: Vec<Link>,
    either: Vec<Link>,
    sources: Vec<SourceLink>,
}

#[derive(Debug, Serialize)]
struct NeverRow {
    what: String,
    because: String,
}

/// The context of `kit-list.html`.
#[derive(Debug, Serialize)]
pub struct KitListPage {
    page: Frame,
    groups: Vec<KitGroup>,
}

/// Kit of one kind.
#[derive(Debug, Serialize)]
pub struct KitGroup {
    /// Who has it, as a heading.
    pub heading: &'static str,
    /// The kit.
    pub items: Vec<KitRow>,
}

/// A piece of kit in a list.
#[derive(Debug, Serialize)]
pub struct KitRow {
    /// Its id, for the picker.
    pub id: String,
    /// Its name and page.
    pub link: Link,
    /// What to check before use.
    pub check: Option<String>,
    /// True when the hall has some.
    pub in_hall: bool,
}

/// The page of one piece of kit.
pub fn kit_page(gym: &Gym, item: &KitItem) -> KitPage {
    let maker = Maker::new(gym, &To::Kit(&item.id.value));
    let description = format!("{}: what to check before use, and what needs it.", item.name);
    let never = item.never.iter();
    KitPage {
        page: maker.frame(item.name.clone(), description).telling_to_move(),
        name: item.name.clone(),
        kind: kind_words(item.kind),
        about: item.about.clone(),
        check: item.check.clone(),
        hazards: item.hazards.clone(),
        never: never
            .map(|n| NeverRow { what: n.what.clone(), because: n.because.clone() })
            .collect(),
        aliases: item.aliases.clone(),
        in_hall: in_hall(gym, &item.id.value),
        needed: users(&maker, &item.id.value, |choices| choices == 1),
        either: users(&maker, &item.id.value, |choices| choices > 1),
        sources: maker.sources(item.sources.iter().map(|id| &id.value)),
    }
}

fn in_hall(gym: &Gym, id: &KitId) -> Option<u32> {
    let kit = &gym.library.club.hall_kit;
    kit.iter().find(|(name, _)| name.value == *id).map(|(_, count)| *count)
}

fn users(maker: &Maker<'_>, id: &KitId, choices: impl Fn(usize) -> bool) -> Vec<Link> {
    let movements = maker.gym.library.movements.values();
    let uses = movements.filter(|movement| {
        let mut needs = movement.kit.iter();
        needs.any(|need| choices(need.0.len()) && need.0.iter().any(|kit| kit.value == *id))
    });
    uses.map(|movement| maker.movement(&movement.id)).collect()
}

fn kind_words(kind: KitKind) -> &'static str {
    match kind {
        KitKind::Hall => "In the hall",
        KitKind::Home => "Around the house",
        KitKind::Anywhere => "Anywhere",
    }
}

/// The list of kit.
pub fn kit_list_page(gym: &Gym) -> KitListPage {
    let maker = Maker::new(gym, &To::KitList);
    let description = "Kit in the hall and around the house, what to check, and what never to use.";
    KitListPage {
        page: maker.frame("Kit", description).telling_to_move(),
        groups: kit_groups(&maker),
    }
}

/// Kit by who has it.
pub fn kit_groups(maker: &Maker<'_>) -> Vec<KitGroup> {
    let kinds = [KitKind::Hall, KitKind::Home, KitKind::Anywhere];
    let group = |kind| KitGroup {
        heading: kind_words(kind),
        items: maker
            .gym
            .library
            .words
            .kit
            .values()
            .filter(|item| item.kind == kind)
            .map(|item| kit_row(maker, item))
            .collect(),
    };
    kinds.into_iter().map(group).filter(|group| !group.items.is_empty()).collect()
}

fn kit_row(maker: &Maker<'_>, item: &KitItem) -> KitRow {
    KitRow {
        id: item.id.value.to_string(),
        link: maker.kit(&item.id.value),
        check: item.check.clone(),
        in_hall: in_hall(maker.gym, &item.id.value).is_some(),
    }
}
