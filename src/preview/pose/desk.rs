//! The desk of the pose editor: an entry is taken from its file, changed and solved; what was written
//! can be taken back. Never keeps more than the last few writes, nor a library older than its files.

use super::asked::{Asked, Edit, MOST_EDITS, below, changed};
use super::file::{self, Refused};
use super::shown::{STATURES, Seen, Shown, shown};
use crate::figure::camera::spot;
use crate::figure::dragged::dragged;
use crate::gym::{Posed, posed};
use crate::kept::Kept;
use crate::library::reader::{self, node::Node};
use crate::library::reworded::tree;
use crate::library::{Library, Movement, MovementId, Quantity};
use crate::mechanics::joints::Side;
use crate::mechanics::solve::Person;
use crate::mechanics::words::recipe::view_named;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Why nothing comes back: the sentence for the page.
pub enum No {
    /// It is not as the page has it.
    Changed(String),
    /// It cannot be done.
    Cannot(String),
}

impl From<Refused> for No {
    fn from(refused: Refused) -> No {
        match refused {
            Refused::Changed => No::Changed(refused.sentence()),
            other => No::Cannot(other.sentence()),
        }
    }
}

impl From<&'static str> for No {
    fn from(sentence: &'static str) -> No {
        No::Cannot(sentence.to_string())
    }
}

/// What was written, so that it can be taken back.
struct Written {
    id: MovementId,
    before: String,
    /// The print of what was written.
    now: String,
}

/// How many writes can be taken back: each keeps a text.
const MOST_KEPT: usize = 20;

/// The desk.
pub struct Desk {
    folder: PathBuf,
    library: Option<Arc<Library>>,
    written: Vec<Written>,
}

/// An entry as its file has it.
struct Entry {
    library: Arc<Library>,
    file: PathBuf,
    text: String,
    print: String,
}

const GONE: &str = "This movement is not in the library any more. Go back to the list of poses.";
const NOT_READ: &str =
    "The library's folder is gone. Put it back, and press \"Read the file again\".";

impl Desk {
    /// For the library in `folder`.
    pub fn new(folder: PathBuf) -> Desk {
        Desk { folder, library: None, written: Vec::new() }
    }

    /// Every movement: its id, its name, and whether it has a pose.
    ///
    /// # Errors
    /// The folder is gone.
    pub fn movements(&mut self) -> Result<Vec<(MovementId, String, bool)>, No> {
        let library = self.read_anew()?;
        let one = |movement: &Movement| {
            (movement.id.clone(), movement.name.value.clone(), movement.figure.is_some())
        };
        Ok(library.movements.values().map(one).collect())
    }

    /// How an entry stands after what is asked.
    ///
    /// # Errors
    /// See [`No`].
    pub fn look(&mut self, id: &MovementId, asked: &Asked) -> Result<Shown, No> {
        let entry = self.entry(id)?;
        entry.is_as_read(&asked.print)?;
        let mut edits = asked.edits.clone();
        let mut text = self.text_after(&entry, &edits)?;
        let mut drawn = None;
        if let Some(edit) = self.drawn_along(&entry, id, &text, asked)? {
            edits.push(edit.clone());
            text = self.text_after(&entry, &edits)?;
            drawn = Some(edit);
        }
        let undo =
            self.written.last().is_some_and(|last| last.id == *id && last.now == entry.print);
        let movement = movement(&entry.library, id, &text)?;
        let root = tree(&text)?;
        let posed = solved(&movement, asked);
        let ends = ends(&movement, asked);
        let seen = Seen {
            library: &entry.library,
            movement: &movement,
            figure: below(&root, "figure"),
            posed: posed.as_ref(),
            ends: &ends,
            edits: &edits,
        };
        let mut shown = shown(&seen, asked, &text);
        let file = entry.file.strip_prefix(&self.folder).unwrap_or(&entry.file);
        let file = file.to_string_lossy().replace('\\', "/");
        shown.changed = text != entry.text;
        (shown.print, shown.file, shown.undo, shown.drawn) = (entry.print, file, undo, drawn);
        Ok(shown)
    }

