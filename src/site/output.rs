//! Output: a finished site onto the disk, whole or not at all.
//! Never deletes what it did not write, never rewrites an unchanged file.
//!
//! A build takes its turn at the place, writes what is new or changed into a folder beside the old site
//! as it is made (`output/writing.rs`), links the rest, and then puts it in the old one's place
//! (`output/exchange.rs`). Stamps tell what is as it was without reading it (`output/stamps.rs`). Whoever
//! opens the site meets the old one or the new one, and a build that is killed leaves the old one in place.

mod exchange;
mod stamps;
mod writing;

pub use stamps::{MadeFrom, Report};
pub use writing::Writing;

use crate::kept::{Kept, Print};
use crate::turn::{Turn, beside};
use exchange::tidy;
use rayon::prelude::*;
use stamps::{Mark, Stamp, Stamps};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use writing::pages;

/// The list of files that a build wrote; its presence makes a folder ours.
const LIST: &str = ".rungbook";
const LIST_HEAD: &str = "# Files that `rungbook build` wrote here. It removes only these.";

/// What a build did on disk.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Written {
    /// Files that are new or changed.
    pub changed: usize,
    /// Files left as they were.
    pub unchanged: usize,
    /// Files of an earlier build that are gone.
    pub removed: usize,
    /// How many of the files are pages.
    pub pages: usize,
}

/// Why a site could not be written.
#[derive(Debug)]
pub enum OutputError {
    /// The folder holds files that no build of ours wrote.
    NotOurs(PathBuf),
    /// The place is a file, or holds the library.
    BadPlace(PathBuf, &'static str),
    /// A folder inside the site is a link: what is written there would land elsewhere.
    Linked(PathBuf),
    /// A file of somebody else's could not be taken along into the new site.
    Left(PathBuf, io::Error),
    /// Two pages, or other files, have one name: one would be written over.
    Twice(String),
    /// The disk refused.
    Disk(PathBuf, io::Error),
}

impl fmt::Display for OutputError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            OutputError::NotOurs(dir) => {
                write!(f, "`{}` holds files that Rungbook did not write", dir.display())
            }
            OutputError::BadPlace(dir, why) => write!(f, "`{}` {why}", dir.display()),
            OutputError::Linked(path) => {
                let why = "is a link: what it leads to would be written over";
                write!(f, "`{}` {why}", path.display())
            }
            OutputError::Left(path, error) => {
                let why = "could not be taken along into the new site";
                write!(f, "`{}` {why}: {error}", path.display())
            }
            OutputError::Twice(name) => write!(f, "two files of the site are called `{name}`"),
            OutputError::Disk(path, error) => {
                write!(f, "`{}` could not be written: {error}", path.display())
            }
        }
    }
}

impl std::error::Error for OutputError {}

impl OutputError {
    /// One next step.
    pub fn help(&self) -> &'static str {
        match self {
            OutputError::NotOurs(_) | OutputError::BadPlace(..) => {
                "choose an empty folder with --out DIR; nothing was written"
            }
            OutputError::Linked(_) => {
                "put a folder in the link's place, or choose an empty one with --out DIR; \
                 nothing was written"
            }
            OutputError::Twice(_) => {
                "rename an entry whose page or file that is, or a file of your theme; nothing was written"
            }
            OutputError::Left(..) => "move it into the site yourself, then build again",
            OutputError::Disk(_, error) if is_mount(error) => {
                "choose a folder inside that disk with --out DIR: the folder by which it is \
                 reached cannot change places; nothing was written"
            }
            OutputError::Disk(..) => {
                "free the disk or check that you may write there, then build again; the old site stands"
            }
        }
    }
}

/// The folder by which a disk is reached can be neither renamed nor exchanged.
fn is_mount(error: &io::Error) -> bool {
    matches!(error.kind(), io::ErrorKind::ResourceBusy | io::ErrorKind::CrossesDevices)
}

/// The place of a site while it is ours alone to write, until it is dropped.
#[derive(Debug)]
pub struct Place {
    out: PathBuf,
    /// Folders above it that were not there, the outermost first.
    made: Vec<PathBuf>,
    turn: Option<Turn>,
}

impl Place {
    /// Takes the turn at `out`. Where another build is at work, `waiting` hears the number of its
    /// process, and this one waits. What a killed build left is tidied first.
    ///
    /// # Errors
    /// When the place is not ours to write, or the disk refuses.
    pub fn take(out: &Path, waiting: impl FnOnce(Option<u32>)) -> Result<Place, OutputError> {
        // A link to the site's folder stays a link: what it points to is exchanged.
        let out = fs::canonicalize(out).unwrap_or_else(|_| out.to_path_buf());
        let above = out.ancestors().skip(1).filter(|folder| !folder.as_os_str().is_empty());
        let missing = above.take_while(|folder| !folder.exists()).map(Path::to_path_buf);
        let mut made: Vec<PathBuf> = missing.collect();
        made.reverse();
        let mut place = Place { out, made, turn: None };
        if let Some(folder) = place.made.last() {
            fs::create_dir_all(folder).map_err(|e| OutputError::Disk(folder.clone(), e))?;
        }
        let turn = Turn::take(&place.out, waiting);
        place.turn = Some(turn.map_err(|e| OutputError::Disk(beside(&place.out, "lock"), e))?);
        let kept = beside(&place.out, "kept");
        if fs::symlink_metadata(&kept).is_ok_and(|facts| facts.is_symlink()) {
            return Err(OutputError::Linked(kept));
        }
        tidy(&place.out)?;
        // Said before anything is read and rendered in vain.
        earlier_files(&place.out)?;
        Ok(place)
    }

