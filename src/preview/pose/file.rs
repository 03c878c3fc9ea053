//! The one file of an entry: read, and replaced whole if it is as it was read.
//! Never follows a link out of the library, and never writes over what somebody changed meanwhile.

use crate::turn::{Turn, beside};
use sha2::{Digest, Sha256};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// The largest entry, bytes: as the reader of the library has it.
const LARGEST: u64 = 1_000_000;

/// Why a file was not read or not written, as a sentence with its next step.
#[derive(Debug)]
pub enum Refused {
    /// It is no file of this library.
    Elsewhere,
    /// It is not as it was read.
    Changed,
    /// A change of several files was cut off.
    CutOff,
    /// What the disk says.
    Disk(io::Error),
}

impl Refused {
    /// The sentence.
    pub fn sentence(&self) -> String {
        match self {
            Refused::Elsewhere => "This entry is no file inside the library's folder, so it is \
                                   not written from here. Put it into the folder itself."
                .to_string(),
            Refused::Changed => "The file has changed since this page read it; nothing was \
                                 written. Press \"Read the file again\" and make your change there."
                .to_string(),
            Refused::CutOff => "A change of several files was cut off; nothing was written. Run \
                                `rungbook tidy --check`, which finishes it, and press again."
                .to_string(),
            Refused::Disk(error) => format!(
                "The file could not be read or written: {error}. Check that you may write there \
                 and that the disk has room; nothing of it was changed."
            ),
        }
    }
}

impl From<io::Error> for Refused {
    fn from(error: io::Error) -> Refused {
        Refused::Disk(error)
    }
}

/// The print of a text.
pub fn print(text: &str) -> String {
    Sha256::digest(text).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The text of `file`, which must stand inside `library`.
///
/// # Errors
/// See [`Refused`].
pub fn read(library: &Path, file: &Path) -> Result<String, Refused> {
    let real = inside(library, file)?;
    if fs::metadata(&real)?.len() > LARGEST {
        return Err(Refused::Elsewhere);
    }
    Ok(fs::read_to_string(real)?)
}

/// Replaces the text of print `was` by `text`, whole or not at all, in turn with every command.
///
/// # Errors
/// See [`Refused`]; then the file is as it was.
pub fn replace(library: &Path, file: &Path, was: &str, text: &str) -> Result<(), Refused> {
    let _turn = Turn::take(&fs::canonicalize(library)?, |_| ())?;
    if library.join(CUT_OFF).exists() {
        return Err(Refused::CutOff);
    }
    let real = inside(library, file)?;
    if print(&read(library, file)?) != was {
        return Err(Refused::Changed);
    }
    let new = beside(&real, "new");
    // A preview that was killed has left it.
    let _ = fs::remove_file(&new);
    let written = onto_disk(&new, &real, text).and_then(|()| fs::rename(&new, &real));
    written.inspect_err(|_| drop(fs::remove_file(&new)))?;
    #[cfg(unix)]
    let _ = real.parent().map(|folder| fs::File::open(folder).and_then(|open| open.sync_all()));
    Ok(())
}

/// The list of a change of several files, see `cli::exchange`.
const CUT_OFF: &str = ".rungbook-change";

/// Where a file really stands, which must be in the library.
fn inside(library: &Path, file: &Path) -> Result<PathBuf, Refused> {
    let real = fs::canonicalize(file)?;
    let below = real.starts_with(fs::canonicalize(library)?) && real.is_file();
    if below { Ok(real) } else { Err(Refused::Elsewhere) }
}

fn onto_disk(new: &Path, old: &Path, text: &str) -> io::Result<()> {
    let mut file = fs::File::options().write(true).create_new(true).open(new)?;
    file.write_all(text.as_bytes())?;
    file.set_permissions(fs::metadata(old)?.permissions())?;
    file.sync_all()
}
