//! Recipes: the whole `figure:` of a movement, from view to last key pose.
//! It reads; solving is `solve`'s, drawing is `figure`'s.
//!
//! | key | value |
//! |---|---|
//! | `start`, `end` | a key pose; `end` keeps the contacts of `start` unless it says otherwise |
//! | `between` | one key pose or a list, where two do not tell the story |
//! | `view` | `side` (default), `front`, `back`, `corner`, `wide corner`, `front corner`, `high corner`, `high side` |
//! | `balanced` | `side` or `front`: weighed as seen from there, where the view shows it better from elsewhere |
//! | `shape` | the solver's first guess where the contacts do not tell: see `SHAPES` |
//! | `holds` | `dumbbells 16`, `kettlebell 12, near hand`, `backpack weight, both hands`, `stick`; `, on hips`, `, on back` |
//! | `band`, `towel`, `pulley` | from … to …: `hands to feet`, `hands to anchor 110, 120 ahead`, `bar to near knee`; how it pulls: `60 at rest, 4 at twice`, `weighs 20` |
//! | `scene` | things nobody touches: `mat`, `wall 30 behind`, `chair 45, 20 ahead`, `box 40, 30 behind` |
//! | `leads` | `near leg` or `far leg`: the one that works, where neither feet nor balance tell |
//! | `pause` | `end`: the last key pose is held for a moment and marked |
//! | `ghost` | `start`: the last key pose stands before a pale shape of the first, for small movements |
//! | `arrow` | `hands`, `hips`, `near knee`, … (see `ARROWS`), `forward`, `around` (hands that circle on), `none`; left out: chosen from the movement |

use super::contact::side_and_rest;
use super::keypose::{KeyPose, read as read_pose};
use super::number::Settings;
use super::props::{Held, Item, Line, SceneItem, read_held, read_line, read_scene};
use super::spelling::hint;
use crate::mechanics::joints::Side;
use crate::mechanics::node::{PoseCode, PoseNode, PoseProblem};
use crate::mechanics::space::Plane;
use serde::{Deserialize, Serialize};

/// From where the figure is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum View {
    /// From the figure's right.
    #[default]
    Side,
    /// Facing the figure.
    Front,
    /// Behind the figure.
    Back,
    /// From the front right corner.
    Corner,
    /// From between side and front, where a free arm shows beside the trunk.
    WideCorner,
    /// From the front, a little to the right.
    FrontCorner,
    /// From the front right corner and well above, for what happens on the floor.
    HighCorner,
    /// From the right and well above, for who lies along the view with the arms out.
    HighSide,
}

const LEGS: [(&str, Side); 4] = [
    ("near leg", Side::Near),
    ("far leg", Side::Far),
    ("right leg", Side::Near),
    ("left leg", Side::Far),
];

pub(super) const VIEWS: [(&str, View); 8] = [
    ("side", View::Side),
    ("front", View::Front),
    ("back", View::Back),
    ("corner", View::Corner),
    ("wide corner", View::WideCorner),
    ("front corner", View::FrontCorner),
    ("high corner", View::HighCorner),
    ("high side", View::HighSide),
];

const PLANES: [(&str, Plane); 2] = [("side", Plane::Side), ("front", Plane::Front)];

impl View {
    /// The plane in which such a figure is balanced.
    pub fn plane(self) -> Plane {
        match self {
            View::Side | View::Corner | View::WideCorner => Plane::Side,
            _ => Plane::Front,
        }
    }

    /// Whether the reader looks down on the floor.
    pub fn is_high(self) -> bool {
        matches!(self, View::HighCorner | View::HighSide)
    }

    /// The word.
    pub fn word(self) -> &'static str {
        VIEWS.iter().find(|(_, v)| *v == self).map_or("side", |(w, _)| w)
    }
}

/// The view of that word.
pub fn view_named(word: &str) -> Option<View> {
    VIEWS.iter().find(|(own, _)| *own == word).map(|(_, view)| *view)
}

/// The words of all views.
pub fn view_words() -> Vec<&'static str> {
    VIEWS.iter().map(|(word, _)| *word).collect()
}

/// The solver's first guess.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)] // each is the word it stands for
pub enum Shape {
    Stand,
    Squat,
    Prone,
    Pike,
    Quad,
    Supine,
    Hang,
    LeanBack,
    Sit,
    Dip,
    Handstand,
    Kneel,
    SideLying,
    LieProne,
}

