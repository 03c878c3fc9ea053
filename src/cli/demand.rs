//! `rungbook demand`: what a movement asks of a person, at which instant, and how sure that is.
//! Never computes: the gym does, and pages and ladders print the same number.

use super::called;
use super::demand_said::{as_text, in_motion, pulled};
use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use super::whom::{self, Sex};
use crate::gym::heights::{HeightTable, STATURES, asked};
use crate::gym::scale::{Axis, Reading, Unknown, bearing_words};
use crate::gym::{Gym, posed};
use crate::library::{Movement, Quantity, SettingName, Unit};
use crate::mechanics::demand as mechanics;
use crate::mechanics::published::When;
use crate::mechanics::solve::Person;
use crate::swap;
use serde::Serialize;

/// Say what a movement asks of a person, and how sure that is
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  \
    rungbook demand incline-push-up --set hands=45cm --stature 160cm\n  \
    rungbook demand push-up --at end --sex woman\n  \
    rungbook demand pull-up --set weight=5kg --body-mass 62kg\n  \
    rungbook demand squat-to-box --set seat=40cm --format json\n\n\
    Computed from the pose of a person holding still; the movement's page and its ladder give the \
    same number. `--at start` is the first key pose (arms straight), `end` the last; where nothing \
    is said, arms count at the start and legs, hips and waist where they are asked most. `--at peak` \
    is what was published of the same movement in motion. Exit code 1 when there is no number.")]
pub struct Demand {
    /// The movement: an id, a name or another name people use
    #[arg(required = true, value_name = "MOVEMENT")]
    movement: Vec<String>,
    /// A height, lean or weight, such as `hands=45cm`, once for each; left out: as usual
    #[arg(long, value_name = "SETTING=VALUE")]
    set: Vec<String>,
    /// How tall, 150 to 198 cm
    #[arg(long, value_name = "HEIGHT", default_value = STATURE)]
    stature: String,
    /// Body segments of women or of men; left out: the one person that everything is drawn for
    #[arg(long, value_enum)]
    sex: Option<Sex>,
    /// Body mass, such as `62 kg`; 70 kg where nothing is said, and it counts only beside a weight
    #[arg(long, value_name = "WEIGHT", value_parser = whom::body_mass)]
    body_mass: Option<Quantity>,
    /// At which instant
    #[arg(long, value_enum)]
    at: Option<At>,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
}

/// The stature that everything is drawn for.
const STATURE: &str = "172cm";

#[derive(Clone, Copy, PartialEq, clap::ValueEnum)]
enum At {
    Start,
    End,
    Peak,
}

#[derive(Serialize)]
pub(super) struct Report<'a> {
    pub(super) movement: &'a str,
    pub(super) at: Vec<String>,
    pub(super) stature: String,
    pub(super) segments: &'static str,
    /// `a woman of 172 cm`.
    #[serde(skip)]
    pub(super) whom: String,
    pub(super) instant: &'static str,
    pub(super) demand: String,
    pub(super) of: &'static str,
    pub(super) give_or_take: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) straight_up: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) at_the_knee: Option<String>,
    /// Of what the usual setting asks of the drawn person, as the page's own height says it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) of_usual: Option<String>,
    /// How far a band is stretched: `2.0 times its length at rest, give or take 0.2`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) stretch: Option<String>,
    /// What the pull does to the body that stands against it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) against: Option<String>,
    pub(super) how: String,
    /// Nothing is in doubt: it is written on the weight.
    #[serde(skip)]
    pub(super) written: bool,
}

