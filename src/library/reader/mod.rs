//! Reading a library from disk: files, YAML, Markdown, to typed values that know their place.
//! The only part of `library` that touches a disk; never judges, never stops at the first fault.

mod club;
mod coming;
pub mod codes;
mod cut_off;
mod done;
#[cfg(test)]
mod described;
mod entry;
pub use entry::front_matter;
mod fault;
mod fields;
mod files;
mod ladder;
mod logo;
mod misfiled;
mod movement;
pub mod handed;
mod hints;
pub mod node;
mod numbers;
pub mod roster;
mod session;
mod slips;
mod traits;
pub mod unseen;
pub mod unwritten;
mod words;

use crate::finding::{FileId, Finding, Severity, Sources, Span, did_you_mean};
use crate::kept::{Inputs, Print};
use crate::library::id::{LONGEST_ID, is_taken, is_well_formed};
use crate::library::{Library, keys};
use fields::Reading;
use files::TextFile;
use movement::Alone;
use node::{Kind, Node};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fmt;
use std::path::{Path, PathBuf};

/// Why no library could be read at all.
#[derive(Debug)]
pub struct NoLibrary {
    /// The folder that was named.
    pub dir: PathBuf,
}

impl fmt::Display for NoLibrary {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "there is no library folder `{}`", self.dir.display())
    }
}

impl std::error::Error for NoLibrary {}

/// Reads the library in `dir`. Whatever cannot be understood is in its findings.
///
/// # Errors
/// Only when `dir` is not a folder.
pub fn read(dir: &Path) -> Result<Library, NoLibrary> {
    read_as(dir, &dir.to_string_lossy())
}

/// Reads the library in `dir`; findings name its files as if the folder were called `shown`.
///
/// # Errors
/// Only when `dir` is not a folder.
pub fn read_as(dir: &Path, shown: &str) -> Result<Library, NoLibrary> {
    Ok(Texts::read(dir, shown)?.library())
}

/// The texts of a library, read from disk and not yet understood.
pub struct Texts {
    sources: Sources,
    files: Vec<TextFile>,
    shown: String,
    reading: Reading,
}

impl Texts {
    /// Reads every text in `dir`; findings name the files as if the folder were called `shown`.
    ///
    /// # Errors
    /// Only when `dir` is not a folder.
    pub fn read(dir: &Path, shown: &str) -> Result<Texts, NoLibrary> {
        if !dir.is_dir() {
            return Err(NoLibrary { dir: dir.to_path_buf() });
        }
        let (mut sources, mut reading) = (Sources::default(), Reading::default());
        let files = files::read_all(dir, shown, &mut sources, &mut reading);
        Ok(Texts { sources, files, shown: shown.to_string(), reading })
    }

    /// The print of all that a library follows from; none where a file could not be read as text.
    pub fn print(&self) -> Option<Print> {
        let add = |inputs: Inputs, file: FileId| {
            inputs.text(self.sources.name(file)).text(self.sources.text(file))
        };
        let inputs = self.sources.ids().fold(Inputs::of("texts").text(&self.shown), add);
        self.reading.findings.is_empty().then(|| inputs.print())
    }

    /// Every file that was read: the parts of its path below the library, and its text.
    pub fn files(&self) -> impl Iterator<Item = (&[String], &str)> {
        self.files.iter().map(|file| (file.parts.as_slice(), self.sources.text(file.file)))
    }

    /// The same without the file whose path below the library has these parts.
    pub fn without(mut self, parts: &[String]) -> Texts {
        self.files.retain(|file| file.parts != parts);
        self
    }

    /// The same with another text for the file whose path below the library has these parts, or
    /// with that file besides: what an editor has not saved yet.
    pub fn with_unsaved(mut self, parts: &[String], text: String) -> Texts {
        let name = files::shown_name(&self.shown, parts);
        // Of a roster no word is shown, saved or not.
        if misfiled::speaks_of_members(parts, &text) {
            let known = self.files.iter().position(|file| file.parts == parts);
            let file = known.map(|at| self.files.remove(at).file);
            let file = file.unwrap_or_else(|| self.sources.add(name, ""));
            misfiled::report(file, &mut self.reading);
            return self;
        }
        let known = self.files.iter().find(|file| file.parts == parts).map(|file| file.file);
        // What could not be read stands in the sources too, and its finding with it.
        let known =
            known.or_else(|| self.sources.ids().find(|file| self.sources.name(*file) == name));
        match known {
            Some(file) => {
                self.sources.replace(file, text);
                self.reading.findings.retain(|finding| finding.place.span.file != file);
                if !self.files.iter().any(|known| known.file == file) {
                    self.files.push(TextFile { file, parts: parts.to_vec() });
                }
            }
            None => {
                let file = self.sources.add(name, text);
                self.files.push(TextFile { file, parts: parts.to_vec() });
            }
        }
        self
    }

