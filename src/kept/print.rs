//! Prints: one number for everything that a result is made from.
//! Never the clock, a place on disk or an order of threads: only what is handed in, and the program.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::fmt;

/// What the program is made from: sources, packages and compiler. See `build.rs`.
pub const PROGRAM: &str = env!("RUNGBOOK_MADE_FROM");

/// The print of some inputs: the same for the same, and for nothing else (SHA-256, cut to 128 bits).
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
pub struct Print(pub [u8; 16]);

impl fmt::Debug for Print {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl fmt::Display for Print {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl Print {
    /// The print of some bytes alone.
    pub fn of_bytes(bytes: &[u8]) -> Print {
        cut(Sha256::new_with_prefix(bytes))
    }

    /// The print that [`fmt::Display`] writes.
    pub fn read(text: &str) -> Option<Print> {
        let mut print = Print::default();
        if text.len() != 32 || !text.is_ascii() {
            return None;
        }
        for (at, byte) in print.0.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&text[2 * at..2 * at + 2], 16).ok()?;
        }
        Some(print)
    }
}

fn cut(hash: Sha256) -> Print {
    let mut print = Print::default();
    print.0.copy_from_slice(&hash.finalize()[..16]);
    print
}

/// The inputs of a result, handed in one after the other.
#[derive(Clone)]
pub struct Inputs(Sha256);

impl Inputs {
    /// Begins the inputs of the function called `what`, as this program has it.
    pub fn of(what: &str) -> Inputs {
        Inputs(Sha256::new()).text(PROGRAM).text(what)
    }

    /// Begins the prints of some files, whichever program made them.
    pub fn of_files() -> Inputs {
        Inputs(Sha256::new())
    }

    /// Adds a text.
    pub fn text(self, text: &str) -> Inputs {
        self.bytes(text.as_bytes())
    }

    /// Adds bytes. Their number goes before them, so that `ab`, `c` is not `a`, `bc`.
    pub fn bytes(mut self, bytes: &[u8]) -> Inputs {
        self.0.update((bytes.len() as u64).to_le_bytes());
        self.0.update(bytes);
        self
    }

    /// Adds a number, to the last bit.
    pub fn number(self, number: f64) -> Inputs {
        self.bytes(&number.to_bits().to_le_bytes())
    }

    /// Adds a whole number.
    pub fn whole(self, number: u64) -> Inputs {
        self.bytes(&number.to_le_bytes())
    }

    /// Adds the print of other inputs.
    pub fn of_print(self, print: Print) -> Inputs {
        self.bytes(&print.0)
    }

    /// The print of them all.
    pub fn print(self) -> Print {
        cut(self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn where_one_input_ends_counts() {
        let print = |parts: &[&str]| {
            parts.iter().fold(Inputs::of("test"), |inputs, part| inputs.text(part)).print()
        };
        assert_ne!(print(&["ab", "c"]), print(&["a", "bc"]));
        assert_ne!(print(&["ab"]), print(&["ab", ""]));
        assert_ne!(Inputs::of("a").print(), Inputs::of("b").print());
        assert_ne!(Inputs::of("n").number(0.0).print(), Inputs::of("n").number(-0.0).print());
    }

    #[test]
    fn a_print_is_read_as_it_is_written() {
        let print = Inputs::of("test").whole(7).print();
        assert_eq!(Print::read(&print.to_string()), Some(print));
        assert_eq!(Print::read("no print"), None);
        assert_eq!(Print::read(&"é".repeat(16)), None);
    }
}
