//! `rungbook completions`: words that a shell can complete.
//! Never installs them; it prints.

use super::say::{self, Outcome, Trouble};
use clap::CommandFactory;
use clap_complete::Shell;

/// Print completions for a shell
#[derive(clap::Args)]
#[command(after_help = "Example:\n  rungbook completions bash > \
    ~/.local/share/bash-completion/completions/rungbook")]
pub struct Completions {
    /// The shell
    shell: Shell,
}

impl Completions {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let mut out = Vec::new();
        clap_complete::generate(self.shell, &mut super::Command::command(), "rungbook", &mut out);
        say::print(String::from_utf8_lossy(&out));
        Ok(Outcome::Fine)
    }
}
