//! What commands say and how: to people or to machines, in colour or plain, and why they could not
//! run. Never panics when the reader of a pipe has gone.

use crate::finding::{self, Finding, Paint, Severity, Sources};
use crate::gym::Gym;
use crate::library::reader::{NoLibrary, Texts};
use clap::ValueEnum;
use std::fmt::Display;
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

/// How a command that could run ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Nothing to mend, or what was asked for was found.
    Fine,
    /// Findings, or nothing was found.
    Findings,
}

/// Why a command could not run: a sentence and one next step.
#[derive(Debug)]
pub struct Trouble {
    /// What is wrong.
    pub sentence: String,
    /// One next step.
    pub help: String,
}

impl Trouble {
    /// A sentence and one next step.
    pub fn new(sentence: impl Display, help: impl Into<String>) -> Trouble {
        Trouble { sentence: sentence.to_string(), help: help.into() }
    }
}

/// How to print.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// For a person.
    Human,
    /// For a machine.
    Json,
}

/// Where the library is.
#[derive(Debug, clap::Args)]
pub struct LibraryDir {
    /// Folder of the library
    #[arg(long = "library", value_name = "DIR", default_value = "content")]
    pub dir: PathBuf,
}

impl LibraryDir {
    /// Reads the library and opens the gym on it.
    pub fn open(&self) -> Result<Gym, Trouble> {
        self.texts().map(|texts| Gym::open(texts.library()))
    }

    /// Reads the library's texts.
    pub fn texts(&self) -> Result<Texts, Trouble> {
        Texts::read(&self.dir, &self.dir.to_string_lossy()).map_err(no_library)
    }

    /// Only looks whether the library's folder is there.
    pub fn must_exist(&self) -> Result<(), Trouble> {
        match self.dir.is_dir() {
            true => Ok(()),
            false => Err(no_library(NoLibrary { dir: self.dir.clone() })),
        }
    }
}

fn no_library(error: NoLibrary) -> Trouble {
    let help = "go to the folder that holds it, name it with --library DIR, \
                or start one with `rungbook new DIR`";
    Trouble::new(error, help)
}

/// Prints to standard output; a closed pipe ends the printing, not the program.
pub fn print(text: impl AsRef<str>) {
    let _ = std::io::stdout().lock().write_all(text.as_ref().as_bytes());
}

/// Prints to standard error.
pub fn tell(text: impl AsRef<str>) {
    let _ = std::io::stderr().lock().write_all(text.as_ref().as_bytes());
}

/// Says why a command could not run.
pub fn trouble(trouble: &Trouble) {
    tell(format!("error: {}\n  = help: {}\n", trouble.sentence, trouble.help));
}

/// Colour for a terminal that wants it (`NO_COLOR`, no-color.org; `TERM=dumb`).
pub fn paint(stream: &impl IsTerminal) -> Paint {
    let unwanted = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
    if stream.is_terminal() && !unwanted && !dumb { Paint::Colour } else { Paint::Plain }
}

/// Findings for a person, on standard error, with a closing sentence.
pub fn findings(findings: &[Finding], sources: &Sources) {
    tell(findings_as_text(findings, sources));
}

/// What [`findings`] says.
pub fn findings_as_text(findings: &[Finding], sources: &Sources) -> String {
    if findings.is_empty() {
        return String::new();
    }
    let text = finding::render(findings, sources, paint(&std::io::stderr()));
    format!("{text}{}\n", finding::summary(findings))
}

/// Findings end a command with 1 when one of them is an error or a warning.
pub fn outcome(findings: &[Finding]) -> Outcome {
    match findings.iter().any(|finding| finding.severity != Severity::Advice) {
        true => Outcome::Findings,
        false => Outcome::Fine,
    }
}

/// `1 movement`, `97 movements`.
pub fn counted(number: usize, what: &str) -> String {
    if number == 1 { format!("1 {what}") } else { format!("{number} {what}s") }
}

/// A path as people should see it.
pub fn shown(path: &Path) -> String {
    path.display().to_string()
}
