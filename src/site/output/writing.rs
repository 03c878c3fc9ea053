//! Writing: a new site made file by file beside the old one, then put in its place.
//! Never keeps a file in memory, never writes one that is as it was, never shows half a site.

use super::exchange::exchange;
use super::stamps::{MadeFrom, Mark, Stamp, Stamps};
use super::{LIST, LIST_HEAD, OutputError, Written, earlier_files, refuse_links, sync};
use crate::kept::Print;
use crate::site::File;
use crate::turn::beside;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use walkdir::WalkDir;

/// A site that is being written. Dropped before its end, it leaves the old one as it was.
#[derive(Debug)]
pub struct Writing<'p> {
    out: &'p Path,
    fresh: PathBuf,
    earlier: BTreeSet<String>,
    stamps: Stamps,
    so_far: Mutex<SoFar>,
}

/// What was put so far.
#[derive(Debug, Default)]
struct SoFar {
    files: BTreeMap<String, Put>,
    folders: BTreeSet<PathBuf>,
    /// The first refusal: nothing is written after it.
    refused: Option<OutputError>,
}

/// A file of the new site.
#[derive(Debug, Clone, Copy)]
struct Put {
    print: Print,
    changed: bool,
}

impl<'p> Writing<'p> {
    /// Begins beside `out`, where the stamps of the old site stand at `stamps`.
    ///
    /// # Errors
    /// When the place is not ours to write.
    pub fn new(out: &'p Path, stamps: &Path) -> Result<Writing<'p>, OutputError> {
        Ok(Writing {
            out,
            fresh: beside(out, "new"),
            earlier: earlier_files(out)?,
            stamps: Stamps::read(stamps),
            so_far: Mutex::default(),
        })
    }

    /// Takes a file, from any thread: writes it where it is new or changed. What the disk refuses is
    /// told at the end.
    pub fn put(&self, file: &File<'_>) {
        if self.so_far().refused.is_some() {
            return;
        }
        let changed = !self.is_as_it_was(file);
        let written = if changed { self.write(file) } else { Ok(()) };
        let mut so_far = self.so_far();
        let put = Put { print: file.print, changed };
        let twice = so_far.files.insert(file.name.to_string(), put).is_some();
        let twice = twice.then(|| OutputError::Twice(file.name.to_string()));
        if let Some(error) = written.err().or(twice) {
            so_far.refused.get_or_insert(error);
        }
    }

    fn so_far(&self) -> MutexGuard<'_, SoFar> {
        self.so_far.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// By its stamp where nobody has touched it since, else by reading it.
    fn is_as_it_was(&self, file: &File<'_>) -> bool {
        let path = self.out.join(file.name);
        let mark = Mark::of(&path);
        match self.stamps.files.get(file.name) {
            Some(stamp) if mark == Some(stamp.mark) => stamp.print == file.print,
            _ => mark.is_some() && fs::read(&path).is_ok_and(|on_disk| on_disk == file.bytes),
        }
    }

    fn write(&self, file: &File<'_>) -> Result<(), OutputError> {
        let path = self.fresh.join(file.name);
        self.make_folder(&path)?;
        fs::write(&path, file.bytes).map_err(|e| OutputError::Disk(path, e))
    }

    fn make_folder(&self, file: &Path) -> Result<(), OutputError> {
        let Some(parent) = file.parent() else { return Ok(()) };
        if self.so_far().folders.contains(parent) {
            return Ok(());
        }
        fs::create_dir_all(parent).map_err(|e| OutputError::Disk(parent.into(), e))?;
        self.so_far().folders.insert(parent.to_path_buf());
        Ok(())
    }

    /// Puts the new site in the old one's place, and stamps its files. Nothing is touched when no file
    /// is another.
    ///
    /// # Errors
    /// When the place is not ours to write, or the disk refuses; the old site then stands unchanged.
    pub fn finish(self, from: MadeFrom, stamps: &Path) -> Result<Written, OutputError> {
        let so_far = std::mem::take(&mut *self.so_far());
        if let Some(error) = so_far.refused {
            return Err(error);
        }
        let files = so_far.files;
        refuse_links(self.out, &files)?;
        let changed = files.values().filter(|put| put.changed).count();
        let removed = self.earlier.iter().filter(|name| !files.contains_key(*name)).count();
        if changed > 0 || removed > 0 || !self.out.join(LIST).is_file() {
            self.complete(&files)?;
            self.stamp(&files, from, &self.fresh).write(stamps);
            sync(&self.fresh)?;
            exchange(self.out, &self.fresh)?;
        } else {
            self.stamp(&files, from, self.out).write(stamps);
        }
        Ok(Written {
            changed,
            unchanged: files.len() - changed,
            removed,
            pages: pages(files.keys()),
        })
    }

    /// Everything that was not written goes along: what is as it was, and what is somebody else's.
    fn complete(&self, files: &BTreeMap<String, Put>) -> Result<(), OutputError> {
        fs::create_dir_all(&self.fresh).map_err(|e| OutputError::Disk(self.fresh.clone(), e))?;
        if self.out.exists() {
            self.carry_over(files)?;
        }
        // A link that came since it was asked whether there is one would have been carried over.
        refuse_links(&self.fresh, files)?;
        for (name, _) in files.iter().filter(|(_, put)| !put.changed) {
            let (old, new) = (self.out.join(name), self.fresh.join(name));
            self.make_folder(&new)?;
            link(&old, &new).map_err(|e| OutputError::Disk(new, e))?;
        }
        let list: Vec<&str> =
            std::iter::once(LIST_HEAD).chain(files.keys().map(String::as_str)).collect();
        let path = self.fresh.join(LIST);
        fs::write(&path, list.join("\n") + "\n").map_err(|e| OutputError::Disk(path, e))
    }

    fn stamp(&self, files: &BTreeMap<String, Put>, from: MadeFrom, at: &Path) -> Stamps {
        let stamp = |(name, put): (&String, &Put)| {
            Some((name.clone(), Stamp { print: put.print, mark: Mark::of(&at.join(name))? }))
        };
        Stamps { from: Some(from), files: files.iter().filter_map(stamp).collect() }
    }

    /// Everything in the old folder that no build of ours wrote goes along, linked or copied.
    fn carry_over(&self, files: &BTreeMap<String, Put>) -> Result<(), OutputError> {
        let disk = |path: &Path| {
            let path = path.to_path_buf();
            move |error: io::Error| OutputError::Disk(path, error)
        };
        for entry in WalkDir::new(self.out).min_depth(1) {
            let entry = entry.map_err(|e| OutputError::Disk(self.out.into(), e.into()))?;
            let below = entry.path().strip_prefix(self.out).unwrap_or(entry.path());
            let name = below.to_string_lossy().replace('\\', "/");
            if name == LIST || self.earlier.contains(&name) || files.contains_key(&name) {
                continue;
            }
            let new = self.fresh.join(below);
            if entry.file_type().is_dir() {
                if !self.held_ours(&name) {
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

    /// Whether a folder of the old site held files of ours.
    fn held_ours(&self, folder: &str) -> bool {
        let within = format!("{folder}/");
        self.earlier.range(within.clone()..).next().is_some_and(|name| name.starts_with(&within))
    }
}

impl Drop for Writing<'_> {
    /// A half-made folder is ours alone; failing to remove it loses nothing.
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.fresh);
    }
}

/// How many of some files are pages.
pub fn pages<'n>(names: impl Iterator<Item = &'n String>) -> usize {
    names.filter(|name| name.ends_with(".html")).count()
}

fn link(old: &Path, new: &Path) -> io::Result<()> {
    fs::hard_link(old, new).or_else(|_| fs::copy(old, new).map(|_| ()))
}

fn carry_one(old: &Path, new: &Path, is_link: bool) -> io::Result<()> {
    #[cfg(unix)]
    if is_link {
        return std::os::unix::fs::symlink(fs::read_link(old)?, new);
    }
    let _ = is_link;
    link(old, new)
}

#[cfg(test)]
mod tests {
    use super::super::{MadeFrom, Place, Report};
    use super::*;

