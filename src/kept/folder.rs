//! The folder of kept results: a few shelves that are read, and one that this run writes.
//! Never changes a file that is whole, so that whoever reads it meets all of it; may be deleted at any time.

use super::held;
use super::print::{Inputs, Print};
use super::shelf::{Shelf, Spot};
use std::collections::HashMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

/// More shelves than this become one.
const MOST_SHELVES: usize = 8;
/// What nobody asked for may take this much beside what somebody did, and as much again as that.
const SLACK: u64 = 4 << 20;
/// The ending of a shelf, and of one that is being written.
const WHOLE: &str = "kept";
const PART: &str = "part";

/// What [`Folder::settle`] did.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Settled {
    /// Results that were found.
    pub found: usize,
    /// Results that were made.
    pub made: usize,
}

/// A folder of kept results.
pub struct Folder {
    path: PathBuf,
    shelves: Vec<(PathBuf, Shelf)>,
    old: HashMap<Print, Old>,
    /// Set when a result was not what its check says.
    broken: AtomicBool,
    fresh: Mutex<Fresh>,
}

/// A result of an earlier run.
struct Old {
    shelf: usize,
    spot: Spot,
    asked: AtomicBool,
}

/// What this run makes.
#[derive(Default)]
struct Fresh {
    shelf: Option<Shelf>,
    spots: HashMap<Print, Spot>,
    /// Set when the disk refused: from then on nothing is kept.
    refused: bool,
}

impl Folder {
    /// Opens the folder at `path`, which need not be there.
    pub fn open(path: &Path) -> Folder {
        let mut folder = Folder {
            path: path.to_path_buf(),
            shelves: Vec::new(),
            old: HashMap::new(),
            broken: AtomicBool::new(false),
            fresh: Mutex::default(),
        };
        for path in files(path, WHOLE) {
            let Some((shelf, spots)) = Shelf::open(&path) else { continue };
            let number = folder.shelves.len();
            let old = |spot| Old { shelf: number, spot, asked: AtomicBool::new(false) };
            folder.old.extend(spots.into_iter().map(|(print, spot)| (print, old(spot))));
            folder.shelves.push((path, shelf));
        }
        folder
    }

    /// The bytes kept under a print.
    pub fn find(&self, print: Print) -> Option<Vec<u8>> {
        if let Some(old) = self.old.get(&print) {
            let taken = self.shelves.get(old.shelf).and_then(|(_, on)| on.take(print, old.spot));
            match &taken {
                Some(_) => old.asked.store(true, Ordering::Relaxed),
                None => self.broken.store(true, Ordering::Relaxed),
            }
            if taken.is_some() {
                return taken;
            }
        }
        let fresh = held(&self.fresh);
        fresh.shelf.as_ref()?.take(print, *fresh.spots.get(&print)?)
    }

    /// Keeps bytes under a print, as long as the disk takes them.
    pub fn keep(&self, print: Print, bytes: &[u8]) {
        let mut fresh = held(&self.fresh);
        if fresh.refused || fresh.spots.contains_key(&print) {
            return;
        }
        if fresh.shelf.is_none() {
            fresh.shelf = self.new_shelf("new");
        }
        match fresh.shelf.as_mut().and_then(|shelf| shelf.put(print, bytes).ok()) {
            Some(spot) => drop(fresh.spots.insert(print, spot)),
            None => fresh.refused = true,
        }
    }

    fn new_shelf(&self, name: &str) -> Option<Shelf> {
        let _ = fs::create_dir_all(&self.path);
        let path = self.part(name);
        // What a killed run left; one run at a time writes here.
        let _ = fs::remove_file(&path);
        Shelf::new(&path).ok()
    }

    fn part(&self, name: &str) -> PathBuf {
        self.path.join(format!("{name}.{PART}"))
    }

    /// Puts what this run made among the shelves, and makes one shelf of all that was asked for where
    /// the others have become many, broken or mostly idle. What cannot be done is left for the next run.
    pub fn settle(&self) -> Settled {
        let fresh = held(&self.fresh);
        let asked = |old: &&Old| old.asked.load(Ordering::Relaxed);
        let settled =
            Settled { found: self.old.values().filter(asked).count(), made: fresh.spots.len() };
        let placed = if fresh.spots.is_empty() { None } else { self.place(&fresh.spots, "new") };
        let used: u64 = self.old.values().filter(asked).map(|old| old.spot.room()).sum();
        let all: u64 = self.shelves.iter().map(|(_, shelf)| shelf.size()).sum();
        let crowded = self.shelves.len() >= MOST_SHELVES;
        if self.broken.load(Ordering::Relaxed) || crowded || all > 2 * used + SLACK {
            // What was made stands on its own shelf by now.
            let _ = self.merge(placed);
        }
        self.remove_strangers();
        settled
    }

    /// A shelf that was written gets its name: that of what lies on it.
    fn place(&self, spots: &HashMap<Print, Spot>, name: &str) -> Option<PathBuf> {
        let mut prints: Vec<Print> = spots.keys().copied().collect();
        prints.sort_unstable();
        let name_of =
            prints.iter().fold(Inputs::of("shelf"), |all, one| all.of_print(*one)).print();
        let path = self.path.join(format!("{name_of}.{WHOLE}"));
        fs::rename(self.part(name), &path).ok()?;
        Some(path)
    }

