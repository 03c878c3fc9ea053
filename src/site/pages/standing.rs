//! Where a movement stands on a ladder, and rungs as pages show them.
//! Never orders rungs; the ladder does.

use super::frame::{Link, Maker};
use super::needs::Needs;
use crate::finding::Placed;
use crate::gym::Gym;
use crate::library::{
    Change, Ladder, LadderId, Movement, MovementId, Quantity, Rung, SettingName, Sides,
};
use crate::own::dose_words;
use crate::placing::at_hand;
use crate::placing::set_up::{set_up_short, set_up_words};
use crate::site::routes::To;
use serde::Serialize;

/// One rung as a page shows it.
#[derive(Debug, Clone, Serialize)]
pub struct RungRow {
    /// Its number, from 1 at the bottom.
    pub number: usize,
    /// Its movement.
    pub movement: Link,
    /// Its place on the ladder's page.
    pub on_ladder: String,
    /// `lean 45 deg`, or nothing.
    pub setting: String,
    /// How it is set up with what is at hand: `heels about 60 cm from under the anchor`.
    pub at_hand: Option<String>,
    /// True where that is a place for the heels: nobody measures the degrees that the rung says.
    pub by_heels: bool,
    /// The rung by its object, as said to a mixed class: `wall`, `box 60 cm`, `floor`.
    pub object: String,
    /// The settings that the object names, by spaces: what a change takes is not said in it.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub object_says: String,
    /// What the step up to it changes, in words; nothing on the first rung.
    pub step: Option<String>,
    /// Why that asks more.
    pub because: Option<String>,
    /// A dose of its own.
    pub dose: Option<String>,
    /// What it asks for.
    pub needs: Needs,
    /// The address of its picture; only on the ladder's own page.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub figure: Option<String>,
    /// What it asks on the ladder's axis; only on the ladder's own page.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub demand: Option<String>,
    /// Its own first cue; only where a line shows three rungs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cue: Option<String>,
    /// Whose it is, by their own rung: `own rung 1-3`; only where a line shows three rungs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub who: Option<String>,
    /// True for the rung that the page is about.
    pub here: bool,
    /// Its own place there, `rung-row-2`: where a link to the movement at that rung leads.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub id: Option<String>,
    /// True for the rung that the test uses.
    pub tested: bool,
}

/// Where the page's movement stands on one ladder.
#[derive(Debug, Clone, Serialize)]
pub struct Standing {
    /// The ladder.
    pub ladder: Link,
    /// Its goal.
    pub goal: Option<String>,
    /// The movement's own rungs on it, the lowest first, each with its neighbours.
    pub own: Vec<Own>,
    /// Every rung, the top one first.
    pub rungs: Vec<RungRow>,
}

/// A rung of the page's own movement and its neighbours.
#[derive(Debug, Clone, Serialize)]
pub struct Own {
    /// `hands 60 cm`, or nothing.
    pub setting: String,
    /// How it is set up with what is at hand.
    pub at_hand: Option<String>,
    /// The rung below.
    pub below: Option<RungRow>,
    /// The rung above.
    pub above: Option<RungRow>,
}

/// A step's variable as a coach says it.
pub fn step_words(change: Change) -> &'static str {
    match change {
        Change::Weight => "more weight",
        Change::Share => "more of the body carried",
        Change::Lever => "a longer lever",
        Change::Range => "more range",
        Change::Base => "a smaller base",
        Change::Limbs => "two limbs to one",
        Change::Tempo => "slower, or a pause",
        Change::Assistance => "less help",
        Change::Impact => "more impact",
        Change::Skill => "more skill",
    }
}

/// The settings of a rung in words: `lean 45 deg`.
pub fn setting_words(rung: &Rung) -> String {
    rung.settings_said().join(", ")
}

/// Getting down to the floor; a movement that has it and needs no kit is done on the floor.
const FLOOR: &str = "floor-transfer";

/// A rung by its object: the first thing that serves, with its height, or else the floor.
fn object_words(gym: &Gym, movement: &Movement, rung: &Rung) -> String {
    let object = thing(gym, movement);
    let mut said = settings_in_object(rung);
    match (said.next(), said.next()) {
        (None, _) => object,
        (Some((name, only)), None) => {
            format!("{}{object} {}", goes_on_it(movement, name.value.as_str()), only.value)
        }
        (Some((name, value)), Some((other, other_value))) => {
            let (name, other) = (&name.value, &other.value);
            format!("{object}, {name} {}, {other} {}", value.value, other_value.value)
        }
    }
}

/// What is said of a rung in its object: no height and no weight are not.
fn settings_in_object(
    rung: &Rung,
) -> impl Iterator<Item = &(Placed<SettingName>, Placed<Quantity>)> {
    rung.settings.iter().filter(|(_, value)| !value.value.is_nothing())
}

/// What goes on the thing, where one box may be for the hands and the next one for the feet.
fn goes_on_it(movement: &Movement, setting: &str) -> &'static str {
    let one = movement.sides == Sides::Each;
    match setting {
        _ if movement.kit.is_empty() => "",
        "hands" => "hands on ",
        "feet" if one => "foot on ",
        "feet" => "feet on ",
        _ => "",
    }
}

