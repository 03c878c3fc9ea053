//! What a page of the pose editor gets: every key pose as it was reached, drawn, with what it misses and
//! the words that it says. Only puts together what the rooms above found.

use super::asked::{Asked, Edit, below, figure_of};

use super::offered::{AtSettings, Offered, offered};
use super::worded::{Worded, told, worded};
use crate::figure::marked::marked;
use crate::gym::Posed;
use crate::library::reader::node::{Kind, Node};
use crate::library::{Library, Movement, Quantity};
use crate::mechanics::carried::carried;
use crate::mechanics::joints::Side;
use crate::mechanics::node::PoseProblem;
use crate::mechanics::reached::reached;
use crate::mechanics::solve::SolvedFigure;
use crate::mechanics::words::glossary::POSE;
use crate::mechanics::words::recipe::{view_named, view_words};
use serde::Serialize;
use std::collections::BTreeMap;

/// Statures that figures are held to, centimetres.
pub const STATURES: (f64, f64) = (150.0, 198.0);

/// An entry's pose.
#[derive(Debug, Default, Serialize)]
pub struct Shown {
    /// The print of the file.
    pub print: String,
    /// The file below the library.
    pub file: String,
    /// Whether the last write can be taken back.
    pub undo: bool,
    /// Whether anything is to be written.
    pub changed: bool,
    /// The change that a part drawn along made.
    pub drawn: Option<Edit>,
    name: String,
    text: String,
    poses: Vec<Pose>,
    /// What is wrong and stands in no key pose.
    beyond: Vec<Wrong>,
    settings: Vec<SettingShown>,
    stature: (f64, f64),
    view: &'static str,
    views: Vec<&'static str>,
    traits: Vec<Offered>,
    /// Movements whose pose one may begin with.
    like: Vec<(String, String)>,
    /// The words that may be added: group, word, what it says.
    words: Vec<(&'static str, &'static str, &'static str)>,
}

#[derive(Debug, Serialize)]
struct Pose {
    /// `start`, `between/0`, `end`.
    pose: String,
    svg: String,
    wrong: Vec<Wrong>,
    /// What still holds from the key pose before: as written, and the word that takes it away.
    carried: Vec<(String, String)>,
    words: Vec<Worded>,
    /// What each word would say of it, near side and far.
    reached: BTreeMap<&'static str, (f64, f64)>,
}

#[derive(Debug, Serialize)]
struct Wrong {
    sentence: String,
    next: String,
    kind: &'static str,
}

#[derive(Debug, Serialize)]
struct SettingShown {
    name: String,
    unit: &'static str,
    range: (f64, f64),
    at: f64,
}

/// Everything that it is made from.
pub struct Seen<'s> {
    pub library: &'s Library,
    pub movement: &'s Movement,
    /// The figure's tree.
    pub figure: Option<&'s Node>,
    pub posed: Option<&'s Posed>,
    /// Poses at other settings, for the witness.
    pub ends: &'s [(Vec<(String, Quantity)>, Posed)],
    pub edits: &'s [Edit],
}

/// An entry's pose as its page shows it.
pub fn shown(seen: &Seen, asked: &Asked, text: &str) -> Shown {
    let mut figure = seen.posed.and_then(|posed| posed.figure.clone());
    if let (Some(figure), Some(view)) = (&mut figure, asked.view.as_deref().and_then(view_named)) {
        figure.recipe.view = view;
    }
    let problems = seen.posed.map_or(&[][..], |posed| &posed.problems);
    let blocks = poses_of(seen.figure);
    let pose = |index: usize| pose(figure.as_ref()?, index, &blocks, problems);
    let poses: Vec<Pose> = (0..blocks.len()).filter_map(pose).collect();
    let whole = |problem: &&PoseProblem| place_of(figure.as_ref(), problem).is_none();
    Shown {
        name: seen.movement.name.value.clone(),
        text: figure_of(text).unwrap_or_default(),
        beyond: problems.iter().filter(whole).map(wrong).collect(),
        settings: seen.movement.settings.iter().map(|one| setting(one, asked)).collect(),
        stature: STATURES,
        view: figure.as_ref().map_or("side", |figure| figure.recipe.view.word()),
        views: view_words(),
        traits: traits(seen),
        like: if seen.figure.is_none() { like(seen) } else { Vec::new() },
        words: addable(),
        poses,
        ..Shown::default()
    }
}

