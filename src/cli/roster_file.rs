//! The roster's file on disk: read as a whole, changed in memory, written at once or not at all.
//! Never written where the changed text would not say exactly what is wanted and nothing else, and never
//! by two commands at once.

use super::private_file::{self, real};
use super::say::{self, Trouble};
use crate::finding::{Finding, Placed, Sources, Span};
use crate::library::reader::handed::{self, Handed};
use crate::library::reader::roster::{self, RosterFile};
use crate::library::{Done, Member, MemberResult, Nickname, Roster, roster_lines};
use crate::turn::Turn;
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// What a member hands over is a page; a megabyte is thousands.
const BIGGEST_TEXT: u64 = 1 << 20;
/// Twenty years of thirty people's results have 3 MB, and as many of a small class's lines after class.
const BIGGEST_ROSTER: u64 = 4 << 20;

/// A roster's text and what it says.
pub struct RosterText {
    file: PathBuf,
    text: String,
    read: RosterFile,
}

impl RosterText {
    /// Reads the roster; a file that is not there is an empty one.
    pub fn read(file: &Path, sources: &mut Sources) -> Result<RosterText, Trouble> {
        let file = real(file);
        let text = if file.exists() { roster_text(&file)? } else { String::new() };
        let id = sources.add(say::shown(&file_name(&file)), text.clone());
        let (read, findings) = roster::read(id, sources);
        if !findings.is_empty() {
            say::findings(&findings, sources);
            let sentence = format!("the roster `{}` cannot be read", say::shown(&file_name(&file)));
            return Err(Trouble::new(sentence, "mend the places above and try again"));
        }
        Ok(RosterText { file, text, read })
    }

    /// Who is in it.
    pub fn roster(&self) -> &Roster {
        &self.read.roster
    }

    /// Writes the roster with new results, each of the member named with it, and nothing else.
    pub fn add(&self, new: &[(Nickname, MemberResult)], _: &RosterTurn) -> Result<(), Trouble> {
        let mut wanted = self.roster().clone();
        for (name, result) in new {
            member_named(&mut wanted, name, result.span).results.push(result.clone());
        }
        let items: Vec<_> = new.iter().map(|(name, one)| (name.clone(), one.as_yaml())).collect();
        self.with_items("results", &items, &wanted)
    }

    /// Writes the roster with what members did in class, and nothing else.
    pub fn done(&self, new: &[(Nickname, Done)], _: &RosterTurn) -> Result<(), Trouble> {
        let mut wanted = self.roster().clone();
        for (name, done) in new {
            member_named(&mut wanted, name, done.span).done.push(done.clone());
        }
        let items: Vec<_> = new.iter().map(|(name, one)| (name.clone(), one.as_yaml())).collect();
        self.with_items("done", &items, &wanted)
    }

    /// Writes the roster without the classes that `is_gone` says, and changes nothing else.
    pub fn undone(&self, is_gone: impl Fn(&Done) -> bool, _: &RosterTurn) -> Result<(), Trouble> {
        let mut wanted = self.roster().clone();
        let mut gone = Vec::new();
        for member in &mut wanted.members {
            let theirs = member.done.iter().filter(|done| is_gone(done));
            gone.extend(theirs.map(|done| (member.name.value.clone(), done.span.start)));
            member.done.retain(|done| !is_gone(done));
        }
        let text =
            roster_lines::without_items(&self.text, self.read.root.as_ref(), ("done", &gone));
        match text.ok().filter(|text| is_read_as(text, &wanted)) {
            Some(text) => self.write(&text),
            None => {
                let sentence =
                    "the lines of that class do not stand on lines of their own".to_string();
                Err(Trouble::new(sentence, "take them out by hand, under `done` of each entry"))
            }
        }
    }

    fn with_items(
        &self,
        key: &str,
        new: &[(Nickname, String)],
        wanted: &Roster,
    ) -> Result<(), Trouble> {
        if new.is_empty() {
            return Ok(());
        }
        let text = self.text_with(key, new);
        match text.filter(|text| is_read_as(text, wanted)) {
            Some(text) => self.write(&text),
            None => Err(self.no_place(key, new)),
        }
    }