fn names_in_object(rung: &Rung) -> String {
    settings_in_object(rung).map(|(name, _)| name.value.as_str()).collect::<Vec<_>>().join(" ")
}

/// The first thing that serves, or else the floor.
fn thing(gym: &Gym, movement: &Movement) -> String {
    match movement.kit.first().and_then(|need| need.0.first()) {
        Some(id) => {
            let item = gym.library.words.kit.get(&id.value);
            item.map_or_else(|| id.value.to_string(), |item| item.name.to_lowercase())
        }
        None if movement.trait_level(&FLOOR.into()) > 0 => "floor".to_string(),
        None => "standing".to_string(),
    }
}

/// A rung by its object in the few words that a wall has room for: `straps, heels 60 cm out`.
pub fn on_the_wall(gym: &Gym, movement: &Movement, rung: &Rung) -> String {
    match set_up_short(gym, rung) {
        Some(heels) => format!("{}, {heels}", thing(gym, movement)),
        None => object_words(gym, movement, rung),
    }
}

impl<'g> Maker<'g> {
    /// The movement of a rung, from 1.
    pub fn movement_of(&self, ladder: &LadderId, rung: usize) -> Option<&'g Movement> {
        let rung = self.gym.library.ladders.get(ladder)?.rungs.get(rung.checked_sub(1)?)?;
        self.gym.library.movements.get(&rung.movement.value)
    }

    /// A link to the movement of a rung, from 0, as that rung does it.
    pub fn at_rung(&self, ladder: &Ladder, at: usize) -> Option<Link> {
        let id: &MovementId = &ladder.rungs.get(at)?.movement.value;
        Some(self.link(self.movement(id).text, &To::AtRung(id, &ladder.id, at + 1)))
    }

    /// The rung at `at` (from 0) of a ladder.
    pub fn rung_row(&self, ladder: &Ladder, at: usize) -> Option<RungRow> {
        let rung = ladder.rungs.get(at)?;
        let movement = self.gym.library.movements.get(&rung.movement.value)?;
        let tested = ladder.test.as_ref().is_some_and(|test| test.rung.value as usize == at + 1);
        let each = movement.sides == Sides::Each;
        Some(RungRow {
            number: at + 1,
            movement: self.movement(&rung.movement.value),
            on_ladder: self.links.to(&To::Rung(&ladder.id, at + 1)),
            setting: setting_words(rung),
            at_hand: at_hand(self.gym, ladder, at),
            by_heels: set_up_words(self.gym, rung, None).is_some(),
            object: object_words(self.gym, movement, rung),
            object_says: names_in_object(rung),
            step: rung.changes.as_ref().map(|change| step_words(change.value).to_string()),
            because: rung.because.clone(),
            dose: rung.dose.as_ref().map(|dose| dose_words(dose, each)),
            needs: Needs::of_rung(self.gym, movement, rung),
            figure: None,
            demand: None,
            cue: None,
            who: None,
            here: false,
            id: None,
            tested,
        })
    }

    /// Every rung of a ladder, the top one first.
    pub fn rung_rows(&self, ladder: &Ladder) -> Vec<RungRow> {
        (0..ladder.rungs.len()).rev().filter_map(|at| self.rung_row(ladder, at)).collect()
    }

    /// Where `movement` stands on every ladder that holds it.
    pub fn standings(&self, movement: &crate::library::MovementId) -> Vec<Standing> {
        let ladders = self.gym.ladders_of(movement);
        ladders.into_iter().map(|ladder| self.standing(ladder, movement)).collect()
    }

    /// The rung below the lowest of `movement`'s own, on the first ladder where there is one.
    pub fn rung_below(&self, movement: &crate::library::MovementId) -> Option<RungRow> {
        let is_here = |rung: &Rung| rung.movement.value == *movement;
        self.gym.ladders_of(movement).into_iter().find_map(|ladder| {
            let own = ladder.rungs.iter().position(is_here)?;
            let below = own.checked_sub(1)?;
            Some(RungRow {
                movement: self.at_rung(ladder, below)?,
                ..self.rung_row(ladder, below)?
            })
        })
    }

    fn standing(&self, ladder: &Ladder, movement: &crate::library::MovementId) -> Standing {
        let is_here = |rung: &Rung| rung.movement.value == *movement;
        let own = ladder.rungs.iter().enumerate().filter(|(_, rung)| is_here(rung));
        let own = own.map(|(at, rung)| Own {
            setting: setting_words(rung),
            at_hand: at_hand(self.gym, ladder, at),
            below: at.checked_sub(1).and_then(|below| self.rung_row(ladder, below)),
            above: self.rung_row(ladder, at + 1),
        });
        let own: Vec<Own> = own.collect();
        let mut rungs = self.rung_rows(ladder);
        for row in &mut rungs {
            row.here = ladder.rungs.get(row.number - 1).is_some_and(is_here);
            row.id = row.here.then(|| format!("rung-{}-{}", ladder.id, row.number));
        }
        Standing {
            ladder: self.ladder(&ladder.id),
            goal: ladder.goal.as_ref().map(|goal| goal.value.clone()),
            own,
            rungs,
        }
    }
}
