//! What a page of the pose editor asks: words changed, a part drawn along, how it is looked at.
//! Only reads it and puts it into a text; no file, no path, no word that no pose knows.

use crate::library::reader::node::{Kind, Node};
use crate::library::reworded::{Left, reworded, tree, with_lines};
use crate::library::{Library, MovementId, TraitId};
use crate::mechanics::words::keypose::known_keys;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The most changes at once.
pub const MOST_EDITS: usize = 300;

/// What is asked.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Asked {
    /// The print of the file as the page read it; empty the first time.
    pub print: String,
    /// What is changed, in order.
    pub edits: Vec<Edit>,
    /// From where it is seen, where that is not the entry's own view.
    pub view: Option<String>,
    /// Settings that are not as usual, in their own unit.
    #[serde(default)]
    pub settings: BTreeMap<String, f64>,
    /// Stature, centimetres.
    pub stature: f64,
    /// A part that is drawn along.
    pub drag: Option<Drag>,
}

impl Asked {
    /// The same look at the file as it is now.
    pub fn looking(&self) -> Asked {
        Asked {
            print: String::new(),
            edits: Vec::new(),
            view: self.view.clone(),
            settings: self.settings.clone(),
            stature: self.stature,
            drag: None,
        }
    }
}

/// A part of the figure drawn to a point of the picture.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Drag {
    /// Number of the key pose, from 0.
    pub pose: usize,
    /// Which part: `near elbow`.
    pub part: String,
    /// Rightwards, centimetres of the picture.
    pub x: f64,
    /// Downwards.
    pub y: f64,
    /// Whether a new word is for both sides.
    pub both: bool,
}

/// One change of the text.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, tag = "what", rename_all = "kebab-case")]
pub enum Edit {
    /// A word of a key pose gets a value; with none it goes.
    Word {
        /// `start`, `end`, `between` or `between/1`.
        pose: String,
        /// `near`, `far`, or nothing for both.
        side: String,
        /// The word.
        word: String,
        /// Its value as a coach writes it.
        value: Option<String>,
    },
    /// The view that the file keeps.
    View {
        /// One of the views.
        value: String,
    },
    /// A trait at a level.
    Trait {
        /// Its id.
        id: String,
        /// 1 some, 2 a lot.
        level: u8,
    },
    /// The first pose of an entry that has none: standing, or as another movement.
    Begin {
        /// The id of that movement; empty for standing.
        like: String,
    },
}

const NO_WORD: Left = "No pose has such a word: take one of the list.";
const NO_TRAIT: Left = "The library knows no such trait: take one that is offered.";
const NO_ENTRY: Left = "That movement has no pose to begin with: take another one.";

/// A figure to begin with, where no other is wanted.
const STANDING: &str = "figure:\n  start: {feet: floor, trunk: upright, arms: sides}\n";

/// The text after all changes. `other` gives the text of another movement.
///
/// # Errors
/// Why a change was not made; none is then.
pub fn changed(
    text: &str,
    edits: &[Edit],
    library: &Library,
    other: impl Fn(&MovementId) -> Option<String>,
) -> Result<String, Left> {
    edits.iter().try_fold(text.to_string(), |text, edit| match edit {
        Edit::Word { pose, side, word, value } => {
            let way = way(&text, (pose, side, word))?;
            let way: Vec<&str> = way.iter().map(String::as_str).collect();
            reworded(&text, &way, value.as_deref())
        }
        Edit::View { value } => reworded(&text, &["figure", "view"], Some(value)),
        Edit::Trait { id, level } => {
            let known = library.words.traits.contains_key(&TraitId(id.clone()));
            let level = (known && (1..=2).contains(level)).then(|| level.to_string());
            reworded(&text, &["traits", id], Some(&level.ok_or(NO_TRAIT)?))
        }
        Edit::Begin { like } if like.is_empty() => with_lines(&text, STANDING),
        Edit::Begin { like } => {
            let model = other(&MovementId(like.clone())).ok_or(NO_ENTRY)?;
            with_lines(&text, &figure_of(&model).ok_or(NO_ENTRY)?)
        }
    })
}

/// Where a word stands, or will.
fn way(text: &str, (pose, side, word): (&str, &str, &str)) -> Result<Vec<String>, Left> {
    let is_pose = ["start", "end", "between"].contains(&pose.split('/').next().unwrap_or_default());
    let blocks = ["near", "far", "right", "left"];
    if !is_pose || !known_keys().contains(&word) || blocks.contains(&word) {
        return Err(NO_WORD);
    }
    let mut way = vec!["figure".to_string()];
    way.extend(pose.split('/').map(str::to_string));
    let names: &[&str] = match side {
        "" => &[],
        "near" => &["near", "right"],
        "far" => &["far", "left"],
        _ => return Err(NO_WORD),
    };
    // The word that the author has for that side already.
    let root = tree(text)?;
    let block = way.iter().try_fold(&root, |node, key| below(node, key));
    let own = names.iter().find(|name| block.is_some_and(|block| below(block, name).is_some()));
    way.extend(own.or(names.first()).map(|name| (*name).to_string()));
    way.push(word.to_string());
    Ok(way)
}

/// What stands below a key, or at a place of a list.
pub fn below<'n>(node: &'n Node, key: &str) -> Option<&'n Node> {
    match &node.kind {
        Kind::Map(entries) => {
            entries.iter().find(|(own, _)| own.value == key).map(|(_, node)| node)
        }
        Kind::List(items) => items.get(key.parse::<usize>().ok()?),
        _ => None,
    }
}

/// The lines of a movement's figure, without those around.
pub fn figure_of(text: &str) -> Option<String> {
    let root = tree(text).ok()?;
    let Kind::Map(entries) = &root.kind else { return None };
    let (key, value) = entries.iter().find(|(key, _)| key.value == "figure")?;
    let end = value.end_in(text);
    let end = end + text[end..].find('\n').unwrap_or(text.len() - end);
    Some(format!("{}\n", text[key.span.start as usize..end].replace("\r\n", "\n").trim_end()))
}
