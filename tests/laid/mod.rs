//! Small libraries laid in a folder of their own, changed by the fenced blocks of a page.
//! Never changes the libraries in `tests/libraries`.

use rungbook::library::{Library, reader};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A fenced block: the words after its fence and what stands in it.
pub struct Block {
    /// The first word.
    pub verb: String,
    /// The rest of the words.
    pub words: Vec<String>,
    /// The lines in it.
    pub text: String,
}

/// Every fenced block of a page.
pub fn blocks(page: &str) -> Vec<Block> {
    let mut found = Vec::new();
    let mut lines = page.lines();
    while let Some(line) = lines.next() {
        let Some(info) = line.strip_prefix("```") else { continue };
        let mut words = info.split_whitespace().map(str::to_string);
        let verb = words.next().unwrap_or_default();
        let inside: Vec<&str> = lines.by_ref().take_while(|line| *line != "```").collect();
        let text = inside.iter().map(|line| format!("{line}\n")).collect();
        found.push(Block { verb, words: words.collect(), text });
    }
    found
}

/// A library on disk for the length of a test.
pub struct Laid {
    folder: TempDir,
}

impl Laid {
    /// The library `base` of `tests/libraries`, changed by the blocks of `page`.
    pub fn on(base: &str, page: &str) -> Laid {
        let laid = Laid { folder: TempDir::new().expect("a folder for the test") };
        let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/libraries").join(base);
        copy(&from, laid.folder.path());
        for block in blocks(page) {
            laid.change(&block);
        }
        laid
    }

    /// The library's folder.
    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Reads it through the real reader, under the name that people know it by.
    pub fn read(&self) -> Library {
        reader::read_as(self.path(), "content").expect("the folder is there")
    }

    fn change(&self, block: &Block) {
        if block.words.is_empty() {
            return;
        }
        // A name may hold spaces: that is one of the faults.
        let words = if block.verb == "fill" { &block.words[..1] } else { &block.words };
        let name = words.join(" ");
        let path = self.path().join(&name);
        let folder = path.parent().expect("a file in a folder");
        fs::create_dir_all(folder).expect("the folder can be made");
        match block.verb.as_str() {
            "file" => write(&path, block.text.as_bytes()),
            "bytes" => write(&path, &with_bytes(&block.text)),
            "fill" => write(&path, block.text.repeat(times(block)).as_bytes()),
            "add" => write(&path, (read(&path) + &block.text).as_bytes()),
            "change" => write(&path, changed(&read(&path), &block.text, &name).as_bytes()),
            "link" => link(&PathBuf::from(block.text.trim_end()), &path),
            "remove" => fs::remove_file(&path).expect("the file is there to remove"),
            other => panic!("no block is called `{other}`"),
        }
    }
}

fn times(block: &Block) -> usize {
    block.words.get(1).and_then(|count| count.parse().ok()).expect("`fill PATH COUNT`")
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).expect("the file is there to change")
}

fn write(path: &Path, bytes: &[u8]) {
    fs::write(path, bytes).expect("the file can be written");
}

#[cfg(unix)]
fn link(to: &Path, path: &Path) {
    std::os::unix::fs::symlink(to, path).expect("the link can be made");
}

#[cfg(not(unix))]
fn link(_: &Path, _: &Path) {
    panic!("links are tested on Unix");
}

fn copy(from: &Path, to: &Path) {
    for entry in walkdir::WalkDir::new(from).min_depth(1) {
        let entry = entry.expect("the library can be read");
        let path = to.join(entry.path().strip_prefix(from).expect("below the library"));
        if entry.file_type().is_dir() {
            fs::create_dir_all(&path).expect("the folder can be made");
        } else {
            fs::copy(entry.path(), &path).expect("the file can be copied");
        }
    }
}

/// `\xNN` stands for one byte; the last line end is left out.
fn with_bytes(text: &str) -> Vec<u8> {
    let mut parts = text.trim_end_matches('\n').split("\\x");
    let mut bytes = parts.next().unwrap_or_default().as_bytes().to_vec();
    for part in parts {
        bytes.push(u8::from_str_radix(&part[..2], 16).expect("two hexadecimal digits"));
        bytes.extend_from_slice(&part.as_bytes()[2..]);
    }
    bytes
}

/// `text` with each run of `-` lines of `change` replaced by the `+` lines after it.
fn changed(text: &str, change: &str, name: &str) -> String {
    let mut text = text.to_string();
    let (mut old, mut new) = (String::new(), String::new());
    for line in change.lines().chain(["-"]) {
        match line.split_at_checked(1) {
            Some(("+", added)) => new.push_str(&format!("{added}\n")),
            Some(("-", removed)) => {
                if !new.is_empty() || removed.is_empty() {
                    text = replaced(&text, &old, &new, name);
                    (old, new) = (String::new(), String::new());
                }
                old.push_str(&format!("{removed}\n"));
            }
            _ => panic!("a line of `change {name}` starts with neither - nor +: {line}"),
        }
    }
    text
}

fn replaced(text: &str, old: &str, new: &str, name: &str) -> String {
    assert_eq!(text.matches(old).count(), 1, "these lines stand once in {name}:\n{old}");
    text.replacen(old, new, 1)
}