impl Demand {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let unknown = |sentence| Trouble::new(sentence, "mend the word and ask again");
        let id = swap::movement_called(&gym, &called::joined(&self.movement)).map_err(unknown)?;
        let Some(movement) = gym.library.movements.get(id) else { return Ok(Outcome::Findings) };
        let at = self.settings(movement)?;
        let person = self.person()?;
        match self.report(&gym, movement, (&at, &person)) {
            Ok(report) => {
                say::print(match self.format {
                    Format::Json => {
                        serde_json::to_string_pretty(&report).unwrap_or_default() + "\n"
                    }
                    Format::Human => as_text(movement, &report),
                });
                Ok(Outcome::Fine)
            }
            Err(why) => {
                say::print(format!("{}{}: {why}\n", movement.name.value, self.asked_for(&at)));
                Ok(Outcome::Findings)
            }
        }
    }

    fn person(&self) -> Result<Person, Trouble> {
        let stature = quantity(&self.stature, Unit::Centimetre)?.number();
        if !(STATURES[0]..=STATURES[2]).contains(&stature) {
            return Err(Trouble::new(
                "that is outside what was computed",
                format!("a stature from {} to {} cm", STATURES[0], STATURES[2]),
            ));
        }
        let table = self.sex.map_or(Person::default().table, Sex::segments);
        let kilograms = self.body_mass.map_or(Person::default().kilograms, Quantity::number);
        Ok(Person { stature: stature / 100.0, table, kilograms })
    }

    /// What was asked for beyond the movement, as it was said.
    fn asked_for(&self, at: &[(&SettingName, Quantity)]) -> String {
        let set = at.iter().map(|(name, value)| format!(", {name} {value}"));
        let whom = (self.stature != STATURE || self.sex.is_some())
            .then(|| self.person().ok())
            .flatten()
            .map(|person| format!(", for {}", self.whom(&person, false)));
        set.chain(whom).collect()
    }

    /// `172 cm`, `a woman of 160 cm`, and how heavy where that counts.
    fn whom(&self, person: &Person, weighed: bool) -> String {
        let tall = format!("{:.0} cm", person.stature * 100.0);
        let who = match self.sex {
            None => tall,
            Some(Sex::Woman) => format!("a woman of {tall}"),
            Some(Sex::Man) => format!("a man of {tall}"),
        };
        let heavy = weighed || self.body_mass.is_some();
        if heavy { format!("{who} and {:.0} kg", person.kilograms) } else { who }
    }

    /// What was set, in the movement's own units and ranges.
    fn settings<'m>(
        &self,
        movement: &'m Movement,
    ) -> Result<Vec<(&'m SettingName, Quantity)>, Trouble> {
        self.set.iter().map(|set| setting(movement, set)).collect()
    }

    fn report<'m>(
        &self,
        gym: &Gym,
        movement: &'m Movement,
        (at, person): (&[(&'m SettingName, Quantity)], &Person),
    ) -> Result<Report<'m>, String> {
        let read = asked(movement, at, person).map_err(|why| why.words().to_string())?;
        let given: Vec<(&str, Quantity)> = at.iter().map(|(name, q)| (name.as_str(), *q)).collect();
        let posed = posed(movement, &given, person);
        let known = posed.and_then(|posed| Some((posed.demand?, posed.figure?.plane())));
        let (demand, plane) = known.ok_or_else(|| Unknown::NoPose.words().to_string())?;
        let shown: Vec<(&str, Quantity)> = movement
            .settings
            .iter()
            .filter_map(|(name, setting)| {
                let given = given.iter().find(|(own, _)| *own == name.value.as_str());
                let usual = setting.usual.as_ref().map(|usual| usual.value);
                Some((name.value.as_str(), given.map(|(_, q)| *q).or(usual)?))
            })
            .collect();
        let when = if self.at == Some(At::End) { When::Bottom } else { When::Straight };
        let mut report = Report {
            movement: movement.id.as_str(),
            at: shown.iter().map(|(name, value)| format!("{name} {value}")).collect(),
            stature: format!("{:.0} cm", person.stature * 100.0),
            segments: person.table.name(),
            whom: self.whom(person, demand.weight > 0.0),
            instant: "",
            demand: String::new(),
            of: "",
            give_or_take: String::new(),
            straight_up: None,
            at_the_knee: None,
            of_usual: None,
            stretch: None,
            against: None,
            how: format!("{}.", gym.provenance_at(&read, when).words()),
            written: read.axis == Axis::Carried,
        };
        match self.at {
            Some(At::Peak) => in_motion(&mut report, &read, person)?,
            at if read.axis == Axis::Pulled => {
                pulled(&mut report, &demand, (at != Some(At::Start), person, plane))?;
            }
            at => still(&mut report, &read, (&demand, at))?,
        }
        let at_start = self.at == Some(At::Start) && read.axis == Axis::Arms;
        if (self.at.is_none() || at_start) && self.sex.is_none() && self.body_mass.is_none() {
            let usual = at_usual(gym, movement);
            let at = if at.is_empty() { usual.as_slice() } else { at };
            as_the_page(&mut report, gym.heights(movement), (at, person));
        }
        Ok(report)
    }
}

/// The setting of a movement's table, as usual.
fn at_usual<'m>(gym: &Gym, movement: &'m Movement) -> Vec<(&'m SettingName, Quantity)> {
    let Some(table) = gym.heights(movement) else { return Vec::new() };
    let own = movement.settings.iter().filter(|(name, _)| name.value.as_str() == table.setting);
    own.filter_map(|(name, s)| Some((&name.value, s.usual.as_ref()?.value))).collect()
}

