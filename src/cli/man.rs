//! `rungbook man`: the manual page.
//! Never says more than the help of each command.

use super::say::{self, Outcome, Trouble};
use clap::CommandFactory;

/// Print the manual page
#[derive(clap::Args)]
#[command(after_help = "Example:\n  rungbook man | man -l -\n  rungbook man swap | man -l -")]
pub struct Man {
    /// A command of its own page
    command: Option<String>,
}

impl Man {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let mut command = super::Command::command().bin_name("rungbook");
        command.build();
        if let Some(name) = &self.command {
            let found = command.find_subcommand(name).cloned();
            let help = "see `rungbook --help` for the commands";
            command =
                found.ok_or_else(|| Trouble::new(format!("there is no command `{name}`"), help))?;
        }
        let mut out = Vec::new();
        clap_mangen::Man::new(command)
            .render(&mut out)
            .map_err(|e| Trouble::new(format!("the page could not be made: {e}"), "try again"))?;
        say::print(String::from_utf8_lossy(&out));
        Ok(Outcome::Fine)
    }
}