    /// Writes what is asked into the entry's file, and says how it stands then.
    ///
    /// # Errors
    /// See [`No`]; then nothing was written.
    pub fn write(&mut self, id: &MovementId, asked: &Asked) -> Result<Shown, No> {
        let entry = self.entry(id)?;
        entry.is_as_read(&asked.print)?;
        // A look may come before anything was read, a change may not.
        if asked.print.is_empty() {
            return Err(No::from(Refused::Changed));
        }
        let text = self.text_after(&entry, &asked.edits)?;
        self.put(id, &entry, text)?;
        self.look(id, &asked.looking())
    }

    fn put(&mut self, id: &MovementId, entry: &Entry, text: String) -> Result<(), No> {
        if text == entry.text {
            return Ok(());
        }
        file::replace(&self.folder, &entry.file, &entry.print, &text)?;
        self.written.push(Written {
            id: id.clone(),
            before: entry.text.clone(),
            now: file::print(&text),
        });
        if self.written.len() > MOST_KEPT {
            self.written.remove(0);
        }
        Ok(())
    }

    /// Takes the last write back, where the file is still as it left it.
    ///
    /// # Errors
    /// See [`No`]; then nothing was written.
    pub fn undo(&mut self, id: &MovementId, asked: &Asked) -> Result<Shown, No> {
        let entry = self.entry(id)?;
        entry.is_as_read(&asked.print)?;
        let last = self.written.last().filter(|last| last.id == *id && last.now == entry.print);
        let last = last.ok_or(No::Changed(Refused::Changed.sentence()))?;
        file::replace(&self.folder, &entry.file, &entry.print, &last.before)?;
        self.written.pop();
        self.look(id, &asked.looking())
    }

    fn read_anew(&mut self) -> Result<Arc<Library>, No> {
        let read = reader::read(&self.folder).map_err(|_| No::from(NOT_READ))?;
        let library = Arc::new(read);
        self.library = Some(Arc::clone(&library));
        Ok(library)
    }

    /// The entry, with a library that has read its file as it is now.
    fn entry(&mut self, id: &MovementId) -> Result<Entry, No> {
        let library = match self.library.clone() {
            Some(library) => library,
            None => self.read_anew()?,
        };
        let file = path(&self.folder, &library, id).ok_or(No::from(GONE))?;
        let text = file::read(&self.folder, &file)?;
        let known = |library: &Library| {
            let movement = library.movements.get(id);
            movement.is_some_and(|movement| library.sources.text(movement.file.file) == text)
        };
        let library = if known(&library) { library } else { self.read_anew()? };
        let print = file::print(&text);
        Ok(Entry { library, file, text, print })
    }

    fn text_after(&self, entry: &Entry, edits: &[Edit]) -> Result<String, No> {
        if edits.len() > MOST_EDITS {
            return Err(No::from(
                "These are too many changes at once: write them into the file first.",
            ));
        }
        let other = |id: &MovementId| {
            let movement = entry.library.movements.get(id)?;
            Some(entry.library.sources.text(movement.file.file).to_string())
        };
        Ok(changed(&entry.text, edits, &entry.library, other)?)
    }

