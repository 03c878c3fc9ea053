//! `rungbook find`: what people type, answered from the whole library.
//! Never ranks: the room `search` does.

use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use crate::search::{Hit, Index};
use crate::site;
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
            Format::Human => say::print(as_text(&words, &hits)),
            Format::Json => say::print(as_json(&words, &hits)),
        }
        Ok(if hits.is_empty() { Outcome::Findings } else { Outcome::Fine })
    }
}

fn as_text(words: &str, hits: &[Hit]) -> String {
    if hits.is_empty() {
        return format!("nothing found for `{words}`; try fewer or other words\n");
    }
    let line = |(at, hit): (usize, &Hit)| {
        let place = site::search_address(hit);
        format!(
            "{:2}. {} ({})\n    {}\n    {place}\n",
            at + 1,
            hit.name,
            hit.kind.word(),
            hit.matched
        )
    };
    hits.iter().enumerate().map(line).collect()
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
    page: String,
    score: f32,
}

fn as_json(words: &str, hits: &[Hit]) -> String {
    let report = Report { words, hits: hits.iter().map(row).collect() };
    serde_json::to_string_pretty(&report).unwrap_or_default() + "\n"
}

fn row(hit: &Hit) -> Row<'_> {
    Row {
        kind: hit.kind.word(),
        id: &hit.id,
        name: &hit.name,
        matched: &hit.matched,
        page: site::search_address(hit),
        score: hit.score,
    }
}
