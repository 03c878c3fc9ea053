//! Props: what is held, strung and standing about in a figure.
//! Only reads their words; their weight counts in `statics`, their looks in `figure`.

use super::contact::{Surface, side_and_rest, starts_with_surface};
use super::number::{Kind, Settings, kilograms, number};
use super::spelling::hint;
pub use super::tension::Tension;
use crate::mechanics::joints::Side;
use crate::mechanics::node::{PoseCode, PoseProblem};
use serde::{Deserialize, Serialize};

/// A thing to hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)] // each is the word it stands for
pub enum Item {
    Dumbbell,
    Kettlebell,
    Backpack,
    Bottle,
    Stick,
    Plate,
    Towel,
}

pub(super) const ITEMS: [(&str, Item, bool); 11] = [
    ("dumbbells", Item::Dumbbell, true),
    ("dumbbell", Item::Dumbbell, false),
    ("kettlebells", Item::Kettlebell, true),
    ("kettlebell", Item::Kettlebell, false),
    ("backpack", Item::Backpack, false),
    ("bottles", Item::Bottle, true),
    ("bottle", Item::Bottle, false),
    ("stick", Item::Stick, false),
    ("weights", Item::Dumbbell, true),
    ("weight", Item::Plate, false),
    ("rolled towel", Item::Towel, false),
];

/// Where it is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum HeldAt {
    /// One in each hand.
    EachHand,
    /// One, in both hands.
    BothHands,
    /// One, in one hand.
    Hand(Side),
    /// Across the hips.
    OnHips,
    /// Worn on the back.
    OnBack,
    /// Along the spine.
    AlongBack,
}

/// What a figure holds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Held {
    /// The thing.
    pub item: Item,
    /// Kilograms of one; 0 where its weight does not matter.
    pub kilograms: f64,
    /// Whether the entry states a weight; a stick or a towel has none.
    pub weighed: bool,
    /// Where.
    pub at: HeldAt,
}

impl Held {
    /// A weight that is set to nothing: the hands are empty.
    pub fn is_nothing(&self) -> bool {
        self.weighed && self.kilograms <= 0.0
    }

    /// All of it together, kilograms.
    pub fn total(&self) -> f64 {
        match self.at {
            HeldAt::EachHand => 2.0 * self.kilograms,
            _ => self.kilograms,
        }
    }

    /// The plain words: "a kettlebell", "two dumbbells".
    pub fn words(&self) -> String {
        let word = ITEMS.iter().find(|(_, i, _)| *i == self.item).map_or("weight", |(w, ..)| w);
        let one = word.trim_end_matches('s');
        match self.at {
            HeldAt::EachHand => format!("two {one}s"),
            _ => format!("a {one}"),
        }
    }
}

/// Read `dumbbells 16`, `kettlebell 12, near hand`, `weight weight, on hips`.
pub fn read_held(text: &str, settings: Settings, at: usize) -> Result<Held, PoseProblem> {
    let (what, place) = match text.split_once(',') {
        Some((what, place)) => (what.trim(), Some(place.trim())),
        None => (text.trim(), None),
    };
    let Some((word, item, pair)) = ITEMS.iter().find(|(w, ..)| is_word(what, w)) else {
        let words: Vec<&str> = ITEMS.iter().map(|(w, ..)| *w).collect();
        let first = what.split_whitespace().next().unwrap_or("");
        return Err(PoseProblem::new(
            PoseCode::UnknownWord,
            at,
            format!("`{what}` is nothing to hold."),
            hint(first, &words),
        ));
    };
    let rest = what[word.len()..].trim();
    let weight = if rest.is_empty() { 0.0 } else { kilograms(rest, settings, at)? };
    let held_at = match place {
        None if *pair => HeldAt::EachHand,
        None => HeldAt::BothHands,
        Some(place) => held_at(place, at)?,
    };
    Ok(Held { item: *item, kilograms: weight, weighed: !rest.is_empty(), at: held_at })
}

fn is_word(text: &str, word: &str) -> bool {
    text.strip_prefix(word).is_some_and(|r| r.is_empty() || r.starts_with(' '))
}

/// Where a thing may be held.
pub(super) const PLACES_HELD: [&str; 7] =
    ["near hand", "far hand", "both hands", "each hand", "on hips", "on back", "along back"];

fn held_at(place: &str, at: usize) -> Result<HeldAt, PoseProblem> {
    Ok(match place {
        "near hand" | "right hand" => HeldAt::Hand(Side::Near),
        "far hand" | "left hand" => HeldAt::Hand(Side::Far),
        "both hands" => HeldAt::BothHands,
        "each hand" => HeldAt::EachHand,
        "on hips" => HeldAt::OnHips,
        "on back" => HeldAt::OnBack,
        "along back" => HeldAt::AlongBack,
        _ => {
            return Err(PoseProblem::new(
                PoseCode::UnknownWord,
                at,
                format!("Nothing is held `{place}`."),
                hint(place, &PLACES_HELD),
            ));
        }
    })
}

/// Where a band or towel ends.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum LineEnd {
    /// Both hands, or one.
    Hands(Option<Side>),
    /// Under the feet, or one foot.
    Feet(Option<Side>),
    /// Round a knee.
    Knee(Side),
    /// At the bar overhead.
    Bar,
    /// Round the own upper back.
    Back,
    /// Fixed at a height, so far ahead of where the hips or heels start, so far to the near side; metres.
    Anchor {
        /// Over the floor.
        height: f64,
        /// Ahead of the start's hips or heels.
        ahead: f64,
        /// Towards the near side.
        aside: f64,
        /// What `ahead` is measured from.
        from: From,
    },
}