/// At one height or lean alone the number is the page's: a straight line between the columns of one
/// table, so that command, page and placing print the same digit.
fn as_the_page(
    report: &mut Report<'_>,
    table: Option<&HeightTable>,
    (at, person): (&[(&SettingName, Quantity)], &Person),
) {
    let (Some(table), [(name, value)]) = (table, at) else { return };
    if name.as_str() != table.setting {
        return;
    }
    let stature = person.stature * 100.0;
    let known = table.at(value.number(), stature).zip(table.band_at(value.number(), stature));
    match known {
        Some((demand, _)) if !table.is_share => report.of_usual = Some(HeightTable::shown(demand)),
        Some((demand, band)) => {
            report.demand = HeightTable::shown(demand);
            report.give_or_take = Axis::Arms.band_shown(band);
        }
        None => {}
    }
}

/// One `--set`.
fn setting<'m>(movement: &'m Movement, set: &str) -> Result<(&'m SettingName, Quantity), Trouble> {
    let known = || {
        let names: Vec<String> = movement
            .settings
            .iter()
            .map(|(name, s)| {
                format!("`--set {}={}{}`", name.value, s.from.number(), s.unit.symbol())
            })
            .collect();
        if names.is_empty() {
            "leave `--set` out: it has no settings".to_string()
        } else {
            format!("write {}", names.join(" or "))
        }
    };
    let (name, value) = set
        .split_once('=')
        .ok_or_else(|| Trouble::new(format!("`{set}` is no setting with a value"), known()))?;
    let found = movement.settings.iter().find(|(own, _)| own.value.as_str() == name.trim());
    let (name, setting) = found.ok_or_else(|| {
        Trouble::new(format!("`{}` has no setting `{}`", movement.id, name.trim()), known())
    })?;
    let value = quantity(value, setting.unit)?;
    if value.number() < setting.from.number() || value.number() > setting.to.number() {
        return Err(Trouble::new(
            format!("`{set}` is outside what the movement allows"),
            format!("{} from {} to {}", name.value, setting.from, setting.to),
        ));
    }
    Ok((&name.value, value))
}

/// A number of a person who holds still.
fn still(
    report: &mut Report<'_>,
    read: &Reading,
    (demand, at): (&mechanics::Demand, Option<At>),
) -> Result<(), String> {
    let arms = read.axis == Axis::Arms;
    let end = at == Some(At::End);
    report.instant = match at {
        _ if read.axis == Axis::Carried => "throughout",
        Some(At::End) => "at the end",
        None if !arms => "where it asks most",
        _ => "at the start",
    };
    let moved = end || (at.is_some() && !arms);
    let (value, band) = if moved && read.axis != Axis::Carried {
        read.axis.known_in_pose(demand, end).ok_or_else(|| no_number(demand, end))?
    } else {
        (read.value, read.band)
    };
    report.demand = read.axis.shown(value);
    report.give_or_take = read.axis.band_shown(band);
    report.of = match (read.axis, demand.borne.as_ref()) {
        (Axis::Arms, Some(borne)) => bearing_words(borne),
        (axis, _) => axis.words(),
    };
    let pose = demand.borne.as_ref().and_then(|b| if end { b.at.last() } else { b.at.first() });
    let up = pose.filter(|pose| arms && pose.refused.is_none());
    let up = up.zip(demand.borne.as_ref()).map(|(pose, borne)| borne.counted(pose.upward));
    report.at_the_knee = at_the_knee(read.axis, demand, moved.then_some(end));
    report.straight_up = up.filter(|up| *up > 0.5).map(HeightTable::shown);
    Ok(())
}

/// What the knee alone is asked, in the last or the first key pose or at most; nothing where the
/// doubts are greater than the number.
fn at_the_knee(axis: Axis, demand: &mechanics::Demand, end: Option<bool>) -> Option<String> {
    if axis != Axis::Legs {
        return None;
    }
    let knee = |demand: &mechanics::Demand| match end {
        Some(true) => Some(demand.each.last()?.as_ref()?.knee),
        Some(false) => Some(demand.each.first()?.as_ref()?.knee),
        None => Some(demand.moments.knee),
    };
    let (value, doubts) = demand.doubtful(knee)?;
    let band = axis.band(doubts);
    let shown = || format!("{}, give or take {}", axis.shown(value), axis.band_shown(band));
    (band <= value).then(shown)
}

fn no_number(demand: &mechanics::Demand, end: bool) -> String {
    let borne = demand.borne.as_ref();
    let pose = borne.and_then(|b| if end { b.at.last() } else { b.at.first() });
    let refused = pose.and_then(|pose| pose.refused).map(Unknown::Undecided);
    refused.unwrap_or(Unknown::TooRough).words().to_string()
}

fn quantity(text: &str, unit: Unit) -> Result<Quantity, Trouble> {
    Quantity::read(text, unit).map_err(|_| {
        Trouble::new(
            format!("`{text}` is not a number of {}", unit.symbol()),
            format!("write it with a unit: {}", unit.accepted()),
        )
    })
}
