//! `rungbook place`: from a test result to a rung, a dose for today and a verdict on moving up.
//! Never judges a result itself: the room `placing` does.

use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use super::whom::{self, Whom};
use crate::finding::did_you_mean;
use crate::gym::Gym;
use crate::gym::heights::HeightTable;
use crate::library::{Ladder, LadderId, Quantity};
use crate::own;
use crate::placing::{self, Counted, Placement, RungDemand, TestResult};
use std::collections::BTreeSet;
use std::fmt::Write;

/// Say which rung and dose a test result leads to, and whether to move up
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook place push-up --rung 4 --reps 12\n  \
    rungbook place plank --rung 3 --seconds 45\n  \
    rungbook place pull-up --rung 7 --reps 5 --added '5 kg' --body-mass '70 kg'\n  \
    rungbook place push-up --set hands=92cm --reps 12 --stature '168 cm'\n\n\
    Repetitions or seconds are those of one set to the standard. \
    Computed numbers carry a band and are no promise.")]
pub struct Place {
    /// The ladder, by its id
    ladder: String,
    /// The rung that was tested, from 1 at the bottom
    #[arg(long, value_name = "N", required_unless_present = "set")]
    rung: Option<u32>,
    /// A height or lean of your own, such as `hands=92cm` for the kitchen counter; without --rung
    /// the rung with the nearest one is meant
    #[arg(long, value_name = "SETTING=VALUE")]
    set: Option<String>,
    /// Repetitions counted
    #[arg(long, value_name = "N", required_unless_present = "seconds", conflicts_with = "seconds",
        value_parser = whom::reps)]
    reps: Option<u32>,
    /// Seconds held
    #[arg(long, value_name = "N", value_parser = whom::seconds)]
    seconds: Option<u32>,
    /// Stature, such as '168 cm': raised hands ask more of a tall person
    #[arg(long, value_name = "LENGTH", value_parser = whom::stature)]
    stature: Option<Quantity>,
    /// Body mass, such as '62 kg'; needed where a weight is added
    #[arg(long, value_name = "WEIGHT", value_parser = whom::body_mass)]
    body_mass: Option<Quantity>,
    /// Weight added in the test beyond what the rung says, such as '5 kg'
    #[arg(long, value_name = "WEIGHT", value_parser = whom::added)]
    added: Option<Quantity>,
    #[command(flatten)]
    whom: Whom,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, value_enum, default_value = "human")]
    format: Format,
}

impl Place {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let ladder = named(&gym, &self.ladder)?;
        let person = self.whom.person(&gym)?;
        let counted = match (self.reps, self.seconds) {
            (_, Some(seconds)) => Counted::Seconds(seconds),
            (reps, None) => Counted::Reps(reps.unwrap_or_default()),
        };
        let demands = placing::demands_of(&gym, ladder, self.stature);
        let (rung, own) = self.tested(&gym, ladder)?;
        let Place { body_mass, added, .. } = self;
        let result = TestResult { rung, counted, body_mass, added, own };
        let mut placement = placing::place(ladder, &demands, &result).map_err(|why| {
            Trouble::new(why, "look at the ladder's page for its rungs and what each counts")
        })?;
        let at = (placement.today.rung as usize).saturating_sub(1);
        placement.today.say = own::placed(&gym, (ladder, at), &placement.today.say, &person);
        say::print(match self.format {
            // Plain strings and numbers always serialise.
            Format::Json => serde_json::to_string_pretty(&placement).unwrap_or_default() + "\n",
            Format::Human => for_a_person(&gym, ladder, &placement),
        });
        Ok(Outcome::Fine)
    }
}