pub(super) const SHAPES: [(&str, Shape); 14] = [
    ("stand", Shape::Stand),
    ("squat", Shape::Squat),
    ("prone", Shape::Prone),
    ("pike", Shape::Pike),
    ("all fours", Shape::Quad),
    ("supine", Shape::Supine),
    ("hang", Shape::Hang),
    ("lean back", Shape::LeanBack),
    ("sit", Shape::Sit),
    ("dip", Shape::Dip),
    ("handstand", Shape::Handstand),
    ("kneel", Shape::Kneel),
    ("side-lying", Shape::SideLying),
    ("lying face down", Shape::LieProne),
];

/// Which way the arrow of movement points.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Arrow {
    /// Chosen from what moves most.
    Chosen,
    /// No arrow.
    None,
    /// Along this part's way: the words of the author.
    Follow(String),
    /// The figure walks on.
    Onward,
    /// The hands circle on: from the last key pose round the other side to the first.
    Around,
}

/// A movement's figure as said.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Recipe {
    /// From where it is seen.
    pub view: View,
    /// The plane in which it is balanced, where that is not the view's.
    pub balanced: Option<Plane>,
    /// The solver's first guess, where said.
    pub shape: Option<Shape>,
    /// What is held.
    pub held: Option<Held>,
    /// Bands, towels and straps over a pulley.
    pub lines: Vec<Line>,
    /// Things nobody touches.
    pub scene: Vec<SceneItem>,
    /// The leg that leads, where said.
    pub leads: Option<Side>,
    /// Whether the last key pose is held for a moment, marked as such.
    pub pause: bool,
    /// Whether the last key pose stands before a pale shape of the first.
    pub ghost: bool,
    /// The arrow of movement.
    pub arrow: Arrow,
    /// `start`, `between` and `end`, in order; at least one.
    pub poses: Vec<KeyPose>,
    /// Byte offset of the figure.
    pub at: usize,
}

pub(super) const KEYS: [&str; 16] = [
    "start", "between", "end", "view", "balanced", "shape", "holds", "band", "towel", "pulley",
    "scene", "arrow", "leads", "pause", "ghost", "note",
];

/// Read a figure. Problems are complete: everything unreadable is said in one go.
pub fn read(node: &PoseNode, at: usize, settings: Settings) -> (Option<Recipe>, Vec<PoseProblem>) {
    let mut problems = Vec::new();
    let Some(entries) = node.entries() else {
        problems.push(PoseProblem::new(
            PoseCode::UnreadableValue,
            at,
            "A figure is a block with a `start` and mostly an `end`.",
            "write `figure: {start: {…}, end: {…}}`",
        ));
        return (None, problems);
    };
    let mut recipe = Recipe {
        view: View::Side,
        balanced: None,
        shape: None,
        held: None,
        lines: Vec::new(),
        scene: Vec::new(),
        arrow: Arrow::Chosen,
        leads: None,
        pause: false,
        ghost: false,
        poses: Vec::new(),
        at,
    };
    for (key, key_at, value, value_at) in entries {
        if matches!(key.as_str(), "start" | "between" | "end") {
            continue;
        }
        if let Err(problem) = frame_key(&mut recipe, (key, *key_at), (value, *value_at), settings) {
            problems.push(problem);
        }
    }
    read_poses(node, settings, &mut recipe, &mut problems);
    if recipe.poses.is_empty() {
        problems.push(no_start(at));
        return (None, problems);
    }
    (Some(recipe), problems)
}

fn no_start(at: usize) -> PoseProblem {
    PoseProblem::new(
        PoseCode::UnreadableValue,
        at,
        "The figure has no `start`.",
        "write `start:` with what touches what",
    )
}

fn read_poses(
    node: &PoseNode,
    settings: Settings,
    recipe: &mut Recipe,
    problems: &mut Vec<PoseProblem>,
) {
    let Some((start, at)) = node.get("start") else { return };
    recipe.poses.push(read_pose(start, at, settings, problems));
    match node.get("between") {
        Some((PoseNode::List(list), _)) => {
            for (pose, at) in list {
                recipe.poses.push(read_pose(pose, *at, settings, problems));
            }
        }
        Some((pose, at)) => recipe.poses.push(read_pose(pose, at, settings, problems)),
        None => {}
    }
    if let Some((end, at)) = node.get("end") {
        recipe.poses.push(read_pose(end, at, settings, problems));
    }
}

