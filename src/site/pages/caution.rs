//! The pages of cautions and traits.
//! Never advice for one person: it defers to a clinician on every page.

use super::frame::{Frame, Link, Maker, SourceLink, mark};
use crate::finding::Placed;
use crate::gym::Gym;
use crate::library::{Caution, Emergency, Precaution, SourceId, Trait};
use crate::site::routes::To;
use serde::Serialize;

/// The context of `caution.html`.
#[derive(Debug, Serialize)]
pub struct CautionPage {
    page: Frame,
    name: String,
    /// What cannot wait, first on the page.
    emergency: Vec<AtOnce>,
    says: Option<String>,
    keeps: Option<String>,
    clinician: Option<String>,
    /// Why whoever has no result yet starts on the lowest rung, where they do.
    start: Option<StartRow>,
    stop: Vec<String>,
    leave_out: Vec<PrecautionRow>,
    change: Vec<PrecautionRow>,
    also_said: Vec<String>,
    sources: Vec<SourceLink>,
}

/// What to do at once, and the signs that call for it.
#[derive(Debug, Serialize)]
struct AtOnce {
    act: String,
    signs: Vec<SignRow>,
}

#[derive(Debug, Serialize)]
struct SignRow {
    sign: String,
    rests_on: Option<SourceLink>,
}

#[derive(Debug, Serialize)]
struct StartRow {
    because: Option<String>,
    rests_on: Option<SourceLink>,
}

#[derive(Debug, Serialize)]
struct PrecautionRow {
    about: Link,
    strong_only: bool,
    how: Option<String>,
    because: Option<String>,
    rests_on: Option<SourceLink>,
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
        emergency: at_once(&maker, &caution.emergency),
        says: caution.says.clone(),
        keeps: caution.keeps.clone(),
        clinician: caution.clinician.clone(),
        start: caution.start.as_ref().map(|start| StartRow {
            because: start.because.clone(),
            rests_on: start.source.as_ref().and_then(|id| rests_on(&maker, id)),
        }),
        stop: caution.stop_besides().into_iter().map(String::from).collect(),
        leave_out: rows(&caution.leave_out),
        change: rows(&caution.change),
        also_said: caution.also_said.clone(),
        sources: maker.sources(caution.sources.iter().map(|id| &id.value)),
    }
}

/// Signs under what they call for, in the order written.
fn at_once(maker: &Maker<'_>, emergency: &[Emergency]) -> Vec<AtOnce> {
    let mut rows: Vec<AtOnce> = Vec::new();
    for one in emergency {
        let row = SignRow {
            sign: one.sign.clone(),
            rests_on: one.source.as_ref().and_then(|id| rests_on(maker, id)),
        };
        match rows.iter_mut().find(|at_once| at_once.act == one.act) {
            Some(at_once) => at_once.signs.push(row),
            None => rows.push(AtOnce { act: one.act.clone(), signs: vec![row] }),
        }
    }
    rows
}

/// A source by its title, and its year where the title has none: beside a single row the whole citation is too long.
fn rests_on(maker: &Maker<'_>, id: &Placed<SourceId>) -> Option<SourceLink> {
    let source = maker.gym.library.words.sources.get(&id.value)?;
    // `no date` is none, and a title may name a year of its own.
    let digits = |text: &str| text.contains(|c: char| c.is_ascii_digit());
    let year = source.year.as_deref().filter(|year| digits(year) && !source.title.contains("20"));
    let cite = match year {
        Some(year) => format!("{} ({year})", source.title),
        None => source.title.clone(),
    };
    Some(SourceLink { cite, to: maker.links.to(&To::Source(&id.value)), mark: mark(source.read) })
}

fn precaution_row(maker: &Maker<'_>, precaution: &Precaution) -> PrecautionRow {
    PrecautionRow {
        about: maker.a_trait(&precaution.about.value),
        strong_only: precaution.from >= 2,
        how: precaution.how.clone(),
        because: precaution.because.clone(),
        rests_on: precaution.source.as_ref().and_then(|id| rests_on(maker, id)),
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
