//! `rungbook check`: everything that is wrong, in one run; of the library, of some of its files, or
//! of a text that an editor has not saved yet. Never changes a file.

use super::files::{self, below, is_stdin, name_below};
use super::say::{self, LibraryDir, Outcome, Trouble};
use super::{check_mend, exchange};
use crate::check;
use crate::finding::{self, Finding, Severity, Sources, to_json, to_sarif};
use crate::gym::Gym;
use crate::library::reader::Texts;
use clap::ValueEnum;
use std::collections::BTreeSet;
use std::io::Read;
use std::path::{Path, PathBuf};

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
    #[arg(long, short, value_enum, default_value = "human")]
    format: CheckFormat,
    /// Errors and warnings only, and no closing line where there are none
    #[arg(long, short)]
    quiet: bool,
    /// Make the corrections that are certain in the files, and say them; then check
    #[arg(long)]
    mend: bool,
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
        let library = files::library_of(&self.library, self.files.iter().chain(&self.named));
        let only = self.only(&library)?;
        if self.mend {
            self.mend(&library, only.as_ref())?;
        }
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

    fn mend(&self, library: &Path, only: Option<&BTreeSet<String>>) -> Result<(), Trouble> {
        if self.files.iter().any(|file| is_stdin(file)) {
            let help = "save it and name its file, or leave `--mend` out";
            return Err(Trouble::new("a text from standard input cannot be mended", help));
        }
        check_mend::mend(library, only)
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

    /// The texts of the library, with what came from standard input in the place of its file.
    fn texts(&self, library: &Path) -> Result<Texts, Trouble> {
        exchange::tell_if_open(library);
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
        files::are_there(&self.files, library)?;
        Ok(Some(named.map(|file| below(library, file).join("/")).collect()))
    }
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
