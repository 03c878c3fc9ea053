//! `rungbook swap`: the same work another way, for this kit and these limits.
//! Never filters or ranks: the room `swap` does.

use super::called;
use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use super::whom::Whom;
use crate::gym::Gym;
use crate::library::MovementId;
use crate::swap::{self, Answer, Fit, Person, Swap as Found};
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
    #[arg(required = true, value_name = "MOVEMENT")]
    movement: Vec<String>,
    #[command(flatten)]
    whom: Whom,
    /// Swaps that ask more too; without it none does
    #[arg(long)]
    harder: bool,
    /// Show every part of each score
    #[arg(long)]
    parts: bool,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
}

impl Swap {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let unknown = |sentence| Trouble::new(sentence, "mend the word and ask again");
        let from = swap::movement_called(&gym, &called::joined(&self.movement)).map_err(unknown)?;
        let person = Person { harder: self.harder, ..self.whom.person(&gym)? };
        let asked = swap::asked_rung(&gym, from);
        let itself = Itself::of(&swap::fit(&gym, &person, &asked));
        let answer = swap::swaps(&gym, &asked, &person, None);
        match self.format {
            Format::Human => {
                if !person.situations.is_empty() || !person.limits.is_empty() {
                    say::print(say::stop_signs(&gym));
                }
                say::print(swap::itself_as_text(&gym, &asked, &person));
                say::print(swap::as_text(&gym, from, &answer, self.parts));
            }
            Format::Json => say::print(as_json(&gym, (from, itself), &answer)),
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
    itself: Itself<'a>,
    swaps: Vec<Row<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ask_your_coach: Option<&'a str>,
}

/// What is said of the movement itself, before any swap.
#[derive(Serialize)]
struct Itself<'a> {
    answer: &'static str,
    change: Vec<&'a str>,
}

impl<'a> Itself<'a> {
    fn of(fit: &Fit<'a>) -> Itself<'a> {
        let (answer, change) = match fit {
            Fit::Fine => ("fine", Vec::new()),
            Fit::Changed(changes) => ("change", changes.iter().map(|one| one.how()).collect()),
            Fit::Out(_) => ("leave out", Vec::new()),
        };
        Itself { answer, change }
    }
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

fn as_json<'a>(
    gym: &'a Gym,
    (from, itself): (&'a MovementId, Itself<'a>),
    answer: &'a Answer<'_>,
) -> String {
    let (swaps, ask_your_coach) = match answer {
        Answer::Swaps(swaps) => (swaps.iter().map(|swap| row(gym, swap)).collect(), None),
        Answer::AskYourCoach { why } => (Vec::new(), Some(why.as_str())),
    };
    let report = Report { from: from.as_str(), itself, swaps, ask_your_coach };
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
        rung: swap.rung.said_changed(&swap.changes),
        start_here: swap.start_here,
        change: swap.changes.iter().map(|change| change.how()).collect(),
        brings_in: swap.brings_in.as_deref(),
        with: swap.with.iter().map(|id| id.as_str()).collect(),
    }
}
