//! `rungbook roster`: takes in the results that members hand over, and shows who is on the roster.
//! Never sends a roster anywhere, and never changes what a coach wrote in it.

use super::roster_file::{RosterText, RosterTurn, read_handed};
use super::roster_relate::Relate;
use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::check;
use crate::finding::{self, Finding, Severity, Sources};
use crate::gym::Gym;
use crate::library::reader::handed::Handed;
use crate::library::{
    CautionId, Counts, LadderId, Member, MemberResult, Nickname, Roster as ClassRoster,
};
use crate::own;
use crate::plan::Day;
use clap::Subcommand;
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

/// Keep the class's roster: kit, limits, rungs and results by nickname, on this machine only
#[derive(clap::Args)]
#[command(
    after_help = "Examples:\n  rungbook roster add results.txt\n  rungbook roster show wren\n  rungbook roster relate\n\n\
    The roster is a file of yours beside the library. It never reaches the site."
)]
pub struct Roster {
    #[command(subcommand)]
    task: Task,
}

#[derive(Subcommand)]
enum Task {
    Add(Add),
    Show(Show),
    Relate(Relate),
}

/// Read the results that a member handed over, and put them on the roster
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook roster add results.txt\n  \
    echo 'wren push-up rung 4 12 reps 2026-11-25' | rungbook roster add -\n\n\
    One line a result; after the day may stand `hands 92 cm`, `added 5 kg`, and `note` with words. \
    A line that cannot be read is said and the others are added; the same result is added once.")]
struct Add {
    /// The text that was handed over; `-` reads what is typed or piped
    file: PathBuf,
    /// What day it is, where this machine's clock is wrong; a later day is asked again
    #[arg(long, value_name = "DAY", value_parser = day)]
    today: Option<Day>,
    #[command(flatten)]
    roster: RosterPlace,
    #[command(flatten)]
    library: LibraryDir,
}

/// Show who is on the roster, or everything about one member
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook roster show\n  rungbook roster show wren")]
struct Show {
    /// A member's nickname
    nickname: Option<String>,
    #[command(flatten)]
    roster: RosterPlace,
    #[command(flatten)]
    library: LibraryDir,
}

#[derive(clap::Args)]
pub(super) struct RosterPlace {
    /// File of the roster
    #[arg(long = "roster", value_name = "FILE", default_value = "roster.yaml")]
    pub(super) roster_file: PathBuf,
}

impl Roster {
    pub fn run(self) -> Result<Outcome, Trouble> {
        match self.task {
            Task::Add(task) => task.run(),
            Task::Show(task) => task.run(),
            Task::Relate(task) => task.run(),
        }
    }
}

impl Add {
    fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let today = self.today.or_else(clock);
        let mut sources = Sources::default();
        // What is typed may take its time: the turn is taken after it.
        let (handed, mut findings) = read_handed(&self.file, &mut sources)?;
        let turn = RosterTurn::take(&self.roster.roster_file)?;
        let roster = RosterText::read(&self.roster.roster_file, &mut sources)?;
        let mut new = Vec::new();
        let mut said = String::new();
        for one in &handed {
            let mut wrong = check::result(&gym, &one.result);
            wrong.extend(today.and_then(|today| check::not_yet(&one.result, today)));
            if wrong.is_empty() {
                said += &put(&gym, roster.roster(), &mut new, one);
            }
            findings.extend(wrong);
        }
        roster.add(&new, &turn)?;
        say::print(said + &nothing_new(&handed, &findings));
        finding::sort(&mut findings, &sources);
        say::findings(&findings, &sources);
        Ok(say::outcome(&findings))
    }
}

/// The day by this machine's clock; nothing where that stands before 1970.
fn clock() -> Option<Day> {
    let days = SystemTime::now().duration_since(UNIX_EPOCH).ok()?.as_secs() / (24 * 60 * 60);
    Some(Day::read("1970-01-01")?.later(i64::try_from(days).ok()?))
}

fn day(text: &str) -> Result<Day, String> {
    Day::read(text)
        .ok_or_else(|| "write the year, the month and the day, such as 2026-11-25".into())
}

/// Puts one result to the new ones, if neither they nor the roster have it; says so.
fn put(
    gym: &Gym,
    roster: &ClassRoster,
    new: &mut Vec<(Nickname, MemberResult)>,
    one: &Handed,
) -> String {
    let Handed { name, result } = one;
    let words = result_words(result);
    let known = roster.member(name.as_str());
    let theirs = || new.iter().filter(|(other, _)| *other == name.value);
    let mut before = known.iter().flat_map(|m| &m.results).chain(theirs().map(|(_, r)| r));
    if before.any(|before| before.says_the_same(result)) {
        return format!("already there: {}: {words}\n", name.value);
    }
    let is_new = known.is_none() && theirs().next().is_none();
    let is_new = if is_new { " (new on the roster)" } else { "" };
    new.push((name.value.clone(), own::with_its_rung(gym, result.clone())));
    format!("added: {}{is_new}: {words}\n", name.value)
}

fn nothing_new(handed: &[Handed], findings: &[Finding]) -> String {
    let nothing = handed.is_empty() && findings.is_empty();
    if nothing { "there is no result in this text\n".to_string() } else { String::new() }
}

