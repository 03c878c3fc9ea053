//! `rungbook completions`: words that a shell can complete, and the ids of the library.
//! Never installs them; it prints.

use super::complete_ids::{self, Kind};
use super::say::{self, LibraryDir, Outcome, Trouble};
use clap::CommandFactory;
use clap_complete::Shell;

/// Print completions for a shell; in bash and fish the ids of your library too
#[derive(clap::Args)]
#[command(after_help = "Example:\n  rungbook completions bash > \
    ~/.local/share/bash-completion/completions/rungbook")]
pub struct Completions {
    /// The shell
    #[arg(required_unless_present = "ids")]
    shell: Option<Shell>,
    /// Print the ids of one kind, one a line, for a shell or a script
    #[arg(long, value_enum, value_name = "KIND", conflicts_with = "shell")]
    ids: Option<Kind>,
    #[command(flatten)]
    library: LibraryDir,
}

impl Completions {
    pub fn run(self) -> Result<Outcome, Trouble> {
        if let Some(kind) = self.ids {
            say::print(complete_ids::ids(&self.library.texts()?.library(), kind));
        }
        if let Some(shell) = self.shell {
            let mut out = Vec::new();
            let mut command = super::Command::command();
            clap_complete::generate(shell, &mut command, "rungbook", &mut out);
            say::print(String::from_utf8_lossy(&out));
            say::print(complete_ids::for_shell(shell));
        }
        Ok(Outcome::Fine)
    }
}
