//! Shelves: one file of results, each with its print and a check of its bytes.
//! Never changes once it is whole: a new run writes a new file.

use super::print::{PROGRAM, Print};
use sha2::{Digest, Sha256};
use std::fs::File;
use std::io;
use std::path::Path;

/// How a shelf of this form begins.
const FORM: &[u8; 16] = b"rungbook-kept 1\n";
/// Form and program.
const HEAD: u64 = 16 + 32;
/// Print, length and check before every result.
const BEFORE: u64 = 16 + 4 + 8;

/// Where a result lies on a shelf.
#[derive(Debug, Clone, Copy)]
pub struct Spot {
    /// Its first byte.
    pub at: u64,
    /// How many bytes.
    pub length: u32,
    check: [u8; 8],
}

impl Spot {
    /// What it takes on the shelf.
    pub fn room(self) -> u64 {
        BEFORE + u64::from(self.length)
    }
}

/// One file of results.
#[derive(Debug)]
pub struct Shelf {
    file: File,
    end: u64,
}

impl Shelf {
    /// A new shelf in the file at `path`, which must not be there.
    ///
    /// # Errors
    /// When the disk refuses.
    pub fn new(path: &Path) -> io::Result<Shelf> {
        let file = File::options().read(true).write(true).create_new(true).open(path)?;
        write_at(&file, FORM, 0)?;
        write_at(&file, PROGRAM.as_bytes(), FORM.len() as u64)?;
        Ok(Shelf { file, end: HEAD })
    }

    /// The shelf at `path` and what lies on it; nothing when it is none of this program's. A broken
    /// file gives what can be read of it: each result is proven when it is taken.
    pub fn open(path: &Path) -> Option<(Shelf, Vec<(Print, Spot)>)> {
        let file = File::open(path).ok()?;
        let mut head = [0; HEAD as usize];
        read_at(&file, &mut head, 0).ok()?;
        if head[..16] != *FORM || head[16..] != *PROGRAM.as_bytes() {
            return None;
        }
        let end = file.metadata().ok()?.len();
        let mut shelf = Shelf { file, end: HEAD };
        let mut spots = Vec::new();
        while let Some((print, spot)) = shelf.spot(end) {
            shelf.end = spot.at + u64::from(spot.length);
            spots.push((print, spot));
        }
        shelf.end = end;
        Some((shelf, spots))
    }

    /// The result that begins where the ones read so far end.
    fn spot(&self, end: u64) -> Option<(Print, Spot)> {
        let mut before = [0; BEFORE as usize];
        read_at(&self.file, &mut before, self.end).ok()?;
        let (print, rest) = before.split_first_chunk::<16>()?;
        let (length, check) = rest.split_first_chunk::<4>()?;
        let length = u32::from_le_bytes(*length);
        let spot = Spot { at: self.end + BEFORE, length, check: *check.first_chunk()? };
        (spot.at + u64::from(length) <= end).then_some((Print(*print), spot))
    }

    /// The bytes at a spot, if they are still those that were put there under this print.
    pub fn take(&self, print: Print, spot: Spot) -> Option<Vec<u8>> {
        let mut bytes = vec![0; spot.length as usize];
        read_at(&self.file, &mut bytes, spot.at).ok()?;
        (check(print, &bytes) == spot.check).then_some(bytes)
    }

    /// Puts a result behind the others.
    ///
    /// # Errors
    /// When the disk refuses; the shelf is then as it was.
    pub fn put(&mut self, print: Print, bytes: &[u8]) -> io::Result<Spot> {
        let length = u32::try_from(bytes.len()).map_err(io::Error::other)?;
        let spot = Spot { at: self.end + BEFORE, length, check: check(print, bytes) };
        let mut record = Vec::with_capacity(BEFORE as usize + bytes.len());
        record.extend_from_slice(&print.0);
        record.extend_from_slice(&length.to_le_bytes());
        record.extend_from_slice(&spot.check);
        record.extend_from_slice(bytes);
        write_at(&self.file, &record, self.end)?;
        self.end += spot.room();
        Ok(spot)
    }

    /// How many bytes it takes.
    pub fn size(&self) -> u64 {
        self.end
    }
}

fn check(print: Print, bytes: &[u8]) -> [u8; 8] {
    let digest = Sha256::new_with_prefix(print.0).chain_update(bytes).finalize();
    digest.first_chunk().copied().unwrap_or_default()
}

#[cfg(unix)]
fn read_at(file: &File, bytes: &mut [u8], at: u64) -> io::Result<()> {
    std::os::unix::fs::FileExt::read_exact_at(file, bytes, at)
}

#[cfg(unix)]
fn write_at(file: &File, bytes: &[u8], at: u64) -> io::Result<()> {
    std::os::unix::fs::FileExt::write_all_at(file, bytes, at)
}

#[cfg(windows)]
fn read_at(file: &File, mut bytes: &mut [u8], mut at: u64) -> io::Result<()> {
    while !bytes.is_empty() {
        match std::os::windows::fs::FileExt::seek_read(file, bytes, at)? {
            0 => return Err(io::ErrorKind::UnexpectedEof.into()),
            read => (bytes, at) = (&mut bytes[read..], at + read as u64),
        }
    }
    Ok(())
}

#[cfg(windows)]
fn write_at(file: &File, mut bytes: &[u8], mut at: u64) -> io::Result<()> {
    while !bytes.is_empty() {
        match std::os::windows::fs::FileExt::seek_write(file, bytes, at)? {
            0 => return Err(io::ErrorKind::WriteZero.into()),
            written => (bytes, at) = (&bytes[written..], at + written as u64),
        }
    }
    Ok(())
}
