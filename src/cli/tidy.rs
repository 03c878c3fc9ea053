//! `rungbook tidy`: keys in their order and one thing a line, so that one changed cue is one changed
//! line. Never changes what a file says, nor a file that cannot be read.

use super::exchange::{self, Change, Writing};
use super::files;
use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::finding::{Finding, Sources};
use crate::library::keys::kind_of_file;
use crate::library::reader::{NoLibrary, Texts};
use crate::library::tidy::{Untidy, tidied};
use std::path::{Path, PathBuf};

/// Put the keys of entries in order, one thing a line; remarks stay
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook tidy\n  rungbook tidy content/ladders/row.yaml\n  \
    rungbook tidy --check\n\n\
    What an entry says stays, and so do your remarks and a movement's text. All files are written, or \
    none. Exit code 1 where --check finds a file that is not tidy, or where one cannot be read.")]
pub struct Tidy {
    /// Only these files
    #[arg(value_name = "FILE")]
    files: Vec<PathBuf>,
    /// Change nothing: only say which files are not tidy
    #[arg(long, short)]
    check: bool,
    /// Say nothing where all is well
    #[arg(long, short)]
    quiet: bool,
    #[command(flatten)]
    library: LibraryDir,
}

impl Tidy {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let library = files::library_of(&self.library, &self.files);
        if !library.is_dir() {
            return Err(say::no_library(NoLibrary { dir: library }));
        }
        files::are_there(&self.files, &library)?;
        let only: Vec<Vec<String>> =
            self.files.iter().map(|file| files::below(&library, file)).collect();
        // Who only looks needs no leave to write, unless something is to be finished.
        let writes = !self.check || exchange::is_open(&library);
        let writing = writes.then(|| Writing::begin(&library)).transpose()?;
        let texts = Texts::read(&library, &library.to_string_lossy()).map_err(say::no_library)?;
        are_read(&only, &texts, &library)?;
        let (mut changes, mut left) = (Vec::new(), Left::default());
        let is_asked = |parts: &[String]| only.is_empty() || only.iter().any(|one| one == parts);
        for (parts, text) in texts.files().filter(|(parts, _)| is_asked(parts)) {
            left.look(&library, parts, text, &mut changes);
        }
        self.told(&changes, &left);
        if let Some(writing) = writing.filter(|_| !self.check) {
            writing.make(&changes)?;
        }
        let untidy = self.check && !changes.is_empty();
        Ok(if untidy || left.any() { Outcome::Findings } else { Outcome::Fine })
    }

    fn told(&self, changes: &[Change], left: &Left) {
        let names: String =
            changes.iter().map(|change| format!("{}\n", say::shown(&change.path))).collect();
        say::findings(&left.findings, &left.sources);
        for odd in &left.odd {
            say::tell(format!(
                "{odd}: left as it is\n  = help: write each key on a line of its own, without `!`, `&` or `? `\n"
            ));
        }
        let files = say::counted(changes.len(), "file");
        let closing = match (changes.len(), self.check) {
            (0, _) if self.quiet || left.any() => String::new(),
            (0, _) => "every file is tidy\n".to_string(),
            (1, true) => "1 file is not tidy: `rungbook tidy` puts it in order\n".to_string(),
            (_, true) => format!("{files} are not tidy: `rungbook tidy` puts them in order\n"),
            _ => format!("{files} put in order\n"),
        };
        say::print(names + &closing);
    }
}

/// A file that was named and that the library does not read must not look like a tidy one.
fn are_read(only: &[Vec<String>], texts: &Texts, library: &Path) -> Result<(), Trouble> {
    let is_read = |wanted: &&Vec<String>| {
        texts.files().any(|(parts, _)| parts == wanted.as_slice())
            && kind_of_file(&wanted.join("/")).is_some()
    };
    match only.iter().find(|wanted| !is_read(wanted)) {
        Some(stranger) => Err(Trouble::new(
            format!(
                "`{}` is no entry of the library `{}`",
                stranger.join("/"),
                say::shown(library)
            ),
            "name a file in it, or its library with --library DIR",
        )),
        None => Ok(()),
    }
}

/// Files that stay as they are, and why.
#[derive(Default)]
struct Left {
    sources: Sources,
    findings: Vec<Finding>,
    odd: Vec<String>,
}

impl Left {
    fn any(&self) -> bool {
        !self.findings.is_empty() || !self.odd.is_empty()
    }

    fn look(&mut self, library: &Path, parts: &[String], text: &str, changes: &mut Vec<Change>) {
        let path = parts.join("/");
        let Some(kind) = kind_of_file(&path) else { return };
        let file = self.sources.add(say::shown(&library.join(&path)), text);
        match tidied(text, kind, file) {
            Ok(fresh) if fresh == text => {}
            Ok(fresh) => changes.push(Change {
                path: PathBuf::from(path),
                old: Some(text.to_string()),
                new: Some(fresh),
            }),
            Err(Untidy::Unread(finding)) => self.findings.push(*finding),
            Err(Untidy::Odd) => self.odd.push(say::shown(&library.join(path))),
        }
    }
}