impl Place {
    /// The rung that was tested, and what was carried where that was at a height of one's own.
    fn tested(&self, gym: &Gym, ladder: &Ladder) -> Result<(u32, Option<RungDemand>), Trouble> {
        let Some(set) = &self.set else { return Ok((self.rung.unwrap_or_default(), None)) };
        let wrong = |sentence: String| {
            let help = "write the rung's own setting, such as `--set hands=92cm`";
            Trouble::new(sentence, help)
        };
        let (name, text) =
            set.split_once('=').ok_or_else(|| wrong(format!("`{set}` sets nothing")))?;
        let tables = tables_of(gym, ladder, name.trim());
        let tables: Vec<_> = tables
            .filter(|(at, ..)| self.rung.is_none_or(|rung| *at + 1 == rung as usize))
            .collect();
        let Some((_, _, table)) = tables.first() else {
            let sentence = format!("no rung asked about has a number for `{}`", name.trim());
            return Err(Trouble::new(sentence, settings_of(gym, ladder)));
        };
        let value = whom::measured(text.trim(), table.unit).map_err(|help| {
            Trouble::new(format!("`{}` is no number for `{}`", text.trim(), name.trim()), help)
        })?;
        let off = |written: &f64| (written - value.number()).abs();
        let nearest = tables.iter().min_by(|a, b| off(&a.1).total_cmp(&off(&b.1)));
        let at = nearest.map_or(0, |(at, ..)| *at);
        let own = placing::demand_at(gym, ladder, (at, value.number()), self.stature);
        let own = own.ok_or_else(|| outside(table))?;
        Ok((u32::try_from(at + 1).unwrap_or(u32::MAX), Some(own)))
    }
}

/// The rungs of a ladder that have a table for the setting `name`: place, written value, table.
fn tables_of<'g>(
    gym: &'g Gym,
    ladder: &'g Ladder,
    name: &'g str,
) -> impl Iterator<Item = (usize, f64, &'g HeightTable)> + 'g {
    ladder.rungs.iter().enumerate().filter_map(move |(at, rung)| {
        let movement = gym.library.movements.get(&rung.movement.value)?;
        let written = rung.settings.iter().find(|(setting, _)| setting.value.as_str() == name)?;
        let table = placing::share_table(gym, movement).filter(|table| table.setting == name)?;
        Some((at, written.1.value.number(), table))
    })
}

/// The next step when a setting has no number: the settings that have one, or to do without.
fn settings_of(gym: &Gym, ladder: &Ladder) -> String {
    let movements = ladder.rungs.iter().map(|rung| &rung.movement.value);
    let tables = movements
        .filter_map(|id| placing::share_table(gym, gym.library.movements.get(id)?))
        .map(|table| table.setting.as_str());
    let names: BTreeSet<&str> = tables.collect();
    if names.is_empty() {
        return "on this ladder no height or lean has one: give --rung and leave --set out".into();
    }
    let names: Vec<&str> = names.into_iter().collect();
    format!("on this ladder these have one: {}", names.join(", "))
}

fn outside(table: &HeightTable) -> Trouble {
    let ends = (table.values.first().unwrap_or(&0.0), table.values.last().unwrap_or(&0.0));
    let range = format!("{} from {} to {} {}", table.setting, ends.0, ends.1, table.unit.symbol());
    Trouble::new("that is outside what was computed", range)
}

/// The ladder of that id, or the near spelling.
fn named<'g>(gym: &'g Gym, id: &str) -> Result<&'g Ladder, Trouble> {
    let ladders = &gym.library.ladders;
    ladders.get(&LadderId::from(id)).ok_or_else(|| {
        let known: Vec<&str> = ladders.keys().map(LadderId::as_str).collect();
        let otherwise = format!("the ladders are {}", known.join(", "));
        let help = did_you_mean(id, known, &otherwise);
        Trouble::new(format!("there is no ladder `{id}`"), help)
    })
}

fn for_a_person(gym: &Gym, ladder: &Ladder, placement: &Placement) -> String {
    let own = placement.own.as_ref().map_or(String::new(), |own| format!("{own}\n"));
    let mut text = format!("{}\n{own}{}\n\n", placement.today.say, placement.move_up.say);
    for (at, known) in placement.predicted.iter().enumerate() {
        let here = if at + 1 == placement.today.rung as usize { '>' } else { ' ' };
        let rung = rung_words(gym, ladder, at);
        let _ = writeln!(text, "{here}{:>3}  {rung}: {}", at + 1, known.said());
    }
    for note in &placement.notes {
        let _ = write!(text, "\n{note}");
    }
    text + "\n"
}

fn rung_words(gym: &Gym, ladder: &Ladder, at: usize) -> String {
    let Some(rung) = ladder.rungs.get(at) else { return String::new() };
    let movement = gym.library.movements.get(&rung.movement.value);
    let name = movement.map_or(rung.movement.value.as_str(), |movement| &movement.name.value);
    let settings = rung.settings_said();
    std::iter::once(name.to_string()).chain(settings).collect::<Vec<_>>().join(", ")
}
