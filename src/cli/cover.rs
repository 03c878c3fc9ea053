//! `rungbook cover`: who is left with nothing: for usual kits and every limit, what is fine, changed,
//! swapped. Never counts by itself: the room `swap` does.

use super::board::session;
use super::cover_session;
use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use super::whom;
use crate::gym::Gym;
use crate::library::Session;
use crate::swap::cover::{Cell, Tally, UsualKit, UsualLimit, cover, usual_kits, usual_limits};
use crate::swap::{Limits, RungOf, kit_from, limits_from};
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt::Write;

/// Count who is left with nothing, for usual kits and every limit
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  \
    rungbook cover\n  \
    rungbook cover push-and-pull\n  \
    rungbook cover --kit chair,stairs --avoid pregnancy --nothing\n\n\
    Every rung of every movement is asked for, once for each kit and each limit. It is fine, or \
    changed, or left out with a rung below or another movement in its place, or there is nothing. \
    Of a session every line is, and what comes out is plotted: lines down, kits and limits across. \
    Usual kits stand in club.yaml under `usual-kits`.")]
pub struct Cover {
    /// A session, by its id: which of its lines leave whom with nothing
    session: Option<String>,
    /// One kit in place of the usual ones, separated by commas; `none`, or `hall`
    #[arg(long, value_delimiter = ',', value_name = "KIT")]
    kit: Option<Vec<String>>,
    /// Limits, all at once, in place of each one alone
    #[arg(long, value_delimiter = ',', value_name = "LIMIT")]
    avoid: Vec<String>,
    /// Name the movements that are left with nothing, and why
    #[arg(long)]
    nothing: bool,
    #[command(flatten)]
    library: LibraryDir,
    /// For a person or for a script
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
}

impl Cover {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        whom::can_keep_limits(&gym)?;
        let kits = self.kits(&gym)?;
        let limits = self.limits(&gym)?;
        if let Some(id) = &self.session {
            return self.of_session(&gym, session(&gym, id)?, (&kits, &limits));
        }
        let cells = cover(&gym, &kits, &limits);
        match self.format {
            Format::Human => say::print(as_text(&gym, (&kits, &limits), &cells, self.nothing)),
            Format::Json => say::print(as_json((&kits, &limits), &cells)),
        }
        Ok(match cells.iter().any(|cell| cell.tally.nothing > 0) {
            true => Outcome::Findings,
            false => Outcome::Fine,
        })
    }

    fn of_session(
        &self,
        gym: &Gym,
        session: &Session,
        asked: Asked<'_>,
    ) -> Result<Outcome, Trouble> {
        let (text, leaves_out) = match self.format {
            Format::Human => cover_session::told(gym, session, asked, self.nothing),
            Format::Json => cover_session::as_json(gym, session, asked),
        };
        say::print(text);
        Ok(if leaves_out { Outcome::Findings } else { Outcome::Fine })
    }

    fn kits(&self, gym: &Gym) -> Result<Vec<UsualKit>, Trouble> {
        let Some(words) = &self.kit else { return Ok(usual_kits(gym)) };
        let kit = kit_from(gym, words).map_err(unknown)?;
        Ok(vec![UsualKit { name: words.join(", "), kit }])
    }

    fn limits(&self, gym: &Gym) -> Result<Vec<UsualLimit>, Trouble> {
        if self.avoid.is_empty() {
            return Ok(usual_limits(gym));
        }
        let limits: Limits = limits_from(gym, &self.avoid).map_err(unknown)?;
        Ok(vec![UsualLimit { name: self.avoid.join(", "), limits }])
    }
}

fn unknown(sentence: String) -> Trouble {
    Trouble::new(sentence, "mend the word and ask again")
}

/// The kits and limits that were asked for.
type Asked<'a> = (&'a [UsualKit], &'a [UsualLimit]);

fn as_text(gym: &Gym, (kits, limits): Asked<'_>, cells: &[Cell], nothing: bool) -> String {
    let all = sum(cells.iter());
    let mut text = preface((kits, limits), all);
    let by_kit = |at: usize| sum(cells.iter().filter(|cell| cell.kit == at));
    let by_limit = |at: usize| sum(cells.iter().filter(|cell| cell.limit == at));
    let heads = match (kits, limits) {
        ([_], _) | (_, [_]) => ["Kit", "Limit"],
        _ => ["Kit, over all the limits", "Limit, over all the kits"],
    };
    table(&mut text, heads[0], kits.iter().map(|kit| kit.name.as_str()), by_kit);
    text.push('\n');
    table(&mut text, heads[1], limits.iter().map(|limit| limit.name.as_str()), by_limit);
    // Writing to a String cannot fail.
    let _ = writeln!(text, "\nAll {}: {}", all.all(), shares(all));
    if all.nothing > 0 && !nothing {
        text.push_str("`rungbook cover --nothing` names what is left with nothing, and why.\n");
    }
    if nothing {
        for (name, whys) in left_with_nothing(gym, (kits, limits), cells) {
            let _ = writeln!(text, "\n{name}: {}", say::counted(whys.len(), "time"));
            for why in whys {
                let _ = writeln!(text, "  {why}");
            }
        }
    }
    text
}

