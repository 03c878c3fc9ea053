//! The pages of ladders: all rungs in order, each step named, the test, when to move up.
//! Never orders rungs; the ladder does.

use super::demand::{DrawnScale, drawn_scale, rung_figure, rung_figure_file, rung_words};
use super::frame::{Frame, Link, Maker, SourceLink};
use super::standing::RungRow;
use crate::gym::Gym;
use crate::library::Ladder;
use crate::own::dose_words;
use crate::site::routes::To;
use serde::Serialize;
use serde_json::json;

/// The context of `ladder.html`.
#[derive(Debug, Serialize)]
pub struct LadderPage {
    page: Frame,
    id: String,
    name: String,
    goal: Option<String>,
    about: Option<String>,
    pattern: Option<Link>,
    moves_up: Option<String>,
    moves_down: Option<String>,
    test: Option<TestRow>,
    dose: Option<String>,
    scale: Option<DrawnScale>,
    rungs: Vec<RungRow>,
    /// What the places for the heels take for granted.
    granted: Option<String>,
    crossings: Vec<Crossing>,
    sources: Vec<SourceLink>,
}

#[derive(Debug, Serialize)]
struct TestRow {
    number: u32,
    rung: Option<Link>,
    setting: String,
    count: Option<String>,
    stop: Option<String>,
}

/// Another ladder that holds a rung of this one.
#[derive(Debug, Serialize)]
struct Crossing {
    ladder: Link,
    at: String,
}

/// The context of `ladders.html`.
#[derive(Debug, Serialize)]
pub struct LaddersPage {
    page: Frame,
    ladders: Vec<LadderRow>,
}

/// A ladder in a list: its name, goal, and ends.
#[derive(Debug, Serialize)]
pub struct LadderRow {
    /// Its id.
    pub id: String,
    /// The ladder.
    pub ladder: Link,
    /// Its goal.
    pub goal: Option<String>,
    /// Its rungs, the top one first.
    pub rungs: Vec<RungRow>,
}

/// The page of `ladder`.
pub fn ladder_page(gym: &Gym, ladder: &Ladder) -> LadderPage {
    let maker = Maker::new(gym, &To::Ladder(&ladder.id));
    let goal = ladder.goal.as_ref().map(|goal| goal.value.clone());
    let description = match &goal {
        Some(goal) => format!("{} ladder. Goal: {goal}.", ladder.name.value),
        None => format!("{} ladder: every rung in order of demand.", ladder.name.value),
    };
    let mut rungs = maker.rung_rows(ladder);
    show_demands(&maker, ladder, &mut rungs);
    let frame = maker.frame(format!("{} ladder", ladder.name.value), description);
    LadderPage {
        page: frame.telling_to_move().with_facts(&facts_for_machines(gym, ladder, &rungs)),
        id: ladder.id.to_string(),
        name: ladder.name.value.clone(),
        goal,
        about: ladder.about.clone(),
        pattern: ladder.pattern.as_ref().map(|id| maker.pattern(&id.value)),
        moves_up: ladder.moves_up.as_ref().map(|text| text.value.clone()),
        moves_down: ladder.moves_down.clone(),
        test: test(&maker, ladder),
        dose: ladder.dose.as_ref().map(|dose| dose_words(dose, false)),
        crossings: crossings(&maker, ladder),
        scale: drawn_scale(&maker, ladder),
        rungs,
        granted: crate::placing::granted(gym, ladder),
        sources: maker.sources(ladder.sources.iter().map(|id| &id.value)),
    }
}

/// Beside each rung what it asks, and its last key pose.
fn show_demands(maker: &Maker<'_>, ladder: &Ladder, rungs: &mut [RungRow]) {
    let readings = maker.gym.readings(ladder);
    for row in rungs {
        let at = row.number - 1;
        row.figure = rung_figure_file(maker.gym, ladder, at).map(|file| maker.links.to_file(&file));
        row.demand = readings.get(at).filter(|r| r.is_ok()).map(rung_words);
    }
}

/// The pictures of a ladder's rungs, by their files below the site's folder.
pub fn rung_figures(gym: &Gym, ladder: &Ladder) -> Vec<(String, String)> {
    (0..ladder.rungs.len()).filter_map(|at| rung_figure(gym, ladder, at)).collect()
}

fn test(maker: &Maker<'_>, ladder: &Ladder) -> Option<TestRow> {
    let test = ladder.test.as_ref()?;
    let number = test.rung.value;
    let row = maker.rung_row(ladder, (number as usize).checked_sub(1)?);
    Some(TestRow {
        number,
        setting: row.as_ref().map_or(String::new(), |row| row.setting.clone()),
        rung: row.map(|row| row.movement),
        count: test.count.clone(),
        stop: test.stop.clone(),
    })
}

fn crossings(maker: &Maker<'_>, ladder: &Ladder) -> Vec<Crossing> {
    let graph = &maker.gym.ladders;
    let mut crossings = Vec::new();
    for rung in &ladder.rungs {
        let Some(index) = graph.find(&crate::ladder::RungKey::of(rung)) else { continue };
        for place in graph.places(index).iter().filter(|place| place.ladder != ladder.id) {
            let at = maker.movement(&rung.movement.value).text;
            crossings.push(Crossing { ladder: maker.ladder(&place.ladder), at });
        }
    }
    crossings
}

fn facts_for_machines(gym: &Gym, ladder: &Ladder, rungs: &[RungRow]) -> serde_json::Value {
    let club = gym.library.club.address.as_deref();
    let item = |row: &RungRow| {
        let page = To::Rung(&ladder.id, row.number).address();
        let mut item =
            json!({"@type": "ListItem", "position": row.number, "name": row.movement.text});
        if let Some(club) = club {
            item["url"] = json!(format!("{club}{page}"));
        }
        item
    };
    let items: Vec<_> = rungs.iter().rev().map(item).collect();
    json!({
        "@context": "https://schema.org",
        "@type": "ItemList",
        "name": format!("{} ladder", ladder.name.value),
        "itemListOrder": "https://schema.org/ItemListOrderAscending",
        "numberOfItems": items.len(),
        "itemListElement": items,
    })
}

/// The list of ladders.
pub fn ladders_page(gym: &Gym) -> LaddersPage {
    let maker = Maker::new(gym, &To::Ladders);
    let description = "Every ladder: rungs in order of demand toward a goal.";
    LaddersPage {
        page: maker.frame("Ladders", description).telling_to_move(),
        ladders: ladder_rows(&maker),
    }
}

/// Every ladder with its rungs, for lists.
pub fn ladder_rows(maker: &Maker<'_>) -> Vec<LadderRow> {
    maker.gym.library.ladders.values().map(|ladder| ladder_row(maker, ladder)).collect()
}

/// A ladder with its rungs, for lists.
pub fn ladder_row(maker: &Maker<'_>, ladder: &Ladder) -> LadderRow {
    LadderRow {
        id: ladder.id.to_string(),
        ladder: maker.ladder(&ladder.id),
        goal: ladder.goal.as_ref().map(|goal| goal.value.clone()),
        rungs: maker.rung_rows(ladder),
    }
}
