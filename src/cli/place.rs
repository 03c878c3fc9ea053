//! `rungbook place`: from a test result to a rung, a dose for today and a verdict on moving up.
//! Never judges a result itself: the room `placing` does.

use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use crate::finding::did_you_mean;
use crate::gym::Gym;
use crate::library::{Ladder, LadderId, Quantity, Unit};
use crate::placing::{self, Counted, Placement, Prediction, TestResult};
use std::fmt::Write;

/// Say which rung and dose a test result leads to, and whether to move up
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook place push-up --rung 4 --reps 12\n  \
    rungbook place plank --rung 3 --seconds 45\n  \
    rungbook place pull-up --rung 7 --reps 5 --added '5 kg' --body-mass '70 kg'\n\n\
    Repetitions or seconds are those of one set to the standard. \
    Computed numbers carry a band and are no promise.")]
pub struct Place {
    /// The ladder, by its id
    ladder: String,
    /// The rung that was tested, from 1 at the bottom
    #[arg(long, value_name = "N")]
    rung: u32,
    /// Repetitions counted
    #[arg(long, value_name = "N", required_unless_present = "seconds", conflicts_with = "seconds")]
    reps: Option<u32>,
    /// Seconds held
    #[arg(long, value_name = "N")]
    seconds: Option<u32>,
    /// Stature, such as '168 cm'
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    stature: Option<Quantity>,
    /// Body mass, such as '62 kg'; needed where a weight is added
    #[arg(long, value_name = "WEIGHT", value_parser = weight)]
    body_mass: Option<Quantity>,
    /// Weight added in the test beyond what the rung says, such as '5 kg'
    #[arg(long, value_name = "WEIGHT", value_parser = weight)]
    added: Option<Quantity>,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, value_enum, default_value = "human")]
    format: Format,
}

fn length(text: &str) -> Result<Quantity, String> {
    measured(text, Unit::Centimetre)
}

fn weight(text: &str) -> Result<Quantity, String> {
    measured(text, Unit::Kilogram)
}

fn measured(text: &str, unit: Unit) -> Result<Quantity, String> {
    Quantity::read(text, unit)
        .map_err(|_| format!("write a number and its unit, one of {}", unit.accepted()))
}

impl Place {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let ladder = named(&gym, &self.ladder)?;
        let counted = match (self.reps, self.seconds) {
            (_, Some(seconds)) => Counted::Seconds(seconds),
            (reps, None) => Counted::Reps(reps.unwrap_or_default()),
        };
        let demands = placing::demands_of(&gym, ladder, self.stature);
        let Place { rung, body_mass, added, .. } = self;
        let result = TestResult { rung, counted, body_mass, added };
        let placement = placing::place(ladder, &demands, &result).map_err(|why| {
            Trouble::new(why, "look at the ladder's page for its rungs and what each counts")
        })?;
        say::print(match self.format {
            // Plain strings and numbers always serialise.
            Format::Json => serde_json::to_string_pretty(&placement).unwrap_or_default() + "\n",
            Format::Human => for_a_person(&gym, ladder, &placement),
        });
        Ok(Outcome::Fine)
    }
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
    let mut text = format!("{}\n{}\n\n", placement.today.say, placement.move_up.say);
    for (at, known) in placement.predicted.iter().enumerate() {
        let here = if at + 1 == placement.today.rung as usize { '>' } else { ' ' };
        let rung = rung_words(gym, ladder, at);
        let _ = writeln!(text, "{here}{:>3}  {rung}: {}", at + 1, known_words(known));
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
    let settings =
        rung.settings.iter().map(|(setting, value)| format!(", {} {}", setting.value, value.value));
    name.to_string() + &settings.collect::<String>()
}

fn known_words(known: &Prediction) -> String {
    let (word, noise, band) = match known {
        Prediction::Measured(band) => ("counted", ", by the noise of counting", band),
        Prediction::Computed(band) => ("computed", "", band),
        Prediction::Unknown { why } => return why.clone(),
    };
    let more = if band.open { " or more" } else { "" };
    format!("{} {word} ({} to {}{more}{noise})", band.point, band.low, band.high)
}
