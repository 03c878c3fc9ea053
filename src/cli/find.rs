//! `rungbook find`: what people type, answered from the whole library.
//! Never ranks: the room `search` does.

use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use crate::gym::Gym;
use crate::library::FaultId;
use crate::search::{self, Heard, Hit, HitKind, Index, says_stop};
use crate::site;
use crate::site::pages::{Told, told};
use serde::Serialize;

/// Find movements, faults, kit and cautions by what people type
#[derive(clap::Args)]
#[command(
    after_help = "Examples:\n  rungbook find hips sag\n  rungbook find 'wrist hurts in plank'\n  \
    rungbook find no bar --format json\n\n\
    Spelling, word order and the end of the last word are forgiven. \
    For a stop sign no movement, ladder or session is offered. \
    Exit code 1 when nothing is found."
)]
pub struct Find {
    /// Words, as a coach or a member would type them
    #[arg(required = true)]
    words: Vec<String>,
    /// How many answers at most
    #[arg(long, default_value_t = 10, value_name = "N")]
    limit: usize,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
}

impl Find {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let index = Index::build(&gym)
            .map_err(|error| Trouble::new(error, "report this: it is a fault of ours"))?;
        let words = crate::finding::plain(search::read_of(&self.words.join(" ")));
        let stop = says_stop(&gym, &words).then_some(gym.library.club.stop_signs.as_slice());
        let hits = match stop {
            None => index.find(&words, self.limit),
            Some(_) => index.find_after_stop(&words, self.limit),
        };
        let heard = index.heard(&words);
        match self.format {
            Format::Human => {
                let first = match stop {
                    Some(_) => say::stop_signs(&gym) + NOTHING_TO_DO,
                    None => not_heard(&words, &hits, &heard),
                };
                say::print(first + &as_text(&gym, &hits));
            }
            Format::Json => say::print(as_json(&gym, (&words, stop), &hits, &heard)),
        }
        Ok(if hits.is_empty() && stop.is_none() { Outcome::Findings } else { Outcome::Fine })
    }
}

/// What a coach does about a fault: it stands in the answer itself.
fn told_of(gym: &Gym, hit: &Hit) -> Option<Told> {
    let faults = &gym.library.words.faults;
    let fault = (hit.kind == HitKind::Fault).then(|| faults.get(&FaultId(hit.id.clone())));
    fault.flatten().map(|fault| told(gym, fault))
}

/// What was not understood, with the nearest words: never silence, and never an answer to something
/// that was not asked without a word about it.
fn not_heard(words: &str, hits: &[Hit], heard: &Heard) -> String {
    let unknown: Vec<String> = heard.unknown.iter().map(|word| format!("`{word}`")).collect();
    let unknown = unknown.join(", ");
    let near = match heard.near.as_slice() {
        [] => "nor anything near it".to_string(),
        near => format!("the nearest words are {}", near.join(", ")),
    };
    match (hits.is_empty(), heard.unknown.is_empty()) {
        (false, true) => String::new(),
        (false, false) => format!("nothing here says {unknown}, {near}; this answers the rest\n"),
        (true, false) => format!("nothing here says {unknown}, {near}; {WHAT_THERE_IS}\n"),
        (true, true) => format!("nothing found for `{words}`; {WHAT_THERE_IS}\n"),
    }
}

/// After the stop signs.
const NOTHING_TO_DO: &str =
    "No movement, ladder or session is offered for this: whoever has it trains no further now.\n";

/// What the library has, so that whoever asks for something else knows.
const WHAT_THERE_IS: &str = "there are movements, ladders, faults, cautions, kit and sessions for \
     strength, balance and range: try one of their words, or the page A to Z";

fn as_text(gym: &Gym, hits: &[Hit]) -> String {
    let line = |(at, hit): (usize, &Hit)| {
        let place = site::search_address(hit);
        let found = match told_of(gym, hit) {
            Some(told) => told_lines(&told),
            None => format!("    {}\n", hit.matched),
        };
        format!("{:2}. {} ({})\n{found}    {place}\n", at + 1, hit.name, hit.kind.word())
    };
    hits.iter().enumerate().map(line).collect()
}

fn told_lines(told: &Told) -> String {
    let line = |word: &str, text: &str| format!("    {word}: {text}\n");
    let say = told.say.as_ref().map(|say| line("say", say)).unwrap_or_default();
    let then = told.then.as_ref().map(|then| line("then", then)).unwrap_or_default();
    line("see", &told.see) + &say + &then
}

#[derive(Serialize)]
struct Report<'a> {
    words: &'a str,
    /// The stop signs, where one of them was typed: they come before any answer.
    #[serde(skip_serializing_if = "Option::is_none")]
    stop: Option<&'a [String]>,
    /// Words that nothing says, and the nearest to the first of them.
    unknown: &'a [String],
    near: &'a [String],
    hits: Vec<Row<'a>>,
}

#[derive(Serialize)]
struct Row<'a> {
    kind: &'a str,
    id: &'a str,
    name: &'a str,
    matched: &'a str,
    /// What is seen, said and done then: of a fault alone.
    #[serde(flatten)]
    told: Option<Told>,
    page: String,
    score: f32,
}

fn as_json(
    gym: &Gym,
    (words, stop): (&str, Option<&[String]>),
    hits: &[Hit],
    heard: &Heard,
) -> String {
    let (unknown, near) = (&heard.unknown, &heard.near);
    let hits = hits.iter().map(|hit| row(gym, hit)).collect();
    let report = Report { words, stop, unknown, near, hits };
    serde_json::to_string_pretty(&report).unwrap_or_default() + "\n"
}

fn row<'a>(gym: &Gym, hit: &'a Hit) -> Row<'a> {
    Row {
        kind: hit.kind.word(),
        id: &hit.id,
        name: &hit.name,
        matched: &hit.matched,
        told: told_of(gym, hit),
        page: site::search_address(hit),
        score: hit.score,
    }
}
