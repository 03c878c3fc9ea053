//! A club for a story: a copy of the starter library in a folder of its own, built by the program.
//! Never calls the library's own functions: what a coach runs is what is tried.
#![allow(dead_code)] // Each test file uses its part.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;
use walkdir::WalkDir;

/// Files by name, with their bytes.
pub type Tree = BTreeMap<String, Vec<u8>>;

/// A folder with `content` in it.
pub struct Club {
    dir: TempDir,
}

/// What a command said and how it ended.
pub struct Said {
    /// The exit code.
    pub code: Option<i32>,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

impl From<Output> for Said {
    fn from(output: Output) -> Said {
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
        Said { code: output.status.code(), out: text(output.stdout), err: text(output.stderr) }
    }
}

impl Club {
    /// A copy of the starter library.
    pub fn starter() -> Club {
        let names: Vec<String> = starter().into_keys().collect();
        Club::written_in_order(names.iter())
    }

    /// Without any library.
    pub fn empty() -> Club {
        Club { dir: tempfile::tempdir().expect("a folder") }
    }

    /// With the smallest library that makes a site.
    pub fn tiny() -> Club {
        let club = Club::empty();
        let files = tree(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/libraries/tiny"));
        files.iter().for_each(|(name, bytes)| club.write(&format!("content/{name}"), bytes));
        club
    }

    /// The starter library, its files made in the order given.
    pub fn written_in_order<'a>(names: impl Iterator<Item = &'a String>) -> Club {
        let club = Club::empty();
        let files = starter();
        for name in names {
            club.write(&format!("content/{name}"), &files[name]);
        }
        club
    }

    /// A place below the club's folder.
    pub fn at(&self, name: &str) -> PathBuf {
        self.dir.path().join(name)
    }

    /// Writes a file, with its folders.
    pub fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        let path = self.at(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("the folder is made");
        fs::write(path, bytes).expect("the file is written");
    }

    /// Reads a file as text.
    pub fn read(&self, name: &str) -> String {
        fs::read_to_string(self.at(name)).unwrap_or_else(|e| panic!("{name}: {e}"))
    }

    /// Replaces words in a file; they must be there once at least.
    pub fn change(&self, name: &str, from: &str, to: &str) {
        let text = self.read(name);
        assert!(text.contains(from), "{name} has no {from:?}");
        self.write(name, text.replace(from, to));
    }

    /// The program in the club's folder, ready to run.
    pub fn program(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_rungbook"));
        command.args(arguments).current_dir(self.dir.path()).stdin(Stdio::null());
        command
    }

    /// Runs the program.
    pub fn run(&self, arguments: &[&str]) -> Said {
        self.program(arguments).output().expect("the program runs").into()
    }

    /// Builds the site, which must be written; warnings (exit code 1) do not stop that.
    pub fn build(&self) -> Said {
        let said = self.run(&["build"]);
        let is_written = matches!(said.code, Some(0 | 1)) && said.out.starts_with("site: ");
        assert!(is_written, "{}{}", said.out, said.err);
        said
    }

    /// Every file of the built site.
    pub fn site(&self) -> Tree {
        tree(&self.at("site"))
    }

    /// The main part of a page.
    pub fn main_part(&self, page: &str) -> String {
        let html = self.read(&format!("site/{page}"));
        let start = html.find("<main").expect("a main part");
        let end = html.find("</main>").expect("its end");
        html[start..end].to_string()
    }
}

/// The starter library's files.
fn starter() -> Tree {
    tree(&Path::new(env!("CARGO_MANIFEST_DIR")).join("content"))
}

/// Every file below a folder.
pub fn tree(folder: &Path) -> Tree {
    let files = WalkDir::new(folder).into_iter().map(|entry| entry.expect("it can be read"));
    let files = files.filter(|entry| entry.file_type().is_file());
    let named = files.map(|entry| {
        let name = entry.path().strip_prefix(folder).expect("below").to_string_lossy().into_owned();
        (name, fs::read(entry.path()).expect("it can be read"))
    });
    named.collect()
}

/// The first difference of two trees, for a message; nothing when they are the same.
pub fn difference(a: &Tree, b: &Tree) -> Option<String> {
    let names = a.keys().chain(b.keys());
    let different = names.into_iter().find(|name| a.get(*name) != b.get(*name))?;
    Some(different.clone())
}
