//! Whom an answer is for: kit at hand, limits, noise and room, as options that commands share.
//! Never keeps them: they are made for one question and forgotten.

use super::say::Trouble;
use crate::gym::Gym;
use crate::library::Noise;
use crate::swap::{self, Person, Space};

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
        let kit = self.kit.as_deref().map(|words| swap::kit_from(gym, words));
        let limits = swap::limits_from(gym, &self.avoid).map_err(unknown)?;
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
