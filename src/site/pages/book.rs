//! My book: the page on which a member writes down their own rungs, heights and results.
//! Never knows what is written there: that stays on the member's device.

use super::frame::{Frame, Maker};
use super::standing::setting_words;
use crate::gym::Gym;
use crate::gym::heights::{SURFACES, can_be};
use crate::library::{Counts, Ladder, Rung, Unit};
use crate::placing::{Sheet, possible};
use crate::site::routes::To;
use serde::Serialize;

/// The context of `book.html`.
#[derive(Debug, Serialize)]
pub struct BookPage {
    page: Frame,
    ladders: Vec<LadderChoice>,
    heights: Vec<HeightAsk>,
    /// Beyond these a count is asked again.
    most: Most,
    picker: String,
    kit_list: String,
    schema: String,
}

/// The most that a set can be, as the browser's form takes it.
#[derive(Debug, Serialize)]
struct Most {
    reps: f64,
    seconds: f64,
}

/// A ladder on which a member can have a rung and results.
#[derive(Debug, Serialize)]
struct LadderChoice {
    id: String,
    name: String,
    rungs: Vec<RungChoice>,
}

/// A rung to choose, and what an own height on it may be.
#[derive(Debug, Serialize)]
struct RungChoice {
    number: usize,
    words: String,
    /// What it counts: `reps`, `seconds`, or nothing that can be placed.
    counts: &'static str,
    movement: String,
    /// Its written settings, `hands:60:cm`, separated by spaces.
    settings: String,
    /// The one setting that may differ at home.
    own: Option<OwnSetting>,
}

#[derive(Debug, Serialize)]
struct OwnSetting {
    name: String,
    unit: &'static str,
    at: f64,
    from: f64,
    to: f64,
}

/// Something at home whose height is asked for.
#[derive(Debug, Serialize)]
struct HeightAsk {
    kit: &'static str,
    words: &'static str,
    hint: String,
    /// From how many cm it can have been measured.
    least: f64,
    /// And to how many.
    most: f64,
}

/// The page of a member's own book.
pub fn book_page(gym: &Gym) -> BookPage {
    let maker = Maker::new(gym, &To::Book);
    let description = "Your rungs, heights and results; they stay on this device.";
    BookPage {
        page: maker.frame("My book", description).telling_to_move(),
        ladders: gym.library.ladders.values().map(|ladder| ladder_choice(gym, ladder)).collect(),
        heights: heights(gym),
        most: Most { reps: possible::REPS.most, seconds: possible::SECONDS.most },
        picker: maker.links.to(&To::Picker),
        kit_list: maker.links.to(&To::KitList),
        schema: maker.links.to_file("data/book.schema.json"),
    }
}

fn ladder_choice(gym: &Gym, ladder: &Ladder) -> LadderChoice {
    let sheet = Sheet::of(ladder);
    let rungs = ladder.rungs.iter().zip(&sheet.rungs).enumerate();
    LadderChoice {
        id: ladder.id.to_string(),
        name: ladder.name.value.clone(),
        rungs: rungs
            .map(|(at, (rung, target))| RungChoice {
                number: at + 1,
                words: rung_words(gym, rung),
                counts: match target.as_ref().map(|target| target.counts) {
                    Some(Counts::Reps) => "reps",
                    Some(Counts::Seconds) => "seconds",
                    _ => "",
                },
                movement: rung.movement.value.to_string(),
                settings: settings_kept(rung),
                own: own_setting(gym, rung),
            })
            .collect(),
    }
}

/// A rung's settings in the numbers that a book keeps, with their units.
fn settings_kept(rung: &Rung) -> String {
    let settings = rung.settings.iter();
    let words = settings.map(|(name, value)| {
        format!("{}:{}:{}", name.value, value.value.number(), value.unit.symbol())
    });
    words.collect::<Vec<_>>().join(" ")
}

fn rung_words(gym: &Gym, rung: &Rung) -> String {
    let movement = gym.library.movements.get(&rung.movement.value);
    let name = movement.map_or(rung.movement.value.as_str(), |movement| &movement.name.value);
    match setting_words(rung).as_str() {
        "" => name.to_string(),
        setting => format!("{name}, {setting}"),
    }
}

/// The height or lean of a rung that has one.
fn own_setting(gym: &Gym, rung: &Rung) -> Option<OwnSetting> {
    let movement = gym.library.movements.get(&rung.movement.value)?;
    let fits = |unit: Unit| matches!(unit, Unit::Centimetre | Unit::Degree);
    let (name, at) = rung.settings.iter().find(|(_, at)| fits(at.unit))?;
    let setting = movement.setting(name.as_str())?;
    Some(OwnSetting {
        name: name.to_string(),
        unit: setting.unit.symbol(),
        at: at.number(),
        from: setting.from.number(),
        to: setting.to.number(),
    })
}

/// One height a piece of kit: of the stairs it is the lowest step that is asked for.
fn heights(gym: &Gym) -> Vec<HeightAsk> {
    let mut asks: Vec<HeightAsk> = Vec::new();
    for surface in SURFACES {
        let is_kit = gym.library.words.kit.keys().any(|kit| kit.as_str() == surface.kit);
        if is_kit && asks.iter().all(|known| known.kit != surface.kit) {
            let hint = format!("often {:.0} to {:.0} cm", surface.from, surface.to);
            let (least, most) = can_be(surface.kit).unwrap_or((surface.from, surface.to));
            asks.push(HeightAsk { kit: surface.kit, words: surface.name, hint, least, most });
        }
    }
    asks
}
