//! `rungbook explain`: what a code means, why it matters, how to mend it.
//! Never words a rule itself: the rule table does.

use super::say::{self, Outcome, Trouble};
use crate::check;

/// Say what a finding's code means, why it matters and how to mend it
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook explain ladder-loop\n  rungbook explain --all")]
pub struct Explain {
    /// The word in square brackets
    #[arg(required_unless_present = "all")]
    code: Option<String>,
    /// List every code with one line
    #[arg(long, conflicts_with = "code")]
    all: bool,
}

impl Explain {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let Some(code) = self.code else {
            for rule in check::rule_facts() {
                say::print(format!(
                    "{:26} {:8} {}\n",
                    rule.code.0,
                    rule.severity.word(),
                    rule.short
                ));
            }
            return Ok(Outcome::Fine);
        };
        let text = check::explain(&code).map_err(|sentence| {
            Trouble::new(sentence, "list them with `rungbook explain --all`")
        })?;
        say::print(text);
        Ok(Outcome::Fine)
    }
}
