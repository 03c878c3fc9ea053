//! A club's folder with a library in `content`, and the program run in it.
//! Never changes the libraries in `tests/libraries`.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A club's folder, for the length of a test.
pub struct Club(tempfile::TempDir);

/// How a command ended, and what it said to the screen and beside it.
pub type Ended = (i32, String, String);

impl Club {
    /// With the tiny library.
    pub fn tiny() -> Club {
        let folder = tempfile::TempDir::new().expect("a folder");
        let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/libraries/tiny");
        copy(&from, &folder.path().join("content"));
        Club(folder)
    }

    pub fn path(&self, below: &str) -> PathBuf {
        self.0.path().join(below)
    }

    pub fn read(&self, file: &str) -> String {
        let path = self.path("content").join(file);
        std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{file}: {error}"))
    }

    pub fn write(&self, file: &str, text: &str) {
        let path = self.path("content").join(file);
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("made");
        std::fs::write(path, text).expect("written");
    }

    /// Puts other words in the place of some.
    pub fn spoil(&self, file: &str, old: &str, new: &str) {
        let text = self.read(file);
        assert!(text.contains(old), "{file} has {old}");
        self.write(file, &text.replacen(old, new, 1));
    }

    /// Every file below the club's folder with its text, hidden ones too.
    pub fn all(&self) -> Vec<(String, String)> {
        let walk = walkdir::WalkDir::new(self.0.path()).sort_by_file_name().into_iter().flatten();
        let file = |entry: walkdir::DirEntry| {
            let below = entry.path().strip_prefix(self.0.path()).expect("below");
            let text = std::fs::read(entry.path()).ok()?;
            Some((
                below.to_string_lossy().into_owned(),
                String::from_utf8_lossy(&text).into_owned(),
            ))
        };
        walk.filter(|entry| entry.file_type().is_file()).filter_map(file).collect()
    }

    /// Runs the program in the club's folder.
    pub fn run(&self, arguments: &[&str]) -> Ended {
        self.run_in("", arguments, "")
    }

    /// Runs it in a folder below, with something on standard input.
    pub fn run_in(&self, folder: &str, arguments: &[&str], input: &str) -> Ended {
        let mut child = Command::new(env!("CARGO_BIN_EXE_rungbook"))
            .args(arguments)
            .current_dir(self.path(folder))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("it runs");
        let mut stdin = child.stdin.take().expect("a pipe");
        // Whoever does not read it closes it.
        let _ = stdin.write_all(input.as_bytes());
        drop(stdin);
        let Output { status, stdout, stderr } = child.wait_with_output().expect("it ends");
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
        (status.code().unwrap_or(-1), text(stdout), text(stderr))
    }
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).expect("made");
    for entry in std::fs::read_dir(from).expect("it is there") {
        let entry = entry.expect("an entry");
        let to = to.join(entry.file_name());
        match entry.path().is_dir() {
            true => copy(&entry.path(), &to),
            false => drop(std::fs::copy(entry.path(), to).expect("it copies")),
        }
    }
}
