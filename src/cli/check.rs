//! `rungbook check`: everything that is wrong, in one run; of the library, of some of its files, or
//! of a text that an editor has not saved yet. Never changes a file.

use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::check;
use crate::finding::{self, Finding, Severity, Sources, to_json, to_sarif};
use crate::gym::Gym;
use crate::library::reader::Texts;
use clap::ValueEnum;
use std::collections::BTreeSet;
use std::io::Read;
use std::path::{Component, Path, PathBuf};

/// Read the library and say everything that is wrong, with its place and one next step
#[derive(clap::Args)]
#[command(
    after_help = "Examples:\n  rungbook check\n  rungbook check content/ladders/row.yaml\n  \
    rungbook check - --as movements/squat/squat.md < unsaved.md\n  \
    rungbook check --format sarif > findings.sarif\n\n\
    Exit code 1 when there is an error or a warning. `rungbook explain CODE` says more about a code; \
    club.yaml can switch advice off, with a reason."
)]
pub struct Check {
    /// Only what is found in these files; `-` is a text from standard input
    #[arg(value_name = "FILE")]
    files: Vec<PathBuf>,
    /// For `-`: which file of the library the text is, such as movements/squat/squat.md
    #[arg(long = "as", value_name = "FILE")]
    named: Option<PathBuf>,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person, for a script, or for a code host (SARIF 2.1.0)
    #[arg(long, value_enum, default_value = "human")]
    format: CheckFormat,
    /// Errors and warnings only, and no closing line where there are none
    #[arg(long, short)]
    quiet: bool,
    /// What ends in exit code 1
    #[arg(long, value_enum, value_name = "SEVERITY", default_value = "warning")]
    fail_on: FailOn,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum CheckFormat {
    Human,
    Json,
    Sarif,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum FailOn {
    /// An error only
    Error,
    /// A warning too
    Warning,
    /// Any finding
    Advice,
}

impl Check {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let library = self.folder();
        let only = self.only(&library)?;
        let gym = Gym::open(self.texts(&library)?.library());
        let sources = &gym.library.sources;
        let mut findings = check::run(&gym);
        if let Some(only) = &only {
            are_there(only, &library, sources)?;
            findings.retain(|finding| is_in(finding, only, &library, sources));
        }
        if self.quiet {
            findings.retain(|finding| finding.severity != Severity::Advice);
        }
        match self.format {
            CheckFormat::Json => say::print(to_json(&findings, sources)),
            CheckFormat::Sarif => say::print(to_sarif(&findings, sources, &check::rule_facts())),
            CheckFormat::Human => {
                say::print(finding::render(&findings, sources, say::paint(&std::io::stdout())));
                if !(self.quiet && findings.is_empty()) {
                    say::print(closing(&gym, &library, only.as_ref(), &findings));
                }
            }
        }
        Ok(self.outcome(&findings))
    }

    fn outcome(&self, findings: &[Finding]) -> Outcome {
        let worst = match self.fail_on {
            FailOn::Error => Severity::Error,
            FailOn::Warning => Severity::Warning,
            FailOn::Advice => Severity::Advice,
        };
        match findings.iter().any(|finding| finding.severity <= worst) {
            true => Outcome::Findings,
            false => Outcome::Fine,
        }
    }

    /// The library: as named, here, or the one that holds the first of the files.
    fn folder(&self) -> PathBuf {
        let found = self.library.found();
        let first = self.files.iter().chain(&self.named).find(|file| !is_stdin(file));
        match first.and_then(|file| library_above(file)) {
            Some(above) if !found.is_dir() => above,
            _ => found,
        }
    }

    /// The texts of the library, with what came from standard input in the place of its file.
    fn texts(&self, library: &Path) -> Result<Texts, Trouble> {
        let texts = Texts::read(library, &library.to_string_lossy()).map_err(say::no_library)?;
        if !self.files.iter().any(|file| is_stdin(file)) {
            return Ok(texts);
        }
        let named = self.named.as_deref().ok_or_else(|| {
            let help = "say which file it is, such as `--as movements/squat/squat.md`";
            Trouble::new("a text from standard input has no place in the library", help)
        })?;
        let mut unsaved = String::new();
        std::io::stdin().lock().read_to_string(&mut unsaved).map_err(|error| {
            let help = "send the text as UTF-8";
            Trouble::new(format!("standard input could not be read: {error}"), help)
        })?;
        Ok(texts.with_unsaved(&below(library, named), unsaved))
    }

    /// The files that are asked for, below the library; nothing where it is the whole library.
    fn only(&self, library: &Path) -> Result<Option<BTreeSet<String>>, Trouble> {
        let Some(_) = self.files.first() else { return Ok(None) };
        let named = self.files.iter().filter_map(|file| match is_stdin(file) {
            true => self.named.as_ref(),
            false => Some(file),
        });
        let missing =
            |file: &&PathBuf| !is_stdin(file) && !file.is_file() && !library.join(file).is_file();
        if let Some(missing) = self.files.iter().find(missing) {
            let help = "write its path from here, or from the library's folder";
            return Err(Trouble::new(format!("there is no file `{}`", say::shown(missing)), help));
        }
        Ok(Some(named.map(|file| below(library, file).join("/")).collect()))
    }
}

fn is_stdin(file: &Path) -> bool {
    file.as_os_str() == "-"
}

/// The folder upward of a file that has a `club.yaml`.
fn library_above(file: &Path) -> Option<PathBuf> {
    let has_club = |folder: &&Path| folder.join("club.yaml").is_file();
    file.ancestors().skip(1).find(has_club).map(Path::to_path_buf)
}

/// The parts of a path below the library; of one that is no path into it, the path as it stands.
fn below(library: &Path, file: &Path) -> Vec<String> {
    let real = |path: &Path| std::fs::canonicalize(path).ok();
    // A new file has no place on the disk yet; its folder may have one.
    let whole = real(file).or_else(|| Some(real(file.parent()?)?.join(file.file_name()?)));
    let within = whole
        .zip(real(library))
        .and_then(|(file, library)| file.strip_prefix(library).ok().map(Path::to_path_buf));
    let within = within.or_else(|| file.strip_prefix(library).ok().map(Path::to_path_buf));
    let within = within.unwrap_or_else(|| file.to_path_buf());
    let parts = within.components().filter_map(|part| match part {
        Component::Normal(part) => Some(part.to_string_lossy().into_owned()),
        _ => None,
    });
    parts.collect()
}

/// A file's name below the library.
fn name_below<'s>(library: &Path, name: &'s str) -> &'s str {
    let shown = library.to_string_lossy().replace('\\', "/");
    name.strip_prefix(shown.trim_end_matches('/')).unwrap_or(name).trim_start_matches('/')
}

