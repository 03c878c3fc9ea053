//! `rungbook explain`: what a finding, a key or the pose language means, and how to write it.
//! Never words any of it itself: the rule table, the table of keys and the words of poses do.

use super::explain_ids;
use super::say::{self, Format, LibraryDir, Outcome, Trouble};
use crate::check;
use crate::figure::wordbook::wordbook;
use crate::finding::did_you_mean;
use crate::library::Library;
use crate::library::keys::{FILE_KINDS, ROSTER, schema, told};
use crate::mechanics::words::told as pose;
use std::fs;
use std::path::{Path, PathBuf};

/// Say what a finding's code means, what a key is for, or how a pose is written
#[derive(clap::Args)]
#[command(
    after_help = "Examples:\n  rungbook explain ladder-loop\n  rungbook explain standard\n  \
    rungbook explain \"ladder test\"\n  rungbook explain pose\n  \
    rungbook explain pose --drawn words-of-poses.html\n  rungbook explain --all\n  \
    rungbook explain --schema ladder > ladder.schema.json\n  \
    rungbook explain --schema roster > roster.schema.json\n\n\
    Codes, keys and words of poses are the program's own and need no library. An id of your own, such as \
    a movement's, is looked up in it."
)]
pub struct Explain {
    /// The word in square brackets, a key, a kind of entry, or `pose`
    #[arg(value_name = "CODE|KEY", required_unless_present_any = ["all", "keys", "schema"])]
    words: Vec<String>,
    /// List every code with one line
    #[arg(long, conflicts_with = "words")]
    all: bool,
    /// List every key with one line
    #[arg(long, conflicts_with_all = ["words", "all"])]
    keys: bool,
    /// Print the JSON Schema (2020-12) of a kind of file, for an editor
    #[arg(long, value_name = "KIND", conflicts_with_all = ["words", "all", "keys"])]
    schema: Option<String>,
    /// Write a page of every word of poses with its drawings into this file; with `pose` alone
    #[arg(long, value_name = "FILE", conflicts_with_all = ["all", "keys", "schema"])]
    drawn: Option<PathBuf>,
    /// Folder of the library whose ids may be asked for; codes and keys need none
    #[arg(long, value_name = "DIR")]
    library: Option<PathBuf>,
    /// For a person or for a script
    #[arg(long, short, value_enum, default_value = "human")]
    format: Format,
}

impl Explain {
    pub fn run(self) -> Result<Outcome, Trouble> {
        if let Some(file) = &self.drawn {
            return drawn(&self.words.join(" "), file);
        }
        let text = match &self.schema {
            Some(kind) => schema_of(kind)?,
            None if self.all => codes(),
            None if self.keys => told::lines(),
            None => self.explained()?,
        };
        say::print(text);
        Ok(Outcome::Fine)
    }
}

impl Explain {
    fn explained(&self) -> Result<String, Trouble> {
        let name = self.words.join(" ");
        let text = match explained(&name) {
            Some(text) => text,
            None => self.of_the_library(&name)?,
        };
        Ok(match self.format {
            Format::Human => text,
            Format::Json => as_json(&name, &text),
        })
    }

    /// What a coach's own id is.
    fn of_the_library(&self, name: &str) -> Result<String, Trouble> {
        let Some(library) = self.library()? else { return Err(unknown(name, None)) };
        match explain_ids::told(&library, name) {
            told if told.is_empty() => Err(unknown(name, Some(&library))),
            told => Ok(told.join("\n")),
        }
    }

    /// The library that was named, which must be there, or else the one that is here, if there is one.
    fn library(&self) -> Result<Option<Library>, Trouble> {
        let dir = match &self.library {
            Some(dir) => LibraryDir { dir: dir.clone() },
            None => LibraryDir::usual(),
        };
        if self.library.is_none() && dir.must_exist().is_err() {
            return Ok(None);
        }
        dir.texts().map(|texts| Some(texts.library()))
    }
}

/// What a script may read: the rule of a code, the keys of a name, and in any case the words.
fn as_json(name: &str, text: &str) -> String {
    let rule = check::rules().iter().find(|rule| rule.code.0 == name).map(|rule| {
        serde_json::json!({
            "code": rule.code.0,
            "severity": rule.severity.word(),
            "what": rule.what,
            "why": rule.why,
            "example": rule.example.trim_matches('\n'),
            "next": rule.next,
        })
    });
    let said = serde_json::json!({"rule": rule, "keys": told::told(name), "text": text});
    format!("{said:#}\n")
}

/// The wordbook of poses as a file; never over one that is there and is something else.
fn drawn(name: &str, file: &Path) -> Result<Outcome, Trouble> {
    if name != "pose" {
        let help = "write `rungbook explain pose --drawn words-of-poses.html`";
        return Err(Trouble::new("only the words of poses have drawings", help));
    }
    let page = wordbook();
    let title = "<title>Words of poses</title>";
    let shown = say::shown(file);
    if file.exists() && !fs::read_to_string(file).is_ok_and(|text| text.contains(title)) {
        let sentence = format!("`{shown}` is there already and is another file");
        return Err(Trouble::new(sentence, "choose another name, or move that file away"));
    }
    fs::write(file, page).map_err(|error| {
        let sentence = format!("`{shown}` could not be written: {error}");
        Trouble::new(sentence, "check that you may write there and that the disk has room")
    })?;
    say::print(format!("every word of poses with its drawings: {shown}\n"));
    Ok(Outcome::Fine)
}

fn codes() -> String {
    let line = |rule: crate::finding::RuleFacts| {
        format!("{:26} {:8} {}\n", rule.code.0, rule.severity.word(), rule.short)
    };
    check::rule_facts().into_iter().map(line).collect()
}

/// A code first: codes are what findings print. Then a key of a file, then a word of a pose.
fn explained(name: &str) -> Option<String> {
    if let Ok(page) = check::explain(name) {
        return Some(page);
    }
    let said: Vec<String> =
        told::explained(name).into_iter().chain(pose::explained(name)).collect();
    (!said.is_empty()).then(|| said.join("\n"))
}

fn unknown(name: &str, library: Option<&Library>) -> Trouble {
    let otherwise = "list them with `rungbook explain --all` and `rungbook explain --keys`";
    let help = did_you_mean(name, words(), otherwise);
    match library {
        None => Trouble::new(format!("no finding and no key is called `{name}`"), help),
        Some(library) => Trouble::new(
            format!("no finding, no key and nothing in the library is called `{name}`"),
            if help == otherwise { explain_ids::near(library, name, otherwise) } else { help },
        ),
    }
}

/// Everything that can be explained: codes, keys, words of poses.
pub fn words() -> Vec<&'static str> {
    let codes = check::rule_facts().into_iter().map(|rule| rule.code.0);
    codes.chain(told::names()).chain(pose::names()).collect()
}

fn schema_of(name: &str) -> Result<String, Trouble> {
    let known = || FILE_KINDS.iter().chain([&ROSTER]).map(|kind| kind.name);
    schema::kind_named(name).map(schema::text).ok_or_else(|| {
        let all: Vec<&str> = known().collect();
        let help = did_you_mean(name, known(), &format!("write one of: {}", all.join(", ")));
        Trouble::new(format!("there is no kind of file `{name}`"), help)
    })
}
