//! Output: a finished site onto the disk, whole or not at all.
//! Never deletes what it did not write, never rewrites an unchanged file.
//!
//! A build makes the new site in a folder beside the old one, linking every unchanged file, and
//! then exchanges the two folders in one step (`renameat2` with `RENAME_EXCHANGE` on Linux; two
//! renames where the system has no exchange). Whoever opens the site meets the old one or the new
//! one, and a build that is killed leaves the old one in place.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use walkdir::WalkDir;

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
}

/// Why a site could not be written.
#[derive(Debug)]
pub enum OutputError {
    /// The folder holds files that no build of ours wrote.
    NotOurs(PathBuf),
    /// The place is a file, or holds the library.
    BadPlace(PathBuf, &'static str),
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
            OutputError::Disk(..) => {
                "free the disk or check that you may write there, then build again; the old site stands"
            }
        }
    }
}

/// Writes `files` (names below the folder, with `/`) as the site in `out`.
///
/// # Errors
/// When `out` is not ours to write, or the disk refuses; the old site then stands unchanged.
pub fn write(out: &Path, files: &BTreeMap<String, Vec<u8>>) -> Result<Written, OutputError> {
    // A link to the site's folder stays a link: what it points to is exchanged.
    let real = fs::canonicalize(out).unwrap_or_else(|_| out.to_path_buf());
    let out = real.as_path();
    let earlier = earlier_files(out)?;
    let written = compare(out, files, &earlier);
    if written.changed == 0 && written.removed == 0 && out.join(LIST).is_file() {
        return Ok(written);
    }
    let fresh = beside(out, "new");
    let result = make_fresh(out, &fresh, files, &earlier).and_then(|()| exchange(out, &fresh));
    if let Err(error) = result {
        // The half-made folder is ours alone; failing to remove it loses nothing.
        let _ = fs::remove_dir_all(&fresh);
        return Err(error);
    }
    Ok(written)
}