    /// The library that they make. Whatever cannot be understood is in its findings.
    pub fn library(self) -> Library {
        let Texts { mut sources, files, shown, mut reading } = self;
        let mut library = Library::default();
        let alone: Vec<Option<Alone>> =
            files.par_iter().map(|text_file| movement_alone(text_file, &sources)).collect();
        for (text_file, alone) in files.iter().zip(alone) {
            match alone {
                Some(alone) => alone.add_to(&mut library, &mut reading),
                None => read_file(text_file, &sources, &mut library, &mut reading),
            }
        }
        if !files.iter().any(|file| file.parts == ["club.yaml"]) {
            no_club(&shown, &mut sources, &mut reading);
        }
        logo::settle(&files, &mut library, &sources, &mut reading);
        fault::take_over(&mut library);
        library.sources = sources;
        library.findings = reading.findings;
        library.formerly = reading.formerly;
        library
    }
}

/// A library without `club.yaml`, which every page needs. Silent when the file is there and could
/// not be read: that has been said already.
fn no_club(shown: &str, sources: &mut Sources, reading: &mut Reading) {
    let name = files::shown_name(shown, &["club.yaml".to_string()]);
    if sources.ids().any(|file| sources.name(file) == name) {
        return;
    }
    let file = sources.add(name, "");
    let headline = "the library has no `club.yaml`".to_string();
    let help = "write one with `name`, `caution-line` and `stop-signs`: every page shows them";
    reading.error(codes::NO_CLUB, headline, Span::whole(file), help);
}

/// The movement in a file, where it is one of a movement.
fn movement_alone(text_file: &TextFile, sources: &Sources) -> Option<Alone> {
    let parts: Vec<&str> = text_file.parts.iter().map(String::as_str).collect();
    match parts[..] {
        ["movements", ref folders @ .., name] if name.ends_with(".md") => {
            Some(Alone::read(folders, name, text_file.file, sources.text(text_file.file)))
        }
        _ => None,
    }
}

/// Any other file.
fn read_file(
    text_file: &TextFile,
    sources: &Sources,
    library: &mut Library,
    reading: &mut Reading,
) {
    let parts: Vec<&str> = text_file.parts.iter().map(String::as_str).collect();
    let (file, parts) = (text_file.file, parts.as_slice());
    let text = sources.text(file);
    match parts {
        ["club.yaml"] => club::read(file, text, library, reading),
        ["words", name] if name.ends_with(".yaml") => {
            words::read(name, file, text, library, reading)
        }
        ["ladders", name] if name.ends_with(".yaml") => {
            ladder::read(name, file, text, library, reading);
        }
        ["sessions", name] if name.ends_with(".yaml") => {
            session::read_session(name, file, text, library, reading);
        }
        ["cycles", name] if name.ends_with(".yaml") => {
            session::read_cycle(name, file, text, library, reading);
        }
        [name] if name.ends_with(".svg") => {} // Whether it is the logo is seen when all is read.
        _ => stray(parts, (file, text), reading),
    }
}

/// A file that nothing reads: said, because a misspelt folder loses a coach's work silently.
fn stray(parts: &[&str], (file, text): (FileId, &str), reading: &mut Reading) {
    let known = ["movements", "ladders", "sessions", "cycles", "words", "club.yaml"];
    let first = parts.first().copied().unwrap_or_default();
    if parts.len() == 1 && first.ends_with(".md") {
        // A README beside the content is welcome; a movement is not read there.
        if text.trim_start_matches('\u{feff}').starts_with("---") {
            let headline = format!("nothing reads `{first}` here, and it looks like a movement");
            let finding =
                Finding::new(codes::STRAY_FILE, Severity::Warning, headline, Span::whole(file));
            let help = format!("move it to movements/<pattern>/{first}");
            reading.findings.push(finding.help(help));
        }
        return;
    }
    let otherwise =
        "entries are movements/<pattern>/<id>.md and ladders, sessions, cycles and words as .yaml";
    reading.findings.push(
        Finding::new(
            codes::STRAY_FILE,
            Severity::Warning,
            format!("nothing reads `{}`", parts.join("/")),
            Span::whole(file),
        )
        .help(match parts.join("/").strip_suffix(".yml") {
            _ if !known.contains(&first) => did_you_mean(first, known, otherwise),
            Some(name) => format!("name it `{name}.yaml`"),
            None => otherwise.to_string(),
        }),
    );
}

