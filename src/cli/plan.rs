//! `rungbook plan`: a cycle week by week, for a person who starts on given rungs.
//! Never plans: the room `plan` does, and says what would end the plan.

use super::called;
use super::say::{self, LibraryDir, Outcome, Trouble};
use super::whom::Whom;
use crate::gym::Gym;
use crate::library::{Amount, Cycle, SessionId};
use crate::own::{self, Member};
use crate::plan::{self, CyclePlan, Day, LadderPlan, LadderWeek, Reminder, WeekBalance};
use crate::site;
use clap::ValueEnum;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// Plan a cycle week by week: rung, setting, sets and repetitions
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  \
    rungbook plan six-weeks-push-and-pull --rung push-up=3,row=2\n  \
    rungbook plan six-weeks-push-and-pull --start 2027-01-05 --format ics > cycle.ics\n  \
    rungbook plan six-weeks-push-and-pull --kit chair,towel --avoid 'sore wrist'\n\n\
    A ladder that --rung does not name starts at the rung of its test. The plan holds while the \
    ladder's rule to move up is met; it is no promise. With kit or limits it says of every rung how \
    that person does it; a calendar is for nobody in particular.")]
pub struct Plan {
    /// The cycle: its id (the name of its file) or its name
    #[arg(required = true, value_name = "CYCLE")]
    cycle: Vec<String>,
    /// First day, such as 2027-01-05, instead of the one the cycle says; it starts on its first
    /// training day from then on
    #[arg(long, value_name = "DAY", value_parser = day)]
    start: Option<Day>,
    /// Starting rungs, separated by commas, such as push-up=3,row=2
    #[arg(long, value_delimiter = ',', value_name = "LADDER=RUNG")]
    rung: Vec<String>,
    #[command(flatten)]
    whom: Whom,
    #[command(flatten)]
    library: LibraryDir,
    /// In a calendar: with a reminder at seven in the morning of each day
    #[arg(long)]
    remind: bool,
    /// For a person, for a script, or for a calendar (RFC 5545; needs a first day)
    #[arg(long, short, value_enum, default_value = "human")]
    format: As,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum As {
    /// For a person.
    Human,
    /// For a script.
    Json,
    /// For a calendar.
    Ics,
}

fn day(word: &str) -> Result<Day, String> {
    Day::read(word).ok_or_else(|| "write a day that exists, like 2027-01-05".to_string())
}

impl Plan {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let cycle = cycle_called(&gym, &called::joined(&self.cycle))?;
        let start = plan::starting_rungs(&gym, cycle, &self.rung)
            .map_err(|sentence| Trouble::new(sentence, "mend --rung and ask again"))?;
        let plan = plan::cycle_plan(&gym, cycle, &start);
        say::print(match (self.format, self.start.or_else(|| plan::first_day(cycle))) {
            (As::Human, first_day) => {
                plan::as_text(&gym, cycle, &plan, first_day) + &self.for_them(&gym, &plan)?
            }
            (As::Json, first_day) => as_json(cycle, &plan, first_day),
            (As::Ics, _) if self.whom.is_said() => {
                let help = "leave kit and limits out, or ask without --format ics";
                return Err(Trouble::new("a calendar is for nobody in particular", help));
            }
            (As::Ics, Some(first_day)) => {
                let reminder = if self.remind { Reminder::Morning } else { Reminder::Silent };
                let page_of = |id: &SessionId| site::session_address(&gym, id);
                plan::calendar(&gym, cycle, (first_day, reminder), &page_of)
            }
            (As::Ics, None) => {
                let help = "add --start 2027-01-05, or write `starts: 2027-01-05` into the cycle";
                return Err(Trouble::new("a calendar needs a first day", help));
            }
        });
        Ok(Outcome::Fine)
    }
}

