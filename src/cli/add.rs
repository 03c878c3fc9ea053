//! `rungbook add`: a new entry, like one that is there. Never writes over a file or an entry.

use super::called::{as_id, called};
use super::exchange::{Change, Writing};
use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::finding::did_you_mean;
use crate::library::Library;
use crate::library::id::{LONGEST_ID, is_taken};
use crate::library::named::Named;
use crate::library::reader::Texts;
use crate::library::tidy::Untidy;
use crate::library::tidy::fresh::Fresh;
use std::path::PathBuf;

/// Write a new entry, with what is left to write marked in it
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook add movement \"Get-up\" --like bird-dog\n  \
    rungbook add ladder Carry --like row --id carries\n  \
    rungbook add kit Sandbag --like kettlebell\n\n\
    What holds for both is taken over from --like; `...` stands where a text is to be written, and \
    what is true of one entry alone, such as traits and a pose, stands there as a remark. \
    `rungbook check` says what is left.")]
pub struct Add {
    /// What it is: movement, ladder, session, cycle, kit, caution, fault or source
    kind: String,
    /// Its name; of a source its title
    #[arg(required = true)]
    name: Vec<String>,
    /// An entry of the same kind that it is like, by its id or its name
    #[arg(long, value_name = "ENTRY")]
    like: Option<String>,
    /// Its id; made from the name if left out
    #[arg(long)]
    id: Option<String>,
    /// The pattern of a movement or a ladder; that of --like if left out
    #[arg(long)]
    pattern: Option<String>,
    #[command(flatten)]
    library: LibraryDir,
}

impl Add {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let of = self.kind()?;
        let name = self.name.join(" ").trim().to_string();
        let id = self.id(of, &name)?;
        let dir = self.library.found();
        self.library.must_exist()?;
        let writing = Writing::begin(&dir)?;
        let read = || Texts::read(&dir, &dir.to_string_lossy()).map_err(say::no_library);
        let (texts, library) = (read()?, read()?.library());
        is_free(of, &id, &library, &texts)?;
        let like = self.like(of, &library)?;
        let pattern = self.pattern(of, like.as_deref(), &library)?;
        let path = path(of, &id, pattern.as_deref());
        let model = like.as_ref().map(|like| (like.as_str(), text_of(of, like, &texts)));
        let fresh = Fresh {
            of,
            id: &id,
            name: &name,
            pattern: pattern.as_deref(),
            like: model.as_ref().map(|(id, text)| (*id, text.as_str())),
        };
        let text = fresh.text().map_err(|why| unread(like.as_deref().unwrap_or_default(), why))?;
        let old = texts.files().find(|(parts, _)| parts.join("/") == path).map(|(_, text)| text);
        let change = Change {
            path: PathBuf::from(&path),
            old: old.map(str::to_string),
            new: Some(old.map_or(String::new(), whole_lines) + &text),
        };
        writing.make(&[change])?;
        let file = say::shown(&dir.join(&path));
        let like = like.map_or(String::new(), |like| format!(", like {like}"));
        say::print(format!(
            "wrote the {} {id} into {file}{like}\nnext: rungbook check {file}\n",
            of.word()
        ));
        Ok(Outcome::Fine)
    }

    fn kind(&self) -> Result<Named, Trouble> {
        let all = || Named::ALL.into_iter().filter(|kind| *kind != Named::Change);
        all().find(|kind| Named::from_word(&self.kind) == Some(*kind)).ok_or_else(|| {
            let words: Vec<&str> = all().map(Named::word).collect();
            let help = format!("write one of: {}", words.join(", "));
            let help = did_you_mean(&self.kind, words.iter().copied(), &help);
            Trouble::new(format!("no kind of entry is called `{}`", self.kind), help)
        })
    }

    fn id(&self, of: Named, name: &str) -> Result<String, Trouble> {
        if name.is_empty() || name.contains(char::is_control) {
            let help =
                format!("write it in one line, such as `rungbook add {} \"Get-up\"`", of.word());
            return Err(Trouble::new("a name is one line of text", help));
        }
        let asked = self.id.as_deref().unwrap_or(name);
        let id = as_id(asked).filter(|id| self.id.is_none() || id == asked);
        match id.filter(|id| !is_taken(id) && id.len() <= LONGEST_ID) {
            Some(id) => Ok(id),
            None => Err(Trouble::new(
                format!("`{asked}` gives no id"),
                "name one with `--id`: lower-case words joined by hyphens, such as `get-up`",
            )),
        }
    }

    fn like(&self, of: Named, library: &Library) -> Result<Option<String>, Trouble> {
        let Some(like) = &self.like else { return Ok(None) };
        let all = of.all(library).into_iter().map(|(id, name)| (id, name, id));
        called(of.word(), like, all).map(|id| Some(id.to_string()))
    }

    /// The pattern that is said, else that of the movement or ladder that it is like.
    fn pattern(
        &self,
        of: Named,
        like: Option<&str>,
        library: &Library,
    ) -> Result<Option<String>, Trouble> {
        let of_like = like.and_then(|like| match of {
            Named::Movement => library.movements.get(&like.into()).map(|it| it.folder.clone()),
            Named::Ladder => {
                library.ladders.get(&like.into())?.pattern.as_ref().map(|p| p.to_string())
            }
            _ => None,
        });
        let patterns = || library.words.patterns.keys().map(|id| id.as_str());
        match (&self.pattern, of) {
            (Some(word), Named::Movement | Named::Ladder) => {
                let all = library.words.patterns.iter();
                let all = all.map(|(id, it)| (id.as_str(), it.name.as_str(), id.as_str()));
                called("pattern", word, all).map(|id| Some(id.to_string()))
            }
            (None, Named::Movement) if of_like.is_none() => {
                let known: Vec<&str> = patterns().collect();
                let help = format!(
                    "say one with `--pattern`, or an entry that it is like with `--like`; patterns are: {}",
                    known.join(", ")
                );
                Err(Trouble::new("a movement has a pattern, which is its folder", help))
            }
            (None, _) => Ok(of_like),
            _ => Err(Trouble::new(
                format!("a {} has no pattern", of.word()),
                "leave `--pattern` out",
            )),
        }
    }
}