    /// Everything of the earlier shelves that was asked for, on one. This run's own, which may have the
    /// name of a broken one, stays.
    fn merge(&self, own: Option<PathBuf>) -> Option<()> {
        let mut spots = HashMap::new();
        let mut one = None;
        for (print, old) in self.old.iter().filter(|(_, old)| old.asked.load(Ordering::Relaxed)) {
            let Some(bytes) = self.shelves[old.shelf].1.take(*print, old.spot) else { continue };
            if one.is_none() {
                one = Some(self.new_shelf("all")?);
            }
            spots.insert(*print, one.as_mut()?.put(*print, &bytes).ok()?);
        }
        let merged = if spots.is_empty() { None } else { Some(self.place(&spots, "all")?) };
        let stays = |path: &PathBuf| own.as_ref() == Some(path) || merged.as_ref() == Some(path);
        for (path, _) in self.shelves.iter().filter(|(path, _)| !stays(path)) {
            let _ = fs::remove_file(path);
        }
        Some(())
    }

    /// Shelves of another program, and what killed runs left.
    fn remove_strangers(&self) {
        let ours = |path: &PathBuf| Shelf::open(path).is_some();
        let others = files(&self.path, WHOLE).into_iter().filter(|path| !ours(path));
        for path in others.chain(files(&self.path, PART)) {
            let _ = fs::remove_file(path);
        }
    }
}

impl Drop for Folder {
    /// What was not settled goes: half of a run is nobody's. A folder made for it goes with it.
    fn drop(&mut self) {
        if fs::remove_file(self.part("new")).is_ok() {
            let _ = fs::remove_dir(&self.path);
        }
    }
}

/// The files of a folder with an ending, by name.
fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|own| own == ending))
        .collect();
    files.sort();
    files
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kept::Kept;
    use std::cell::Cell;

    fn print(number: u64) -> Print {
        Inputs::of("test").whole(number).print()
    }

    /// Asks for numbers as texts; how many had to be made.
    fn ask(place: &Path, numbers: std::ops::Range<u64>) -> usize {
        let kept = Kept::in_folder(place);
        let made = Cell::new(0);
        for number in numbers {
            let make = || {
                made.set(made.get() + 1);
                text(number)
            };
            assert_eq!(kept.get(print(number), make), text(number));
        }
        kept.settle();
        made.get()
    }

    fn text(number: u64) -> String {
        format!("result {number} ").repeat(20)
    }

    #[test]
    fn what_one_run_made_the_next_one_finds() {
        let place = tempfile::tempdir().expect("a folder");
        let folder = place.path().join("kept");
        assert_eq!(ask(&folder, 0..10), 10);
        assert_eq!(ask(&folder, 0..12), 2);
        assert_eq!(ask(&folder, 0..12), 0);
        fs::remove_dir_all(&folder).expect("it may be deleted");
        assert_eq!(ask(&folder, 0..12), 12);
    }

    #[test]
    fn a_broken_file_is_noticed_wherever_it_is_broken_and_made_whole() {
        for many in [1, 4] {
            let place = tempfile::tempdir().expect("a folder");
            ask(place.path(), 0..many);
            let shelf = files(place.path(), WHOLE).pop().expect("a shelf");
            let whole = fs::read(&shelf).expect("it reads");
            for at in (0..whole.len()).step_by(7) {
                let mut bytes = whole.clone();
                bytes[at] ^= 0x41;
                for broken in [bytes, whole[..at].to_vec()] {
                    fs::remove_dir_all(place.path()).expect("it goes");
                    fs::create_dir(place.path()).expect("a folder");
                    fs::write(&shelf, broken).expect("broken");
                    assert!(ask(place.path(), 0..many) > 0, "byte {at} is believed");
                    assert_eq!(ask(place.path(), 0..many), 0, "byte {at} stays broken");
                }
            }
        }
    }

    #[test]
    fn a_result_under_the_print_of_another_is_not_believed() {
        let place = tempfile::tempdir().expect("a folder");
        ask(place.path(), 0..2);
        let shelf = files(place.path(), WHOLE).pop().expect("a shelf");
        let mut bytes = fs::read(&shelf).expect("it reads");
        let [one, other] = [0, 1].map(|number| {
            let print = print(number).0;
            bytes.windows(16).position(|part| part == print).expect("it is on the shelf")
        });
        for at in 0..16 {
            bytes.swap(one + at, other + at);
        }
        fs::write(&shelf, bytes).expect("written");
        assert_eq!(ask(place.path(), 0..2), 2);
    }

    #[test]
    fn it_does_not_grow_without_end() {
        let place = tempfile::tempdir().expect("a folder");
        for round in 0..40 {
            ask(place.path(), 10 * round..10 * round + 20);
            let found = files(place.path(), WHOLE);
            assert!(found.len() <= MOST_SHELVES + 1, "{} shelves", found.len());
        }
        let size = |path: &PathBuf| fs::metadata(path).expect("it is there").len();
        let total: u64 = files(place.path(), WHOLE).iter().map(size).sum();
        assert!(total < 100 * 400, "{total} bytes for twenty results that are in use");
    }

    #[test]
    fn leftovers_and_shelves_of_another_program_go() {
        let place = tempfile::tempdir().expect("a folder");
        fs::write(place.path().join("all.part"), "half").expect("written");
        fs::write(place.path().join("other.kept"), "rungbook-kept 1\nanother program").expect("it");
        fs::write(place.path().join("notes.txt"), "mine").expect("written");
        ask(place.path(), 0..2);
        let names = fs::read_dir(place.path()).expect("it reads").count();
        assert_eq!(names, 2, "one shelf, and what is somebody else's");
    }

    #[test]
    fn a_place_that_takes_nothing_costs_only_time() {
        let place = tempfile::tempdir().expect("a folder");
        let file = place.path().join("file");
        fs::write(&file, "no folder").expect("written");
        assert_eq!(ask(&file, 0..3), 3);
        assert_eq!(ask(&file, 0..3), 3);
    }
}