    /// What builds of this site keep from one to the next, beside it. It may be deleted at any time.
    pub fn kept(&self) -> Kept {
        Kept::in_folder(&beside(&self.out, "kept"))
    }

    /// What stands at the place, and what was said of it, when it was made from the inputs of this print
    /// and nobody has touched it since.
    pub fn unchanged(&self, from: Print) -> Option<(Report, Written)> {
        let stamps = Stamps::read(&self.stamps());
        let made = stamps.from.filter(|made| made.print == from)?;
        let listed = earlier_files(&self.out).ok()?;
        let is_there = |(name, stamp): (&String, &Stamp)| {
            listed.contains(name) && Mark::of(&self.out.join(name)) == Some(stamp.mark)
        };
        let all = listed.len() == stamps.files.len() && stamps.files.par_iter().all(is_there);
        let (unchanged, pages) = (stamps.files.len(), pages(stamps.files.keys()));
        all.then_some((made.report, Written { unchanged, pages, ..Written::default() }))
    }

    /// Begins to write a site.
    ///
    /// # Errors
    /// When the place is not ours to write.
    pub fn begin(&self) -> Result<Writing<'_>, OutputError> {
        Writing::new(&self.out, &self.stamps())
    }

    /// Ends it: the new site is in the old one's place. `from` is what it was made from.
    ///
    /// # Errors
    /// When the disk refuses; the old site then stands unchanged.
    pub fn finish(&self, writing: Writing<'_>, from: MadeFrom) -> Result<Written, OutputError> {
        writing.finish(from, &self.stamps())
    }

    fn stamps(&self) -> PathBuf {
        beside(&self.out, "kept").join("stamps")
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        self.turn = None;
        // Only what is empty goes: a build that was refused leaves no folder behind.
        self.made.iter().rev().for_each(|folder| drop(fs::remove_dir(folder)));
    }
}

/// Everything in the new site is on the disk before it takes the old one's place: after a power cut
/// there is one of the two. One call for all files, because one for each takes seconds.
fn sync(fresh: &Path) -> Result<(), OutputError> {
    #[cfg(target_os = "linux")]
    fs::File::open(fresh)
        .and_then(|folder| Ok(rustix::fs::syncfs(folder)?))
        .map_err(|error| OutputError::Disk(fresh.into(), error))?;
    let _ = fresh;
    Ok(())
}

/// The files that an earlier build wrote; refuses a folder that is not ours.
fn earlier_files(out: &Path) -> Result<BTreeSet<String>, OutputError> {
    if !out.exists() {
        return match fs::symlink_metadata(out) {
            Ok(_) => Err(OutputError::BadPlace(out.into(), "is a link that leads nowhere")),
            Err(_) => Ok(BTreeSet::new()),
        };
    }
    if !out.is_dir() {
        return Err(OutputError::BadPlace(out.into(), "is a file, not a folder"));
    }
    match fs::read_to_string(out.join(LIST)) {
        Ok(list) => Ok(list.lines().skip(1).map(str::to_string).filter(|l| is_plain(l)).collect()),
        Err(_) => {
            let entries = fs::read_dir(out).map_err(|e| OutputError::Disk(out.into(), e))?;
            let hidden =
                |entry: &fs::DirEntry| entry.file_name().to_string_lossy().starts_with('.');
            match entries.flatten().all(|entry| hidden(&entry)) {
                true => Ok(BTreeSet::new()),
                false => Err(OutputError::NotOurs(out.into())),
            }
        }
    }
}

/// A list edited by hand must not make us touch files outside the folder.
fn is_plain(name: &str) -> bool {
    !name.is_empty() && !name.starts_with('/') && name.split('/').all(|part| part != "..")
}

/// A folder of the site that is a link leads to files of somebody else.
fn refuse_links<T>(out: &Path, files: &BTreeMap<String, T>) -> Result<(), OutputError> {
    let mut folders: BTreeSet<&Path> = BTreeSet::new();
    for name in files.keys() {
        let above = Path::new(name).ancestors().skip(1);
        // What is known has all its own above it.
        for folder in above.take_while(|above| !above.as_os_str().is_empty()) {
            if !folders.insert(folder) {
                break;
            }
        }
    }
    let is_link = |path: &PathBuf| fs::symlink_metadata(path).is_ok_and(|m| m.is_symlink());
    let linked = folders.into_iter().map(|folder| out.join(folder)).find(is_link);
    linked.map_or(Ok(()), |path| Err(OutputError::Linked(path)))
}
