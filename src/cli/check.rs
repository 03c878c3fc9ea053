//! `rungbook check`: everything that is wrong, in one run.
//! Never changes a file.

use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::check;
use crate::finding::{self, to_json, to_sarif};
use clap::ValueEnum;

/// Read the library and say everything that is wrong, with its place and one next step
#[derive(clap::Args)]
#[command(
    after_help = "Examples:\n  rungbook check\n  rungbook check --format sarif > findings.sarif\n\n\
    Exit code 1 when there is an error or a warning. `rungbook explain CODE` says more about a code; \
    club.yaml can switch advice off, with a reason."
)]
pub struct Check {
    #[command(flatten)]
    library: LibraryDir,
    /// For a person, for a script, or for a code host (SARIF 2.1.0)
    #[arg(long, value_enum, default_value = "human")]
    format: CheckFormat,
}

#[derive(Clone, Copy, ValueEnum)]
enum CheckFormat {
    Human,
    Json,
    Sarif,
}

impl Check {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let findings = check::run(&gym);
        let sources = &gym.library.sources;
        match self.format {
            CheckFormat::Json => say::print(to_json(&findings, sources)),
            CheckFormat::Sarif => say::print(to_sarif(&findings, sources, &check::rule_facts())),
            CheckFormat::Human => {
                say::print(finding::render(&findings, sources, say::paint(&std::io::stdout())));
                let library = &gym.library;
                say::print(format!(
                    "{}: {}, {}, {}: {}\n",
                    say::shown(&self.library.dir),
                    say::counted(library.movements.len(), "movement"),
                    say::counted(library.ladders.len(), "ladder"),
                    say::counted(library.sessions.len(), "session"),
                    finding::summary(&findings),
                ));
            }
        }
        Ok(say::outcome(&findings))
    }
}
