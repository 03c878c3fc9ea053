//! Contacts: which part of the body is on which surface, and where.
//!
//! `<surface> [height], [place], [place]`, heights and distances in cm:
//! - surfaces: `floor`, `box N`, `bench N`, `chair N`, `step N`, `stairs N`, `sofa N`, `table N`,
//!   `counter N`, `wall`, `bar N`, `parallel bars N`, `straps N`, `rings N` (N: height of the
//!   anchor), `slider`, `air N` (held N above the floor, carries nothing);
//! - places: `under shoulders`, `under hips +5`, `70 behind near foot`, `20 ahead of hips`,
//!   `90 beside far foot`, `30 apart`, `at 40`, `anchor over heels +20`.
//!
//! It reads words; whether the body can get there is the solver's to find out.

use super::number::{Kind, Settings, number};
use super::spelling::{hint, nearest};
use super::surface::{SURFACES, default_height, surface_of, usual_height};
pub use super::surface::{Surface, starts_with_surface};
use crate::mechanics::joints::Side;
use crate::mechanics::node::{PoseCode, PoseProblem};
use serde::{Deserialize, Serialize};

/// A part of the body that can rest on something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Part {
    /// Palm or grip.
    Hand,
    /// Forearm, elbow to wrist.
    Forearm,
    /// Ball of the foot and toes.
    Toes,
    /// Whole foot.
    Foot,
    /// Heel only.
    Heel,
    /// Knee.
    Knee,
    /// Seat.
    Seat,
    /// Upper back.
    Back,
    /// Back or front of the head.
    Head,
    /// Front of the chest, lying face down.
    Chest,
    /// Outside of the hip, lying on the side.
    Flank,
}

/// Parts that replace one another from one key pose to the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Family {
    /// Hand or forearm.
    Arm,
    /// Toes, foot, heel or knee.
    Leg,
    /// The seat.
    Seat,
    /// The upper back.
    Back,
    /// The head.
    Head,
    /// The front of the chest.
    Chest,
    /// The side of the hip.
    Flank,
}

impl Part {
    /// The part an author's word names.
    pub fn from_word(word: &str) -> Option<Part> {
        Some(match word {
            "hands" | "hand" => Part::Hand,
            "forearms" | "forearm" => Part::Forearm,
            "toes" | "toe" => Part::Toes,
            "feet" | "foot" => Part::Foot,
            "heels" | "heel" => Part::Heel,
            "knees" | "knee" => Part::Knee,
            "seat" => Part::Seat,
            "back" => Part::Back,
            "head" => Part::Head,
            "chest" => Part::Chest,
            "side" => Part::Flank,
            _ => return None,
        })
    }

    /// The plain word, for one side or for both.
    pub fn word(self, both: bool) -> &'static str {
        match (self, both) {
            (Part::Hand, true) => "hands",
            (Part::Hand, false) => "hand",
            (Part::Forearm, true) => "forearms",
            (Part::Forearm, false) => "forearm",
            (Part::Toes, _) => "toes",
            (Part::Foot, true) => "feet",
            (Part::Foot, false) => "foot",
            (Part::Heel, true) => "heels",
            (Part::Heel, false) => "heel",
            (Part::Knee, true) => "knees",
            (Part::Knee, false) => "knee",
            (Part::Seat, _) => "seat",
            (Part::Back, _) => "back",
            (Part::Head, _) => "head",
            (Part::Chest, _) => "chest",
            (Part::Flank, _) => "side",
        }
    }

    /// What it stands in for.
    pub fn family(self) -> Family {
        match self {
            Part::Hand | Part::Forearm => Family::Arm,
            Part::Toes | Part::Foot | Part::Heel | Part::Knee => Family::Leg,
            Part::Seat => Family::Seat,
            Part::Back => Family::Back,
            Part::Head => Family::Head,
            Part::Chest => Family::Chest,
            Part::Flank => Family::Flank,
        }
    }

    /// Whether the part comes once rather than once a side.
    pub fn is_single(self) -> bool {
        matches!(self, Part::Seat | Part::Back | Part::Head | Part::Chest | Part::Flank)
    }
}