    /// The change that draws a part along.
    fn drawn_along(
        &self,
        entry: &Entry,
        id: &MovementId,
        text: &str,
        asked: &Asked,
    ) -> Result<Option<Edit>, No> {
        let Some(drag) = &asked.drag else { return Ok(None) };
        let movement = movement(&entry.library, id, text)?;
        let Some(mut figure) = solved(&movement, asked).and_then(|posed| posed.figure) else {
            return Ok(None);
        };
        if let Some(view) = asked.view.as_deref().and_then(view_named) {
            figure.recipe.view = view;
        }
        let root = tree(text)?;
        let poses = super::shown::poses_of(below(&root, "figure"));
        let Some((pose, block)) = poses.get(drag.pose) else { return Ok(None) };
        let names =
            |side: Side| if side == Side::Near { ["near", "right"] } else { ["far", "left"] };
        let of_side = |word: &str, side: Side| {
            names(side)
                .iter()
                .any(|name| below(block, name).is_some_and(|own| below(own, word).is_some()))
        };
        let says = |word: &str, side: Option<Side>| {
            below(block, word).is_some() || side.is_some_and(|side| of_side(word, side))
        };
        let to = (drag.part.as_str(), spot(drag.x, drag.y));
        let Some(worded) = dragged(&figure, drag.pose, to, says) else { return Ok(None) };
        let side = match worded.side {
            Some(side) if of_side(worded.word, side) => side.word(),
            Some(_) if below(block, worded.word).is_some() || drag.both => "",
            Some(side) => side.word(),
            None => "",
        };
        Ok(Some(Edit::Word {
            pose: pose.clone(),
            side: side.to_string(),
            word: worded.word.to_string(),
            value: Some(format!("{}", worded.number + 0.0)),
        }))
    }
}

impl Entry {
    /// Whether it is what the page read; the first time a page has read nothing yet.
    fn is_as_read(&self, print: &str) -> Result<(), No> {
        match print.is_empty() || print == self.print {
            true => Ok(()),
            false => Err(No::from(Refused::Changed)),
        }
    }
}

/// The file of a movement: its folder and its id, as they were read.
fn path(folder: &Path, library: &Library, id: &MovementId) -> Option<PathBuf> {
    let movement = library.movements.get(id)?;
    let parts = movement.folder.split('/').filter(|part| !part.is_empty());
    let below = parts.fold(folder.join("movements"), |to, part| to.join(part));
    Some(below.join(format!("{}.md", id.as_str())))
}

/// The movement with the figure that a text has.
fn movement(library: &Library, id: &MovementId, text: &str) -> Result<Movement, No> {
    let mut movement = library.movements.get(id).cloned().ok_or(No::from(GONE))?;
    let root: Node = tree(text)?;
    movement.figure = below(&root, "figure").cloned();
    Ok(movement)
}

/// Solved at the settings and for the stature that are asked for.
fn solved(movement: &Movement, asked: &Asked) -> Option<Posed> {
    let at = at(movement, asked);
    posed(movement, &at, &person(asked))
}

/// The settings that are not as usual, within their range.
fn at<'m>(movement: &'m Movement, asked: &Asked) -> Vec<(&'m str, Quantity)> {
    let one = |(name, value): (&String, &f64)| {
        let (name, setting) = movement.settings.iter().find(|(own, _)| own.as_str() == name)?;
        let (from, to) = (setting.from.number(), setting.to.number());
        let value = value.clamp(from.min(to), to.max(from));
        Some((name.as_str(), Quantity::new(value, setting.unit)))
    };
    asked.settings.iter().filter_map(one).collect()
}

fn person(asked: &Asked) -> Person {
    let stature = if asked.stature.is_finite() { asked.stature } else { 172.0 };
    Person { stature: stature.clamp(STATURES.0, STATURES.1) / 100.0, ..Person::default() }
}

/// The pose at its usual settings and at both ends of each; none while something is drawn along.
fn ends(movement: &Movement, asked: &Asked) -> Vec<(Vec<(String, Quantity)>, Posed)> {
    if asked.drag.is_some() {
        return Vec::new();
    }
    let usual = posed(movement, &[], &Person::default()).map(|posed| (Vec::new(), posed));
    let ends = crate::gym::at_ends(movement, &Kept::default());
    let ends =
        ends.into_iter().map(|end| (vec![(end.at.0.as_str().to_string(), end.at.1)], end.posed));
    usual.into_iter().chain(ends).collect()
}
