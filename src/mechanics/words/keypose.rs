//! Key poses: one `start:`, `between:` or `end:` block, read word by word.
//! It reads and reports; it never decides whether a pose is possible.
//!
//! | key | value |
//! |---|---|
//! | `hands`, `forearms`, `toes`, `feet`, `heels`, `knees`, `seat`, `back`, `head`, `side` | a contact, see `contact` |
//! | `knee`, `hip`, `elbow`, `shoulder`, `ankle`, `wrist`, `leg-out`, `leg-turn`, `arm-out`, `arm-turn`, `hand-turn`, `shrug` | degrees, 0 is straight |
//! | `waist`, `upper-back`, `side-bend`, `twist`, `neck`, `look`, `bow`, `tilt`, `turn` | degrees; bending forward and towards the near side counts positive |
//! | `trunk`, `thigh`, `shin`, `upper-arm`, `forearm`, `foot-angle` | degrees from the vertical, or `upright`, `vertical`, `horizontal` |
//! | `body` | `straight`, `lean N`, or both with a comma |
//! | `arms` | `forward`, `sides`, `hang`, `overhead`, … see `ARM_SHAPES` |
//! | `balance` | `feet`, `near foot`, `far foot`, `hands`, `60% near foot`, `free` |
//! | `chest`, `hips`, `head`, `chin`, `knee-height`, `foot-height`, `hand-height` | cm over the floor; `chin: over bar` |
//! | `hands-at` | a landmark, then `5 ahead`, `5 behind`, `10 above`, `10 below` |
//! | `lift` | parts that leave their contact: `seat`, `far foot` |
//! | `near`, `far` (or `right`, `left`) | a block for one side |

use super::contact::{
    Contact, Family, Part, read as read_contact, side_and_rest, starts_with_surface,
};
use super::number::{Kind, Settings, number};
use super::said::{ARM_SHAPES, HeightOf, LANDMARKS, Over, Said, Slope, Word};
use super::spelling::hint;
use crate::mechanics::joints::{Joint, LimbJoint, Side};
use crate::mechanics::node::{PoseCode, PoseNode, PoseProblem};
use serde::{Deserialize, Serialize};

/// One key pose as said.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct KeyPose {
    /// Byte offset of the block.
    pub at: usize,
    /// What touches what.
    pub contacts: Vec<Contact>,
    /// Contacts of the pose before that end here.
    pub lifted: Vec<(Option<Side>, Family)>,
    /// Everything else.
    pub said: Vec<Said>,
}

const BLOCKS: [(&str, Side); 4] =
    [("near", Side::Near), ("far", Side::Far), ("right", Side::Near), ("left", Side::Far)];

const CENTRAL: [(&str, Joint); 9] = [
    ("waist", Joint::Waist),
    ("upper-back", Joint::UpperBack),
    ("side-bend", Joint::SideBend),
    ("twist", Joint::Twist),
    ("neck", Joint::Neck),
    ("look", Joint::HeadTurn),
    ("bow", Joint::Pitch),
    ("tilt", Joint::Roll),
    ("turn", Joint::Yaw),
];

const SLOPES: [(&str, Slope); 6] = [
    ("trunk", Slope::Trunk),
    ("thigh", Slope::Thigh),
    ("shin", Slope::Shin),
    ("upper-arm", Slope::UpperArm),
    ("forearm", Slope::Forearm),
    ("foot-angle", Slope::Foot),
];

const HEIGHTS: [(&str, HeightOf); 7] = [
    ("chest", HeightOf::Chest),
    ("hips", HeightOf::Hips),
    ("head", HeightOf::Head),
    ("chin", HeightOf::Chin),
    ("knee-height", HeightOf::Knee),
    ("foot-height", HeightOf::Foot),
    ("hand-height", HeightOf::Hand),
];

const PARTS: [&str; 15] = [
    "hands", "hand", "forearms", "forearm", "toes", "toe", "feet", "foot", "heels", "heel",
    "knees", "knee", "seat", "back", "side",
];

const OTHERS: [&str; 5] = ["body", "arms", "balance", "hands-at", "lift"];

/// The word that an author writes for a joint's angle; the body's place has none.
pub fn joint_word(joint: Joint) -> Option<&'static str> {
    match joint {
        Joint::Limb(_, limb) => Some(limb.word()),
        _ => CENTRAL.iter().find(|(_, own)| *own == joint).map(|(word, _)| *word),
    }
}

/// The joint whose angle a word of a key pose says.
pub fn joint_of(word: &str) -> Option<Joint> {
    let limb = LimbJoint::ALL.into_iter().find(|limb| limb.word() == word);
    let limb = limb.map(|limb| Joint::Limb(Side::Near, limb));
    limb.or_else(|| CENTRAL.iter().find(|(own, _)| *own == word).map(|(_, joint)| *joint))
}

