//! Turns: one writer at a time at one place, by a lock of the operating system.
//! Never kept by a dead process: the system opens the lock when its holder ends, however it ends.
//!
//! The lock is a small hidden file beside the place, with the number of the process that holds it. Its
//! holder removes it at the end; a file that a killed one left is taken over by the next.

use std::fs::{self, File};
use std::io::{self, Read, Seek, Write};
use std::path::{Path, PathBuf};

/// The turn to write at a place, until it is dropped.
#[derive(Debug)]
pub struct Turn {
    lock: PathBuf,
    file: File,
}

impl Turn {
    /// Takes the turn at `place`. Where another process has it, `waiting` hears the number of that
    /// process (if it is known), and this one waits.
    ///
    /// # Errors
    /// When the folder of `place` is not there or not open to us.
    pub fn take(place: &Path, waiting: impl FnOnce(Option<u32>)) -> io::Result<Turn> {
        let lock = beside(place, "lock");
        let mut waiting = Some(waiting);
        loop {
            let file = held(&lock, || {
                if let Some(waiting) = waiting.take() {
                    waiting(holder(&lock));
                }
            })?;
            // Whoever had it before has removed this file at the end: then it locks nobody out.
            if is_still(&file, &lock) {
                let mut turn = Turn { lock, file };
                turn.sign();
                return Ok(turn);
            }
        }
    }

    /// Says who we are to those who wait; a full disk keeps nobody from writing in turn.
    fn sign(&mut self) {
        let name = format!("{}\n", std::process::id());
        let _ = self.file.set_len(0);
        let _ = self.file.rewind().and_then(|()| self.file.write_all(name.as_bytes()));
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        // Removed before the lock opens: nobody can have taken it over yet.
        let _ = fs::remove_file(&self.lock);
    }
}

/// `site` -> `.site.rungbook-lock`, in the same folder.
pub fn beside(place: &Path, what: &str) -> PathBuf {
    let name =
        place.file_name().map_or_else(|| "site".into(), |n| n.to_string_lossy().into_owned());
    let parent = place.parent().filter(|parent| !parent.as_os_str().is_empty());
    parent.unwrap_or(Path::new(".")).join(format!(".{name}.rungbook-{what}"))
}

fn holder(lock: &Path) -> Option<u32> {
    let mut text = String::new();
    File::open(lock).ok()?.take(20).read_to_string(&mut text).ok()?;
    text.trim().parse().ok()
}

/// Opens the lock's file and holds it. `busy` is called where another process does.
#[cfg(unix)]
fn held(lock: &Path, busy: impl FnOnce()) -> io::Result<File> {
    use rustix::fs::{FlockOperation, OFlags, flock};
    use std::os::unix::fs::OpenOptionsExt;
    let mut options = File::options();
    options.read(true).write(true).create(true).truncate(false);
    // What a link of that name leads to is somebody's file: it is not opened and not emptied.
    let file = options.custom_flags(OFlags::NOFOLLOW.bits().cast_signed()).open(lock)?;
    if flock(&file, FlockOperation::NonBlockingLockExclusive).is_err() {
        busy();
        // A signal that does not end us must not end the waiting either.
        while let Err(error) = flock(&file, FlockOperation::LockExclusive) {
            if error != rustix::io::Errno::INTR {
                return Err(error.into());
            }
        }
    }
    Ok(file)
}

/// Whether the file that is locked is the one that others find by its name.
#[cfg(unix)]
fn is_still(file: &File, lock: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let mark = |facts: fs::Metadata| (facts.dev(), facts.ino());
    let found = fs::symlink_metadata(lock).map(mark).ok();
    found.is_some() && found == file.metadata().map(mark).ok()
}

/// Where the system opens a file for one process alone, that is the lock.
#[cfg(windows)]
fn held(lock: &Path, busy: impl FnOnce()) -> io::Result<File> {
    use std::os::windows::fs::OpenOptionsExt;
    /// `ERROR_SHARING_VIOLATION`: another process has the file open.
    const TAKEN: i32 = 32;
    let mut options = File::options();
    options.read(true).write(true).create(true).truncate(false).share_mode(0);
    let mut busy = Some(busy);
    loop {
        match options.open(lock) {
            Err(error) if error.raw_os_error() == Some(TAKEN) => {}
            opened => return opened,
        }
        if let Some(busy) = busy.take() {
            busy();
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
}

/// A file that one process alone has open is not removed by another.
#[cfg(windows)]
fn is_still(_: &File, _: &Path) -> bool {
    true
}