/// The whole of a YAML file of a kind as a tree.
fn yaml_file(kind: &str, file: FileId, text: &str, reading: &mut Reading) -> Option<Node> {
    let base = text.len() - text.trim_start_matches('\u{feff}').len();
    match node::parse(&text[base..], file, base) {
        Ok(Node { kind: Kind::Empty, .. }) => {
            let help = "write the entry, or remove the file";
            let headline = "nothing is written in this file".to_string();
            reading.error(codes::EMPTY_FILE, headline, Span::whole(file), help);
            None
        }
        Ok(node) => {
            unseen::report(&node, reading);
            unwritten(kind, &node, reading);
            if let Some(kind) = keys::schema::kind_named(kind) {
                cut_off::texts(&node, &kind.shape, (file, text), reading);
            }
            Some(node)
        }
        Err(finding) => {
            reading.findings.push(*finding);
            None
        }
    }
}

/// What is still to be written: in a file of words said for each entry, else for the file.
fn unwritten(kind: &str, node: &Node, reading: &mut Reading) {
    match &node.kind {
        Kind::Map(entries) if kind.starts_with("words-") => {
            entries.iter().for_each(|(_, entry)| unwritten::report(entry, ("", 0), reading));
        }
        _ => unwritten::report(node, ("", 0), reading),
    }
}

/// The id that a file's name gives; one that is not well formed is a finding.
fn id_from_name(name: &str, ending: &str, file: FileId, reading: &mut Reading) -> String {
    let stem = name.strip_suffix(ending).unwrap_or(name);
    check_id(stem, Span::whole(file), reading);
    stem.to_string()
}

/// Reports an id that is not lower-case words joined by hyphens, or that is taken.
fn check_id(id: &str, span: Span, reading: &mut Reading) {
    if is_taken(id) {
        let headline = format!("`{id}` cannot be an id: a list of ours or a device is called that");
        reading.error(
            codes::BAD_ID,
            headline,
            span,
            format!("name it otherwise, such as `my-{id}`"),
        );
        return;
    }
    if is_well_formed(id) && id.len() <= LONGEST_ID {
        return;
    }
    if is_well_formed(id) {
        let headline = format!("this id has {} letters; at most {LONGEST_ID} are read", id.len());
        reading.error(codes::BAD_ID, headline, span, "take fewer words");
        return;
    }
    let plain = id.to_lowercase().replace(|c: char| !c.is_ascii_alphanumeric(), "-");
    let words: Vec<&str> = plain.split('-').filter(|word| !word.is_empty()).collect();
    // What a letter with an accent turns into is for the coach to say.
    let help = if words.is_empty() || !id.is_ascii() {
        "rename it with the letters a to z, digits and hyphens".to_string()
    } else {
        format!("rename it to `{}`", words.join("-"))
    };
    let headline = format!("`{id}` cannot be an id: an id is lower-case words joined by hyphens");
    reading.error(codes::BAD_ID, headline, span, help);
}

/// Adds an entry; a second one with the same id (letter case apart) is a finding and is left out.
fn add<K: Ord + AsRef<str>, V>(
    entries: &mut BTreeMap<K, V>,
    id: K,
    entry: V,
    span: Span,
    first: impl Fn(&V) -> Span,
    reading: &mut Reading,
) {
    let name = id.as_ref();
    reading.capitals |= name.contains(|c: char| c.is_ascii_uppercase());
    // Without a capital anywhere, the same and the same but for capitals are one.
    let same = match reading.capitals {
        true => entries.iter().find(|(known, _)| known.as_ref().eq_ignore_ascii_case(name)),
        false => entries.get_key_value(&id),
    };
    if let Some((known, earlier)) = same {
        let known = known.as_ref();
        let headline = if known == name {
            format!("the id `{name}` is given twice")
        } else {
            format!("the ids `{known}` and `{name}` differ by capital letters only")
        };
        reading.findings.push(
            Finding::new(codes::DUPLICATE_ID, Severity::Error, headline, span)
                .label("again here")
                .also(first(earlier), "first here")
                .help("rename one of the two"),
        );
        return;
    }
    entries.insert(id, entry);
}
