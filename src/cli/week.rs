//! Which week of which cycle a command is asked about.
//! Never guesses: of two cycles that have the session in that week one is to be named.

use super::called;
use super::say::Trouble;
use crate::gym::Gym;
use crate::library::{Cycle, CycleWeek, Session};

/// A week of a cycle
#[derive(Debug, Clone, clap::Args)]
pub(super) struct InWeek {
    /// A session as this week of a cycle asks for it, from 1: fewer sets in a lighter week, and what
    /// the week plans for its ladders
    #[arg(long, value_name = "N")]
    week: Option<u32>,
    /// Which cycle, where several have the session in that week: its id or its name
    #[arg(long, value_name = "CYCLE", requires = "week")]
    cycle: Option<String>,
}

impl InWeek {
    /// Whether a week was said.
    pub(super) fn is_said(&self) -> bool {
        self.week.is_some()
    }

    /// The cycle and its week; nothing where none was said.
    ///
    /// # Errors
    /// An unknown cycle, a week that it does not have, or a session that is not in it.
    pub(super) fn find<'g>(
        &self,
        gym: &'g Gym,
        session: &Session,
    ) -> Result<Option<(&'g Cycle, &'g CycleWeek)>, Trouble> {
        let Some(week) = self.week else { return Ok(None) };
        let cycles = gym.library.cycles.values();
        let named: Vec<&Cycle> = match &self.cycle {
            None => cycles.collect(),
            Some(word) => {
                let entries = cycles.map(|one| (one.id.as_str(), one.name.as_str(), one));
                vec![called::called("cycle", word, entries)?]
            }
        };
        let with_it =
            named.iter().filter_map(|cycle| Some((*cycle, of_cycle(cycle, week, session)?)));
        let mut found: Vec<_> = with_it.collect();
        match found.len() {
            1 => Ok(found.pop()),
            0 => Err(not_in(&named, week, session)),
            _ => {
                let names: Vec<&str> = found.iter().map(|(cycle, _)| cycle.id.as_str()).collect();
                let sentence =
                    format!("`{}` is in week {week} of {} cycles", session.id, names.len());
                Err(Trouble::new(sentence, format!("add --cycle, one of {}", names.join(", "))))
            }
        }
    }
}

fn of_cycle<'c>(cycle: &'c Cycle, number: u32, session: &Session) -> Option<&'c CycleWeek> {
    let week = cycle.weeks.iter().find(|week| week.week == number)?;
    week.sessions.iter().any(|one| one.value == session.id).then_some(week)
}

fn not_in(cycles: &[&Cycle], week: u32, session: &Session) -> Trouble {
    let has = |cycle: &&Cycle| {
        let weeks = cycle.weeks.iter().filter(|one| of_cycle(cycle, one.week, session).is_some());
        let weeks: Vec<String> = weeks.map(|one| one.week.to_string()).collect();
        (!weeks.is_empty()).then(|| format!("week {} of {}", weeks.join(", "), cycle.id))
    };
    let weeks: Vec<String> = cycles.iter().filter_map(has).collect();
    let help = match weeks.is_empty() {
        true => "leave --week out: no cycle asks for this session".to_string(),
        false => format!("it is in {}", weeks.join("; ")),
    };
    Trouble::new(format!("`{}` is in week {week} of no cycle", session.id), help)
}
