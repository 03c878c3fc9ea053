//! `rungbook rename`: another id for an entry, everywhere at once. Never writes a file unless all of them
//! can be written and the library then has no new error.

use super::called::called;
use super::exchange::{Change, Writing};
use super::private_file;
use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::check;
use crate::finding::{self, Finding, Severity};
use crate::gym::Gym;
use crate::library::Library;
use crate::library::id::{LONGEST_ID, is_taken, is_well_formed};
use crate::library::named::Named;
use crate::library::reader::Texts;
use crate::library::rename::{Edit, Rename as Renamed, Unread};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Give an entry another id, everywhere that it is named
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook rename strap-row hanging-row\n  \
    rungbook rename \"Strap row\" hanging-row --dry-run\n  \
    rungbook rename row pull --kind ladder --roster roster.yaml\n\n\
    The entry keeps its old id under `formerly`, so that old links to its page lead to the new one. \
    Its name stays: change it in the entry. All files are written, or none; where this is killed half \
    way, the next command that writes in the library finishes it.")]
pub struct Rename {
    /// The entry, by its id or its name
    old: String,
    /// Its new id
    new: String,
    /// What it is, where several entries are called so
    #[arg(long, value_name = "KIND")]
    kind: Option<String>,
    /// Your roster, in which it is renamed too
    #[arg(long, value_name = "FILE")]
    roster: Option<PathBuf>,
    /// Change nothing: only say what would change
    #[arg(long, short = 'n')]
    dry_run: bool,
    #[command(flatten)]
    library: LibraryDir,
}

impl Rename {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let library = self.library.found();
        self.library.must_exist()?;
        let writing = Writing::begin(&library)?;
        let shown = library.to_string_lossy().into_owned();
        let read = || Texts::read(&library, &shown).map_err(say::no_library);
        let texts = read()?;
        let before = read()?.library();
        let (of, old) = self.entry(&before)?;
        self.is_free(of, &before)?;
        let renamed = Renamed { of, old: &old, new: &self.new };
        let edits = renamed.edits(texts.files()).map_err(|Unread(file)| {
            let sentence = format!("`{file}` cannot be read, so nobody knows what it names");
            Trouble::new(sentence, format!("mend it first: `rungbook check {file}`"))
        })?;
        let roster = self.in_roster(&renamed)?;
        let changes = changes(&edits, &texts);
        refuse_new_errors(texts, &edits, before)?;
        say::print(told(&edits, roster.as_ref().map(|(file, _, edit)| (file, edit)), self.dry_run));
        if self.dry_run {
            return Ok(Outcome::Fine);
        }
        // The roster first: where the rest is cut off, the same command finishes both.
        if let Some((file, _turn, edit)) = &roster {
            private_file::write(file, &edit.text).map_err(|error| {
                let sentence = format!("`{}` could not be written: {error}", say::shown(file));
                Trouble::new(sentence, "check that you may write there; nothing was changed")
            })?;
        }
        writing.make(&changes)?;
        Ok(Outcome::Fine)
    }

    /// Which entry is meant.
    fn entry(&self, library: &Library) -> Result<(Named, String), Trouble> {
        let kinds: Vec<Named> = match &self.kind {
            None => Named::ALL.to_vec(),
            Some(word) => vec![Named::from_word(word).ok_or_else(|| no_kind(word))?],
        };
        let one = |kind: &Named| {
            let all = kind.all(library).into_iter().map(|(id, name)| (id, name, id));
            called(kind.word(), &self.old, all).ok().map(|id| (*kind, id.to_string()))
        };
        let found: Vec<(Named, String)> = kinds.iter().filter_map(one).collect();
        let by_id: Vec<&(Named, String)> = found.iter().filter(|(_, id)| *id == self.old).collect();
        match (by_id.as_slice(), found.as_slice()) {
            ([only], _) => Ok((*only).clone()),
            (_, [only]) => Ok(only.clone()),
            (_, []) => Err(self.nothing(library, &kinds)),
            _ => {
                let words: Vec<&str> = found.iter().map(|(kind, _)| kind.word()).collect();
                let sentence =
                    format!("several entries are called `{}`: a {}", self.old, words.join(", a "));
                Err(Trouble::new(sentence, format!("say which with `--kind {}`", words[0])))
            }
        }
    }

    fn nothing(&self, library: &Library, kinds: &[Named]) -> Trouble {
        let all = kinds.iter().flat_map(|kind| kind.all(library)).map(|(id, _)| id);
        let otherwise =
            "write its id: the name of its file, or the word before its keys in `words/`";
        let help = finding::did_you_mean(&self.old, all, otherwise);
        let what = match kinds {
            [kind] => kind.word(),
            _ => "entry",
        };
        Trouble::new(format!("there is no {what} `{}`", self.old), help)
    }

    fn is_free(&self, of: Named, library: &Library) -> Result<(), Trouble> {
        let new = &self.new;
        if !is_well_formed(new) || is_taken(new) || new.len() > LONGEST_ID {
            let sentence = format!("`{new}` cannot be an id");
            let help = match (super::called::as_id(new), is_taken(new)) {
                (Some(id), false) if id != *new => format!("write `{id}`"),
                _ => format!(
                    "write lower-case words joined by hyphens, at most {LONGEST_ID} letters"
                ),
            };
            return Err(Trouble::new(sentence, help));
        }
        match of.all(library).iter().any(|(id, _)| id == new) {
            true => Err(Trouble::new(
                format!("there is a {} `{new}` already", of.word()),
                "choose another id, or rename that one first",
            )),
            false => Ok(()),
        }
    }

    /// The roster with the new id, where one is named and it names the entry.
    fn in_roster(
        &self,
        renamed: &Renamed<'_>,
    ) -> Result<Option<(PathBuf, crate::turn::Turn, Edit)>, Trouble> {
        let Some(file) = &self.roster else { return Ok(None) };
        let file = private_file::real(file);
        let shown = say::shown(&file);
        let trouble = |error: &std::io::Error| {
            let sentence = format!("the roster `{shown}` could not be read: {error}");
            Trouble::new(sentence, "name it with `--roster FILE`, or leave that out")
        };
        let turn = private_file::turn(&file).map_err(|error| trouble(&error))?;
        let text = std::fs::read_to_string(&file).map_err(|error| trouble(&error))?;
        let edit = renamed.in_roster(&text).map_err(|_| {
            let sentence = format!("the roster `{shown}` cannot be read");
            Trouble::new(sentence, "mend it first: `rungbook roster show` says where")
        })?;
        Ok(edit.map(|edit| (file, turn, edit)))
    }
}

