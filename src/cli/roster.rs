//! `rungbook roster`: takes in the results that members hand over, and shows who is on the roster.
//! Never sends a roster anywhere, and never changes what a coach wrote in it.

use super::roster_done::{self, Done};
use super::roster_file::{RosterText, RosterTurn, read_handed};
use super::roster_json;
use super::roster_keep::{Keep, was_words};
use super::roster_relate::Relate;
use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use super::today::Today;
use crate::board::{self, Person};
use crate::check;
use crate::finding::{self, Finding, Placed, Severity, Sources};
use crate::gym::Gym;
use crate::library::reader::handed::Handed;
use crate::library::{
    CautionId, Counts, LadderId, Member, MemberResult, Nickname, Roster as ClassRoster, TraitId,
};
use crate::own;
use crate::plan::Day;
use clap::Subcommand;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};

/// Keep the class's roster: kit, limits, rungs and results by nickname, on this machine only
#[derive(clap::Args)]
#[command(
    after_help = "Examples:\n  rungbook roster add results.txt\n  rungbook roster show wren\n  rungbook roster done push-and-pull\n  rungbook roster keep\n  rungbook roster relate\n\n\
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
    Done(Done),
    Keep(Keep),
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
    #[command(flatten)]
    today: Today,
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
    /// For a person or for a script
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
    #[command(flatten)]
    today: Today,
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

impl RosterPlace {
    /// ` --roster FILE` as a shell takes it, where it is not the usual place.
    pub(super) fn named(&self) -> String {
        match self.roster_file.as_os_str() == "roster.yaml" {
            true => String::new(),
            false => format!(
                " --roster '{}'",
                self.roster_file.display().to_string().replace('\'', "'\\''")
            ),
        }
    }
}

impl Roster {
    pub fn run(self) -> Result<Outcome, Trouble> {
        match self.task {
            Task::Add(task) => task.run(),
            Task::Show(task) => task.run(),
            Task::Done(task) => task.run(),
            Task::Keep(task) => task.run(),
            Task::Relate(task) => task.run(),
        }
    }
}

