//! The roster's file on disk: read as a whole, changed in memory, written at once or not at all.
//! Never written where the changed text would not say exactly what it said and the new results.

use super::say::{self, Trouble};
use crate::finding::{Finding, Sources};
use crate::library::reader::handed::{self, Handed};
use crate::library::reader::node::Node;
use crate::library::reader::roster::{self, RosterFile};
use crate::library::{Member, MemberResult, Nickname, Roster};
use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};

/// A megabyte: a club's results of many years.
const BIGGEST: u64 = 1 << 20;

/// A roster's text and what it says.
pub struct RosterText {
    file: PathBuf,
    text: String,
    written: String,
    read: RosterFile,
}

impl RosterText {
    /// Reads the roster; a file that is not there is an empty one.
    pub fn read(file: &Path, sources: &mut Sources) -> Result<RosterText, Trouble> {
        // The file that a link leads to is written, not the link.
        let file = fs::canonicalize(file).unwrap_or_else(|_| file.to_path_buf());
        let text = if file.exists() { text_of(&file)? } else { String::new() };
        let id = sources.add(say::shown(&file_name(&file)), text.clone());
        let (read, findings) = roster::read(id, sources);
        if !findings.is_empty() {
            say::findings(&findings, sources);
            let sentence = format!("the roster `{}` cannot be read", say::shown(&file_name(&file)));
            return Err(Trouble::new(sentence, "mend the places above and try again"));
        }
        Ok(RosterText { file, written: text.clone(), text, read })
    }

    /// The text as it would be written.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Its tree.
    pub fn root(&self) -> Option<&Node> {
        self.read.root.as_ref()
    }

    /// Who is in it.
    pub fn roster(&self) -> &Roster {
        &self.read.roster
    }

    /// Takes a changed text, if it says what it said and the new result, and nothing else.
    pub fn change(&mut self, text: String, (name, result): (&Nickname, &MemberResult)) -> bool {
        let mut sources = Sources::default();
        let file = sources.add("roster.yaml", text.clone());
        let (read, findings) = roster::read(file, &sources);
        let is_right = findings.is_empty() && says(&read.roster, &self.read.roster, (name, result));
        if is_right {
            (self.text, self.read) = (text, read);
        }
        is_right
    }

    /// Writes what has changed: beside the file first, then in its place in one step.
    pub fn write(&self) -> Result<(), Trouble> {
        if self.text == self.written {
            return Ok(());
        }
        let name = format!(".{}.{}", file_name(&self.file).display(), std::process::id());
        let beside = self.file.with_file_name(name);
        let written = write_beside(&beside, &self.text, &self.file)
            .and_then(|()| fs::rename(&beside, &self.file));
        written.map_err(|error| {
            let _ = fs::remove_file(&beside);
            let sentence = format!(
                "the roster `{}` could not be written: {error}",
                say::shown(&file_name(&self.file))
            );
            Trouble::new(sentence, "check that you may write there and that the disk has room")
        })
    }
}

fn file_name(file: &Path) -> PathBuf {
    file.file_name().map_or_else(|| file.to_path_buf(), PathBuf::from)
}

/// Writes the new text under another name; only its owner may read a new roster.
fn write_beside(beside: &Path, text: &str, old: &Path) -> std::io::Result<()> {
    let mut options = fs::OpenOptions::new();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(beside)?;
    file.write_all(text.as_bytes())?;
    if let Ok(known) = fs::metadata(old) {
        file.set_permissions(known.permissions())?;
    }
    file.sync_all()
}

/// Everyone as they were, and the one result at the end of its member's.
fn says(new: &Roster, old: &Roster, (name, result): (&Nickname, &MemberResult)) -> bool {
    let known = old.member(name.as_str()).is_some();
    let names: Vec<&Nickname> = new.members.iter().map(|member| &member.name.value).collect();
    let mut wanted: Vec<&Nickname> = old.members.iter().map(|member| &member.name.value).collect();
    wanted.extend((!known).then_some(name));
    let as_before = |member: &Member| {
        let before = old.member(member.name.as_str()).map(everything).unwrap_or_default();
        let is_theirs = member.name.as_str().to_lowercase() == name.as_str().to_lowercase();
        let added = if is_theirs { result.as_yaml() + "\n" } else { String::new() };
        everything(member) == if before.is_empty() { blank() + &added } else { before + &added }
    };
    names == wanted && new.members.iter().all(as_before)
}

/// What a member's entry says, without places.
fn everything(member: &Member) -> String {
    let kit = member.kit.as_ref().map(|kit| kit.iter().map(|id| id.as_str()).collect::<Vec<_>>());
    let limits: Vec<_> = member.limits.iter().map(|(id, from)| (id.as_str(), *from)).collect();
    let rungs: Vec<_> = member.rungs.iter().map(|(id, at)| (id.as_str(), at.value)).collect();
    let results: String = member.results.iter().map(|one| one.as_yaml() + "\n").collect();
    format!("{kit:?} {limits:?} {rungs:?}\n{results}")
}

/// What an entry says in which nothing is written.
fn blank() -> String {
    "None [] []\n".to_string()
}

fn text_of(file: &Path) -> Result<String, Trouble> {
    let size = fs::metadata(file).map_or(0, |meta| meta.len());
    let opened = fs::File::open(file).map_err(|error| no_text(file, &error.to_string()))?;
    if size > BIGGEST {
        return Err(no_text(file, "it is over 1 MB"));
    }
    as_text(file, opened)
}

fn as_text(file: &Path, from: impl Read) -> Result<String, Trouble> {
    let mut bytes = Vec::new();
    from.take(BIGGEST + 1).read_to_end(&mut bytes).map_err(|e| no_text(file, &e.to_string()))?;
    if bytes.len() as u64 > BIGGEST {
        return Err(no_text(file, "it is over 1 MB"));
    }
    String::from_utf8(bytes).map_err(|_| no_text(file, "it is not UTF-8 text"))
}

fn no_text(file: &Path, why: &str) -> Trouble {
    let why = why.split(" (os error").next().unwrap_or(why);
    let sentence = format!("`{}` could not be read: {why}", say::shown(file));
    Trouble::new(sentence, "name the text that the member sent, or `-` for what is piped in")
}

/// Reads what a member handed over.
pub fn read_handed(
    file: &Path,
    sources: &mut Sources,
) -> Result<(Vec<Handed>, Vec<Finding>), Trouble> {
    let piped = file == Path::new("-");
    let text = if piped { as_text(file, std::io::stdin().lock())? } else { text_of(file)? };
    if text.trim_start().starts_with('{') {
        let sentence = "this is a member's whole book, not their results for the coach";
        let help = "ask for the text that `Hand a result to the coach` gives; delete this file";
        return Err(Trouble::new(sentence, help));
    }
    let name = if piped { "what was piped in".to_string() } else { say::shown(file) };
    let id = sources.add(name, text);
    Ok(handed::read(id, sources))
}