/// Every key that a key pose knows, for near spellings.
pub fn known_keys() -> Vec<&'static str> {
    let mut keys: Vec<&str> = PARTS.to_vec();
    keys.extend(OTHERS);
    keys.extend(LimbJoint::ALL.map(LimbJoint::word));
    keys.extend(CENTRAL.map(|(w, _)| w));
    keys.extend(SLOPES.map(|(w, _)| w));
    keys.extend(HEIGHTS.map(|(w, _)| w));
    keys.extend(BLOCKS.map(|(w, _)| w));
    keys.sort_unstable();
    keys.dedup();
    keys
}

/// Read a key pose; what cannot be read becomes a problem and the rest still counts.
pub fn read(
    node: &PoseNode,
    at: usize,
    settings: Settings,
    problems: &mut Vec<PoseProblem>,
) -> KeyPose {
    let mut pose = KeyPose { at, ..KeyPose::default() };
    let Some(entries) = node.entries() else {
        problems.push(not_a_block(at));
        return pose;
    };
    for (key, key_at, value, value_at) in entries {
        let place = Entry { key, key_at: *key_at, value_at: *value_at, side: None, settings };
        if let Some((_, side)) = BLOCKS.iter().find(|(w, _)| w == key) {
            side_block(*side, value, &place, &mut pose, problems);
        } else if let Err(problem) = entry(&place, value, &mut pose) {
            problems.push(problem);
        }
    }
    pose
}

fn not_a_block(at: usize) -> PoseProblem {
    PoseProblem::new(
        PoseCode::UnreadableValue,
        at,
        "A key pose is a block of words.",
        "write it like `{feet: floor, knee: 5}`",
    )
}

fn side_block(
    side: Side,
    node: &PoseNode,
    block: &Entry,
    pose: &mut KeyPose,
    problems: &mut Vec<PoseProblem>,
) {
    let Some(entries) = node.entries() else {
        problems.push(not_a_block(block.value_at));
        return;
    };
    for (key, key_at, value, value_at) in entries {
        let place = Entry {
            key,
            key_at: *key_at,
            value_at: *value_at,
            side: Some(side),
            settings: block.settings,
        };
        if let Err(problem) = entry(&place, value, pose) {
            problems.push(problem);
        }
    }
}

struct Entry<'a> {
    key: &'a str,
    key_at: usize,
    value_at: usize,
    side: Option<Side>,
    settings: Settings<'a>,
}

impl Entry<'_> {
    fn degrees(&self, text: &str) -> Result<f64, PoseProblem> {
        number(text, Kind::Degrees, self.settings, self.value_at)
    }

    fn metres(&self, text: &str) -> Result<f64, PoseProblem> {
        Ok(number(text, Kind::Centimetres, self.settings, self.value_at)? / 100.0)
    }

    fn unknown(&self, text: &str, what: &str, known: &[&str]) -> PoseProblem {
        PoseProblem::new(
            PoseCode::UnknownWord,
            self.value_at,
            format!("`{}: {text}` is {what}.", self.key),
            hint(text, known),
        )
    }
}

fn entry(e: &Entry, value: &PoseNode, pose: &mut KeyPose) -> Result<(), PoseProblem> {
    let Some(text) = value.text() else {
        return Err(PoseProblem::new(
            PoseCode::UnreadableValue,
            e.value_at,
            format!("`{}` wants a word or a number.", e.key),
            "put blocks only under `near` and `far`",
        ));
    };
    if let Some(part) = Part::from_word(e.key).filter(|p| is_contact(*p, e.key, text)) {
        return add_contact(e, part, text, pose);
    }
    if e.key == "lift" {
        return lift(e, text, pose);
    }
    for word in meaning(e, text)? {
        let written = format!("{}: {text}", e.key);
        pose.said.push(Said { word, side: e.side, written, at: e.value_at });
    }
    Ok(())
}

/// `knee`, `forearm`, `head` name a contact before a surface and an angle or height before a number.
fn is_contact(part: Part, key: &str, text: &str) -> bool {
    starts_with_surface(text)
        || !(matches!(part, Part::Head | Part::Chest) || matches!(key, "knee" | "forearm"))
}

fn add_contact(e: &Entry, part: Part, text: &str, pose: &mut KeyPose) -> Result<(), PoseProblem> {
    let sides: Vec<Option<Side>> = match (part.is_single(), e.side) {
        (true, _) => vec![None],
        (false, Some(side)) => vec![Some(side)],
        (false, None) => Side::BOTH.map(Some).to_vec(),
    };
    for side in sides {
        pose.contacts.push(read_contact(part, side, text, e.settings, e.value_at)?);
    }
    Ok(())
}

fn lift(e: &Entry, text: &str, pose: &mut KeyPose) -> Result<(), PoseProblem> {
    for phrase in text.split(',').map(str::trim) {
        let (side, word) = side_and_rest(phrase);
        let side = side.or(e.side);
        match Part::from_word(word) {
            Some(part) => pose.lifted.push((side, part.family())),
            None if word == "near" || word == "far" => {
                let side = if word == "near" { Side::Near } else { Side::Far };
                pose.lifted.push((Some(side), Family::Leg));
            }
            None => return Err(e.unknown(word, "no part to lift", &PARTS)),
        }
    }
    Ok(())
}

