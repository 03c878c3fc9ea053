//! Whom an answer is for: kit at hand, limits, noise and room, as options that commands share.
//! Never keeps them: they are made for one question and forgotten.

use super::say::{self, Trouble};
use crate::check;
use crate::gym::Gym;
use crate::library::{Noise, Quantity, Unit};
use crate::mechanics::segments::Table;
use crate::placing::possible::{self, Possible};
use crate::search;
use crate::swap::{self, Person, Space};

/// Whose body segments to reckon with.
#[derive(Clone, Copy, clap::ValueEnum)]
pub enum Sex {
    Woman,
    Man,
}

impl Sex {
    pub fn segments(self) -> Table {
        match self {
            Sex::Woman => Table::DeLevaWomen,
            Sex::Man => Table::DeLevaMen,
        }
    }
}

/// Whom the answer is for
#[derive(Debug, clap::Args)]
pub struct Whom {
    /// Kit at hand, separated by commas; `none` for none, `hall` for what the hall has
    #[arg(long, value_delimiter = ',', value_name = "KIT")]
    kit: Option<Vec<String>>,
    /// What to leave out, separated by commas: a trait, `trait=2`, a caution, or what people say
    #[arg(long, value_delimiter = ',', value_name = "LIMIT")]
    avoid: Vec<String>,
    /// The loudest that is allowed
    #[arg(long, value_name = "quiet|some|loud", default_value = "loud", value_parser = noise)]
    noise: Noise,
    /// Clear floor, such as `2 m x 3 m`
    #[arg(long, value_name = "SPACE", value_parser = Space::read)]
    room: Option<Space>,
}

fn noise(word: &str) -> Result<Noise, String> {
    Noise::from_word(word).ok_or_else(|| format!("write one of {}", Noise::WORDS.join(", ")))
}

/// A stature, such as `168 cm`.
pub fn stature(text: &str) -> Result<Quantity, String> {
    can_be(measured(text, Unit::Centimetre)?, possible::STATURE)
}

/// A body mass, such as `62 kg`.
pub fn body_mass(text: &str) -> Result<Quantity, String> {
    can_be(measured(text, Unit::Kilogram)?, possible::BODY_MASS)
}

/// A weight added in a test, such as `5 kg`.
pub fn added(text: &str) -> Result<Quantity, String> {
    can_be(measured(text, Unit::Kilogram)?, possible::ADDED)
}

/// The height of a thing, such as `92 cm`.
pub fn height(text: &str) -> Result<Quantity, String> {
    can_be(measured(text, Unit::Centimetre)?, possible::HEIGHT)
}

/// The height of an anchor, such as `225 cm`.
pub fn anchor(text: &str) -> Result<Quantity, String> {
    can_be(measured(text, Unit::Centimetre)?, possible::ANCHOR)
}

/// Repetitions in one set.
pub fn reps(text: &str) -> Result<u32, String> {
    whole(text, possible::REPS)
}

/// Seconds held.
pub fn seconds(text: &str) -> Result<u32, String> {
    whole(text, possible::SECONDS)
}

/// A number with a unit that measures the same as `unit`.
pub fn measured(text: &str, unit: Unit) -> Result<Quantity, String> {
    Quantity::read(text, unit)
        .map_err(|_| format!("write a number and its unit, one of {}", unit.accepted()))
}

fn can_be(value: Quantity, possible: Possible) -> Result<Quantity, String> {
    possible.ask_again(value.number()).map_or(Ok(value), Err)
}

fn whole(text: &str, possible: Possible) -> Result<u32, String> {
    let number: u32 = text.trim().parse().map_err(|_| "write a whole number".to_string())?;
    possible.ask_again(f64::from(number)).map_or(Ok(number), Err)
}

impl Whom {
    /// Whether anything was said of a person.
    pub fn is_said(&self) -> bool {
        self.kit.is_some()
            || !self.avoid.is_empty()
            || self.noise != Noise::Loud
            || self.room.is_some()
    }

    /// The person, with what they have and leave out.
    ///
    /// # Errors
    /// Every word that the library does not know, with its near spelling.
    pub fn person(&self, gym: &Gym) -> Result<Person, Trouble> {
        let unknown = |sentence| Trouble::new(sentence, "mend the word and ask again");
        if let Some(sign) = self.avoid.iter().find(|word| is_stop_sign(gym, word)) {
            return Err(stopped(gym, sign));
        }
        let kit = self.kit.as_deref().map(|words| swap::kit_from(gym, words));
        let limits = swap::limits_from(gym, &self.avoid).map_err(unknown)?;
        if !limits.levels.is_empty() || !limits.situations.is_empty() {
            can_keep_limits(gym)?;
        }
        Ok(Person {
            kit: kit.transpose().map_err(unknown)?,
            limits: limits.levels,
            situations: limits.situations,
            noise: self.noise,
            room: self.room,
            ..Person::default()
        })
    }
}

/// Whether a limit is what the club stops at, and no situation or trait by its own name: who says
/// `chest pain` now is not somebody whose heart disease is known.
fn is_stop_sign(gym: &Gym, word: &str) -> bool {
    let words = &gym.library.words;
    let cautions = words.cautions.values().flat_map(|one| [one.id.value.as_str(), &one.name]);
    let traits = words.traits.values().flat_map(|one| [one.id.value.as_str(), &one.name]);
    let is_named = cautions.chain(traits).any(|name| name.eq_ignore_ascii_case(word.trim()));
    !is_named && search::says_stop(gym, word)
}

/// Nothing to train on below a stop sign.
fn stopped(gym: &Gym, sign: &str) -> Trouble {
    let signs = say::stop_signs(gym);
    let sentence =
        format!("`{}` is a stop sign: nothing to train on is given. {}", sign.trim(), signs.trim());
    let help = format!(
        "for somebody whom a clinician has cleared to train, name the situation: \
         `rungbook find '{}'` lists those that may be meant",
        sign.trim()
    );
    Trouble::new(sentence, help)
}

/// Nobody with limits is answered while the library names traits that it does not have: what a
/// misspelt one should keep from them would be given as fine.
pub fn can_keep_limits(gym: &Gym) -> Result<(), Trouble> {
    let Some(first) = check::unknown_traits(gym).into_iter().next() else { return Ok(()) };
    let sentence = format!("nobody's limits can be kept: {}", first.headline);
    Err(Trouble::new(sentence, "run `rungbook check`: it shows the place; then ask again"))
}