fn is_free(of: Named, id: &str, library: &Library, texts: &Texts) -> Result<(), Trouble> {
    let has_file = || {
        let ending = if of == Named::Movement { "md" } else { "yaml" };
        let own = format!("{id}.{ending}");
        texts.files().any(|(parts, _)| {
            parts.first().is_some_and(|first| first == of.folder()) && parts.last() == Some(&own)
        })
    };
    let is_there = of.all(library).iter().any(|(known, _)| *known == id);
    match is_there || of.has_file() && has_file() {
        true => Err(Trouble::new(
            format!("there is a {} `{id}` already; nothing was written", of.word()),
            "choose another name, or another id with `--id`",
        )),
        false => Ok(()),
    }
}

fn path(of: Named, id: &str, pattern: Option<&str>) -> String {
    match of {
        Named::Movement => format!("movements/{}/{id}.md", pattern.unwrap_or_default()),
        _ if of.has_file() => format!("{}/{id}.yaml", of.folder()),
        _ => of.words_file(),
    }
}

/// The text of the file that holds an entry.
fn text_of(of: Named, id: &str, texts: &Texts) -> String {
    let holds = |parts: &[String]| {
        let path = parts.join("/");
        match of.has_file() {
            true => {
                let stem = path.rsplit('/').next().and_then(|name| name.rsplit_once('.'));
                path.starts_with(of.folder()) && stem.is_some_and(|(stem, _)| stem == id)
            }
            false => path == of.words_file(),
        }
    };
    let found = texts.files().find(|(parts, _)| holds(parts));
    found.map_or(String::new(), |(_, text)| text.to_string())
}

/// A text that ends with its line.
fn whole_lines(text: &str) -> String {
    match text.is_empty() || text.ends_with('\n') {
        true => text.to_string(),
        false => format!("{text}\n"),
    }
}

fn unread(like: &str, why: Untidy) -> Trouble {
    let why = match why {
        Untidy::Unread(finding) => finding.headline,
        Untidy::Odd => "its keys are laid out in an unusual way".to_string(),
    };
    Trouble::new(
        format!("nothing can be taken over from `{like}`: {why}"),
        "mend it, name another with `--like`, or leave that out",
    )
}
