//! The file of a board: where it may stand, and that it is whole.
//! Never inside a site, a library or a theme, and never over a file that is not a board.

use super::private_file::{self, real};
use super::say::{self, Trouble};
use crate::board::Copy;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// Marks stand in a file's head: nothing beyond this is looked at.
const HEAD: u64 = 4096;

/// Writes a board; only its owner may read it.
///
/// # Errors
/// Where it may not stand, and what the disk says.
pub fn write(file: &Path, page: &str, copy: Copy) -> Result<(), Trouble> {
    let place = allowed(file)?;
    let unwritable = |error: io::Error| {
        let sentence = format!("the board `{}` could not be written: {error}", say::shown(file));
        Trouble::new(sentence, "check that you may write there and that the disk has room")
    };
    let _turn = private_file::turn(&place).map_err(unwritable)?;
    // Looked at in turn: what stands there now is what would be written over.
    may_be_replaced(file, &place, copy)?;
    private_file::write(&place, page).map_err(unwritable)
}

fn refused<T>(file: &Path, why: &str, help: &str) -> Result<T, Trouble> {
    Err(Trouble::new(format!("`{}` {why}", say::shown(file)), help.to_string()))
}

/// The real place of a file that may stand there.
fn allowed(file: &Path) -> Result<PathBuf, Trouble> {
    if file.extension().is_none_or(|ending| ending != "html") {
        return refused(file, "is no name for a board", "name it such as `--out board.html`");
    }
    let place = real(file);
    let folder = match place.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let (Ok(folder), Some(name)) = (fs::canonicalize(folder), place.file_name()) else {
        return refused(file, "stands in a folder that is not there", "make the folder first");
    };
    if let Some(what) = folder.ancestors().find_map(kept_clean) {
        let why = format!("is inside {what}: a board is private and belongs to no site");
        return refused(file, &why, "name a place of your own, such as `--out ../board.html`");
    }
    Ok(folder.join(name))
}

/// Only a board of the same copy is written over: the coach's reasons must not come to hang on the wall
/// under the wall's name, nor the wall's board take their place.
fn may_be_replaced(file: &Path, place: &Path, copy: Copy) -> Result<(), Trouble> {
    let mut head = Vec::new();
    match File::open(place).and_then(|there| there.take(HEAD).read_to_end(&mut head)) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
        Err(_) => head.clear(),
        Ok(_) => {}
    }
    let head = String::from_utf8_lossy(&head);
    let is = |copy: Copy| head.starts_with("<!doctype html>") && head.contains(copy.mark());
    match copy {
        copy if is(copy) => Ok(()),
        Copy::Coach if is(Copy::Wall) => refused(
            file,
            "is the board for the class, and the coach's copy says why",
            "name another file for it, such as `--why --out coach.html`",
        ),
        Copy::Wall if is(Copy::Coach) => refused(
            file,
            "is the coach's copy, and this is the board for the class",
            "name another file for it, such as `--out board.html`",
        ),
        _ => refused(file, "is there and is no board", "name another file, or move that one away"),
    }
}

/// What a folder is, where no board may stand in it or below it.
fn kept_clean(folder: &Path) -> Option<&'static str> {
    let has = |name: &str| folder.join(name).exists();
    let beside = folder.file_name().zip(folder.parent()).is_some_and(|(name, parent)| {
        parent.join(format!(".{}.rungbook-kept", name.to_string_lossy())).exists()
    });
    // Where a build writes if nothing else is said, before there is anything in it.
    let usual = fs::canonicalize("site").is_ok_and(|site| site == folder);
    match () {
        () if has("club.yaml") => Some("a library"),
        () if usual || beside || (has("index.html") && has("data") && has("cards")) => {
            Some("a site")
        }
        () if has("templates") && (has("styles") || has("scripts")) => Some("a theme"),
        () => None,
    }
}
