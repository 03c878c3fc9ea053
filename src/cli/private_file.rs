//! A file for its owner's eyes: written beside its place first and onto the disk, then there in one step.
//! Never half a file, and never readable by others unless the one that stood there was.

use super::say;
use crate::turn::{Turn, beside};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Writes a file whole or not at all. Whoever calls this has the turn at that place.
///
/// # Errors
/// What the disk says; then the old file stands.
pub fn write(file: &Path, text: &str) -> io::Result<()> {
    let new = beside(file, "new");
    // A command that was killed has left it.
    let _ = fs::remove_file(&new);
    let written = write_new(&new, text, file).and_then(|()| fs::rename(&new, file));
    written.inspect_err(|_| drop(fs::remove_file(&new)))?;
    // The file is whole in any case; that the new one has its name lasts from here on.
    #[cfg(unix)]
    let _ = new.parent().map(|folder| fs::File::open(folder).and_then(|f| f.sync_all()));
    Ok(())
}

/// The turn at a file; nobody else writes there meanwhile. Waits for it, and says so.
///
/// # Errors
/// What the disk says.
pub fn turn(file: &Path) -> io::Result<Turn> {
    let waiting = |process: Option<u32>| {
        let who = process.map_or(String::new(), |id| format!(" (process {id})"));
        let file = say::shown(Path::new(file.file_name().unwrap_or(file.as_os_str())));
        say::tell(format!("another command{who} writes `{file}`: waiting for its end\n"));
    };
    Turn::take(file, waiting)
}

/// The file that a link leads to is written, not the link.
pub fn real(file: &Path) -> PathBuf {
    fs::canonicalize(file).unwrap_or_else(|_| file.to_path_buf())
}

/// Writes the new text under another name; only its owner may read a new file.
fn write_new(new: &Path, text: &str, old: &Path) -> io::Result<()> {
    let mut options = fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(new)?;
    file.write_all(text.as_bytes())?;
    if let Ok(known) = fs::metadata(old) {
        file.set_permissions(known.permissions())?;
    }
    file.sync_all()
}
