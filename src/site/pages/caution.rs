//! The pages of cautions and traits.
//! Never advice for one person: it defers to a clinician on every page.

use super::frame::{Frame, Link, Maker, SourceLink};
use crate::gym::Gym;
use crate::library::{Caution, Precaution, Trait};
use crate::site::routes::To;
use serde::Serialize;

/// The context of `caution.html`.
#[derive(Debug, Serialize)]
pub struct CautionPage {
    page: Frame,
    name: String,
    says: Option<String>,
    clinician: Option<String>,
    stop: Vec<String>,
    leave_out: Vec<PrecautionRow>,
    change: Vec<PrecautionRow>,
    also_said: Vec<String>,
    sources: Vec<SourceLink>,
}

#[derive(Debug, Serialize)]
struct PrecautionRow {
    about: Link,
    strong_only: bool,
    how: Option<String>,
    movements: Vec<Link>,
}

/// The context of `cautions.html`.
#[derive(Debug, Serialize)]
pub struct CautionsPage {
    page: Frame,
    cautions: Vec<CautionRow>,
    traits: Vec<TraitRow>,
}

#[derive(Debug, Serialize)]
struct CautionRow {
    link: Link,
    says: Option<String>,
}

#[derive(Debug, Serialize)]
struct TraitRow {
    id: String,
    name: String,
    plain: Option<String>,
    about: Option<String>,
    movements: Vec<Link>,
    sources: Vec<SourceLink>,
}

/// The page of `caution`.
pub fn caution_page(gym: &Gym, caution: &Caution) -> CautionPage {
    let maker = Maker::new(gym, &To::Caution(&caution.id.value));
    let description = format!("{}: what to leave out, what to change, when to ask.", caution.name);
    let rows = |list: &[Precaution]| list.iter().map(|p| precaution_row(&maker, p)).collect();
    CautionPage {
        page: maker.frame(caution.name.clone(), description).telling_to_move(),
        name: caution.name.clone(),
        says: caution.says.clone(),
        clinician: caution.clinician.clone(),
        stop: caution.stop.clone(),
        leave_out: rows(&caution.leave_out),
        change: rows(&caution.change),
        also_said: caution.also_said.clone(),
        sources: maker.sources(caution.sources.iter().map(|id| &id.value)),
    }
}

fn precaution_row(maker: &Maker<'_>, precaution: &Precaution) -> PrecautionRow {
    PrecautionRow {
        about: maker.a_trait(&precaution.about.value),
        strong_only: precaution.from >= 2,
        how: precaution.how.clone(),
        movements: with_trait(maker, &precaution.about.value, precaution.from),
    }
}

fn with_trait(maker: &Maker<'_>, id: &crate::library::TraitId, from: u8) -> Vec<Link> {
    let movements = maker.gym.library.movements.values();
    let has = movements.filter(|movement| movement.trait_level(id) >= from.max(1));
    has.map(|movement| maker.movement(&movement.id)).collect()
}

/// The list of cautions and traits.
pub fn cautions_page(gym: &Gym) -> CautionsPage {
    let maker = Maker::new(gym, &To::Cautions);
    let words = &gym.library.words;
    let description = "Situations and what they say about traits of movements; ask a clinician.";
    CautionsPage {
        page: maker.frame("Cautions", description).telling_to_move(),
        cautions: words
            .cautions
            .values()
            .map(|caution| CautionRow {
                link: maker.link(caution.name.clone(), &To::Caution(&caution.id.value)),
                says: caution.says.clone(),
            })
            .collect(),
        traits: words.traits.values().map(|item| trait_row(&maker, item)).collect(),
    }
}

fn trait_row(maker: &Maker<'_>, item: &Trait) -> TraitRow {
    TraitRow {
        id: item.id.value.to_string(),
        name: item.name.clone(),
        plain: item.plain.clone(),
        about: item.about.clone(),
        movements: with_trait(maker, &item.id.value, 1),
        sources: maker.sources(item.sources.iter().map(|id| &id.value)),
    }
}