    fn made_from(number: u8) -> MadeFrom {
        let report = Report { findings: format!("said {number}"), pressing: false };
        MadeFrom { print: Print([number; 16]), report }
    }

    fn build(place: &Place, files: &[(&str, &str)], from: u8) -> Written {
        let writing = place.begin().expect("ours");
        for (name, text) in files {
            let bytes = text.as_bytes();
            writing.put(&File { name, bytes, print: Print::of_bytes(bytes) });
        }
        place.finish(writing, made_from(from)).expect("written")
    }

    #[test]
    fn what_somebody_touched_is_read_and_put_right() {
        let folder = tempfile::tempdir().expect("a folder");
        let out = folder.path().join("site");
        let place = Place::take(&out, |_| ()).expect("our turn");
        let files = [("index.html", "one"), ("kit/straps.html", "two")];
        let first = build(&place, &files, 1);
        assert_eq!((first.changed, first.unchanged, first.pages), (2, 0, 2));
        let again = build(&place, &files, 1);
        assert_eq!((again.changed, again.unchanged), (0, 2));
        let (report, written) = place.unchanged(Print([1; 16])).expect("as it was");
        assert_eq!((report, written), (made_from(1).report, again));
        assert_eq!(place.unchanged(Print([2; 16])), None, "made from something else");

        assert_eq!(build(&place, &[("index.html", "ONE"), files[1]], 1).changed, 1);
        assert_eq!(build(&place, &files, 1).changed, 1);

        // As long as before, and later than the stamp by no more than a tick of the clock.
        fs::write(out.join("kit/straps.html"), "2wo").expect("written");
        assert_eq!(place.unchanged(Print([1; 16])), None, "somebody wrote into it");
        assert_eq!(build(&place, &files, 1).changed, 1);
        assert_eq!(fs::read_to_string(out.join("kit/straps.html")).expect("it reads"), "two");

        fs::remove_file(out.join("index.html")).expect("it goes");
        assert_eq!(place.unchanged(Print([1; 16])), None, "a page is gone");
        assert_eq!(build(&place, &files, 1).changed, 1);
        let fewer = build(&place, &files[..1], 3);
        assert_eq!((fewer.changed, fewer.unchanged, fewer.removed), (0, 1, 1));
        assert!(!out.join("kit").exists() && place.unchanged(Print([3; 16])).is_some());
    }