    fn text_with(&self, key: &str, new: &[(Nickname, String)]) -> Option<String> {
        roster_lines::with_items(&self.text, self.read.root.as_ref(), (key, new)).ok()
    }

    fn write(&self, text: &str) -> Result<(), Trouble> {
        private_file::write(&self.file, text).map_err(|error| unwritable(&self.file, &error))
    }

    /// Writes what each rung was beside its number, as `kept` has it, and changes nothing else.
    pub fn keep(&self, kept: &Roster, _: &RosterTurn) -> Result<(), Trouble> {
        let text = roster_lines::with_rungs_kept(&self.text, self.roster(), kept);
        if is_read_as(&text, kept) {
            return self.write(&text);
        }
        let help = "write each rung as `push-up: 4` and each result on a line of its own, and run \
                    this again";
        Err(Trouble::new("the roster has no place for what its rungs are".to_string(), help))
    }

    /// Whose entry gives no place: the first whose lines alone find none either.
    fn no_place(&self, key: &str, new: &[(Nickname, String)]) -> Trouble {
        let alone = |(name, _): &&(Nickname, String)| {
            let theirs: Vec<_> = new.iter().filter(|(other, _)| other == name).cloned().collect();
            let text = self.text_with(key, &theirs);
            text.is_none_or(|text| roster_read(&text).is_none())
        };
        let whose = new.iter().find(alone).map(|(name, _)| format!(" of `{name}`"));
        let whose = whose.unwrap_or_default();
        let what = if key == "done" { "what was done" } else { "a new result" };
        let sentence = format!("the roster has no place for {what}{whose}");
        let line = if key == "done" { "class" } else { "result" };
        let help = format!(
            "write the member's entry over several lines, each {line} on a line of its own that starts \
             with `- `"
        );
        Trouble::new(sentence, help)
    }
}

/// The turn to read a roster, change it and write it back; nobody else does meanwhile.
pub struct RosterTurn {
    _turn: Turn,
}

impl RosterTurn {
    /// Waits for it, and says so.
    pub fn take(file: &Path) -> Result<RosterTurn, Trouble> {
        let file = real(file);
        let turn = private_file::turn(&file).map_err(|error| unwritable(&file, &error))?;
        Ok(RosterTurn { _turn: turn })
    }
}

fn unwritable(file: &Path, error: &io::Error) -> Trouble {
    let name = say::shown(&file_name(file));
    let sentence = format!("the roster `{name}` could not be written: {error}");
    Trouble::new(sentence, "check that you may write there and that the disk has room")
}

fn file_name(file: &Path) -> PathBuf {
    file.file_name().map_or_else(|| file.to_path_buf(), PathBuf::from)
}

/// The member of that nickname, put at the end where there is none.
fn member_named<'r>(roster: &'r mut Roster, name: &Nickname, span: Span) -> &'r mut Member {
    let lower = name.as_str().to_lowercase();
    let at = roster.members.iter().position(|one| one.name.as_str().to_lowercase() == lower);
    let at = at.unwrap_or_else(|| {
        roster.members.push(Member::named(Placed::new(name.clone(), span)));
        roster.members.len() - 1
    });
    &mut roster.members[at]
}

/// What a roster's text says; nothing where anything in it cannot be read.
fn roster_read(text: &str) -> Option<Roster> {
    let mut sources = Sources::default();
    let file = sources.add("roster.yaml", text.to_string());
    let (read, findings) = roster::read(file, &sources);
    findings.is_empty().then_some(read.roster)
}

/// Whether a text says of everyone what is wanted, and nothing else.
fn is_read_as(text: &str, wanted: &Roster) -> bool {
    let entry = |member: &Member| (member.name.value.clone(), everything(member));
    let all = |roster: &Roster| roster.members.iter().map(entry).collect::<Vec<_>>();
    roster_read(text).is_some_and(|read| all(&read) == all(wanted))
}

