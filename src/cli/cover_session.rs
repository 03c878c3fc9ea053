//! `rungbook cover SESSION`: which lines of a session leave which usual kits and limits with nothing.
//! Never counts by itself: the room `own` does, as the library's cover is counted.

use super::say;
use crate::gym::Gym;
use crate::library::Session;
use crate::own::{self, LineCover};
use crate::swap::cover::{Answered, Tally, UsualKit, UsualLimit};
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt::Write;

/// Columns of one grid: with a line's name it still fits a terminal of 80.
const ACROSS: usize = 40;
/// Letters of a line's name beside the grid.
const NAME: usize = 26;
/// Lines whose reasons are told, and reasons a line.
const WORST: (usize, usize) = (3, 3);

/// The kits and limits that were asked for.
type Asked<'a> = (&'a [UsualKit], &'a [UsualLimit]);

/// What `cover SESSION` prints, and whether somebody is left with nothing.
pub fn told(gym: &Gym, session: &Session, asked: Asked<'_>, everything: bool) -> (String, bool) {
    let lines = own::cover(gym, session, asked);
    (as_text(session, asked, &lines, everything), leaves_out(&lines))
}

/// The same for a script.
pub fn as_json(gym: &Gym, session: &Session, asked: Asked<'_>) -> (String, bool) {
    let lines = own::cover(gym, session, asked);
    let rows = lines.iter().map(|line| row(session, line, asked)).collect();
    let report = Report { session: session.id.as_str(), lines: rows };
    let text = serde_json::to_string_pretty(&report).unwrap_or_default() + "\n";
    (text, leaves_out(&lines))
}

fn row<'a>(session: &'a Session, line: &'a LineCover, asked: Asked<'a>) -> Row<'a> {
    let all = line.all();
    let nothing = nothing(line, asked).map(|(kit, limit, why)| Nothing { kit, limit, why });
    Row {
        block: &session.blocks[line.block].name.value,
        line: &line.name,
        fine: all.fine,
        changed: all.changed,
        swapped: all.swapped,
        nothing: nothing.collect(),
    }
}

fn leaves_out(lines: &[LineCover]) -> bool {
    lines.iter().any(|line| line.all().nothing > 0)
}

fn as_text(
    session: &Session,
    (kits, limits): Asked<'_>,
    lines: &[LineCover],
    everything: bool,
) -> String {
    let (n, m) = (kits.len(), limits.len());
    let mut text = format!(
        "{}: every line, asked for with {} and {}, one kit and one limit at a time.\n\
         A column of a kit counts all the limits; a column of a limit the kits with which somebody does \
         the line as it stands, and where somebody has nothing, all of them.\n\
         .  all do it as it stands, or changed\n\
         -  some do a rung below, or another movement; =  half of them or more\n\
         1  up to one in ten has nothing that fits; 2  up to two in ten, and so on; X  nobody has any\n",
        session.name.value,
        say::counted(n, "kit"),
        say::counted(m, "limit"),
    );
    let kits_across: Vec<&str> = kits.iter().map(|kit| kit.name.as_str()).collect();
    let limits_across: Vec<&str> = limits.iter().map(|limit| limit.name.as_str()).collect();
    let of_kit = |line: &LineCover, at: usize| line.tally(m, |kit, _| kit == at);
    let of_limit = |line: &LineCover, at: usize| line.of_limit(m, at);
    grids(&mut text, ("Kits", &kits_across), lines, of_kit);
    grids(&mut text, ("Limits", &limits_across), lines, of_limit);
    let all = lines.iter().fold(Tally::default(), |sum, line| sum.and(line.all()));
    // Writing to a String cannot fail.
    let _ = writeln!(text, "\nAll {}: {}", all.all(), super::cover::shares(all));
    text += &worst(session, (kits, limits), lines, everything);
    text
}

/// A grid, lines down and names across, each below its number; as many as it takes.
fn grids(
    text: &mut String,
    (head, names): (&str, &[&str]),
    lines: &[LineCover],
    tally: impl Fn(&LineCover, usize) -> Tally,
) {
    for first in (0..names.len()).step_by(ACROSS) {
        let across = first..names.len().min(first + ACROSS);
        let tens = across.clone().map(|at| match at + 1 {
            number if number >= 10 => digit(number / 10),
            _ => ' ',
        });
        let tens: String = tens.collect();
        let ones: String = across.clone().map(|at| digit((at + 1) % 10)).collect();
        text.push('\n');
        if !tens.trim().is_empty() {
            let _ = writeln!(text, "{:NAME$}  {tens}", "");
        }
        let _ = writeln!(text, "{head:NAME$}  {ones}");
        for line in lines {
            let marks: String = across.clone().map(|at| mark(tally(line, at))).collect();
            let _ = writeln!(text, "{:NAME$}  {marks}", label(line));
        }
    }
    let told = names.iter().enumerate().map(|(at, name)| format!("{} {name}", at + 1));
    text.push_str(&wrapped(&told.collect::<Vec<_>>()));
}

