//! `rungbook new`: a starter library from what the binary embeds, under the club's own name, with a
//! schema of every kind of file for the editor. Never writes into a folder that holds something.

use super::say::{self, Outcome, Trouble};
use crate::finding::capital;
use crate::library::keys::{FILE_KINDS, ROSTER, kind_of_file, schema};
use rust_embed::Embed;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Start a library: writes a starter library into DIR/content, under your club's name
#[derive(clap::Args)]
#[command(
    after_help = "Examples:\n  rungbook new our-club\n  cd our-club\n  rungbook preview\n\n  \
    rungbook new heron-barbell --name \"Heron Barbell\" --empty"
)]
pub struct New {
    /// Folder to make; it must be new or empty
    dir: PathBuf,
    /// The club's name; the folder's if left out
    #[arg(long)]
    name: Option<String>,
    /// The words only (kit, traits, cautions, muscles and so on), without any entry
    #[arg(long)]
    empty: bool,
}

#[derive(Embed)]
#[folder = "content"]
struct Starter;

/// A roster, and a board, name people and what limits them: they go into no repository, and neither
/// does what a killed command left beside it or beside the site.
const IGNORED: &str = "/roster.yaml\n/.roster.yaml.*\n/*.html\n/*.html.new\n/site/\n/.site.*\n";

/// The folder of the schemas below the library; nothing reads what starts with a dot.
const SCHEMAS: &str = ".schemas";

impl New {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let shown = say::shown(&self.dir);
        let taken = is_taken(&self.dir);
        if taken || self.dir.is_file() {
            let what = if taken { "is not empty" } else { "is a file" };
            let sentence = format!("`{shown}` {what}");
            return Err(Trouble::new(sentence, "name a folder that does not exist yet"));
        }
        let club = self.club()?;
        // Made aside and put in its place in one step: a library is there as a whole or not at all.
        let fresh = self.dir.join(FRESH);
        let _ = fs::remove_dir_all(&fresh);
        let count = self.entries(&fresh, &club)?;
        schemas(&fresh)?;
        write(&self.dir.join(".gitignore"), IGNORED.as_bytes())?;
        let content = self.dir.join("content");
        fs::rename(fresh.join("content"), &content).map_err(|error| unwritten(&content, &error))?;
        let _ = fs::remove_dir(&fresh);
        let what = if self.empty { "the words of a library" } else { "a starter library" };
        say::print(format!(
            "wrote {count} files of {what} for {club} into {shown}/content\n\
             next: cd {shown} && rungbook preview\n"
        ));
        Ok(Outcome::Fine)
    }

    /// The club's name: as given, else the folder's, `our-club` as `Our club`.
    fn club(&self) -> Result<String, Trouble> {
        let folder = self.dir.file_name().unwrap_or_default().to_string_lossy();
        let folder = folder.replace(['-', '_'], " ");
        let from_folder = if folder.is_empty() { "Our club".into() } else { capital(&folder) };
        let name = self.name.clone().unwrap_or(from_folder).trim().to_string();
        if name.is_empty() || name.contains(char::is_control) {
            let help = "write it in one line, such as `--name \"Heron Barbell\"`";
            return Err(Trouble::new("a club's name is one line of text", help));
        }
        Ok(name)
    }

    fn entries(&self, fresh: &Path, club: &str) -> Result<usize, Trouble> {
        let mut count = 0;
        for name in Starter::iter() {
            let is_words = name.starts_with("words/") || name == "club.yaml";
            let Some(file) = Starter::get(&name).filter(|_| is_words || !self.empty) else {
                continue;
            };
            let text = String::from_utf8_lossy(&file.data);
            let text = if name == "club.yaml" { own(&text, club) } else { text.into_owned() };
            write(&fresh.join("content").join(&*name), with_schema(&name, &text).as_bytes())?;
            count += 1;
        }
        Ok(count)
    }
}

fn schemas(fresh: &Path) -> Result<(), Trouble> {
    let folder = fresh.join("content").join(SCHEMAS);
    for kind in FILE_KINDS.iter().chain([&ROSTER]) {
        write(&folder.join(schema::file_name(kind)), schema::text(kind).as_bytes())?;
    }
    Ok(())
}

/// The starter's `club.yaml` under another name, without what it says of the starter's club.
fn own(text: &str, club: &str) -> String {
    let of_the_starter = |line: &&str| line.starts_with("about:") || line.starts_with("address:");
    let lines = text.lines().filter(|line| !of_the_starter(line));
    let quoted = serde_json::Value::from(club);
    let line = |line: &str| match line.starts_with("name:") {
        true => format!("name: {quoted}\n"),
        false => format!("{line}\n"),
    };
    lines.map(line).collect()
}

/// A YAML file with the line by which editors find its schema.
fn with_schema(name: &str, text: &str) -> String {
    match kind_of_file(name).filter(|_| name.ends_with(".yaml")) {
        Some(kind) => {
            let up = "../".repeat(name.matches('/').count());
            let file = schema::file_name(kind);
            format!("# yaml-language-server: $schema={up}{SCHEMAS}/{file}\n{text}")
        }
        None => text.to_string(),
    }
}

/// Where the library is made; a killed command leaves it, and the next one makes it anew.
const FRESH: &str = ".rungbook-new";

/// Whether a folder holds anything but what a killed command of ours left.
fn is_taken(dir: &Path) -> bool {
    let is_ours = |entry: &fs::DirEntry| {
        let name = entry.file_name();
        let is_list =
            || fs::read(entry.path()).is_ok_and(|bytes| IGNORED.as_bytes().starts_with(&bytes));
        name == FRESH || (name == ".gitignore" && is_list())
    };
    fs::read_dir(dir)
        .is_ok_and(|mut entries| !entries.all(|entry| entry.is_ok_and(|e| is_ours(&e))))
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
    let folder = path.parent().unwrap_or(path);
    let written = fs::create_dir_all(folder).and_then(|()| fs::write(path, bytes));
    written.map_err(|error| unwritten(path, &error))
}

fn unwritten(path: &Path, error: &io::Error) -> Trouble {
    let sentence = format!("`{}` could not be written: {error}", say::shown(path));
    Trouble::new(sentence, "check that you may write there and that the disk has room")
}
