//! Kept: results of pure functions, found again by the print of everything that they were made from.
//! Never believed without proof: what does not match its check is made anew. Never knows what it keeps.
//!
//! A result is asked for with [`Kept::get`]. Its [`Print`] is made from every input of the function and
//! from the program itself, so nothing here can be out of date: another input is another print.

mod print;
mod shelf;
mod folder;

pub use folder::Settled;
pub use print::{Inputs, Print};

use folder::Folder;
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::collections::HashMap;
use std::fmt;
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Results by their prints, in memory or in a folder; by default nowhere.
#[derive(Default)]
pub struct Kept {
    folder: Option<Folder>,
    memory: Option<Mutex<Memory>>,
}

/// What is kept in memory, with what was asked for since the last [`Kept::tidy`].
#[derive(Default)]
struct Memory {
    results: HashMap<Print, (Vec<u8>, bool)>,
}

impl fmt::Debug for Kept {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Kept")
    }
}

impl Kept {
    /// Keeps results in memory, for as long as it lives.
    pub fn in_memory() -> Kept {
        Kept { folder: None, memory: Some(Mutex::default()) }
    }

    /// Keeps results in `folder` from run to run. One process at a time may have it open to write. What
    /// cannot be read or written there is made anew: a disk that refuses costs time, nothing else.
    pub fn in_folder(folder: &Path) -> Kept {
        Kept { folder: Some(Folder::open(folder)), memory: None }
    }

    /// The result with this print: the kept one, else what `make` makes, which is then kept.
    pub fn get<T: Serialize + DeserializeOwned>(
        &self,
        print: Print,
        make: impl FnOnce() -> T,
    ) -> T {
        let kept = self.find(print);
        if let Some(result) = kept.and_then(|bytes| postcard::from_bytes(&bytes).ok()) {
            return result;
        }
        let result = make();
        if self.folder.is_none() && self.memory.is_none() {
            return result;
        }
        // What cannot be written down is made anew the next time.
        if let Ok(bytes) = postcard::to_allocvec(&result) {
            self.keep(print, bytes);
        }
        result
    }

    /// Lets go of what nobody asked for since the last time, in memory.
    pub fn tidy(&self) {
        if let Some(memory) = &self.memory {
            held(memory).results.retain(|_, (_, asked)| std::mem::take(asked));
        }
    }

    /// Puts what this run made into the folder, and lets go of what it did not ask for where that
    /// takes more room than the rest.
    pub fn settle(&self) -> Settled {
        self.folder.as_ref().map_or_else(Settled::default, Folder::settle)
    }

    fn find(&self, print: Print) -> Option<Vec<u8>> {
        if let Some(folder) = &self.folder {
            return folder.find(print);
        }
        let mut memory = held(self.memory.as_ref()?);
        let (bytes, asked) = memory.results.get_mut(&print)?;
        *asked = true;
        Some(bytes.clone())
    }

    fn keep(&self, print: Print, bytes: Vec<u8>) {
        if let Some(folder) = &self.folder {
            folder.keep(print, &bytes);
        } else if let Some(memory) = &self.memory {
            held(memory).results.insert(print, (bytes, true));
        }
    }
}

/// A thread that panicked while it held this left whole entries behind.
fn held<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    fn print(text: &str) -> Print {
        Inputs::of("test").text(text).print()
    }

    #[test]
    fn a_result_is_made_once_and_let_go_when_nobody_asks() {
        let kept = Kept::in_memory();
        let made = Cell::new(0);
        let ask = |name: &str| {
            kept.get(print(name), || {
                made.set(made.get() + 1);
                (name.to_string(), 0.1_f64 + 0.2)
            })
        };
        assert_eq!(ask("a"), ("a".to_string(), 0.1 + 0.2));
        assert_eq!(ask("a"), ask("a"));
        assert_eq!(made.get(), 1);
        kept.tidy();
        ask("b");
        kept.tidy();
        ask("b");
        assert_eq!(made.get(), 2, "what was asked for stays");
        ask("a");
        assert_eq!(made.get(), 3, "what was not has gone");
    }
}