fn frame_key(
    recipe: &mut Recipe,
    (key, key_at): (&str, usize),
    (value, at): (&PoseNode, usize),
    settings: Settings,
) -> Result<(), PoseProblem> {
    if !KEYS.contains(&key) {
        return Err(unknown_key(key, key_at));
    }
    let texts: Vec<(&str, usize)> = match value {
        PoseNode::List(list) => list.iter().filter_map(|(n, at)| Some((n.text()?, *at))).collect(),
        _ => value.text().map(|t| (t, at)).into_iter().collect(),
    };
    if texts.is_empty() {
        return Err(PoseProblem::new(
            PoseCode::UnreadableValue,
            at,
            format!("`{key}` wants a word or a list of words."),
            "leave the key out if there is nothing to say",
        ));
    }
    for (text, at) in texts {
        match key {
            "view" => recipe.view = known(&VIEWS, text, "no view", at)?,
            "balanced" => {
                recipe.balanced = Some(known(&PLANES, text, "no side to balance from", at)?)
            }
            "shape" => recipe.shape = Some(known(&SHAPES, text, "no shape", at)?),
            // A weight setting at 0 kg holds nothing.
            "holds" => {
                let held = read_held(text, settings, at)?;
                recipe.held = (held.item == Item::Stick || held.total() > 0.0).then_some(held);
            }
            "band" | "towel" | "pulley" => recipe.lines.push(read_line(key, text, settings, at)?),
            "scene" => recipe.scene.push(read_scene(text, settings, at)?),
            "arrow" => recipe.arrow = arrow(text, at)?,
            "leads" => recipe.leads = Some(known(&LEGS, text, "no leg that leads", at)?),
            "ghost" => recipe.ghost = known(&[("start", true)], text, "no key pose to show", at)?,
            "pause" => recipe.pause = known(&[("end", true)], text, "no key pose to pause in", at)?,
            _ => {}
        }
    }
    Ok(())
}

fn unknown_key(key: &str, at: usize) -> PoseProblem {
    PoseProblem::new(
        PoseCode::UnknownWord,
        at,
        format!("No figure knows the key `{key}`."),
        hint(key, &KEYS),
    )
}

fn known<T: Copy>(
    table: &[(&str, T)],
    text: &str,
    what: &str,
    at: usize,
) -> Result<T, PoseProblem> {
    let words: Vec<&str> = table.iter().map(|(w, _)| *w).collect();
    table.iter().find(|(w, _)| *w == text).map(|(_, t)| *t).ok_or_else(|| {
        PoseProblem::new(
            PoseCode::UnknownWord,
            at,
            format!("`{text}` is {what}."),
            hint(text, &words),
        )
    })
}

/// What an arrow may follow, or a word for its whole way.
pub(super) const ARROWS: [&str; 19] = [
    "none",
    "forward",
    "around",
    "hands",
    "hand",
    "hips",
    "hip",
    "shoulders",
    "chest",
    "head",
    "knees",
    "knee",
    "feet",
    "foot",
    "heels",
    "heel",
    "elbows",
    "elbow",
    "waist",
];

fn arrow(text: &str, at: usize) -> Result<Arrow, PoseProblem> {
    let (_, word) = side_and_rest(text);
    if !ARROWS.contains(&word) {
        return Err(PoseProblem::new(
            PoseCode::UnknownWord,
            at,
            format!("No arrow follows `{text}`."),
            hint(word, &ARROWS),
        ));
    }
    Ok(match text {
        "none" => Arrow::None,
        "forward" => Arrow::Onward,
        "around" => Arrow::Around,
        other => Arrow::Follow(other.to_string()),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arrow_follows_only_what_it_knows() {
        assert_eq!(arrow("near knee", 0).unwrap(), Arrow::Follow("near knee".into()));
        assert_eq!(arrow("around", 0).unwrap(), Arrow::Around);
        let problem = arrow("near elbw", 7).unwrap_err();
        assert_eq!((problem.code, problem.at), (PoseCode::UnknownWord, 7));
        assert!(problem.next.contains("`elbow`"), "{}", problem.next);
    }
}
