//! Several files of a library changed together. All new texts are written beside their places first and
//! onto the disk; then a list of them is written, and from there on the change is made: file by file,
//! and where it was cut off, the next command that writes finishes it.
//! Never writes over a file that changed since it was read, nor over one that stands where a new one
//! should; never touches a file outside the library.

use super::private_file;
use super::say::{self, Trouble};
use crate::turn::{Turn, beside};
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

/// A file below the library that changes.
#[derive(Debug)]
pub struct Change {
    /// Its path below the library.
    pub path: PathBuf,
    /// Its text as it was read; nothing for a file that is new.
    pub old: Option<String>,
    /// Its text afterwards; nothing for one that goes.
    pub new: Option<String>,
}

/// The turn to write in a library. Nobody else writes there until it is dropped.
pub struct Writing {
    library: PathBuf,
    _turn: Turn,
}

/// The list of a change that has begun, beside `club.yaml`; nothing reads what starts with a dot.
const LIST: &str = ".rungbook-change";

/// Whether a change of this library was cut off.
pub fn is_open(library: &Path) -> bool {
    library.join(LIST).is_file()
}

/// Says to who only reads that the library is between two states.
pub fn tell_if_open(library: &Path) {
    if is_open(library) {
        say::tell("a change of several files was cut off: `rungbook tidy --check` finishes it\n");
    }
}

impl Writing {
    /// Takes the turn, and finishes what a command that was killed had begun.
    ///
    /// # Errors
    /// A folder that is not open to us.
    pub fn begin(library: &Path) -> Result<Writing, Trouble> {
        let library = private_file::real(library);
        let turn = private_file::turn(&library).map_err(|error| unwritten(&library, &error))?;
        let writing = Writing { library, _turn: turn };
        if is_open(&writing.library) {
            writing.finish()?;
            say::tell("a change of several files had been cut off; it is finished now\n");
        }
        Ok(writing)
    }

    /// Makes all of the changes, or none.
    ///
    /// # Errors
    /// What the disk says. Before the list is written nothing has changed; afterwards the next command
    /// that writes goes on, and the sentence says so.
    pub fn make(&self, changes: &[Change]) -> Result<(), Trouble> {
        if changes.is_empty() {
            return Ok(());
        }
        changes.iter().try_for_each(|change| self.is_as_read(change))?;
        let written = changes.iter().try_for_each(|change| self.aside(change));
        let listed = written.and_then(|()| self.list(changes));
        listed.inspect_err(|_| {
            changes.iter().for_each(|change| drop(fs::remove_file(new_beside(&self.at(change)))));
        })?;
        self.finish()
    }

    fn at(&self, change: &Change) -> PathBuf {
        private_file::real(&self.library.join(&change.path))
    }

    /// What is read is what is changed.
    fn is_as_read(&self, change: &Change) -> Result<(), Trouble> {
        let file = self.library.join(&change.path);
        let now = fs::read(&file).ok();
        let shown = say::shown(&change.path);
        match (&change.old, now) {
            (Some(old), Some(now)) if old.as_bytes() == now => Ok(()),
            (None, None) => Ok(()),
            (None, Some(_)) => Err(Trouble::new(
                format!("`{shown}` is there already; nothing was written"),
                "choose another name, or move that file away",
            )),
            _ => Err(Trouble::new(
                format!("`{shown}` has changed since it was read; nothing was written"),
                "run the command again",
            )),
        }
    }

    fn aside(&self, change: &Change) -> Result<(), Trouble> {
        let Some(text) = &change.new else { return Ok(()) };
        let file = self.at(change);
        let new = new_beside(&file);
        let _ = fs::remove_file(&new);
        let folder = file.parent().unwrap_or(&self.library);
        let written = fs::create_dir_all(folder).and_then(|()| onto_disk(&new, &file, text));
        written.map_err(|error| unwritten(&change.path, &error))
    }

    fn list(&self, changes: &[Change]) -> Result<(), Trouble> {
        let line = |change: &Change| {
            let what = if change.new.is_some() { "put" } else { "gone" };
            format!("{what} {}\n", change.path.to_string_lossy().replace('\\', "/"))
        };
        let text: String = changes.iter().map(line).collect();
        let list = self.library.join(LIST);
        private_file::write(&list, &text).map_err(|error| unwritten(&list, &error))
    }

    /// Puts in place what the list names. What is in place already is passed over.
    fn finish(&self) -> Result<(), Trouble> {
        let list = self.library.join(LIST);
        let text = fs::read_to_string(&list).map_err(|error| unwritten(&list, &error))?;
        let put = |line: &str| -> io::Result<()> {
            let Some((what, path)) = line.split_once(' ') else { return Ok(()) };
            let Some(file) = self.below(path) else { return Ok(()) };
            let new = new_beside(&file);
            match what {
                "put" if new.is_file() => fs::rename(new, &file),
                "gone" if file.is_file() => fs::remove_file(&file),
                _ => Ok(()),
            }
        };
        text.lines().try_for_each(put).map_err(|error| {
            let sentence = format!("a change of several files was cut off: {error}");
            let help = "see that the disk has room and that you may write in the library; then \
                        `rungbook tidy --check` goes on with it";
            Trouble::new(sentence, help)
        })?;
        fs::remove_file(&list).map_err(|error| unwritten(&list, &error))
    }

    /// The file at a path below the library; nothing for one that leads out of it.
    fn below(&self, path: &str) -> Option<PathBuf> {
        let plain = Path::new(path).components().all(|part| matches!(part, Component::Normal(_)));
        let file = private_file::real(&self.library.join(path));
        (plain && file.starts_with(&self.library)).then_some(file)
    }
}

fn new_beside(file: &Path) -> PathBuf {
    beside(file, "new")
}

/// Writes a text and waits until the disk has it; it may be read and written by whom the old one was.
fn onto_disk(new: &Path, old: &Path, text: &str) -> io::Result<()> {
    use std::io::Write;
    let mut file = fs::File::options().write(true).create_new(true).open(new)?;
    file.write_all(text.as_bytes())?;
    if let Ok(known) = fs::metadata(old) {
        file.set_permissions(known.permissions())?;
    }
    file.sync_all()
}

fn unwritten(path: &Path, error: &io::Error) -> Trouble {
    let sentence = format!("`{}` could not be written: {error}", say::shown(path));
    Trouble::new(sentence, "check that you may write there and that the disk has room")
}