impl Plan {
    /// How the person does each rung of the plan; nothing where nobody was described.
    fn for_them(&self, gym: &Gym, plan: &CyclePlan) -> Result<String, Trouble> {
        if !self.whom.is_said() {
            return Ok(String::new());
        }
        let member = Member { person: self.whom.person(gym)?, ..Member::default() };
        let mut text = "\nFor this person\n".to_string();
        for planned in &plan.ladders {
            let Some(ladder) = gym.library.ladders.get(&planned.ladder) else { continue };
            let rungs: BTreeSet<u32> = planned.weeks.iter().map(|week| week.rung).collect();
            for rung in rungs {
                let answer = own::of_rung(gym, ladder, rung, &member);
                let _ = write!(
                    text,
                    "{}, rung {rung}\n{}",
                    planned.name,
                    own::line_as_text(gym, &answer)
                );
            }
        }
        Ok(text)
    }
}

fn cycle_called<'g>(gym: &'g Gym, word: &str) -> Result<&'g Cycle, Trouble> {
    let cycles = gym.library.cycles.values();
    called::called("cycle", word, cycles.map(|one| (one.id.as_str(), one.name.as_str(), one)))
}

#[derive(Serialize)]
struct Report<'a> {
    cycle: &'a str,
    name: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    start: Option<String>,
    ladders: Vec<Ladder<'a>>,
    weeks: Vec<Week<'a>>,
}

#[derive(Serialize)]
struct Ladder<'a> {
    ladder: &'a str,
    name: &'a str,
    moves_up: Option<&'a str>,
    moves_down: Option<&'a str>,
    stops: Option<&'a str>,
    weeks: Vec<Row<'a>>,
}

#[derive(Serialize)]
struct Row<'a> {
    week: u32,
    kind: Option<&'a str>,
    rung: u32,
    movement: &'a str,
    settings: BTreeMap<&'a str, String>,
    sets: Option<[u32; 2]>,
    counts: Option<&'a str>,
    aim: Option<u32>,
    each_side: bool,
    sets_in_week: [u32; 2],
    why: &'a str,
}

#[derive(Serialize)]
struct Week<'a> {
    week: u32,
    kind: Option<&'a str>,
    sets: BTreeMap<&'a str, [u32; 2]>,
    pushing: [u32; 2],
    pulling: [u32; 2],
}

fn as_json(cycle: &Cycle, plan: &CyclePlan, first_day: Option<Day>) -> String {
    let report = Report {
        cycle: cycle.id.as_str(),
        name: &cycle.name.value,
        start: first_day.map(|day| day.to_string()),
        ladders: plan.ladders.iter().map(ladder).collect(),
        weeks: plan.balance.iter().map(week).collect(),
    };
    serde_json::to_string_pretty(&report).unwrap_or_default() + "\n"
}

fn ladder(plan: &LadderPlan) -> Ladder<'_> {
    Ladder {
        ladder: plan.ladder.as_str(),
        name: &plan.name,
        moves_up: plan.moves_up.as_deref(),
        moves_down: plan.moves_down.as_deref(),
        stops: plan.stops.as_deref(),
        weeks: plan.weeks.iter().map(row).collect(),
    }
}

fn row(week: &LadderWeek) -> Row<'_> {
    let settings = week.key.settings.iter();
    Row {
        week: week.week,
        kind: week.kind.map(|kind| kind.word()),
        rung: week.rung,
        movement: week.key.movement.as_str(),
        settings: settings.map(|(name, value)| (name.as_str(), value.to_string())).collect(),
        sets: week.sets.map(|sets| [sets.from, sets.to]),
        counts: week.aim.map(Amount::counts),
        aim: week.aim.map(plan::aim_number),
        each_side: week.each_side,
        sets_in_week: [week.sets_in_week.from, week.sets_in_week.to],
        why: &week.why,
    }
}

fn week(balance: &WeekBalance) -> Week<'_> {
    let sets = balance.sets.iter();
    Week {
        week: balance.week,
        kind: balance.kind.map(|kind| kind.word()),
        sets: sets.map(|(pattern, n)| (pattern.as_str(), [n.from, n.to])).collect(),
        pushing: [balance.pushing.from, balance.pushing.to],
        pulling: [balance.pulling.from, balance.pulling.to],
    }
}
