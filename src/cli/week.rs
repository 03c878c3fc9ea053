//! Which week of a cycle asks for a session: the one that is said, else the one that is on that day.
//! Never guesses: of two cycles that have the session in that week one is to be named.

use super::called;
use super::say::Trouble;
use crate::gym::Gym;
use crate::library::{Cycle, CycleWeek, Session};
use crate::plan::{Day, in_week, weeks_with};

/// A week of a cycle
#[derive(Debug, Clone, clap::Args)]
pub(super) struct AskedWeek {
    /// The session as this week of a cycle asks for it, from 1; without it the week that is on counts,
    /// as on the session's page
    #[arg(long, value_name = "N")]
    week: Option<u32>,
    /// Which cycle, where several have the session: its id or its name
    #[arg(long, value_name = "CYCLE")]
    cycle: Option<String>,
    /// The session as it is written, whatever week is on
    #[arg(long, conflicts_with_all = ["week", "cycle"])]
    as_written: bool,
}

/// A week and its cycle.
type Week<'g> = (&'g Cycle, &'g CycleWeek);

impl AskedWeek {
    /// Whether anything was said of a week.
    pub(super) fn is_said(&self) -> bool {
        self.week.is_some() || self.cycle.is_some() || self.as_written
    }

    /// The session as its week asks for it.
    ///
    /// # Errors
    /// An unknown cycle, a week without the session, or two cycles of which none was named.
    pub(super) fn asked(
        &self,
        gym: &Gym,
        session: &Session,
        today: Option<Day>,
    ) -> Result<Session, Trouble> {
        if self.as_written {
            return Ok(session.clone());
        }
        let cycles = self.cycles(gym)?;
        let weeks = match self.week {
            Some(number) => numbered(&cycles, number, session)?,
            None => on(&cycles, session, today),
        };
        match weeks.as_slice() {
            [] => Ok(session.clone()),
            [week] => Ok(in_week(*week, session)),
            _ => {
                let names: Vec<&str> = weeks.iter().map(|(cycle, _)| cycle.id.as_str()).collect();
                let sentence = format!("{} cycles ask for `{}`", names.len(), session.id);
                let help = format!("add --cycle, one of {}, or --as-written", names.join(", "));
                Err(Trouble::new(sentence, help))
            }
        }
    }

    fn cycles<'g>(&self, gym: &'g Gym) -> Result<Vec<&'g Cycle>, Trouble> {
        let cycles = gym.library.cycles.values();
        match &self.cycle {
            None => Ok(cycles.collect()),
            Some(word) => {
                let entries = cycles.map(|one| (one.id.as_str(), one.name.as_str(), one));
                Ok(vec![called::called("cycle", word, entries)?])
            }
        }
    }
}

fn numbered<'g>(
    cycles: &[&'g Cycle],
    number: u32,
    session: &Session,
) -> Result<Vec<Week<'g>>, Trouble> {
    let has = |week: &CycleWeek| week.sessions.iter().any(|one| one.value == session.id);
    let with_it: Vec<Week<'g>> = cycles
        .iter()
        .flat_map(|cycle| cycle.weeks.iter().map(move |week| (*cycle, week)))
        .filter(|(_, week)| has(week))
        .collect();
    let found: Vec<Week<'g>> = with_it.iter().copied().filter(|(_, w)| w.week == number).collect();
    if !found.is_empty() {
        return Ok(found);
    }
    let known = with_it.iter().map(|(cycle, week)| format!("week {} of {}", week.week, cycle.id));
    let known: Vec<String> = known.collect();
    let help = match known.is_empty() {
        true => "leave --week out: no cycle asks for this session".to_string(),
        false => format!("it is in {}", known.join(", ")),
    };
    Err(Trouble::new(format!("`{}` is in week {number} of no cycle", session.id), help))
}

/// The weeks with the session that are on.
fn on<'g>(cycles: &[&'g Cycle], session: &Session, today: Option<Day>) -> Vec<Week<'g>> {
    let is_on = |from: Day, to: Day| today.is_some_and(|day| from <= day && day <= to);
    let of = |cycle: &&'g Cycle| {
        let cycle: &'g Cycle = cycle;
        let weeks = weeks_with(cycle, &session.id).into_iter();
        weeks.filter(|(_, from, to)| is_on(*from, *to)).map(|(week, ..)| (cycle, week)).collect()
    };
    cycles.iter().flat_map(|cycle| -> Vec<Week<'g>> { of(cycle) }).collect()
}