/// Where along the level line a contact stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Place {
    /// Under the shoulders (or hips), plus an offset in metres.
    Under(Anchor, f64),
    /// So many metres ahead of (or, negative, behind) another part.
    From(f64, Option<Side>, Anchor),
    /// So many metres to the own side of another part.
    Beside(f64, Option<Side>, Anchor),
    /// At a fixed place of the hall, metres.
    At(f64),
    /// Both sides this far apart, metres.
    Apart(f64),
    /// The rope's anchor straight over a part, plus an offset in metres.
    AnchorOver(Anchor, f64),
}

/// A part that others are placed by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)] // each is the word it stands for
pub enum Anchor {
    Foot,
    Toes,
    Heels,
    Hips,
    Shoulders,
    Hands,
    Knees,
    Head,
}

pub(super) const ANCHORS: [(&str, Anchor); 12] = [
    ("foot", Anchor::Foot),
    ("feet", Anchor::Foot),
    ("toes", Anchor::Toes),
    ("heels", Anchor::Heels),
    ("heel", Anchor::Heels),
    ("hips", Anchor::Hips),
    ("shoulders", Anchor::Shoulders),
    ("hands", Anchor::Hands),
    ("hand", Anchor::Hands),
    ("knees", Anchor::Knees),
    ("knee", Anchor::Knees),
    ("head", Anchor::Head),
];

/// One part on one surface.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Contact {
    /// Which part.
    pub part: Part,
    /// Which side; none for parts that come once.
    pub side: Option<Side>,
    /// On what.
    pub surface: Surface,
    /// Height of the surface (or of the ropes' anchor), metres; none where the wall or the
    /// author leaves it open.
    pub height: Option<f64>,
    /// Where.
    pub places: Vec<Place>,
    /// As written, for messages.
    pub written: String,
    /// Byte offset of the value.
    pub at: usize,
}

/// Read what stands after `hands:`, `near: {foot: ...}` and the like.
pub fn read(
    part: Part,
    side: Option<Side>,
    text: &str,
    settings: Settings,
    at: usize,
) -> Result<Contact, PoseProblem> {
    let mut phrases = text.split(',').map(str::trim);
    let first = phrases.next().unwrap_or("");
    let Some((surface, rest)) = surface_of(first) else {
        return Err(unknown_surface(part, first, at));
    };
    let height = if rest.is_empty() {
        default_height(surface)
    } else {
        Some(number(rest, Kind::Centimetres, settings, at)? / 100.0)
    };
    if height.is_none() && surface != Surface::Wall {
        return Err(PoseProblem::new(
            PoseCode::UnreadableValue,
            at,
            format!("`{first}` needs a height."),
            format!("write it in cm, such as `{} {}`", surface.word(), usual_height(surface)),
        ));
    }
    let places = phrases.map(|p| place(p, settings, at)).collect::<Result<Vec<_>, _>>()?;
    Ok(Contact { part, side, surface, height, places, written: text.trim().to_string(), at })
}

fn unknown_surface(part: Part, first: &str, at: usize) -> PoseProblem {
    let word = first.trim_end_matches(|c: char| c.is_ascii_digit() || c == ' ');
    let known: Vec<&str> = SURFACES.iter().map(|(w, _)| *w).collect();
    PoseProblem::new(
        PoseCode::UnknownWord,
        at,
        format!("`{first}` is no surface for the {}.", part.word(true)),
        hint(word, &known),
    )
}