/// What was counted, and what each column means.
fn preface((kits, limits): Asked<'_>, all: Tally) -> String {
    let (kits, limits) = (say::counted(kits.len(), "kit"), say::counted(limits.len(), "limit"));
    format!(
        "Every rung of every movement, asked for with {kits} and {limits}, one kit and one limit at a \
         time: {} answers.\n\
         fine: as it stands. changed: the same, changed. swapped: a rung below, or another movement.\n\
         nothing: the library has no answer, and a coach decides.\n\n",
        all.all()
    )
}

fn sum<'c>(cells: impl Iterator<Item = &'c Cell>) -> Tally {
    cells.fold(Tally::default(), |sum, cell| sum.and(cell.tally))
}

fn table<'n>(
    text: &mut String,
    head: &str,
    names: impl Iterator<Item = &'n str> + Clone,
    tally: impl Fn(usize) -> Tally,
) {
    let width = names.clone().map(|name| name.chars().count()).max().unwrap_or(0).max(head.len());
    let _ = writeln!(text, "{head:width$}     fine  changed  swapped  nothing");
    for (at, name) in names.enumerate() {
        let tally = tally(at);
        let share = |part: usize| format!("{:.1} %", percent(part, tally));
        let _ = writeln!(
            text,
            "{name:width$}  {:>7}  {:>7}  {:>7}  {:>7}",
            share(tally.fine),
            share(tally.changed),
            share(tally.swapped),
            share(tally.nothing),
        );
    }
}

fn percent(part: usize, tally: Tally) -> f64 {
    100.0 * part as f64 / tally.all().max(1) as f64
}

pub(super) fn shares(tally: Tally) -> String {
    let share = |part: usize| format!("{part} ({:.1} %)", percent(part, tally));
    format!(
        "fine {}, changed {}, left out with a swap {}, nothing {}",
        share(tally.fine),
        share(tally.changed),
        share(tally.swapped),
        share(tally.nothing)
    )
}

/// What is left with nothing, the movements with the most first.
fn left_with_nothing(
    gym: &Gym,
    (kits, limits): Asked<'_>,
    cells: &[Cell],
) -> Vec<(String, Vec<String>)> {
    let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for cell in cells {
        for (rung, why) in &cell.nothing {
            let movement = gym.library.movements.get(&rung.key.movement);
            let name = movement.map_or("", |movement| movement.name.value.as_str());
            let at = rung.said();
            let at = if at.is_empty() { String::new() } else { format!("{at}; ") };
            let (kit, limit) = (&kits[cell.kit].name, &limits[cell.limit].name);
            found.entry(name.to_string()).or_default().push(format!("{at}{kit}; {limit}: {why}"));
        }
    }
    let mut found: Vec<_> = found.into_iter().collect();
    found.sort_by_key(|(_, whys)| std::cmp::Reverse(whys.len()));
    found
}

#[derive(Serialize)]
struct Report<'a> {
    cells: Vec<Row<'a>>,
}

#[derive(Serialize)]
struct Row<'a> {
    kit: &'a str,
    limit: &'a str,
    fine: usize,
    changed: usize,
    swapped: usize,
    nothing: Vec<Nothing>,
}

#[derive(Serialize)]
struct Nothing {
    movement: String,
    rung: String,
    why: String,
}

fn as_json((kits, limits): Asked<'_>, cells: &[Cell]) -> String {
    let nothing = |(rung, why): &'_ (RungOf, String)| Nothing {
        movement: rung.key.movement.to_string(),
        rung: rung.said(),
        why: why.clone(),
    };
    let row = |cell: &Cell| Row {
        kit: &kits[cell.kit].name,
        limit: &limits[cell.limit].name,
        fine: cell.tally.fine,
        changed: cell.tally.changed,
        swapped: cell.tally.swapped,
        nothing: cell.nothing.iter().map(nothing).collect(),
    };
    let report = Report { cells: cells.iter().map(row).collect() };
    serde_json::to_string_pretty(&report).unwrap_or_default() + "\n"
}
