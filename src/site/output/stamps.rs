//! Stamps: what every file of a site was when a build wrote it, so that the next one knows it again
//! without reading it. Never believed when the file on the disk looks any other, or the stamps are broken.

use crate::kept::Print;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::time::UNIX_EPOCH;

/// The stamps of one site.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Stamps {
    /// Everything that the site was made from, and what was said then.
    pub from: Option<MadeFrom>,
    /// Its files by name.
    pub files: BTreeMap<String, Stamp>,
}

/// What a site was made from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MadeFrom {
    /// The print of the library's texts, the theme and the program.
    pub print: Print,
    /// What the build said of it.
    pub report: Report,
}

/// What a build told the coach.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Report {
    /// The findings as printed.
    pub findings: String,
    /// Whether any of them is more than advice.
    pub pressing: bool,
}

/// A file as it was written.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Stamp {
    /// The print of its bytes.
    pub print: Print,
    /// What the disk said of it.
    pub mark: Mark,
}

/// What the disk says of a file: whoever writes to it changes that.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mark {
    size: u64,
    /// When it was written, nanoseconds.
    written: u128,
    number: u64,
}

impl Mark {
    /// The mark of the file at `path`; nothing when there is none, or another thing of that name.
    pub fn of(path: &Path) -> Option<Mark> {
        let facts = fs::symlink_metadata(path).ok().filter(fs::Metadata::is_file)?;
        let written = facts.modified().ok()?.duration_since(UNIX_EPOCH).ok()?.as_nanos();
        Some(Mark { size: facts.len(), written, number: number(&facts) })
    }
}

#[cfg(unix)]
fn number(facts: &fs::Metadata) -> u64 {
    std::os::unix::fs::MetadataExt::ino(facts)
}

#[cfg(not(unix))]
fn number(_: &fs::Metadata) -> u64 {
    0
}

impl Stamps {
    /// The stamps in the file at `path`; none when it is not there, or not as it was written.
    pub fn read(path: &Path) -> Stamps {
        let read = || {
            let bytes = fs::read(path).ok()?;
            let (check, rest) = bytes.split_first_chunk::<16>()?;
            let is_whole = Print::of_bytes(rest) == Print(*check);
            postcard::from_bytes(is_whole.then_some(rest)?).ok()
        };
        read().unwrap_or_default()
    }

    /// Writes them, whole or not at all. Without them the next build reads the site.
    pub fn write(&self, path: &Path) {
        let Ok(bytes) = postcard::to_allocvec(self) else { return };
        let part = path.with_extension("part");
        let _ = path.parent().map_or(Ok(()), fs::create_dir_all);
        let text = [&Print::of_bytes(&bytes).0[..], &bytes].concat();
        let _ = fs::write(&part, text).and_then(|()| fs::rename(&part, path));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn broken_stamps_are_none() {
        let place = tempfile::tempdir().expect("a folder");
        let path = place.path().join("stamps");
        let mark = Mark { size: 3, written: 1, number: 2 };
        let stamp = Stamp { print: Print::of_bytes(b"one"), mark };
        let files = BTreeMap::from([("index.html".to_string(), stamp)]);
        let stamps = Stamps { from: None, files };
        stamps.write(&path);
        assert_eq!(Stamps::read(&path), stamps);
        let whole = fs::read(&path).expect("it reads");
        for at in 0..whole.len() {
            let mut bytes = whole.clone();
            bytes[at] ^= 1;
            for broken in [bytes, whole[..at].to_vec()] {
                fs::write(&path, broken).expect("broken");
                assert_eq!(Stamps::read(&path), Stamps::default(), "byte {at}");
            }
        }
    }
}
