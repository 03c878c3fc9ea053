//! A club's own theme on the disk: only the kinds of files that a look is made of, from their folders.
//! Never a hidden file, never through a link, and nothing at all of a folder with a roster or a library.

use super::ThemeError;
use crate::finding::near;
use std::fs;
use std::path::{Path, PathBuf};
use walkdir::{DirEntry, WalkDir};

/// What a theme may bring: the folder, and the endings that are taken from below it. Whatever is
/// published besides is of our own theme's names, such as `icon.svg`.
const TAKEN: [(&str, &[&str]); 5] = [
    ("templates", &["html", "xml", "js"]),
    ("styles", &["css"]),
    ("scripts", &["js"]),
    ("fonts", &["woff2"]),
    ("images", &["svg", "png", "jpg", "jpeg", "webp", "avif", "ico"]),
];

const OWN_FOLDER: &str = "give the theme a folder of its own, with only templates/, styles/, scripts/, \
                          fonts/ and images/ in it, and name that with --theme DIR";

/// How many names of what was left out can usefully be said.
const MOST_SAID: usize = 8;

/// What is taken of a folder, and the names of what is not.
#[derive(Default)]
pub struct Own {
    pub taken: Vec<(String, Vec<u8>)>,
    pub left_out: Vec<String>,
    /// Names that stand before none of ours, each with the one of ours that was probably meant.
    pub misspelt: Vec<(String, String)>,
}

impl Own {
    /// Looks for names that are nearly one of ours.
    pub fn find_misspelt<N: AsRef<str>>(&mut self, ours: &[N]) {
        let ours: Vec<&str> = ours.iter().map(AsRef::as_ref).collect();
        for (name, _) in self.taken.iter().filter(|(name, _)| !ours.contains(&name.as_str())) {
            let Some((folder, file)) = name.rsplit_once('/') else { continue };
            let here = ours.iter().filter_map(|own| own.strip_prefix(folder)?.strip_prefix('/'));
            if let Some(meant) = near(file, here) {
                self.misspelt.push((name.clone(), format!("{folder}/{meant}")));
            }
        }
    }
}

/// One sentence about a name that is nearly one of ours, and one next step.
pub fn misspelt_words((name, meant): &(String, String)) -> String {
    format!(
        "advice: {} stands before no file of ours\n  = help: did you mean {}?\n\n",
        named(name),
        named(meant)
    )
}

/// Reads the theme in `dir`. `is_ours` tells the names of our own theme's files.
///
/// # Errors
/// A folder that cannot be read, or that holds what is not for a site.
pub fn files(dir: &Path, is_ours: &dyn Fn(&str) -> bool) -> Result<Own, ThemeError> {
    refuse_top(dir)?;
    let mut own = Own::default();
    let mut walk = WalkDir::new(dir).min_depth(1).sort_by_file_name().into_iter();
    while let Some(entry) = walk.next() {
        let entry = entry.map_err(|error| cannot_read(error.path().unwrap_or(dir)))?;
        let name = slashed(entry.path().strip_prefix(dir).unwrap_or(entry.path()));
        let is_folder = entry.file_type().is_dir();
        if is_roster(entry.path()) {
            return Err(refused(dir, "a roster", entry.path()));
        }
        if is_folder && has_place(&name) && !is_hidden(&entry) {
            continue;
        }
        if is_folder {
            walk.skip_current_dir();
        }
        if entry.file_type().is_file() && (is_taken(&name) || is_ours(&name)) && !is_hidden(&entry)
        {
            let bytes = fs::read(entry.path()).map_err(|_| cannot_read(entry.path()))?;
            own.taken.push((name, bytes));
        } else if !is_hidden(&entry) {
            own.left_out.push(name);
        }
    }
    Ok(own)
}

/// One sentence about what was left out and one next step.
pub fn words(left_out: &[String]) -> Option<String> {
    let said: Vec<String> = left_out.iter().take(MOST_SAID).map(|name| named(name)).collect();
    let more = left_out.len().saturating_sub(MOST_SAID);
    let more = if more > 0 { format!(" and {more} more") } else { String::new() };
    let kinds = TAKEN.map(|(folder, endings)| format!("{folder}/ ({})", endings.join(", ")));
    (!said.is_empty()).then(|| {
        format!(
            "advice: not taken from the theme's folder: {}{more}\n  = help: a theme brings {}; \
             keep everything else in another folder\n\n",
            said.join(", "),
            kinds.join(", ")
        )
    })
}

fn named(name: &str) -> String {
    format!("`{}`", name.replace(char::is_control, "?"))
}

/// Whether anything below the folder `name` can be taken; below `data` stands a file of ours.
fn has_place(name: &str) -> bool {
    let top = name.split('/').next().unwrap_or(name);
    top == "data" || TAKEN.iter().any(|(folder, _)| *folder == top)
}

/// Whether `name` has a place and a kind of the list. A name with signs that mean something in a
/// script or a page has none.
fn is_taken(name: &str) -> bool {
    let ending = Path::new(name).extension().map(|ending| ending.to_string_lossy().to_lowercase());
    let odd = |c: char| c.is_control() || "\"'`\\<>&".contains(c);
    let kind = |(folder, endings): &(&str, &[&str])| {
        let below = name.strip_prefix(folder).is_some_and(|rest| rest.starts_with('/'));
        below && endings.iter().any(|known| ending.as_deref() == Some(known))
    };
    !name.contains(odd) && TAKEN.iter().any(kind)
}

fn is_hidden(entry: &DirEntry) -> bool {
    entry.file_name().to_string_lossy().starts_with('.')
}

fn is_roster(entry: &Path) -> bool {
    let name = entry.file_name().map(|name| name.to_string_lossy().to_lowercase());
    name.is_some_and(|name| ["roster.yaml", "roster.yml"].contains(&name.as_str()))
}

/// A theme that is the library or stands around it would mix what is written with how it looks.
fn is_library(entry: &Path) -> bool {
    let is_named = |name: &&str| entry.file_name().is_some_and(|file| file == *name);
    ["club.yaml", "content"].iter().any(is_named) || entry.join("club.yaml").exists()
}

/// Looks at the top of the folder alone: below it only places of a theme are walked.
fn refuse_top(dir: &Path) -> Result<(), ThemeError> {
    let entries = fs::read_dir(dir).map_err(|_| cannot_read(dir))?;
    let entries: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    let found = |what, is: fn(&Path) -> bool| {
        entries.iter().find(|entry| is(entry)).map(|entry| refused(dir, what, entry))
    };
    // What names people is said first.
    found("a roster", is_roster).or(found("the library", is_library)).map_or(Ok(()), Err)
}

fn refused(dir: &Path, what: &str, found: &Path) -> ThemeError {
    let found = slashed(found.strip_prefix(dir).unwrap_or(found));
    let sentence = format!("the folder `{}` holds {what} ({})", dir.display(), named(&found));
    ThemeError { sentence, help: Some(OWN_FOLDER) }
}

fn cannot_read(path: &Path) -> ThemeError {
    ThemeError::of(format!("`{}` of the theme could not be read", path.display()))
}

fn slashed(path: &Path) -> String {
    let parts = path.components().map(|part| part.as_os_str().to_string_lossy().into_owned());
    parts.collect::<Vec<_>>().join("/")
}
