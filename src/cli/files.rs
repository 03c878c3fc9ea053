//! Files that a command is asked for, and the library that they are of.
//! Never reads or writes one.

use super::say::{self, LibraryDir, Trouble};
use std::path::{Component, Path, PathBuf};

/// The library: as named, here, or the one that holds the first of the files.
pub fn library_of<'f>(dir: &LibraryDir, files: impl IntoIterator<Item = &'f PathBuf>) -> PathBuf {
    let found = dir.found();
    let first = files.into_iter().find(|file| !is_stdin(file));
    match first.and_then(|file| library_above(file)) {
        Some(above) if !found.is_dir() => above,
        _ => found,
    }
}

/// Whether every file is there, seen from here or from the library.
pub fn are_there(files: &[PathBuf], library: &Path) -> Result<(), Trouble> {
    let missing =
        |file: &&PathBuf| !is_stdin(file) && !file.is_file() && !library.join(file).is_file();
    let Some(missing) = files.iter().find(missing) else { return Ok(()) };
    let help = "write its path from here, or from the library's folder";
    Err(Trouble::new(format!("there is no file `{}`", say::shown(missing)), help))
}

/// Whether a file is the text on standard input.
pub fn is_stdin(file: &Path) -> bool {
    file.as_os_str() == "-"
}

/// The folder upward of a file that has a `club.yaml`.
fn library_above(file: &Path) -> Option<PathBuf> {
    let has_club = |folder: &&Path| folder.join("club.yaml").is_file();
    file.ancestors().skip(1).find(has_club).map(Path::to_path_buf)
}

/// The parts of a path below the library; of one that is no path into it, the path as it stands.
pub fn below(library: &Path, file: &Path) -> Vec<String> {
    let real = |path: &Path| std::fs::canonicalize(path).ok();
    // A new file has no place on the disk yet; its folder may have one.
    let whole = real(file).or_else(|| Some(real(file.parent()?)?.join(file.file_name()?)));
    let within = whole
        .zip(real(library))
        .and_then(|(file, library)| file.strip_prefix(library).ok().map(Path::to_path_buf));
    let within = within.or_else(|| file.strip_prefix(library).ok().map(Path::to_path_buf));
    let within = within.unwrap_or_else(|| file.to_path_buf());
    let parts = within.components().filter_map(|part| match part {
        Component::Normal(part) => Some(part.to_string_lossy().into_owned()),
        _ => None,
    });
    parts.collect()
}

/// A file's name below the library.
pub fn name_below<'s>(library: &Path, name: &'s str) -> &'s str {
    let shown = library.to_string_lossy().replace('\\', "/");
    name.strip_prefix(shown.trim_end_matches('/')).unwrap_or(name).trim_start_matches('/')
}
