//! `rungbook roster keep`: what each rung is today goes beside its number, as long as that is known.
//! Never changes a rung, and never writes over what a rung was.

use super::roster::{RosterPlace, no_roster};
use super::roster_file::{RosterText, RosterTurn};
use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::check;
use crate::finding::{self, Finding, Sources};
use crate::gym::Gym;
use crate::library::{Member, RungWas};
use crate::own;

/// Write down what each rung is, beside its number
#[derive(clap::Args)]
#[command(
    after_help = "Examples:\n  rungbook roster keep\n  rungbook roster keep --roster roster.yaml\n\n\
    A ladder may be rewritten, and then a number alone says nothing: who has only a number starts at \
    the lowest rung. Run this after writing numbers by hand, and look whether each line is meant."
)]
pub struct Keep {
    #[command(flatten)]
    roster: RosterPlace,
    #[command(flatten)]
    library: LibraryDir,
}

impl Keep {
    pub(super) fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let file = &self.roster.roster_file;
        if !file.exists() {
            return Err(no_roster(file));
        }
        let turn = RosterTurn::take(file)?;
        let mut sources = Sources::default();
        let text = RosterText::read(file, &mut sources)?;
        let kept = own::with_their_rungs(&gym, text.roster());
        let said: String = text
            .roster()
            .members
            .iter()
            .zip(&kept.members)
            .map(|(before, after)| new_words(&gym, before, after))
            .collect();
        if !said.is_empty() {
            text.keep(&kept, &turn)?;
        }
        let nothing = "nothing to write: no rung stands there by its number alone\n".to_string();
        let mut findings: Vec<Finding> = kept
            .members
            .iter()
            .flat_map(|member| check::member(&gym, (&kept, member), None))
            .collect();
        say::print(if said.is_empty() && findings.is_empty() { nothing } else { said });
        finding::sort(&mut findings, &sources);
        say::findings(&findings, &sources);
        Ok(say::outcome(&findings))
    }
}

/// A line for every rung that is known now: `robin: push-up rung 4 is Incline push-up, hands 60 cm`.
fn new_words(gym: &Gym, before: &Member, after: &Member) -> String {
    let name = &after.name.value;
    let rungs = before.rungs.iter().zip(&after.rungs).filter(|((_, own), _)| own.was.is_none());
    let rungs =
        rungs.filter_map(|(_, (id, own))| Some((id, own.rung.value, own.was.as_ref()?, "")));
    let results = before.results.iter().zip(&after.results).filter(|(one, _)| one.was.is_none());
    let results = results.filter_map(|(_, one)| {
        Some((&one.ladder, one.rung.value, one.was.as_ref()?, one.day.value.as_str()))
    });
    let say = |(ladder, rung, was, day): (&crate::finding::Placed<_>, u32, &RungWas, &str)| {
        let ladder: &crate::library::LadderId = &ladder.value;
        let day = if day.is_empty() { String::new() } else { format!(", {day}") };
        format!("{name}: {ladder} rung {rung}{day}: {}\n", was_words(gym, was))
    };
    rungs.chain(results).map(say).collect()
}

/// `Incline push-up, hands 60 cm`.
pub(super) fn was_words(gym: &Gym, was: &RungWas) -> String {
    let movement = gym.library.movements.get(&was.movement.value);
    let name = movement.map_or(was.movement.as_str(), |movement| &movement.name.value);
    let settings = was.settings.iter().map(|(name, at)| format!(", {} {}", name.value, at.value));
    format!("{name}{}", settings.collect::<String>())
}
