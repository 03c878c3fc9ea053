//! The roster's file on disk: read as a whole, changed in memory, written at once or not at all.
//! Never written where the changed text would not say exactly what it said and the new results, and
//! never by two commands at once.

use super::say::{self, Trouble};
use crate::finding::{Finding, Sources};
use crate::library::reader::handed::{self, Handed};
use crate::library::reader::roster::{self, RosterFile};
use crate::library::{Member, MemberResult, Nickname, Roster, roster_lines};
use crate::turn::{Turn, beside};
use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// What a member hands over is a page; a megabyte is thousands.
const BIGGEST_TEXT: u64 = 1 << 20;
/// Twenty years of thirty people have 3 MB.
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

    /// Writes the roster with new results, each of the member named with it. The changed text must
    /// say what it said and the new results, and nothing else.
    pub fn add(&self, new: &[(Nickname, MemberResult)], _: &RosterTurn) -> Result<(), Trouble> {
        if new.is_empty() {
            return Ok(());
        }
        match self.with(new) {
            Some(text) => self.write(&text).map_err(|error| unwritable(&self.file, &error)),
            None => Err(self.no_place(new)),
        }
    }

    fn with(&self, new: &[(Nickname, MemberResult)]) -> Option<String> {
        let text = roster_lines::with_results(&self.text, self.read.root.as_ref(), new).ok()?;
        let mut sources = Sources::default();
        let file = sources.add("roster.yaml", text.clone());
        let (read, findings) = roster::read(file, &sources);
        let is_right = findings.is_empty() && says(&read.roster, &self.read.roster, new);
        is_right.then_some(text)
    }

    /// Whose entry gives no place: the first whose results alone find none either.
    fn no_place(&self, new: &[(Nickname, MemberResult)]) -> Trouble {
        let alone = |(name, _): &&(Nickname, MemberResult)| {
            let theirs: Vec<_> = new.iter().filter(|(other, _)| other == name).cloned().collect();
            self.with(&theirs).is_none()
        };
        let whose = new.iter().find(alone).map(|(name, _)| format!(" of `{name}`"));
        let whose = whose.unwrap_or_default();
        let sentence = format!("the roster has no place for a new result{whose}");
        let help = "write the member's entry over several lines, each result on a line of its own \
                    that starts with `- `";
        Trouble::new(sentence, help)
    }

    /// Writes beside the file first and onto the disk, then in its place in one step.
    fn write(&self, text: &str) -> io::Result<()> {
        let new = beside(&self.file, "new");
        // A command that was killed has left it.
        let _ = fs::remove_file(&new);
        let written = write_new(&new, text, &self.file).and_then(|()| fs::rename(&new, &self.file));
        written.inspect_err(|_| drop(fs::remove_file(&new)))?;
        // The roster is whole in any case; that the new one has its name lasts from here on.
        #[cfg(unix)]
        let _ = new.parent().map(|folder| fs::File::open(folder).and_then(|f| f.sync_all()));
        Ok(())
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
        let waiting = |process: Option<u32>| {
            let who = process.map_or(String::new(), |id| format!(" (process {id})"));
            let file = say::shown(&file_name(&file));
            say::tell(format!("another command{who} writes `{file}`: waiting for its end\n"));
        };
        let turn = Turn::take(&file, waiting).map_err(|error| unwritable(&file, &error))?;
        Ok(RosterTurn { _turn: turn })
    }
}

/// The file that a link leads to is written, not the link.
fn real(file: &Path) -> PathBuf {
    fs::canonicalize(file).unwrap_or_else(|_| file.to_path_buf())
}

fn unwritable(file: &Path, error: &io::Error) -> Trouble {
    let name = say::shown(&file_name(file));
    let sentence = format!("the roster `{name}` could not be written: {error}");
    Trouble::new(sentence, "check that you may write there and that the disk has room")
}

fn file_name(file: &Path) -> PathBuf {
    file.file_name().map_or_else(|| file.to_path_buf(), PathBuf::from)
}

/// Writes the new text under another name; only its owner may read a new roster.
fn write_new(new: &Path, text: &str, old: &Path) -> io::Result<()> {
    let mut options = fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(new)?;
    file.write_all(text.as_bytes())?;
    if let Ok(known) = fs::metadata(old) {
        file.set_permissions(known.permissions())?;
    }
    file.sync_all()
}

/// Everyone as they were, and the new results at the end of their members'.
fn says(new: &Roster, old: &Roster, added: &[(Nickname, MemberResult)]) -> bool {
    let entry = |member: &Member| (member.name.value.clone(), everything(member));
    let mut wanted: Vec<(Nickname, String)> = old.members.iter().map(entry).collect();
    for (name, result) in added {
        let lower = name.as_str().to_lowercase();
        let line = result.as_yaml() + "\n";
        match wanted.iter_mut().find(|(known, _)| known.as_str().to_lowercase() == lower) {
            Some((_, text)) => text.push_str(&line),
            None => wanted.push((name.clone(), blank() + &line)),
        }
    }
    new.members.iter().map(entry).eq(wanted)
}

/// What a member's entry says, without places.
fn everything(member: &Member) -> String {
    let kit = member.kit.as_ref().map(|kit| kit.iter().map(|id| id.as_str()).collect::<Vec<_>>());
    let limits: Vec<_> = member.limits.iter().map(|(id, from)| (id.as_str(), *from)).collect();
    let cautions: Vec<_> = member.cautions.iter().map(|id| id.as_str()).collect();
    let rungs: Vec<_> = member.rungs.iter().map(|(id, at)| (id.as_str(), at.value)).collect();
    let results: String = member.results.iter().map(|one| one.as_yaml() + "\n").collect();
    format!("{kit:?} {limits:?} {cautions:?} {rungs:?}\n{results}")
}

/// What an entry says in which nothing is written.
fn blank() -> String {
    "None [] [] []\n".to_string()
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

fn handed_text(file: &Path) -> Result<String, Trouble> {
    let text = if file == Path::new("-") {
        as_text(io::stdin().lock(), BIGGEST_TEXT, "it is over 1 MB")
    } else {
        let opened = fs::File::open(file).map_err(|error| plain(&error));
        opened.and_then(|opened| as_text(opened, BIGGEST_TEXT, "it is over 1 MB"))
    };
    text.map_err(|why| {
        let sentence = format!("`{}` could not be read: {why}", say::shown(file));
        Trouble::new(sentence, "name the text that the member sent, or `-` for what is piped in")
    })
}

/// Reads what a member handed over.
pub fn read_handed(
    file: &Path,
    sources: &mut Sources,
) -> Result<(Vec<Handed>, Vec<Finding>), Trouble> {
    let piped = file == Path::new("-");
    let text = handed_text(file)?;
    if text.trim_start().starts_with('{') {
        let sentence = "this is a member's whole book, not their results for the coach";
        let help = "ask for the text that `Hand a result to the coach` gives; delete this file";
        return Err(Trouble::new(sentence, help));
    }
    let name = if piped { "what was piped in".to_string() } else { say::shown(file) };
    let id = sources.add(name, text);
    Ok(handed::read(id, sources))
}
