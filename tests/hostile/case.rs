//! A case: a folder with something bad in it, a command, and what must hold afterwards.
//! Never runs a function of ours: the real program, as a process of its own, within limits.

use super::looked::{Seen, faults_of_site};
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::os::unix::net::UnixListener;
use std::os::unix::process::ExitStatusExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus};
use std::time::{Duration, Instant};
use walkdir::WalkDir;

/// Seconds of processor time and bytes of memory that a case may take.
const PROCESSOR_S: u32 = 5;
const MEMORY_KB: u32 = 1 << 20;
/// Whoever waits for ever takes no processor time.
const TOO_LONG: Duration = Duration::from_secs(90);

/// Something laid into the folder before the command runs.
#[derive(Debug, Clone)]
pub enum Lay {
    File(String, Vec<u8>),
    /// A link and where it leads.
    Link(String, String),
    Pipe(String),
    Socket(String),
    Gone(String),
}

/// What is asked of the command.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// Never fine: it is said, with a place.
    Refused,
    /// Either said, with a place, or harmless.
    Either,
}

#[derive(Debug, Clone)]
pub struct Case {
    /// `numbers: reps: 0` and the like.
    pub name: String,
    /// The library of `tests/libraries` that is spoilt.
    pub base: &'static str,
    pub lay: Vec<Lay>,
    pub arguments: Vec<String>,
    pub input: Vec<u8>,
    pub asked: Asked,
}

/// How a case ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Ended {
    /// As it must: nothing was wrong, or it was said.
    Well,
    Panicked(String),
    Hung(String),
    WroteOutside(String),
    /// Nothing was said, or what was built is not what a browser may be given.
    Wrong(String),
}

impl Case {
    /// A spoilt library of `base` that is built.
    pub fn built(name: impl Into<String>, base: &'static str, lay: Vec<Lay>) -> Case {
        let arguments = vec!["build".to_string()];
        Case { name: name.into(), base, lay, arguments, input: Vec::new(), asked: Asked::Either }
    }

    /// A command beside a sound library.
    pub fn asking(name: impl Into<String>, arguments: &[&str]) -> Case {
        let arguments = arguments.iter().map(|word| word.to_string()).collect();
        Case { arguments, ..Case::built(name, "hall", Vec::new()) }
    }

    pub fn refused(self) -> Case {
        Case { asked: Asked::Refused, ..self }
    }

    pub fn with(mut self, lay: Lay) -> Case {
        self.lay.push(lay);
        self
    }

    pub fn run(&self, seen: &Seen) -> Ended {
        let folder = tempfile::tempdir().expect("a folder");
        let club = folder.path().join("club");
        self.prepare(folder.path(), &club);
        let before = everything(folder.path());
        let mut child = self.start(folder.path(), &club);
        let Some(status) = waited(&mut child) else { return Ended::Hung("it waits".into()) };
        let said = ["out", "err"].map(|name| {
            String::from_utf8_lossy(&fs::read(folder.path().join(name)).expect("said")).into_owned()
        });
        let ended = self.how_it_ended(status, &said.concat());
        if ended != Ended::Well {
            return ended;
        }
        if let Some(other) = difference(&before, &everything(folder.path())) {
            return Ended::WroteOutside(other);
        }
        match faults_of_site(&club.join("site"), seen).first() {
            Some(fault) => Ended::Wrong(fault.clone()),
            None => Ended::Well,
        }
    }

    fn prepare(&self, folder: &Path, club: &Path) {
        let library = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/libraries").join(self.base);
        copy(&library, &club.join("content"));
        fs::create_dir_all(folder.join("outside")).expect("a folder");
        fs::write(folder.join("outside/mine.html"), "the coach's own").expect("a file");
        fs::write(folder.join("outside/secret.yaml"), "name: SECRETWORD\n\tx").expect("a file");
        self.lay.iter().for_each(|lay| lay.put(club));
        fs::write(folder.join("in"), &self.input).expect("what is piped in");
    }

    fn start(&self, folder: &Path, club: &Path) -> Child {
        let limits = format!(
            "ulimit -c 0; ulimit -t {PROCESSOR_S}; ulimit -v {MEMORY_KB}; exec \"$0\" \"$@\""
        );
        let file = |name| File::create(folder.join(name)).expect("a file");
        Command::new("sh")
            .args(["-c", &limits, env!("CARGO_BIN_EXE_rungbook")])
            .args(&self.arguments)
            .current_dir(club)
            // The memory that is measured is the input's, not that of many cores.
            .env("RAYON_NUM_THREADS", "2")
            .env("MALLOC_ARENA_MAX", "2")
            .stdin(File::open(folder.join("in")).expect("the input"))
            .stdout(file("out"))
            .stderr(file("err"))
            .spawn()
            .expect("the program starts")
    }