impl Add {
    fn run(self) -> Result<Outcome, Trouble> {
        let gym = self.library.open()?;
        let today = self.today.day();
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

pub(super) fn result_words(result: &MemberResult) -> String {
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
        let today = self.today.day();
        let mut findings: Vec<Finding> = members
            .iter()
            .flat_map(|member| check::member(&gym, (roster.roster(), member), today))
            .collect();
        let people = board::class(&gym, roster.roster(), today);
        let is_json = self.format == Format::Json;
        let text: String = match (&self.nickname, members.as_slice()) {
            (Some(_), [member]) => {
                let person = people.iter().find(|one| one.name == member.name.as_str());
                match is_json {
                    true => roster_json::one(member, person),
                    false => all_about(&gym, member, today) + &notes(person),
                }
            }
            _ if is_json => roster_json::everybody(&members, &told(&gym, &members, &people)),
            _ => everybody(&members, &told(&gym, &members, &people)),
        };
        say::print(text);
        finding::sort(&mut findings, &sources);
        say::findings(&findings, &sources);
        let wrong = findings.iter().any(|finding| finding.severity != Severity::Advice);
        Ok(if wrong { Outcome::Findings } else { Outcome::Fine })
    }
}

/// A member of the roster in a file, by nickname, without an error in the entry; what else is wrong
/// with it is said, such as what was of another day.
pub(super) fn member_called(
    gym: &Gym,
    name: &str,
    place: &RosterPlace,
    today: Option<Day>,
) -> Result<Member, Trouble> {
    let file = &place.roster_file;
    if !file.exists() {
        return Err(no_roster(file));
    }
    let mut sources = Sources::default();
    let roster = RosterText::read(file, &mut sources)?;
    let members = chosen(&roster, Some(name), file)?;
    let member = *members.first().ok_or_else(|| no_roster(file))?;
    without_errors(check::member(gym, (roster.roster(), member), today), &sources, file)?;
    Ok(member.clone())
}

/// Says what was found on a roster.
///
/// # Errors
/// Where an error is among it: a limit that is not known leaves nothing out, and nobody is answered on
/// that.
pub(super) fn without_errors(
    mut findings: Vec<Finding>,
    sources: &Sources,
    file: &Path,
) -> Result<(), Trouble> {
    finding::sort(&mut findings, sources);
    say::findings(&findings, sources);
    match findings.iter().any(|finding| finding.severity == Severity::Error) {
        false => Ok(()),
        true => {
            let sentence = format!("the roster `{}` has errors", say::shown(file));
            Err(Trouble::new(sentence, "mend the places above and ask again"))
        }
    }
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

/// Whom to look at: a name for a script, words, and who.
fn told<'m>(
    gym: &Gym,
    members: &[&'m Member],
    people: &[Person],
) -> [(&'static str, &'static str, Vec<&'m str>); 3] {
    let names = |of: &dyn Fn(&Member) -> bool| {
        let whose = members.iter().filter(|member| of(member));
        whose.map(|member| member.name.as_str()).collect::<Vec<_>>()
    };
    let moves: BTreeMap<&str, Vec<own::Due>> =
        people.iter().map(|one| (one.name.as_str(), own::due(gym, &one.member))).collect();
    let due = |member: &Member, up: bool| {
        moves.get(member.name.as_str()).is_some_and(|due| due.iter().any(|one| one.is_up == up))
    };
    let twice = names(&|one| !own::left_out_twice(&one.done).is_empty());
    [
        ("due_up", "due for a move up", names(&|one| due(one, true))),
        ("due_down", "due for a move down", names(&|one| due(one, false))),
        ("left_out_twice", "left out of something twice running", twice),
    ]
}

/// A line each, and whom to look at: what was left out stands beside no name, as it tells of limits.
fn everybody(members: &[&Member], told: &[(&str, &str, Vec<&str>)]) -> String {
    let mut text: String = members.iter().map(|member| one_line(member)).collect();
    let told: Vec<_> = told.iter().filter(|(.., names)| !names.is_empty()).collect();
    for (_, what, names) in &told {
        let _ = writeln!(text, "{what}: {}", names.join(", "));
    }
    if !told.is_empty() {
        text += "`rungbook roster show NICKNAME` says of what, and why\n";
    }
    text
}

/// A limit is not shown beside everyone's names: the coach may not be alone at the screen.
fn one_line(member: &Member) -> String {
    let results = say::counted(member.results.len(), "result");
    let rungs: Vec<String> = member
        .rungs
        .iter()
        .map(|(ladder, own)| format!("{} {}", ladder.value, own.rung.value))
        .collect();
    let rungs = if rungs.is_empty() { String::new() } else { format!("; {}", rungs.join(", ")) };
    let classes = match member.done.len() {
        0 => String::new(),
        n => format!(", {}", if n == 1 { "1 class".to_string() } else { format!("{n} classes") }),
    };
    format!("{}: {results}{classes}{rungs}\n", member.name.value)
}

fn all_about(gym: &Gym, member: &Member, today: Option<Day>) -> String {
    let mut text = format!("{}\n", member.name.value);
    let kit: Option<Vec<&str>> =
        member.kit.as_ref().map(|kit| kit.iter().map(|id| id.as_str()).collect());
    let kit = match kit.as_deref() {
        None => "what the hall has".to_string(),
        Some([]) => "none".to_string(),
        Some(kit) => kit.join(", "),
    };
    let _ = writeln!(text, "kit: {kit}");
    let limits = left_out(gym, &member.limits, &member.cautions);
    if !limits.is_empty() {
        let _ = writeln!(text, "leaves out: {limits}");
    }
    if let Some(of_today) = own::of_today(member, today) {
        let limits = left_out(gym, &of_today.limits, &of_today.cautions);
        let _ = writeln!(text, "leaves out today, {}: {limits}", of_today.day.value);
    }
    for (ladder, own) in &member.rungs {
        let was =
            own.was.as_ref().map_or(String::new(), |was| format!(", {}", was_words(gym, was)));
        let _ = writeln!(text, "{}: rung {}{was}", ladder_name(gym, &ladder.value), own.rung.value);
    }
    let mut results: Vec<&MemberResult> = member.results.iter().collect();
    results.sort_by(|a, b| a.day.value.cmp(&b.day.value));
    for result in results {
        let _ = writeln!(text, "{}", result_words(result));
    }
    let mut classes: Vec<_> = member.done.iter().collect();
    classes.sort_by(|a, b| a.day.value.cmp(&b.day.value));
    for class in classes {
        let _ = writeln!(
            text,
            "{}, {}: {}",
            class.day.value,
            class.session.value,
            roster_done::words(class)
        );
    }
    text
}

/// What is due after their last classes.
fn notes(person: Option<&Person>) -> String {
    person.map_or(String::new(), |one| one.notes.iter().map(|note| format!("{note}\n")).collect())
}

/// Situations and traits in a line.
fn left_out(gym: &Gym, limits: &[(Placed<TraitId>, u8)], cautions: &[Placed<CautionId>]) -> String {
    let limits = limits.iter().map(|(name, level)| match level {
        1 => name.to_string(),
        _ => format!("{} (a lot)", name.value),
    });
    let cautions = cautions.iter().map(|id| caution_name(gym, &id.value));
    cautions.chain(limits).collect::<Vec<_>>().join(", ")
}

fn caution_name(gym: &Gym, id: &CautionId) -> String {
    let known = gym.library.words.cautions.get(id);
    known.map_or_else(|| id.to_string(), |caution| caution.name.to_lowercase())
}

fn ladder_name<'g>(gym: &'g Gym, id: &'g LadderId) -> &'g str {
    gym.library.ladders.get(id).map_or(id.as_str(), |ladder| &ladder.name.value)
}
