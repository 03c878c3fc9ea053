//! `rungbook new`: a starter library from what the binary embeds.
//! Never writes into a folder that holds something.

use super::say::{self, Outcome, Trouble};
use rust_embed::Embed;
use std::fs;
use std::path::{Path, PathBuf};

/// Start a library: writes the starter library of Thornmere Hall into DIR/content
#[derive(clap::Args)]
#[command(after_help = "Example:\n  rungbook new our-club\n  cd our-club\n  rungbook preview")]
pub struct New {
    /// Folder to make; it must be new or empty
    dir: PathBuf,
}

#[derive(Embed)]
#[folder = "content"]
struct Starter;

/// A roster names people and what limits them: it goes into no repository, and neither does what a
/// killed command left beside it or beside the site.
const IGNORED: &str = "/roster.yaml\n/.roster.yaml.*\n/site/\n/.site.*\n";

impl New {
    pub fn run(self) -> Result<Outcome, Trouble> {
        let shown = say::shown(&self.dir);
        let taken = fs::read_dir(&self.dir).is_ok_and(|mut entries| entries.next().is_some());
        if taken || self.dir.is_file() {
            let what = if taken { "is not empty" } else { "is a file" };
            let sentence = format!("`{shown}` {what}");
            return Err(Trouble::new(sentence, "name a folder that does not exist yet"));
        }
        let mut count = 0;
        for name in Starter::iter() {
            let Some(file) = Starter::get(&name) else { continue };
            write(&self.dir.join("content").join(&*name), &file.data)?;
            count += 1;
        }
        write(&self.dir.join(".gitignore"), IGNORED.as_bytes())?;
        say::print(format!(
            "wrote {count} files of a starter library into {shown}/content\n\
             next: cd {shown} && rungbook preview\n"
        ));
        Ok(Outcome::Fine)
    }
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
    let folder = path.parent().unwrap_or(path);
    fs::create_dir_all(folder).and_then(|()| fs::write(path, bytes)).map_err(|e| {
        let sentence = format!("`{}` could not be written: {e}", say::shown(path));
        Trouble::new(sentence, "check that you may write there and that the disk has room")
    })
}