/// From where the way to an anchor is measured, in the first key pose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum From {
    /// The hips: what the eye takes.
    Hips,
    /// The heels: what a tape on the floor takes.
    Heels,
}

/// A band or a towel between two ends.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// A towel rather than a band.
    pub towel: bool,
    /// One end.
    pub from: LineEnd,
    /// The other.
    pub to: LineEnd,
    /// What pulls along it; none where nobody wrote that.
    pub tension: Option<Tension>,
}

impl Line {
    /// A strap over a pulley rather than a band or a towel.
    pub fn is_pulley(&self) -> bool {
        matches!(self.tension, Some(Tension::Weight(_)))
    }
}

/// Read `hands to feet`, `hands to anchor 110, 120 ahead, 60 at rest, 4 at twice`.
pub fn read_line(
    key: &str,
    text: &str,
    settings: Settings,
    at: usize,
) -> Result<Line, PoseProblem> {
    let Some((from, to)) = text.split_once(" to ") else {
        return Err(PoseProblem::new(
            PoseCode::UnreadableValue,
            at,
            format!("`{key}: {text}` has no two ends."),
            "write it like `hands to feet` or `hands to anchor 110, 120 ahead`",
        ));
    };
    let (to, said) = super::tension::apart(to);
    let tension = super::tension::read(key, &said, settings, at)?;
    // What somebody measured a pull on stands where it stands, whoever uses it.
    let settings =
        Settings { scale: if tension.is_some() { 1.0 } else { settings.scale }, ..settings };
    let from = line_end(from.trim(), settings, at)?;
    let to = line_end(to.trim(), settings, at)?;
    Ok(Line { towel: key == "towel", from, to, tension })
}

fn line_end(text: &str, settings: Settings, at: usize) -> Result<LineEnd, PoseProblem> {
    if let Some(rest) = text.strip_prefix("anchor ") {
        return anchor(rest, settings, at);
    }
    let (side, word) = side_and_rest(text);
    match (word, side) {
        ("hands" | "hand", side) => Ok(LineEnd::Hands(side)),
        ("feet" | "foot", side) => Ok(LineEnd::Feet(side)),
        ("knee", side) => Ok(LineEnd::Knee(side.unwrap_or(Side::Near))),
        ("bar", _) => Ok(LineEnd::Bar),
        ("back", _) => Ok(LineEnd::Back),
        _ => Err(PoseProblem::new(
            PoseCode::UnknownWord,
            at,
            format!("A band has no end at `{text}`."),
            hint(word, &["hands", "feet", "knee", "bar", "back", "anchor"]),
        )),
    }
}

fn anchor(text: &str, settings: Settings, at: usize) -> Result<LineEnd, PoseProblem> {
    let cm = |t: &str| number(t, Kind::Centimetres, settings, at).map(|v| v / 100.0);
    let mut phrases = text.split(',').map(str::trim);
    let height = cm(phrases.next().unwrap_or(""))?;
    let (mut ahead, mut aside, mut from) = (0.0, 0.0, From::Hips);
    for phrase in phrases {
        let phrase = match phrase.strip_suffix(" of heels") {
            Some(rest) => {
                from = From::Heels;
                rest
            }
            None => phrase,
        };
        let (amount, way) = phrase.rsplit_once(' ').unwrap_or((phrase, ""));
        match way {
            "ahead" => ahead = cm(amount)?,
            "behind" => ahead = -cm(amount)?,
            "near" | "right" => aside = cm(amount)?,
            "far" | "left" => aside = -cm(amount)?,
            _ => {
                return Err(PoseProblem::new(
                    PoseCode::UnknownWord,
                    at,
                    format!("`{phrase}` says no place for the anchor."),
                    hint(way, &["ahead", "behind", "near", "far"]),
                ));
            }
        }
    }
    Ok(LineEnd::Anchor { height, ahead, aside, from })
}

/// A thing that stands about.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SceneItem {
    /// What.
    pub surface: Surface,
    /// Height in metres, 0 where it has none.
    pub height: f64,
    /// Ahead of where the hips start, metres.
    pub ahead: f64,
}

/// Read `mat`, `wall 30 behind`, `chair 45, 20 ahead`.
pub fn read_scene(text: &str, settings: Settings, at: usize) -> Result<SceneItem, PoseProblem> {
    let cm = |t: &str| number(t, Kind::Centimetres, settings, at).map(|v| v / 100.0);
    if text == "mat" {
        return Ok(SceneItem { surface: Surface::Mat, height: 0.0, ahead: 0.0 });
    }
    if !starts_with_surface(text) {
        let first = text.split_whitespace().next().unwrap_or("");
        return Err(PoseProblem::new(
            PoseCode::UnknownWord,
            at,
            format!("`{text}` is nothing for the scene."),
            hint(first, &["mat", "wall", "box", "bench", "chair", "table", "counter", "bar"]),
        ));
    }
    let (text, sign) = match (text.strip_suffix(" ahead"), text.strip_suffix(" behind")) {
        (Some(t), _) => (t, 1.0),
        (_, Some(t)) => (t, -1.0),
        _ => (text, 1.0),
    };
    let (thing, distance) = match text.rsplit_once(',') {
        Some((thing, distance)) => (thing, distance),
        None => text.split_once(' ').unwrap_or((text, "0")),
    };
    let place = super::contact::read(super::contact::Part::Hand, None, thing, settings, at)?;
    Ok(SceneItem {
        surface: place.surface,
        height: place.height.unwrap_or(0.0),
        ahead: sign * cm(distance)?,
    })
}