    #[test]
    fn two_files_of_one_name_are_refused() {
        let folder = tempfile::tempdir().expect("a folder");
        let out = folder.path().join("site");
        let place = Place::take(&out, |_| ()).expect("our turn");
        build(&place, &[("index.html", "one")], 1);
        let writing = place.begin().expect("ours");
        for text in ["a list", "a movement"] {
            let bytes = text.as_bytes();
            writing.put(&File {
                name: "movements/index.html",
                bytes,
                print: Print::of_bytes(bytes),
            });
        }
        let refused = place.finish(writing, made_from(2)).expect_err("refused");
        assert!(refused.to_string().contains("movements/index.html"), "{refused}");
        assert_eq!(fs::read_to_string(out.join("index.html")).expect("it reads"), "one");
        assert!(!out.join("movements").exists());
    }

    #[test]
    fn a_site_that_is_not_finished_changes_nothing() {
        let folder = tempfile::tempdir().expect("a folder");
        let out = folder.path().join("site");
        let place = Place::take(&out, |_| ()).expect("our turn");
        build(&place, &[("index.html", "one")], 1);
        let writing = place.begin().expect("ours");
        let bytes = b"half";
        writing.put(&File { name: "index.html", bytes, print: Print::of_bytes(bytes) });
        drop(writing);
        assert_eq!(fs::read_to_string(out.join("index.html")).expect("it reads"), "one");
        assert!(!beside(&out, "new").exists() && place.unchanged(Print([1; 16])).is_some());
    }
}