/// The key poses of a figure's tree by the names of their places, in the order in which they are solved.
pub fn poses_of(figure: Option<&Node>) -> Vec<(String, &Node)> {
    let Some(figure) = figure else { return Vec::new() };
    let mut poses = Vec::new();
    poses.extend(below(figure, "start").map(|node| ("start".to_string(), node)));
    match below(figure, "between").map(|node| (node, &node.kind)) {
        Some((_, Kind::List(items))) => {
            let named = |(at, node)| (format!("between/{at}"), node);
            poses.extend(items.iter().enumerate().map(named));
        }
        Some((node, Kind::Map(_))) => poses.push(("between".to_string(), node)),
        _ => {}
    }
    poses.extend(below(figure, "end").map(|node| ("end".to_string(), node)));
    poses
}

/// The number of the key pose in which a problem stands.
fn place_of(figure: Option<&SolvedFigure>, problem: &PoseProblem) -> Option<usize> {
    if let Some(missed) = problem.missed {
        return Some(missed.pose);
    }
    // Key poses stand anywhere in the figure, also after its other words: the last that begins before.
    let poses = figure?.poses.iter().enumerate().filter(|(_, pose)| pose.at <= problem.at);
    poses.max_by_key(|(_, pose)| pose.at).map(|(index, _)| index)
}

fn pose(
    figure: &SolvedFigure,
    index: usize,
    blocks: &[(String, &Node)],
    problems: &[PoseProblem],
) -> Option<Pose> {
    let (name, block) = blocks.get(index)?;
    let solved = figure.poses.get(index)?;
    let own = problems.iter().filter(|problem| place_of(Some(figure), problem) == Some(index));
    let missed: Vec<_> = own.clone().filter_map(|problem| problem.missed).collect();
    let holds: Vec<_> = solved.touches.iter().map(|(contact, _)| contact.clone()).collect();
    let carried = match index {
        0 => Vec::new(),
        _ => carried(figure.recipe.poses.get(index)?, &holds),
    };
    let of = |word: &'static str| {
        let rounded = |side| Some(reached(&solved.body, word, side)?.round() + 0.0);
        Some((word, (rounded(Side::Near)?, rounded(Side::Far)?)))
    };
    Some(Pose {
        svg: marked(figure, index, &missed, &name.replace('/', " ")),
        wrong: own.map(wrong).collect(),
        carried: carried.into_iter().map(|one| (one.written, one.lift)).collect(),
        words: worded(block),
        reached: POSE.iter().flat_map(|word| word.names).filter_map(|word| of(word)).collect(),
        pose: name.clone(),
    })
}

fn wrong(problem: &PoseProblem) -> Wrong {
    let PoseProblem { sentence, next, code, .. } = problem;
    Wrong { sentence: sentence.clone(), next: next.clone(), kind: code.name() }
}

fn setting(
    (name, setting): &(
        crate::finding::Placed<crate::library::SettingName>,
        crate::library::Setting,
    ),
    asked: &Asked,
) -> SettingShown {
    let usual = setting.usual.as_ref().map_or(setting.from, |usual| usual.value);
    let at = asked.settings.get(name.as_str()).copied().unwrap_or(usual.number());
    let range = (setting.from.number(), setting.to.number());
    SettingShown { name: name.as_str().to_string(), unit: setting.unit.symbol(), range, at }
}

fn traits(seen: &Seen) -> Vec<Offered> {
    let mut poses: Vec<AtSettings> = Vec::new();
    for (settings, posed) in seen.ends {
        let at = settings.iter().map(|(name, value)| (name.as_str(), *value)).collect();
        poses.extend(posed.figure.as_ref().map(|figure| (at, figure)));
    }
    offered(seen.library, seen.movement, seen.edits, &poses)
}

/// Movements that have a pose, by name.
fn like(seen: &Seen) -> Vec<(String, String)> {
    let others = seen.library.movements.values().filter(|other| other.figure.is_some());
    let named = |other: &Movement| (other.name.value.clone(), other.id.as_str().to_string());
    let mut like: Vec<(String, String)> = others.map(named).collect();
    like.sort();
    like
}

/// Words that a key pose may have, without the blocks for one side.
fn addable() -> Vec<(&'static str, &'static str, &'static str)> {
    let blocks = ["near", "far", "right", "left"];
    let words = POSE.iter().flat_map(|word| word.names.iter().map(|name| (word.group, *name)));
    words
        .filter(|(_, name)| !blocks.contains(name))
        .map(|(group, name)| (group, name, told(name)))
        .collect()
}
