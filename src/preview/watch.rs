//! Watching folders: tells when the coach has saved something.
//! Never takes our own reading or an editor's passing files for a save.

use notify::event::{AccessKind, AccessMode, ModifyKind, RenameMode};
use notify::{Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::thread;
use std::time::{Duration, Instant, SystemTime};

/// A save is over when nothing more has come for this long: editors write in several steps.
const QUIET: Duration = Duration::from_millis(40);
/// The same once a file was closed or another has taken its name, the last step of a save: mostly there
/// is nothing more to come, and who writes is waiting.
const QUIET_AFTER_THE_LAST: Duration = Duration::from_millis(5);
/// Longest wait for the quiet, so that a steady stream of saves still shows.
const LONGEST: Duration = Duration::from_millis(100);
/// How often a folder is asked whether it is still the one that is watched.
const LOOK_EVERY: Duration = Duration::from_millis(200);

/// Watches folders, also those that go and come back.
pub struct Watch {
    watcher: RecommendedWatcher,
    /// Whether each change was the last step of a save.
    saves: Receiver<bool>,
    folders: Vec<Folder>,
}

impl Watch {
    /// Watches `folders` and everything below them.
    ///
    /// # Errors
    /// When the system refuses to watch.
    pub fn over(folders: impl Iterator<Item = PathBuf>) -> notify::Result<Watch> {
        let folders = folders
            .map(|path| Ok(Folder { path: std::path::absolute(path)?, watched: None }))
            .collect::<Result<Vec<Folder>, std::io::Error>>()
            .map_err(notify::Error::io)?;
        let roots: Vec<PathBuf> = folders.iter().map(|folder| folder.path.clone()).collect();
        let (sender, saves) = channel();
        let watcher = notify::recommended_watcher(move |event: notify::Result<Event>| {
            // An event that got lost may have been a save.
            let is_last = event.as_ref().is_ok_and(is_last_step);
            if event.map_or(true, |event| is_save(&event, &roots)) {
                // Nobody listens any more only while the preview ends.
                let _ = sender.send(is_last);
            }
        })?;
        let mut watch = Watch { watcher, saves, folders };
        watch.renew()?;
        Ok(watch)
    }

    /// Waits until something was saved and the quiet after it.
    pub fn wait(&mut self) {
        loop {
            let saved = match self.saves.recv_timeout(LOOK_EVERY) {
                Ok(is_last) => Some(is_last),
                Err(RecvTimeoutError::Timeout) => None,
                Err(RecvTimeoutError::Disconnected) => {
                    thread::sleep(LOOK_EVERY);
                    None
                }
            };
            // A folder that cannot be watched at the moment is tried again at the next look.
            let renewed = self.renew().unwrap_or(false);
            if saved.is_some() || renewed {
                return self.gather(saved.unwrap_or(false) && !renewed);
            }
        }
    }

    /// Takes in what still comes of the same save.
    fn gather(&self, mut is_last: bool) {
        let first = Instant::now();
        while let Some(left) = LONGEST.checked_sub(first.elapsed()) {
            let quiet = if is_last { QUIET_AFTER_THE_LAST } else { QUIET };
            match self.saves.recv_timeout(quiet.min(left)) {
                Ok(next) => is_last = next,
                Err(_) => return,
            }
        }
    }

    /// Watches every folder that came, went, or has another in its place. A watch belongs to the
    /// folder that stood there, not to its name. Returns whether there was any.
    fn renew(&mut self) -> notify::Result<bool> {
        let mut renewed = false;
        for folder in &mut self.folders {
            let now = identity(&folder.path);
            if now == folder.watched {
                continue;
            }
            // What is gone needs no unwatching, and then the system says so.
            let _ = self.watcher.unwatch(&folder.path);
            folder.watched = None;
            if now.is_some() {
                self.watcher.watch(&folder.path, RecursiveMode::Recursive)?;
            }
            folder.watched = now;
            renewed = true;
        }
        Ok(renewed)
    }
}

struct Folder {
    path: PathBuf,
    watched: Option<Identity>,
}

/// What tells one folder from another at the same place.
#[derive(PartialEq, Eq)]
struct Identity {
    inode: (u64, u64),
    /// Some file systems give the inode of a folder just removed to the next one made.
    made: Option<SystemTime>,
}

fn identity(path: &Path) -> Option<Identity> {
    let facts = fs::metadata(path).ok().filter(fs::Metadata::is_dir)?;
    Some(Identity { inode: inode(&facts), made: facts.created().ok() })
}

#[cfg(unix)]
fn inode(facts: &fs::Metadata) -> (u64, u64) {
    use std::os::unix::fs::MetadataExt;
    (facts.dev(), facts.ino())
}

#[cfg(not(unix))]
fn inode(_: &fs::Metadata) -> (u64, u64) {
    (0, 0)
}

/// Whether an event is the last step of how a file is saved: written and closed, or put in its place.
fn is_last_step(event: &Event) -> bool {
    matches!(
        event.kind,
        EventKind::Access(AccessKind::Close(AccessMode::Write))
            | EventKind::Modify(ModifyKind::Name(RenameMode::To | RenameMode::Both))
    )
}

/// Whether an event may have changed what the library or the theme says.
fn is_save(event: &Event, roots: &[PathBuf]) -> bool {
    if event.need_rescan() {
        return true;
    }
    let changes = match event.kind {
        EventKind::Access(AccessKind::Close(AccessMode::Write)) => true,
        // Reading the library opens every file; that must not set off the next reading.
        EventKind::Access(_) => false,
        _ => true,
    };
    changes && event.paths.iter().any(|path| !is_passing(path, roots))
}

/// Whether a path is hidden below a watched folder, as the reader passes over it, or has the name
/// of a backup, a lock or a half-written file.
fn is_passing(path: &Path, roots: &[PathBuf]) -> bool {
    let below = roots.iter().find_map(|root| path.strip_prefix(root).ok()).unwrap_or(path);
    let mut parts = below.iter().map(|part| part.to_string_lossy());
    let last = below.file_name().map(|name| name.to_string_lossy()).unwrap_or_default();
    let endings = ["~", ".tmp", ".temp", ".swp", ".swx", ".bak", ".part", "#"];
    let is_number = !last.is_empty() && last.bytes().all(|byte| byte.is_ascii_digit());
    parts.any(|part| part.starts_with('.'))
        || endings.iter().any(|ending| last.ends_with(ending))
        // Some editors try with a bare number whether they may write in the folder.
        || is_number
}
