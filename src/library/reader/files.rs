//! Files of a library on disk, in a fixed order, each as text or as a finding.
//! Never parses, never writes, never follows a link in circles.

use super::codes;
use super::fields::Reading;
use crate::finding::{FileId, Finding, Severity, Sources, Span};
use std::path::Path;
use walkdir::{DirEntry, WalkDir};

/// A megabyte: two hundred times the longest entry.
const BIGGEST_FILE: u64 = 1 << 20;

/// One file that was read.
pub struct TextFile {
    /// Its id in the sources.
    pub file: FileId,
    /// The parts of its path below the library folder, such as `movements`, `squat`, `squat.md`.
    pub parts: Vec<String>,
}

/// Reads every file below `dir`, sorted by name. Names in findings start with `shown`, the folder
/// as the person wrote it.
pub fn read_all(
    dir: &Path,
    shown: &str,
    sources: &mut Sources,
    reading: &mut Reading,
) -> Vec<TextFile> {
    let walk = WalkDir::new(dir).follow_links(true).max_depth(8).sort_by_file_name();
    let visible =
        |entry: &DirEntry| entry.depth() == 0 || !is_aside(&entry.file_name().to_string_lossy());
    let mut files = Vec::new();
    for entry in walk.into_iter().filter_entry(visible) {
        match entry {
            Ok(entry) if entry.file_type().is_file() => {
                let parts = parts_below(dir, entry.path());
                let name = shown_name(shown, &parts);
                let text = read_text(&entry, &name, sources, reading);
                if let Some(file) = text {
                    files.push(TextFile { file, parts });
                }
            }
            Ok(_) => {}
            Err(error) => unreadable(&error, dir, shown, sources, reading),
        }
    }
    files
}

/// Hidden files, and the copies that editors leave beside a file.
fn is_aside(name: &str) -> bool {
    let ends = ["~", ".bak", ".swp", ".tmp", ".orig"];
    name.starts_with(['.', '#']) || ends.iter().any(|end| name.ends_with(end))
}

fn parts_below(dir: &Path, path: &Path) -> Vec<String> {
    let below = path.strip_prefix(dir).unwrap_or(path);
    below.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect()
}

/// A file's name as findings show it.
pub fn shown_name(shown: &str, parts: &[String]) -> String {
    let prefix = shown.replace('\\', "/");
    let prefix = prefix.trim_end_matches('/');
    let below = parts.join("/");
    if prefix.is_empty() || prefix == "." { below } else { format!("{prefix}/{below}") }
}

fn read_text(
    entry: &DirEntry,
    name: &str,
    sources: &mut Sources,
    reading: &mut Reading,
) -> Option<FileId> {
    let mut fail = |sources: &mut Sources, code, headline: &str, help: &str| {
        let file = sources.add(name, "");
        reading.error(code, headline.to_string(), Span::whole(file), help);
    };
    if entry.metadata().is_ok_and(|meta| meta.len() > BIGGEST_FILE) {
        let help = "keep entries under 1 MB; move what is not text elsewhere";
        fail(sources, codes::FILE_TOO_BIG, "this file is over 1 MB and was not read", help);
        return None;
    }
    match std::fs::read(entry.path()) {
        Err(error) => {
            let headline = format!("this file could not be read: {}", plain(&error));
            fail(sources, codes::UNREADABLE_FILE, &headline, "check that you may read the file");
            None
        }
        Ok(bytes) => match String::from_utf8(bytes) {
            Ok(text) => Some(sources.add(name, text)),
            Err(error) => {
                not_utf8(
                    error.utf8_error().valid_up_to(),
                    error.as_bytes(),
                    name,
                    sources,
                    reading,
                );
                None
            }
        },
    }
}

fn not_utf8(at: usize, bytes: &[u8], name: &str, sources: &mut Sources, reading: &mut Reading) {
    let file = sources.add(name, String::from_utf8_lossy(bytes));
    let span = Span::new(file, at, at + '\u{fffd}'.len_utf8());
    reading.findings.push(
        Finding::new(codes::NOT_UTF8, Severity::Error, "this file is not UTF-8 text", span)
            .label("the first letter that is not")
            .help("save the file as UTF-8 in your editor"),
    );
}

fn unreadable(
    error: &walkdir::Error,
    dir: &Path,
    shown: &str,
    sources: &mut Sources,
    reading: &mut Reading,
) {
    let parts = error.path().map(|path| parts_below(dir, path)).unwrap_or_default();
    let file = sources.add(shown_name(shown, &parts), "");
    let (headline, help) = if error.loop_ancestor().is_some() {
        ("this link leads back to a folder that holds it".to_string(), "remove the link")
    } else {
        let why = error.io_error().map_or_else(|| "unknown reason".to_string(), plain);
        (format!("this could not be read: {why}"), "check the link and that you may read it")
    };
    reading.error(codes::UNREADABLE_FILE, headline, Span::whole(file), help);
}

/// An operating system's reason, without its error number.
fn plain(error: &std::io::Error) -> String {
    let text = error.to_string();
    text.split(" (os error").next().unwrap_or(&text).to_lowercase()
}