fn place(phrase: &str, settings: Settings, at: usize) -> Result<Place, PoseProblem> {
    let cm = |text: &str| number(text, Kind::Centimetres, settings, at).map(|v| v / 100.0);
    if let Some(rest) = phrase.strip_prefix("under ") {
        let (anchor, offset) = anchor_and_offset(rest, &cm, at)?;
        return Ok(Place::Under(anchor, offset));
    }
    if let Some(rest) = phrase.strip_prefix("anchor over ") {
        let (anchor, offset) = anchor_and_offset(rest, &cm, at)?;
        return Ok(Place::AnchorOver(anchor, offset));
    }
    if let Some(rest) = phrase.strip_prefix("at ") {
        return Ok(Place::At(cm(rest)?));
    }
    if let Some(rest) = phrase.strip_suffix(" apart") {
        return Ok(Place::Apart(cm(rest)?));
    }
    if let Some((distance, whom)) = phrase.split_once(" beside ") {
        let (side, whom) = side_and_rest(whom);
        return Ok(Place::Beside(cm(distance)?, side, anchor(whom, at)?));
    }
    for (word, sign) in [(" ahead of ", 1.0), (" behind ", -1.0)] {
        if let Some((distance, whom)) = phrase.split_once(word) {
            let (side, whom) = side_and_rest(whom);
            return Ok(Place::From(sign * cm(distance)?, side, anchor(whom, at)?));
        }
    }
    Err(unknown_place(phrase, at))
}

fn unknown_place(phrase: &str, at: usize) -> PoseProblem {
    let starts = ["under", "at", "anchor"];
    let word = phrase.split_whitespace().next().unwrap_or("");
    let next = match nearest(word, &starts) {
        Some(near) if near != word => format!("did you mean `{near}`?"),
        _ => "write a place such as `under shoulders`, `70 behind near foot` or `30 apart`".into(),
    };
    PoseProblem::new(PoseCode::UnknownWord, at, format!("`{phrase}` says no place."), next)
}

fn anchor_and_offset(
    text: &str,
    cm: &dyn Fn(&str) -> Result<f64, PoseProblem>,
    at: usize,
) -> Result<(Anchor, f64), PoseProblem> {
    let (word, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    let offset = if rest.trim().is_empty() { 0.0 } else { cm(rest)? };
    Ok((anchor(word, at)?, offset))
}

/// A leading `near` or `far` (or `right`, `left`) and what follows.
pub fn side_and_rest(text: &str) -> (Option<Side>, &str) {
    let text = text.trim();
    for (word, side) in
        [("near ", Side::Near), ("far ", Side::Far), ("right ", Side::Near), ("left ", Side::Far)]
    {
        if let Some(rest) = text.strip_prefix(word) {
            return (Some(side), rest.trim());
        }
    }
    (None, text)
}

fn anchor(word: &str, at: usize) -> Result<Anchor, PoseProblem> {
    let known: Vec<&str> = ANCHORS.iter().map(|(w, _)| *w).collect();
    ANCHORS.iter().find(|(w, _)| *w == word.trim()).map(|(_, a)| *a).ok_or_else(|| {
        PoseProblem::new(
            PoseCode::UnknownWord,
            at,
            format!("`{word}` is no part to place by."),
            hint(word, &known),
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const NONE: Settings = Settings { values: &[], scale: 1.0 };

    #[test]
    fn reads_a_contact_with_a_place() {
        let c = read(Part::Hand, None, "box 30, under shoulders +5", NONE, 0).unwrap();
        assert_eq!((c.surface, c.height), (Surface::Box, Some(0.3)));
        assert_eq!(c.places, vec![Place::Under(Anchor::Shoulders, 0.05)]);
        let c = read(Part::Toes, None, "floor, 70 behind near foot", NONE, 0).unwrap();
        assert_eq!(c.places, vec![Place::From(-0.7, Some(Side::Near), Anchor::Foot)]);
        let c = read(Part::Hand, None, "parallel bars 120", NONE, 0).unwrap();
        assert_eq!(c.surface, Surface::ParallelBars);
    }

    #[test]
    fn suggests_the_surface_meant() {
        let p = read(Part::Hand, None, "flor", NONE, 7).unwrap_err();
        assert_eq!((p.code, p.at), (PoseCode::UnknownWord, 7));
        assert!(p.next.contains("`floor`"));
    }
}
