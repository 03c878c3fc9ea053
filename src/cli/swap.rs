//! `rungbook swap`: the same work another way, for this kit and these limits.
//! Never filters or ranks: the room `swap` does.

use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use crate::gym::Gym;
use crate::library::{MovementId, Noise};
use crate::swap::{self, Answer, Person, Space, Swap as Found};
use serde::Serialize;

/// Find another movement that does the same work, with the reason
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  \
    rungbook swap strap-row --kit towel,chair --avoid 'sore wrist'\n  \
    rungbook swap pull-up --kit none --noise quiet --parts\n\n\
    Without --kit everything in the hall is at hand. Limits leave movements out; they never lower a \
    score. Exit code 1 when nothing is left: ask your coach.")]
pub struct Swap {
    /// The movement to replace: an id, a name or another name people use
    movement: String,
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
    /// Swaps that ask more too; without it none does
    #[arg(long)]
    harder: bool,
    /// Show every part of each score
    #[arg(long)]
    parts: bool,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, value_enum, default_value = "human")]
    format: Format,
}

fn noise(word: &str) -> Result<Noise, String> {
    Noise::from_word(word).ok_or_else(|| format!("write one of {}", Noise::WORDS.join(", ")))
}

impl Swap {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let unknown = |sentence| Trouble::new(sentence, "mend the word and ask again");
        let from = swap::movement_called(&gym, &self.movement).map_err(unknown)?;
        let kit = self.kit.as_deref().map(|words| swap::kit_from(&gym, words));
        let limits = swap::limits_from(&gym, &self.avoid).map_err(unknown)?;
        let person = Person {
            kit: kit.transpose().map_err(unknown)?,
            limits: limits.levels,
            situations: limits.situations,
            harder: self.harder,
            noise: self.noise,
            room: self.room,
            ..Person::default()
        };
        let asked = swap::asked_rung(&gym, from);
        let answer = swap::swaps(&gym, &asked, &person, None);
        match self.format {
            Format::Human => say::print(swap::as_text(&gym, from, &answer, self.parts)),
            Format::Json => say::print(as_json(&gym, from, &answer)),
        }
        Ok(match answer {
            Answer::Swaps(_) => Outcome::Fine,
            Answer::AskYourCoach { .. } => Outcome::Findings,
        })
    }
}

#[derive(Serialize)]
struct Report<'a> {
    from: &'a str,
    swaps: Vec<Row<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ask_your_coach: Option<&'a str>,
}

#[derive(Serialize)]
struct Row<'a> {
    to: &'a str,
    name: &'a str,
    score: u32,
    reason: &'a str,
    rung: String,
    start_here: bool,
    change: Vec<&'a str>,
    brings_in: Option<&'a str>,
    with: Vec<&'a str>,
}

fn as_json(gym: &Gym, from: &MovementId, answer: &Answer<'_>) -> String {
    let (swaps, ask_your_coach) = match answer {
        Answer::Swaps(swaps) => (swaps.iter().map(|swap| row(gym, swap)).collect(), None),
        Answer::AskYourCoach { why } => (Vec::new(), Some(why.as_str())),
    };
    let report = Report { from: from.as_str(), swaps, ask_your_coach };
    serde_json::to_string_pretty(&report).unwrap_or_default() + "\n"
}

fn row<'a>(gym: &'a Gym, swap: &'a Found<'_>) -> Row<'a> {
    let candidate = &swap.candidate;
    let movement = gym.library.movements.get(&candidate.to);
    Row {
        to: candidate.to.as_str(),
        name: movement.map_or(candidate.to.as_str(), |movement| &movement.name.value),
        score: candidate.score.total,
        reason: &candidate.reason,
        rung: swap.rung.said(),
        start_here: swap.start_here,
        change: swap.changes.iter().map(|change| change.how()).collect(),
        brings_in: candidate.brings_in.as_deref(),
        with: swap.with.iter().map(|id| id.as_str()).collect(),
    }
}
