//! What commands say and how: to people or to machines, in colour or plain, and why they could not
//! run. Never panics when the reader of a pipe has gone.

use crate::finding::{self, Finding, Paint, Severity, Sources};
use crate::gym::Gym;
use crate::library::reader::{NoLibrary, Texts};
use clap::ValueEnum;
use std::fmt::Display;
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

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

/// Where a library usually stands, seen from the folder of the club.
const USUAL_FOLDER: &str = "content";

/// Where the library is.
#[derive(Debug, clap::Args)]
pub struct LibraryDir {
    /// Folder of the library; where it is left out and none is here, the nearest one upward counts
    #[arg(long = "library", short = 'l', value_name = "DIR", default_value = USUAL_FOLDER)]
    pub dir: PathBuf,
}

impl LibraryDir {
    /// Where it is when nobody names it.
    pub fn usual() -> LibraryDir {
        LibraryDir { dir: PathBuf::from(USUAL_FOLDER) }
    }

    /// Reads the library and opens the gym on it.
    pub fn open(&self) -> Result<Gym, Trouble> {
        self.texts().map(|texts| Gym::open(texts.library()))
    }

    /// Reads the library's texts.
    pub fn texts(&self) -> Result<Texts, Trouble> {
        let dir = self.found();
        super::exchange::tell_if_open(&dir);
        Texts::read(&dir, &dir.to_string_lossy()).map_err(no_library)
    }

    /// Only looks whether the library's folder is there.
    pub fn must_exist(&self) -> Result<(), Trouble> {
        match self.found().is_dir() {
            true => Ok(()),
            false => Err(no_library(NoLibrary { dir: self.dir.clone() })),
        }
    }

    /// The library's folder: as named, or where none is named and none is here, the nearest one
    /// upward that has a `club.yaml`.
    pub fn found(&self) -> PathBuf {
        let usual = self.dir.as_os_str() == USUAL_FOLDER;
        if !usual || self.dir.is_dir() {
            return self.dir.clone();
        }
        let here = std::env::current_dir().unwrap_or_default();
        let up = |steps: usize| match steps {
            0 => PathBuf::from("."),
            _ => vec![".."; steps].iter().collect(),
        };
        let ups = (0..here.ancestors().count()).map(up);
        let mut folders = ups.flat_map(|up| [up.clone(), up.join(USUAL_FOLDER)]);
        let found = folders.find(|folder| folder.join("club.yaml").is_file());
        found.unwrap_or_else(|| self.dir.clone())
    }
}

/// Why there is no library to read.
pub fn no_library(error: NoLibrary) -> Trouble {
    let help = "go to the folder that holds it, name it with --library DIR, \
                or start one with `rungbook new DIR`";
    Trouble::new(error, help)
}

/// What the system said when something could not be printed.
static LOST: OnceLock<String> = OnceLock::new();

/// Prints to standard output; a closed pipe ends the printing, not the program. What else keeps words
/// from arriving is told at the end by [`lost`].
pub fn print(text: impl AsRef<str>) {
    let mut out = std::io::stdout().lock();
    let printed = out.write_all(text.as_ref().as_bytes()).and_then(|()| out.flush());
    printed.unwrap_or_else(|error| lose(&error));
}

/// Remembers that something could not be printed.
pub fn lose(error: &std::io::Error) {
    if error.kind() != std::io::ErrorKind::BrokenPipe {
        LOST.get_or_init(|| error.to_string());
    }
}

/// What was said did not arrive, as on a full disk: whoever reads on would take it for everything.
pub fn lost() -> Option<Trouble> {
    let why = LOST.get()?;
    let sentence = format!("what was to be printed could not be written: {why}");
    Some(Trouble::new(sentence, "free the disk that it goes to, or choose another, and try again"))
}

/// Prints to standard error.
pub fn tell(text: impl AsRef<str>) {
    let _ = std::io::stderr().lock().write_all(text.as_ref().as_bytes());
}

/// Says why a command could not run.
pub fn trouble(trouble: &Trouble) {
    // A name that was typed may steer a terminal; what we say over several lines is ours.
    let shown = |text: &str| text.lines().map(finding::plain).collect::<Vec<_>>().join("\n");
    tell(format!("error: {}\n  = help: {}\n", shown(&trouble.sentence), shown(&trouble.help)));
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
    match (number, what.strip_suffix('y')) {
        (1, _) => format!("1 {what}"),
        (_, Some(stem)) => format!("{number} {stem}ies"),
        (_, None) => format!("{number} {what}s"),
    }
}

/// A path as people should see it.
pub fn shown(path: &Path) -> String {
    finding::plain(&path.display().to_string())
}

/// The signs at which to stop, before anything that tells somebody to move; nothing where the club has
/// written none.
pub fn stop_signs(gym: &Gym) -> String {
    let signs = gym.library.club.stop_signs.join(", ").to_lowercase();
    if signs.is_empty() {
        signs
    } else {
        format!("Stop now, and get help, at any of these: {signs}.\n\n")
    }
}

/// The club's caution line, after it.
pub fn caution_line(gym: &Gym) -> String {
    let line = gym.library.club.caution_line.as_ref();
    line.map_or(String::new(), |line| format!("\n{}\n", line.value))
}