fn result_words(result: &MemberResult) -> String {
    let unit = match result.counts {
        Counts::Seconds => " s",
        _ => " reps",
    };
    let mut words = format!(
        "{} rung {}, {}{unit}, {}",
        result.ladder.value, result.rung.value, result.amount.value, result.day.value
    );
    for (name, value) in &result.settings {
        let _ = write!(words, ", {} {}", name.value, value.value);
    }
    if let Some(added) = &result.added {
        let _ = write!(words, ", added {}", added.value);
    }
    if let Some(note) = &result.note {
        let _ = write!(words, ": {note}");
    }
    words
}

impl Show {
    fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let file = &self.roster.roster_file;
        if !file.exists() {
            return Err(no_roster(file));
        }
        let mut sources = Sources::default();
        let roster = RosterText::read(file, &mut sources)?;
        let members = chosen(&roster, self.nickname.as_deref(), file)?;
        let mut findings: Vec<Finding> =
            members.iter().flat_map(|member| check::member(&gym, member)).collect();
        let text: String = match (&self.nickname, members.as_slice()) {
            (Some(_), [member]) => all_about(&gym, member),
            _ => members.iter().map(|member| one_line(member)).collect(),
        };
        say::print(text);
        finding::sort(&mut findings, &sources);
        say::findings(&findings, &sources);
        let wrong = findings.iter().any(|finding| finding.severity != Severity::Advice);
        Ok(if wrong { Outcome::Findings } else { Outcome::Fine })
    }
}

/// A member of the roster in a file, by nickname.
pub(super) fn member_called(name: &str, place: &RosterPlace) -> Result<Member, Trouble> {
    let file = &place.roster_file;
    if !file.exists() {
        return Err(no_roster(file));
    }
    let roster = RosterText::read(file, &mut Sources::default())?;
    let members = chosen(&roster, Some(name), file)?;
    members.first().map(|member| (*member).clone()).ok_or_else(|| no_roster(file))
}

pub(super) fn no_roster(file: &Path) -> Trouble {
    let sentence = format!("there is no roster `{}`", say::shown(file));
    let help = "name it with --roster FILE, or start one with `rungbook roster add FILE`";
    Trouble::new(sentence, help)
}

fn chosen<'r>(
    roster: &'r RosterText,
    nickname: Option<&str>,
    file: &Path,
) -> Result<Vec<&'r Member>, Trouble> {
    let roster = roster.roster();
    let Some(name) = nickname else { return Ok(roster.members.iter().collect()) };
    roster.member(name).map(|member| vec![member]).ok_or_else(|| {
        let known = roster.members.iter().map(|member| member.name.as_str());
        let otherwise = format!("`rungbook roster show` lists everyone in {}", say::shown(file));
        let help = finding::did_you_mean(name, known, &otherwise);
        Trouble::new(format!("nobody on the roster is called `{name}`"), help)
    })
}

/// A limit is not shown beside everyone's names: the coach may not be alone at the screen.
fn one_line(member: &Member) -> String {
    let results = say::counted(member.results.len(), "result");
    let rungs: Vec<String> = member
        .rungs
        .iter()
        .map(|(ladder, rung)| format!("{} {}", ladder.value, rung.value))
        .collect();
    let rungs = if rungs.is_empty() { String::new() } else { format!("; {}", rungs.join(", ")) };
    format!("{}: {results}{rungs}\n", member.name.value)
}

fn all_about(gym: &Gym, member: &Member) -> String {
    let mut text = format!("{}\n", member.name.value);
    let kit: Option<Vec<&str>> =
        member.kit.as_ref().map(|kit| kit.iter().map(|id| id.as_str()).collect());
    let kit = match kit.as_deref() {
        None => "what the hall has".to_string(),
        Some([]) => "none".to_string(),
        Some(kit) => kit.join(", "),
    };
    let _ = writeln!(text, "kit: {kit}");
    let limits = member.limits.iter().map(|(name, level)| match level {
        1 => name.to_string(),
        _ => format!("{} (a lot)", name.value),
    });
    let cautions = member.cautions.iter().map(|id| caution_name(gym, &id.value));
    let limits: Vec<String> = cautions.chain(limits).collect();
    if !limits.is_empty() {
        let _ = writeln!(text, "leaves out: {}", limits.join(", "));
    }
    for (ladder, rung) in &member.rungs {
        let _ = writeln!(text, "{}: rung {}", ladder_name(gym, &ladder.value), rung.value);
    }
    let mut results: Vec<&MemberResult> = member.results.iter().collect();
    results.sort_by(|a, b| a.day.value.cmp(&b.day.value));
    for result in results {
        let _ = writeln!(text, "{}", result_words(result));
    }
    text
}

fn caution_name(gym: &Gym, id: &CautionId) -> String {
    let known = gym.library.words.cautions.get(id);
    known.map_or_else(|| id.to_string(), |caution| caution.name.to_lowercase())
}

fn ladder_name<'g>(gym: &'g Gym, id: &'g LadderId) -> &'g str {
    gym.library.ladders.get(id).map_or(id.as_str(), |ladder| &ladder.name.value)
}