fn no_kind(word: &str) -> Trouble {
    let words = Named::ALL.map(Named::word);
    let help = format!("write one of: {}", words.join(", "));
    let help = finding::did_you_mean(word, words, &help);
    Trouble::new(format!("no kind of entry that can be renamed is called `{word}`"), help)
}

fn changes(edits: &[Edit], texts: &Texts) -> Vec<Change> {
    let old: BTreeMap<String, &str> =
        texts.files().map(|(parts, text)| (parts.join("/"), text)).collect();
    let mut changes = Vec::new();
    for edit in edits {
        let (from, to) = (edit.from.join("/"), edit.to.join("/"));
        let was = old.get(&from).map(|text| text.to_string());
        let moves = from != to;
        let new = Some(edit.text.clone());
        let before = was.clone().filter(|_| !moves);
        changes.push(Change { path: PathBuf::from(to), old: before, new });
        if moves {
            changes.push(Change { path: PathBuf::from(from), old: was, new: None });
        }
    }
    changes
}

/// A rename that would leave a new error is none: some word names the entry in a way that is not known.
fn refuse_new_errors(texts: Texts, edits: &[Edit], before: Library) -> Result<(), Trouble> {
    let after = edits.iter().fold(texts, |texts, edit| {
        let texts = if edit.from == edit.to { texts } else { texts.without(&edit.from) };
        texts.with_unsaved(&edit.to, edit.text.clone())
    });
    let errors = |library: Library| {
        let gym = Gym::open(library);
        let mut errors = check::run(&gym);
        errors.retain(|finding| finding.severity == Severity::Error);
        (errors, gym.library.sources)
    };
    let (known, _) = errors(before);
    let (found, sources) = errors(after.library());
    let is_known = |new: &Finding| {
        let same = |old: &&Finding| old.code == new.code;
        known.iter().filter(same).count() >= found.iter().filter(|old| old.code == new.code).count()
    };
    let new: Vec<Finding> = found.iter().filter(|new| !is_known(new)).cloned().collect();
    if new.is_empty() {
        return Ok(());
    }
    say::findings(&new, &sources);
    let help = "the places above are as they would be afterwards; mend what they name, then run this again";
    Err(Trouble::new("with that id the library would have a new error; nothing was written", help))
}

fn told(edits: &[Edit], roster: Option<(&PathBuf, &Edit)>, dry_run: bool) -> String {
    let places = |edit: &Edit| match edit.places {
        0 => String::new(),
        places => format!(": {}", say::counted(places, "place")),
    };
    let line = |edit: &Edit| {
        let (from, to) = (edit.from.join("/"), edit.to.join("/"));
        let to = if from == to { String::new() } else { format!(" -> {to}") };
        format!("{from}{to}{}\n", places(edit))
    };
    let mut text: String = edits.iter().map(line).collect();
    if let Some((file, edit)) = roster {
        text += &format!("{}{}\n", say::shown(Path::new(file)), places(edit));
    }
    let files = edits.len() + usize::from(roster.is_some());
    let would = if dry_run { "would change; nothing was written" } else { "changed" };
    text + &format!("{} {would}\n", say::counted(files, "file"))
}
