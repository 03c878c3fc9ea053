//! `rungbook demand`: what a movement asks at a height or lean, for a stature.
//! Never computes: the gym does.

use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use crate::gym::heights::{HeightTable, why_none};
use crate::library::{Movement, Quantity, Unit};
use crate::swap;
use serde::Serialize;

/// Say what a movement asks at a height or lean, for a stature
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  \
    rungbook demand incline-push-up --set hands=45cm --stature 172cm\n  \
    rungbook demand squat-to-box --set box=40cm --format json\n\n\
    Computed from the pose of a person holding still; the movement's page gives the same number. \
    Exit code 1 when the movement has no number.")]
pub struct Demand {
    /// The movement: an id, a name or another name people use
    movement: String,
    /// The height or lean, such as `hands=45cm`; left out: as usual
    #[arg(long, value_name = "SETTING=VALUE")]
    set: Option<String>,
    /// How tall, 150 to 198 cm
    #[arg(long, value_name = "HEIGHT", default_value = "172cm")]
    stature: String,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, value_enum, default_value = "human")]
    format: Format,
}

#[derive(Serialize)]
struct Report<'a> {
    movement: &'a str,
    setting: &'a str,
    at: String,
    stature: String,
    demand: String,
    of: &'static str,
    give_or_take: String,
}

impl Demand {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let unknown = |sentence| Trouble::new(sentence, "mend the word and ask again");
        let id = swap::movement_called(&gym, &self.movement).map_err(unknown)?;
        let Some(movement) = gym.library.movements.get(id) else { return Ok(Outcome::Findings) };
        let Some(table) = gym.heights(movement) else {
            say::print(format!("{}: {}\n", movement.name.value, why_none(movement)));
            return Ok(Outcome::Findings);
        };
        let at = self.value(movement, table)?;
        let stature = quantity(&self.stature, Unit::Centimetre)?;
        let demand = table.at(at.number(), stature.number()).ok_or_else(|| outside(table))?;
        let report = Report {
            movement: id.as_str(),
            setting: &table.setting,
            at: at.to_string(),
            stature: stature.to_string(),
            demand: HeightTable::shown(demand),
            of: if table.is_share { "body mass" } else { "what the usual setting asks" },
            give_or_take: HeightTable::shown(table.band),
        };
        say::print(match self.format {
            Format::Json => serde_json::to_string_pretty(&report).unwrap_or_default() + "\n",
            Format::Human => as_text(movement, &report),
        });
        Ok(Outcome::Fine)
    }

    /// The value asked for, or the usual one.
    fn value(&self, movement: &Movement, table: &HeightTable) -> Result<Quantity, Trouble> {
        let setting = movement.setting(&table.setting);
        let Some(set) = &self.set else {
            let usual = setting.map(|s| s.usual.as_ref().map_or(s.from, |usual| usual.value));
            return usual.ok_or_else(|| outside(table));
        };
        match set.split_once('=') {
            Some((name, value)) if name.trim() == table.setting => quantity(value, table.unit),
            _ => Err(Trouble::new(
                format!("`{set}` does not set `{}`", table.setting),
                format!("write `--set {}=45{}`", table.setting, table.unit.symbol()),
            )),
        }
    }
}

fn quantity(text: &str, unit: Unit) -> Result<Quantity, Trouble> {
    Quantity::read(text, unit).map_err(|_| {
        Trouble::new(
            format!("`{text}` is not a number of {}", unit.symbol()),
            format!("write it with a unit: {}", unit.accepted()),
        )
    })
}

fn outside(table: &HeightTable) -> Trouble {
    let ends = (table.values.first().unwrap_or(&0.0), table.values.last().unwrap_or(&0.0));
    let unit = table.unit.symbol();
    Trouble::new(
        "that is outside what was computed",
        format!(
            "{} from {} to {} {unit}, stature from 150 to 198 cm",
            table.setting, ends.0, ends.1
        ),
    )
}

fn as_text(movement: &Movement, report: &Report<'_>) -> String {
    format!(
        "{}, {} {}, for {}: about {} of {}, give or take {}\n",
        movement.name.value,
        report.setting,
        report.at,
        report.stature,
        report.demand,
        report.of,
        report.give_or_take
    )
}