/// What a member's entry says, without places.
fn everything(member: &Member) -> String {
    let kit = member.kit.as_ref().map(|kit| kit.iter().map(|id| id.as_str()).collect::<Vec<_>>());
    let limits: Vec<_> = member.limits.iter().map(|(id, from)| (id.as_str(), *from)).collect();
    let cautions: Vec<_> = member.cautions.iter().map(|id| id.as_str()).collect();
    let rungs: Vec<_> = member.rungs.iter().map(|(id, own)| (id.as_str(), own.as_yaml())).collect();
    let results: String = member.results.iter().map(|one| one.as_yaml() + "\n").collect();
    let done: String = member.done.iter().map(|one| one.as_yaml() + "\n").collect();
    format!("{kit:?} {limits:?} {cautions:?} {} {rungs:?}\n{results}{done}", coming(member))
}

/// How they come to class.
fn coming(member: &Member) -> String {
    let coming = &member.coming;
    let with = coming.with.as_ref().map(|with| with.as_str());
    let trains = coming.trains.as_ref().map(|trains| trains.value);
    let today = coming.today.as_ref().map(|today| {
        let limits: Vec<_> = today.limits.iter().map(|(id, from)| (id.as_str(), *from)).collect();
        let cautions: Vec<_> = today.cautions.iter().map(|id| id.as_str()).collect();
        (today.day.value.as_str(), limits, cautions)
    });
    match (trains, &today, with) {
        (None, None, None) => "[]".to_string(),
        all => format!("{all:?}"),
    }
}

fn roster_text(file: &Path) -> Result<String, Trouble> {
    let opened = fs::File::open(file).map_err(|error| plain(&error));
    let text = opened.and_then(|opened| as_text(opened, BIGGEST_ROSTER, "it is over 4 MB"));
    text.map_err(|why| {
        let sentence = format!("the roster `{}` could not be read: {why}", say::shown(file));
        let help = "move the results of past years to a file of their own; \
                    `rungbook roster show --roster FILE` shows them";
        let otherwise = "mend the file, or name another with --roster FILE";
        Trouble::new(sentence, if why.contains("MB") { help } else { otherwise })
    })
}

fn as_text(from: impl Read, biggest: u64, too_big: &str) -> Result<String, String> {
    let mut bytes = Vec::new();
    from.take(biggest + 1).read_to_end(&mut bytes).map_err(|error| plain(&error))?;
    if bytes.len() as u64 > biggest {
        return Err(too_big.to_string());
    }
    String::from_utf8(bytes).map_err(|_| "it is not UTF-8 text".to_string())
}

/// What the system said, without its number.
fn plain(error: &io::Error) -> String {
    let said = error.to_string();
    said.split(" (os error").next().unwrap_or(&said).to_string()
}

/// Reads what somebody sent, `-` for what is piped in; `whose` names it: `the text that the member sent`.
pub fn sent_text(file: &Path, whose: &str) -> Result<String, Trouble> {
    let text = if file == Path::new("-") {
        as_text(io::stdin().lock(), BIGGEST_TEXT, "it is over 1 MB")
    } else {
        let opened = fs::File::open(file).map_err(|error| plain(&error));
        opened.and_then(|opened| as_text(opened, BIGGEST_TEXT, "it is over 1 MB"))
    };
    text.map_err(|why| {
        let sentence = format!("`{}` could not be read: {why}", say::shown(file));
        Trouble::new(sentence, format!("name {whose}, or `-` for what is piped in"))
    })
}

/// Reads what a member handed over.
pub fn read_handed(
    file: &Path,
    sources: &mut Sources,
) -> Result<(Vec<Handed>, Vec<Finding>), Trouble> {
    let piped = file == Path::new("-");
    let text = sent_text(file, "the text that the member sent")?;
    if text.trim_start().starts_with('{') {
        let sentence = "this is a member's whole book, not their results for the coach";
        let help = "ask for the text that `Hand a result to the coach` gives; delete this file";
        return Err(Trouble::new(sentence, help));
    }
    let name = if piped { "what was piped in".to_string() } else { say::shown(file) };
    let id = sources.add(name, text);
    Ok(handed::read(id, sources))
}
