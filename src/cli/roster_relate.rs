//! `rungbook roster relate`: how repetitions carry over from rung to rung in this club.
//! Never writes anything: it prints a line, and the coach puts it into `club.yaml`.

use super::roster::RosterPlace;
use super::roster_file::RosterText;
use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use crate::finding::Sources;
use crate::own;
use crate::placing::relate::{FEWEST_PAIRS, FEWEST_PEOPLE, Off, Pair, Related, TooFew, relate};
use crate::placing::{Across, PUBLISHED};
use serde_json::json;

/// Learn from the club's own results how repetitions carry over from rung to rung
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook roster relate\n  \
    rungbook roster relate --format json\n\n\
    A pair is a member's result and the one before it on that ladder, within 14 days, on two rungs \
    that differ in what is carried. \
    From ten pairs of five people on it prints a line for `club.yaml`, which placing reads; it \
    writes nothing.")]
pub(super) struct Relate {
    #[command(flatten)]
    roster: RosterPlace,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
}

impl Relate {
    pub(super) fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let file = &self.roster.roster_file;
        if !file.exists() {
            return Err(super::roster::no_roster(file));
        }
        let roster = RosterText::read(file, &mut Sources::default())?;
        let members = roster.roster().members.iter().enumerate();
        let pairs: Vec<Pair> = members
            .flat_map(|(at, entry)| own::pairs(&gym, at, &own::from_roster(&gym, entry, None)))
            .collect();
        let related = relate(&pairs).map_err(too_few)?;
        say::print(match self.format {
            Format::Json => as_json(&related),
            Format::Human => as_text(&related),
        });
        Ok(Outcome::Fine)
    }
}

fn too_few(TooFew { pairs, people }: TooFew) -> Trouble {
    let sentence = format!(
        "{} of {} say too little: it takes {FEWEST_PAIRS} pairs of {FEWEST_PEOPLE} people",
        say::counted(pairs, "pair"),
        if people == 1 { "1 person".to_string() } else { format!("{people} people") },
    );
    let help = "have members test two rungs of one ladder within 14 days, put the results on the \
                roster with `rungbook roster add`, and ask again";
    Trouble::new(sentence, help)
}

fn as_text(related: &Related) -> String {
    let Related { across, pairs, people, before, after } = related;
    let off = |off: &Off| {
        let Off { reps, inside } = off;
        format!("off by {reps:.1} repetitions on average, {inside} of {pairs} inside the band")
    };
    let then = match after.reps < before.reps {
        true => format!("For club.yaml:\n\n{}\n\nNothing was written.", line(across)),
        false => "The club's factor predicts no better on people whom it does not know: leave \
                  club.yaml as it is, and ask again after more tests."
            .to_string(),
    };
    format!(
        "{pairs} pairs of {people} people: a member's result and the one before it on another rung of the \
         ladder, within 14 days.\n\
         Before, factor {}, give or take {}: {}.\n\
         After, factor {}, give or take {}, each member predicted from the others alone: {}.\n\
         The fewer the pairs, the nearer the factor stays to {}, which published relations for \
         weights say.\n\n{then}\n",
        PUBLISHED.factor,
        PUBLISHED.band,
        off(before),
        across.factor,
        across.band,
        off(after),
        PUBLISHED.factor,
    )
}

fn line(across: &Across) -> String {
    let Across { factor, band, .. } = across;
    format!("repetitions-across-rungs: {{factor: {factor}, give-or-take: {band}}}")
}

fn as_json(related: &Related) -> String {
    let Related { across, pairs, people, before, after } = related;
    let off = |off: &Off| json!({"reps": off.reps, "inside": off.inside});
    let better = after.reps < before.reps;
    let found = json!({
        "pairs": pairs,
        "people": people,
        "factor": across.factor,
        "give_or_take": across.band,
        "before": off(before),
        "after": off(after),
        "line": better.then(|| line(across)),
    });
    format!("{found:#}\n")
}
