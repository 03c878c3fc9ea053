//! The pose editor: a key pose solved and drawn at every change of a word, and written into the entry's
//! file when that is asked for. Never answers without the key of that entry, and never writes another file.

mod asked;
mod desk;
mod file;
mod offered;
mod serve;
mod shown;
mod worded;

pub use serve::app;

use crate::door::Guard;
use crate::library::MovementId;
use sha2::{Digest, Sha256};
use std::io;
use std::path::PathBuf;

/// Bytes of the key: as many as nobody guesses.
const KEY_BYTES: usize = 16;

/// What opens the pose editor of one run of a preview.
#[derive(Debug, Clone)]
pub struct Key(String);

impl Key {
    /// A key that nobody had before.
    ///
    /// # Errors
    /// When the system gives no chance.
    pub fn new() -> io::Result<Key> {
        let mut bytes = [0_u8; KEY_BYTES];
        getrandom::fill(&mut bytes).map_err(io::Error::other)?;
        Ok(Key(bytes.iter().map(|byte| format!("{byte:02x}")).collect()))
    }

    /// Where the list of poses stands, below the preview's address: `pose/<key>/`.
    pub fn path(&self) -> String {
        format!("pose/{}/", self.0)
    }

    /// Whether `said` is this key; what is compared are prints, so that the time it takes tells nothing.
    fn is(&self, said: &str) -> bool {
        Sha256::digest(said) == Sha256::digest(&self.0)
    }

    /// The key of one entry's page: who has it cannot open, nor write, another one.
    fn of(&self, id: &MovementId) -> Key {
        let print = Sha256::digest(format!("{} {}", self.0, id.as_str()));
        Key(print.iter().take(KEY_BYTES).map(|byte| format!("{byte:02x}")).collect())
    }
}

/// What a preview hands to its pose editor.
pub struct Wanted {
    /// The folder of the library.
    pub library: PathBuf,
    /// What opens it.
    pub key: Key,
    /// Who may come in.
    pub guard: Guard,
}
