//! `rungbook find`: what people type, answered from the whole library.
//! Never ranks: the room `search` does.

use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use crate::gym::Gym;
use crate::library::FaultId;
use crate::search::{Hit, HitKind, Index};
use crate::site;
use crate::site::pages::{Told, told};
use serde::Serialize;

/// Find movements, faults, kit and cautions by what people type
#[derive(clap::Args)]
#[command(
    after_help = "Examples:\n  rungbook find hips sag\n  rungbook find 'wrist hurts in plank'\n  \
    rungbook find no bar --format json\n\n\
    Spelling, word order and the end of the last word are forgiven. \
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
    #[arg(long, value_enum, default_value = "human")]
    format: Format,
}

impl Find {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let index = Index::build(&gym)
            .map_err(|error| Trouble::new(error, "report this: it is a fault of ours"))?;
        let words = self.words.join(" ");
        let hits = index.find(&words, self.limit);
        match self.format {
            Format::Human => say::print(as_text(&gym, &words, &hits)),
            Format::Json => say::print(as_json(&gym, &words, &hits)),
        }
        Ok(if hits.is_empty() { Outcome::Findings } else { Outcome::Fine })
    }
}

/// What a coach does about a fault: it stands in the answer itself.
fn told_of(gym: &Gym, hit: &Hit) -> Option<Told> {
    let faults = &gym.library.words.faults;
    let fault = (hit.kind == HitKind::Fault).then(|| faults.get(&FaultId(hit.id.clone())));
    fault.flatten().map(|fault| told(gym, fault))
}

fn as_text(gym: &Gym, words: &str, hits: &[Hit]) -> String {
    if hits.is_empty() {
        return format!("nothing found for `{words}`; try fewer or other words\n");
    }
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

fn as_json(gym: &Gym, words: &str, hits: &[Hit]) -> String {
    let report = Report { words, hits: hits.iter().map(|hit| row(gym, hit)).collect() };
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