/// The files that an earlier build wrote; refuses a folder that is not ours.
fn earlier_files(out: &Path) -> Result<BTreeSet<String>, OutputError> {
    if !out.exists() {
        return Ok(BTreeSet::new());
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

fn compare(out: &Path, files: &BTreeMap<String, Vec<u8>>, earlier: &BTreeSet<String>) -> Written {
    let unchanged = files.iter().filter(|(name, bytes)| is_same(&out.join(name), bytes)).count();
    let removed = earlier.iter().filter(|name| !files.contains_key(*name)).count();
    Written { changed: files.len() - unchanged, unchanged, removed }
}

fn is_same(path: &Path, bytes: &[u8]) -> bool {
    let length_is_same =
        fs::symlink_metadata(path).is_ok_and(|m| m.is_file() && m.len() == bytes.len() as u64);
    length_is_same && fs::read(path).is_ok_and(|on_disk| on_disk == bytes)
}

/// `site` -> `.site.rungbook-new`, in the same folder so that renames stay on one disk.
fn beside(out: &Path, what: &str) -> PathBuf {
    let name = out.file_name().map_or_else(|| "site".into(), |n| n.to_string_lossy().into_owned());
    let parent = match out.parent() {
        Some(parent) if parent.as_os_str().is_empty() => Path::new("."),
        Some(parent) => parent,
        None => Path::new("."),
    };
    parent.join(format!(".{name}.rungbook-{what}"))
}

fn make_fresh(
    out: &Path,
    fresh: &Path,
    files: &BTreeMap<String, Vec<u8>>,
    earlier: &BTreeSet<String>,
) -> Result<(), OutputError> {
    if fresh.exists() {
        fs::remove_dir_all(fresh).map_err(|e| OutputError::Disk(fresh.into(), e))?;
    }
    fs::create_dir_all(fresh).map_err(|e| OutputError::Disk(fresh.into(), e))?;
    if out.exists() {
        carry_over(out, fresh, files, earlier)?;
    }
    let mut made = BTreeSet::new();
    for (name, bytes) in files {
        let (old, new) = (out.join(name), fresh.join(name));
        make_folder(&new, &mut made)?;
        if is_same(&old, bytes) && fs::hard_link(&old, &new).is_ok() {
            continue;
        }
        fs::write(&new, bytes).map_err(|e| OutputError::Disk(new, e))?;
    }
    let list: Vec<&str> =
        std::iter::once(LIST_HEAD).chain(files.keys().map(String::as_str)).collect();
    let path = fresh.join(LIST);
    fs::write(&path, list.join("\n") + "\n").map_err(|e| OutputError::Disk(path, e))
}

fn make_folder(file: &Path, made: &mut BTreeSet<PathBuf>) -> Result<(), OutputError> {
    let Some(parent) = file.parent() else { return Ok(()) };
    if made.insert(parent.to_path_buf()) {
        fs::create_dir_all(parent).map_err(|e| OutputError::Disk(parent.into(), e))?;
    }
    Ok(())
}

/// Everything in the old folder that no build of ours wrote goes along, linked or copied.
fn carry_over(
    out: &Path,
    fresh: &Path,
    files: &BTreeMap<String, Vec<u8>>,
    earlier: &BTreeSet<String>,
) -> Result<(), OutputError> {
    let disk = |path: &Path| {
        let path = path.to_path_buf();
        move |error: io::Error| OutputError::Disk(path, error)
    };
    for entry in WalkDir::new(out).min_depth(1) {
        let entry = entry.map_err(|e| OutputError::Disk(out.into(), e.into()))?;
        let below = entry.path().strip_prefix(out).unwrap_or(entry.path());
        let name = below.to_string_lossy().replace('\\', "/");
        if name == LIST || earlier.contains(&name) || files.contains_key(&name) {
            continue;
        }
        let new = fresh.join(below);
        if entry.file_type().is_dir() {
            let holds_others = !earlier.iter().any(|f| f.starts_with(&format!("{name}/")));
            if holds_others {
                fs::create_dir_all(&new).map_err(disk(&new))?;
            }
            continue;
        }
        if let Some(parent) = new.parent() {
            fs::create_dir_all(parent).map_err(disk(parent))?;
        }
        carry_one(entry.path(), &new, entry.path_is_symlink()).map_err(disk(&new))?;
    }
    Ok(())
}

fn carry_one(old: &Path, new: &Path, is_link: bool) -> io::Result<()> {
    #[cfg(unix)]
    if is_link {
        return std::os::unix::fs::symlink(fs::read_link(old)?, new);
    }
    let _ = is_link;
    fs::hard_link(old, new).or_else(|_| fs::copy(old, new).map(|_| ()))
}

/// Puts `fresh` in the place of `out` in one step and removes what was there.
fn exchange(out: &Path, fresh: &Path) -> Result<(), OutputError> {
    let disk = |error| OutputError::Disk(out.into(), error);
    if !out.exists() {
        return fs::rename(fresh, out).map_err(disk);
    }
    if swap_folders(out, fresh).is_ok() {
        rescue_newcomers(fresh, out);
        // The old site is now in `fresh`: everything in it is ours or linked into the new one.
        let _ = fs::remove_dir_all(fresh);
        return Ok(());
    }
    let old = beside(out, "old");
    if old.exists() {
        fs::remove_dir_all(&old).map_err(disk)?;
    }
    fs::rename(out, &old).map_err(disk)?;
    if let Err(error) = fs::rename(fresh, out) {
        // Put the old site back; if even that fails the first error is the one to tell.
        let _ = fs::rename(&old, out);
        return Err(disk(error));
    }
    rescue_newcomers(&old, out);
    let _ = fs::remove_dir_all(&old);
    Ok(())
}

#[cfg(target_os = "linux")]
fn swap_folders(a: &Path, b: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, a, CWD, b, RenameFlags::EXCHANGE)?)
}

#[cfg(not(target_os = "linux"))]
fn swap_folders(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

/// A file that somebody put into the old folder while the new one was made moves along.
fn rescue_newcomers(old: &Path, new: &Path) {
    let list = fs::read_to_string(old.join(LIST)).unwrap_or_default();
    let ours: BTreeSet<&str> = list.lines().skip(1).chain([LIST]).collect();
    for entry in WalkDir::new(old).min_depth(1).into_iter().flatten() {
        let below = entry.path().strip_prefix(old).unwrap_or(entry.path());
        let name = below.to_string_lossy().replace('\\', "/");
        let target = new.join(below);
        if entry.file_type().is_dir() || ours.contains(name.as_str()) || target.exists() {
            continue;
        }
        if let Some(parent) = target.parent() {
            let _ = fs::create_dir_all(parent);
        }
        let _ = fs::rename(entry.path(), target);
    }
}