fn is_in(finding: &Finding, only: &BTreeSet<String>, library: &Path, sources: &Sources) -> bool {
    let places = std::iter::once(&finding.place).chain(&finding.also);
    let mut names = places.map(|place| name_below(library, sources.name(place.span.file)));
    names.any(|name| only.contains(name))
}

/// A file that the library does not read has no findings, which must not look like "fine".
fn are_there(only: &BTreeSet<String>, library: &Path, sources: &Sources) -> Result<(), Trouble> {
    let read: BTreeSet<&str> =
        sources.ids().map(|file| name_below(library, sources.name(file))).collect();
    match only.iter().find(|name| !read.contains(name.as_str())) {
        Some(stranger) => Err(Trouble::new(
            format!("`{stranger}` is no file of the library `{}`", say::shown(library)),
            "name a file in it, or its library with --library DIR",
        )),
        None => Ok(()),
    }
}

fn closing(
    gym: &Gym,
    library: &Path,
    only: Option<&BTreeSet<String>>,
    findings: &[Finding],
) -> String {
    let summary = finding::summary(findings);
    if let Some(only) = only {
        let names: Vec<&str> = only.iter().map(String::as_str).collect();
        return format!("{}: {summary}\n", names.join(", "));
    }
    let read = &gym.library;
    format!(
        "{}: {}, {}, {}: {summary}\n",
        say::shown(library),
        say::counted(read.movements.len(), "movement"),
        say::counted(read.ladders.len(), "ladder"),
        say::counted(read.sessions.len(), "session"),
    )
}
