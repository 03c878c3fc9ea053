//! Files of a library on disk, in a fixed order, each as text or as a finding.
//! Never parses, never writes, never follows a link in circles or out of the library, never waits at a
//! pipe or a device.

use super::fields::Reading;
use super::{codes, misfiled};
use crate::finding::{Code, FileId, Finding, Severity, Sources, Span};
use std::path::Path;
use walkdir::{DirEntry, WalkDir};

/// A megabyte: two hundred times the longest entry.
const BIGGEST_FILE: u64 = 1 << 20;

/// Sixty times the starter library.
const BIGGEST_LIBRARY: usize = 64 << 20;

/// Folders below each other; entries of ours stand three deep.
const DEEPEST: usize = 8;

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
    let walk = WalkDir::new(dir).follow_links(true).max_depth(DEEPEST).sort_by_file_name();
    let visible =
        |entry: &DirEntry| entry.depth() == 0 || !is_aside(&entry.file_name().to_string_lossy());
    let root = std::fs::canonicalize(dir).unwrap_or_else(|_| dir.to_path_buf());
    let mut files = Vec::new();
    let mut size = 0;
    let mut walk = walk.into_iter().filter_entry(visible);
    while let Some(entry) = walk.next() {
        let entry = match entry {
            Ok(entry) => entry,
            Err(error) => {
                unreadable(&error, dir, shown, sources, reading);
                continue;
            }
        };
        let parts = parts_below(dir, entry.path());
        let name = shown_name(shown, &parts);
        if let Some((code, headline, help)) = unwanted(&entry, &root) {
            let file = sources.add(name, "");
            reading.error(code, headline.to_string(), Span::whole(file), help);
            if entry.file_type().is_dir() {
                walk.skip_current_dir();
            }
        } else if entry.file_type().is_file() {
            let Some(file) = read_text(&entry, &name, &parts, (sources, reading)) else { continue };
            size += sources.text(file).len();
            if size > BIGGEST_LIBRARY {
                let headline = "the library is over 64 MB; from this file on it was not read";
                let help = "move what is not an entry out of the library folder";
                reading.error(codes::TOO_MUCH, headline.to_string(), Span::whole(file), help);
                break;
            }
            files.push(TextFile { file, parts });
        }
    }
    files
}

/// Why something among the files is not read: code, headline and next step.
fn unwanted(entry: &DirEntry, root: &Path) -> Option<(Code, &'static str, &'static str)> {
    let kind = entry.file_type();
    let leads_out = || !std::fs::canonicalize(entry.path()).is_ok_and(|to| to.starts_with(root));
    if entry.depth() > 0 && entry.path_is_symlink() && leads_out() {
        // What is found in a library is shown to many: a link must not bring in what else is on the disk.
        let help = "put the file itself here in the link's place";
        return Some((codes::UNREADABLE_FILE, "this link leads out of the library", help));
    }
    if !kind.is_file() && !kind.is_dir() {
        let headline = "this is a pipe, a socket or a device, not a file";
        return Some((codes::UNREADABLE_FILE, headline, "remove it from the library folder"));
    }
    let help = "move the entries up: they are movements/<pattern>/<id>.md";
    (kind.is_dir() && entry.depth() == DEEPEST).then_some((
        codes::TOO_MUCH,
        "folders are nested over 8 deep; this one was not read",
        help,
    ))
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
    parts: &[String],
    (sources, reading): (&mut Sources, &mut Reading),
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
        Ok(bytes) if misfiled::speaks_of_members(parts, &String::from_utf8_lossy(&bytes)) => {
            misfiled::report(sources.add(name, ""), reading);
            None
        }
        Ok(bytes) => match String::from_utf8(bytes) {
            Ok(text) => Some(sources.add(name, text)),
            Err(_) if !is_written(name) => {
                nothing_reads(name, sources, reading);
                None
            }
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

/// Whether a file is one that people write in an editor.
fn is_written(name: &str) -> bool {
    [".md", ".yaml", ".yml", ".txt", ".svg"].iter().any(|ending| name.ends_with(ending))
}

/// A picture or the like: nothing reads it, and it does no harm.
fn nothing_reads(name: &str, sources: &mut Sources, reading: &mut Reading) {
    let file = sources.add(name, "");
    let shown = name.rsplit('/').next().unwrap_or(name);
    let headline = format!("nothing reads `{shown}`");
    let finding = Finding::new(codes::STRAY_FILE, Severity::Warning, headline, Span::whole(file));
    let help = "keep pictures outside the library: figures are drawn from `figure:`";
    reading.findings.push(finding.help(help));
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