fn meaning(e: &Entry, text: &str) -> Result<Vec<Word>, PoseProblem> {
    if let Some((_, slope)) = SLOPES.iter().find(|(w, _)| *w == e.key) {
        return Ok(vec![Word::Slope(*slope, slope_degrees(e, *slope, text)?)]);
    }
    if let Some(limb) = LimbJoint::ALL.into_iter().find(|l| l.word() == e.key) {
        let degrees = if text == "straight" { 0.0 } else { e.degrees(text)? };
        return Ok(vec![Word::Bend(limb, degrees)]);
    }
    if let Some((_, joint)) = CENTRAL.iter().find(|(w, _)| *w == e.key) {
        return Ok(vec![Word::Turn(*joint, e.degrees(text)?)]);
    }
    if let Some((_, of)) = HEIGHTS.iter().find(|(w, _)| *w == e.key) {
        return Ok(vec![height(e, *of, text)?]);
    }
    match e.key {
        "body" => body(e, text),
        "arms" => ARM_SHAPES
            .iter()
            .find(|(w, _)| *w == text)
            .map(|(_, shape)| vec![Word::Arms(*shape)])
            .ok_or_else(|| e.unknown(text, "no arm shape", &ARM_SHAPES.map(|(w, _)| w))),
        "balance" => Ok(vec![Word::Balance(over(e, text)?)]),
        "hands-at" | "hand-at" => Ok(vec![hands_at(e, text)?]),
        digits if digits.chars().all(|c| c.is_ascii_digit()) => Err(PoseProblem::new(
            PoseCode::UnknownWord,
            e.key_at,
            format!("`{digits}` is cut off from the number before it by a comma."),
            "write a decimal with a point, such as `12.5`",
        )),
        _ => Err(PoseProblem::new(
            PoseCode::UnknownWord,
            e.key_at,
            format!("No pose knows the word `{}`.", e.key),
            hint(e.key, &known_keys()),
        )),
    }
}

fn slope_degrees(e: &Entry, slope: Slope, text: &str) -> Result<f64, PoseProblem> {
    // A level thigh, forearm or upper arm points forward from its joint: that is minus 90 for a
    // part that hangs; a level trunk leans forward by 90.
    Ok(match (text, slope) {
        ("upright" | "vertical", _) => 0.0,
        ("horizontal", Slope::Trunk) => 90.0,
        ("horizontal", _) => -90.0,
        _ => e.degrees(text)?,
    })
}

fn height(e: &Entry, of: HeightOf, text: &str) -> Result<Word, PoseProblem> {
    if let (HeightOf::Chin, Some(rest)) = (of, text.strip_prefix("over bar")) {
        let over = if rest.trim().is_empty() { 0.0 } else { e.metres(rest)? };
        return Ok(Word::ChinOverBar(over));
    }
    Ok(Word::Height(of, e.metres(text)?))
}

fn body(e: &Entry, text: &str) -> Result<Vec<Word>, PoseProblem> {
    text.split(',')
        .map(str::trim)
        .map(|phrase| match (phrase, phrase.strip_prefix("lean ")) {
            ("straight", _) => Ok(Word::Straight),
            (_, Some(lean)) => Ok(Word::Lean(e.degrees(lean)?)),
            _ => Err(e.unknown(phrase, "no word for the body", &["straight", "lean"])),
        })
        .collect()
}

fn over(e: &Entry, text: &str) -> Result<Over, PoseProblem> {
    if let Some((share, whom)) = text.split_once('%') {
        let share = number(share, Kind::Percent, e.settings, e.value_at)? / 100.0;
        let (side, _) = side_and_rest(whom);
        return Ok(Over::Share(share, side.unwrap_or(Side::Near)));
    }
    match text {
        "feet" => Ok(Over::Feet),
        "near foot" | "right foot" => Ok(Over::Foot(Side::Near)),
        "far foot" | "left foot" => Ok(Over::Foot(Side::Far)),
        "hands" => Ok(Over::Hands),
        "free" => Ok(Over::Nothing),
        _ => Err(e.unknown(
            text,
            "nothing to balance over",
            &["feet", "near foot", "far foot", "hands", "free"],
        )),
    }
}

fn hands_at(e: &Entry, text: &str) -> Result<Word, PoseProblem> {
    let mut phrases = text.split(',').map(str::trim);
    let (side, word) = side_and_rest(phrases.next().unwrap_or(""));
    let Some((_, landmark)) = LANDMARKS.iter().find(|(w, _)| *w == word) else {
        return Err(e.unknown(word, "no landmark of the body", &LANDMARKS.map(|(w, _)| w)));
    };
    let (mut forward, mut up) = (0.0, 0.0);
    for phrase in phrases {
        let (amount, way) = phrase.rsplit_once(' ').unwrap_or((phrase, ""));
        match way {
            "ahead" => forward += e.metres(amount)?,
            "behind" => forward -= e.metres(amount)?,
            "above" => up += e.metres(amount)?,
            "below" => up -= e.metres(amount)?,
            _ => {
                return Err(e.unknown(phrase, "no offset", &["ahead", "behind", "above", "below"]));
            }
        }
    }
    Ok(Word::HandsAt(side, *landmark, forward, up))
}