    fn how_it_ended(&self, status: ExitStatus, said: &str) -> Ended {
        let start: String = said.chars().take(600).collect();
        if status.code() == Some(101) || said.contains("panicked at") {
            return Ended::Panicked(start);
        }
        match status.signal() {
            Some(9 | 24) => return Ended::Hung("over 5 s of processor time".into()),
            Some(6) => return Ended::Hung(format!("over 1 GiB of memory: {start}")),
            Some(signal) => return Ended::Panicked(format!("signal {signal}: {start}")),
            None => {}
        }
        if said.contains("SECRETWORD") {
            return Ended::Wrong(format!("it shows a file of somebody else's: {start}"));
        }
        let is_steered = said.contains(|c: char| c.is_control() && !"\n\t".contains(c));
        if is_steered {
            return Ended::Wrong(format!("it steers the terminal: {start:?}"));
        }
        match (status.code(), self.asked) {
            (Some(0), Asked::Refused) => Ended::Wrong(format!("it says nothing: {start}")),
            (Some(0), _) => Ended::Well,
            (Some(1 | 2), _) if has_place(said) => Ended::Well,
            (code, _) => Ended::Wrong(format!("exit code {code:?} without a sentence: {start:?}")),
        }
    }
}

/// A finding has its file and a next step; what could not run has a sentence and one; the parser of
/// arguments says where help is; and a question without an answer says what there is.
fn has_place(said: &str) -> bool {
    let finding = said.contains("--> ") && said.contains("= help: ");
    let trouble = said.contains("error: ") && said.contains("= help: ");
    let json = said.contains("\"headline\": ") && said.contains("\"help\": ");
    let sarif = said.contains("\"artifactLocation\"") && said.contains("\"message\"");
    let answer = said.contains("nothing ") || said.contains("\"hits\": []");
    finding
        || trouble
        || json
        || sarif
        || answer
        || said.contains("try '--help'")
        || said.contains("Usage: ")
}

fn waited(child: &mut Child) -> Option<ExitStatus> {
    let start = Instant::now();
    while start.elapsed() < TOO_LONG {
        if let Some(status) = child.try_wait().expect("a child") {
            return Some(status);
        }
        std::thread::sleep(Duration::from_millis(2));
    }
    child.kill().expect("it can be ended");
    child.wait().expect("it ends");
    None
}

impl Lay {
    pub fn file(name: &str, text: impl AsRef<[u8]>) -> Lay {
        Lay::File(name.to_string(), text.as_ref().to_vec())
    }

    fn put(&self, club: &Path) {
        let at = |name: &str| -> PathBuf {
            let path = club.join(name);
            fs::create_dir_all(path.parent().expect("a folder")).expect("the folder is made");
            path
        };
        match self {
            Lay::File(name, bytes) => fs::write(at(name), bytes).expect("the file is written"),
            Lay::Link(name, to) => {
                let path = at(name);
                let _ = fs::remove_file(&path);
                std::os::unix::fs::symlink(to, path).expect("a link");
            }
            Lay::Pipe(name) => {
                let made = Command::new("mkfifo").arg(at(name)).status().expect("mkfifo");
                assert!(made.success());
            }
            Lay::Socket(name) => drop(UnixListener::bind(at(name)).expect("a socket")),
            Lay::Gone(name) => {
                let path = club.join(name);
                let _ = fs::remove_file(&path).or_else(|_| fs::remove_dir_all(&path));
            }
        }
    }
}

pub fn copy(from: &Path, to: &Path) {
    for entry in WalkDir::new(from) {
        let entry = entry.expect("the library can be read");
        let path = to.join(entry.path().strip_prefix(from).expect("below the library"));
        match entry.file_type().is_dir() {
            true => fs::create_dir_all(&path).expect("the folder is made"),
            false => drop(fs::copy(entry.path(), &path).expect("the file is copied")),
        }
    }
}

/// Everything below a folder but what the command may write: the site, what is kept beside it, the
/// roster, and what was said.
fn everything(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let ours = |name: &str| {
        ["out", "err"].contains(&name)
            || ["club/site", "club/.site.rungbook-", "club/roster.yaml"]
                .iter()
                .any(|start| name.starts_with(start))
    };
    let mut found = BTreeMap::new();
    for entry in WalkDir::new(folder).into_iter().flatten() {
        let name = entry.path().strip_prefix(folder).expect("below").to_string_lossy().into_owned();
        if ours(&name) {
            continue;
        }
        let kind = entry.file_type();
        let bytes = match () {
            () if kind.is_file() => fs::read(entry.path()).expect("it reads"),
            () => format!("{kind:?}").into_bytes(),
        };
        found.insert(name, bytes);
    }
    found
}

fn difference(
    before: &BTreeMap<String, Vec<u8>>,
    after: &BTreeMap<String, Vec<u8>>,
) -> Option<String> {
    let names = before.keys().chain(after.keys());
    names.filter(|name| before.get(*name) != after.get(*name)).map(String::clone).next()
}