fn digit(number: usize) -> char {
    u32::try_from(number).ok().and_then(|n| char::from_digit(n, 10)).unwrap_or('+')
}

/// `2.1 Row`: block and line as they stand, and as much of the name as there is room for.
fn label(line: &LineCover) -> String {
    let whole = format!("{}.{} {}", line.block + 1, line.line + 1, line.name);
    match whole.chars().count() > NAME {
        true => whole.chars().take(NAME - 1).chain(['…']).collect(),
        false => whole,
    }
}

/// One mark for a line and a column.
fn mark(tally: Tally) -> char {
    match (tally.nothing, tally.swapped) {
        (0, 0) => '.',
        (0, another) if 2 * another < tally.all() => '-',
        (0, _) => '=',
        (nothing, _) if nothing == tally.all() => 'X',
        // Nine at most: ten in ten is X.
        (nothing, _) => digit((10 * nothing).div_ceil(tally.all()).min(9)),
    }
}

/// The legend: names with their numbers, in lines of at most 80.
fn wrapped(names: &[String]) -> String {
    let mut text = String::new();
    let mut line = String::new();
    for name in names {
        if !line.is_empty() && line.chars().count() + name.chars().count() + 3 > 80 {
            let _ = writeln!(text, "{line}");
            line.clear();
        }
        line = if line.is_empty() { name.clone() } else { format!("{line} · {name}") };
    }
    if line.is_empty() { text } else { format!("{text}{line}\n") }
}

/// What is left with nothing: kit, limit and why.
fn nothing<'a>(
    line: &'a LineCover,
    (kits, limits): Asked<'a>,
) -> impl Iterator<Item = (&'a str, &'a str, &'a str)> {
    let each = limits.len().max(1);
    line.answers.iter().enumerate().filter_map(move |(at, answered)| match answered {
        Answered::Nothing(why) => {
            Some((kits[at / each].name.as_str(), limits[at % each].name.as_str(), why.as_str()))
        }
        _ => None,
    })
}

/// The lines with the most that have nothing, and why; all of them where everything is asked for.
fn worst(
    session: &Session,
    (kits, limits): Asked<'_>,
    lines: &[LineCover],
    everything: bool,
) -> String {
    let mut bad: Vec<&LineCover> = lines.iter().filter(|line| line.all().nothing > 0).collect();
    // Of as many the earlier in the session.
    bad.sort_by_key(|line| std::cmp::Reverse(line.all().nothing));
    let shown = if everything { bad.len() } else { WORST.0 };
    let mut text = String::new();
    for line in bad.iter().take(shown) {
        let all = line.all();
        let _ = writeln!(
            text,
            "\n{}.{} {}: {} of {} have nothing",
            line.block + 1,
            line.line + 1,
            line.name,
            all.nothing,
            all.all()
        );
        text += &reasons(line, (kits, limits), everything);
    }
    if bad.len() > shown {
        let _ = writeln!(
            text,
            "\n`rungbook cover {} --nothing` tells the other {} too.",
            session.id,
            say::counted(bad.len() - shown, "line")
        );
    }
    text
}

/// Reasons of a line, the commonest first, each with whom it leaves out.
fn reasons(line: &LineCover, asked: Asked<'_>, everything: bool) -> String {
    let mut by_why: BTreeMap<&str, Vec<(&str, &str)>> = BTreeMap::new();
    for (kit, limit, why) in nothing(line, asked) {
        by_why.entry(why).or_default().push((kit, limit));
    }
    let mut by_why: Vec<_> = by_why.into_iter().collect();
    by_why.sort_by_key(|(_, whom)| std::cmp::Reverse(whom.len()));
    let shown = if everything { by_why.len() } else { WORST.1 };
    let mut text = String::new();
    for (why, whom) in by_why.iter().take(shown) {
        let (kit, limit) = whom[0];
        let more = match whom.len() {
            1 => String::new(),
            n => format!(", and {} more", n - 1),
        };
        let _ = writeln!(text, "  {kit}; {limit}{more}: {why}");
    }
    text
}

#[derive(Serialize)]
struct Report<'a> {
    session: &'a str,
    lines: Vec<Row<'a>>,
}

#[derive(Serialize)]
struct Row<'a> {
    block: &'a str,
    line: &'a str,
    fine: usize,
    changed: usize,
    swapped: usize,
    nothing: Vec<Nothing<'a>>,
}

#[derive(Serialize)]
struct Nothing<'a> {
    kit: &'a str,
    limit: &'a str,
    why: &'a str,
}
