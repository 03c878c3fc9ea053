//! A preview as a person has it: the real command, a folder of real files, and a small browser of
//! TCP streams. Never waits for a time: it waits for what the event stream says.

use serde_json::Value;
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Long enough for the slowest machine; a test that meets it has failed.
const TOO_LONG: Duration = Duration::from_secs(60);

/// A folder that holds a library, as a coach works in it.
pub struct Place {
    dir: TempDir,
}

impl Place {
    /// With a copy of the starter library.
    pub fn with_starter() -> Place {
        let place = Place::empty();
        let starter = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
        copy(&starter, &place.path("content"));
        place
    }

    /// With an empty library.
    pub fn empty() -> Place {
        let dir = tempfile::tempdir().expect("a folder");
        fs::create_dir(dir.path().join("content")).expect("a folder");
        Place { dir }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.dir.path().join(name)
    }

    pub fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).expect("a text")
    }

    pub fn save(&self, name: &str, text: &str) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::write(path, text).expect("the file is written");
    }

    /// Starts a preview here.
    pub fn preview(&self, more: &[&str]) -> Preview {
        Preview::start(self.dir.path(), more)
    }
}

pub fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder").map(|entry| entry.expect("an entry")) {
        let target = to.join(entry.file_name());
        match entry.file_type().expect("a kind").is_dir() {
            true => copy(&entry.path(), &target),
            false => fs::copy(entry.path(), target).map(|_| ()).expect("a copy"),
        }
    }
}

/// A preview that runs until it is dropped.
pub struct Preview {
    pub child: Child,
    pub said: BufReader<ChildStdout>,
    pub port: u16,
    /// What stands behind the port in its address.
    pub root: String,
}

impl Preview {
    fn start(dir: &Path, more: &[&str]) -> Preview {
        Preview::serving(dir, &[&["preview", "--open", "no"], more].concat())
    }

    /// Any command that says where it serves.
    pub fn serving(dir: &Path, arguments: &[&str]) -> Preview {
        let mut child = Command::new(env!("CARGO_BIN_EXE_rungbook"))
            .args(arguments)
            .current_dir(dir)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the command starts");
        let mut said = BufReader::new(child.stdout.take().expect("its output"));
        let mut line = String::new();
        while !line.contains("http://127.0.0.1:") {
            line.clear();
            assert_ne!(said.read_line(&mut line).expect("a line"), 0, "the preview did not start");
        }
        let rest = line.split("127.0.0.1:").nth(1).expect("an address");
        let (port, rest) = rest.split_once('/').expect("a port");
        let root = rest.split_whitespace().next().unwrap_or_default();
        let (port, root) = (port.parse().expect("a port"), format!("/{root}"));
        Preview { child, said, port, root }
    }

    pub fn host(&self) -> String {
        format!("127.0.0.1:{}", self.port)
    }

    /// Asks for `path` as a browser of this machine does.
    pub fn get(&self, path: &str) -> Answer {
        self.ask(path, &[&format!("Host: {}", self.host())])
    }

    /// Asks for `path` with the headers given and no other.
    pub fn ask(&self, path: &str, headers: &[&str]) -> Answer {
        self.asked("GET", path, headers)
    }

    /// The same by another method.
    pub fn asked(&self, method: &str, path: &str, headers: &[&str]) -> Answer {
        let mut stream = self.send((method, path), headers);
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).expect("an answer");
        Answer::from(&bytes)
    }

    /// Opens the event stream, as an open page does.
    pub fn events(&self) -> Events {
        let stream = self.send(("GET", "/preview/events"), &[&format!("Host: {}", self.host())]);
        Events { lines: BufReader::new(stream) }
    }

    /// HTTP/1.0, so that an answer is neither kept open nor cut into chunks.
    fn send(&self, (method, path): (&str, &str), headers: &[&str]) -> TcpStream {
        let mut stream = TcpStream::connect(("127.0.0.1", self.port)).expect("a connection");
        stream.set_read_timeout(Some(TOO_LONG)).expect("a time limit");
        let headers: String = headers.iter().map(|header| format!("{header}\r\n")).collect();
        write!(stream, "{method} {path} HTTP/1.0\r\n{headers}\r\n").expect("the request goes out");
        stream
    }
}

impl Drop for Preview {
    fn drop(&mut self) {
        // It may have ended already.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// What a preview answers.
pub struct Answer {
    pub status: u16,
    head: String,
    pub body: String,
}

impl Answer {
    pub fn from(bytes: &[u8]) -> Answer {
        let text = String::from_utf8_lossy(bytes);
        let (head, body) = text.split_once("\r\n\r\n").expect("a head and a body");
        let status = head.split(' ').nth(1).and_then(|word| word.parse().ok()).expect("a status");
        Answer { status, head: head.to_string(), body: body.to_string() }
    }

    pub fn header(&self, name: &str) -> Option<&str> {
        let lines = self.head.lines().filter_map(|line| line.split_once(": "));
        lines.filter(|(known, _)| known.eq_ignore_ascii_case(name)).map(|(_, value)| value).next()
    }

    /// The number of the build that the page is from, out of its script tag.
    pub fn pages(&self) -> u64 {
        let number =
            self.body.split("data-pages=\"").nth(1).and_then(|rest| rest.split('"').next());
        number.and_then(|number| number.parse().ok()).expect("a page that knows its build")
    }
}

/// An event stream.
pub struct Events {
    lines: BufReader<TcpStream>,
}

impl Events {
    /// The status and the kind of the stream itself; ask before the first event.
    pub fn head(&mut self) -> (u16, String) {
        let mut head = String::new();
        while !head.ends_with("\r\n\r\n") {
            assert_ne!(self.lines.read_line(&mut head).expect("its head"), 0, "no head");
        }
        let answer = Answer::from(head.as_bytes());
        (answer.status, answer.header("content-type").unwrap_or_default().to_string())
    }

    /// The next build that the stream tells of.
    pub fn next(&mut self) -> News {
        // The stream says every few seconds that it lives, so a silent read does not tell.
        let asked = Instant::now();
        loop {
            assert!(asked.elapsed() < TOO_LONG, "no build came");
            let mut line = String::new();
            let length = self.lines.read_line(&mut line).expect("the next event");
            assert_ne!(length, 0, "the event stream ended");
            if let Some(data) = line.strip_prefix("data: ") {
                return News::from(&serde_json::from_str(data).expect("JSON"));
            }
        }
    }

    /// The first build from here on for which `wanted` holds.
    pub fn until(&mut self, mut wanted: impl FnMut(&News) -> bool) -> News {
        loop {
            let news = self.next();
            if wanted(&news) {
                return news;
            }
        }
    }
}

/// What the stream tells of a build.
#[derive(Debug)]
pub struct News {
    pub build: u64,
    pub pages: u64,
    pub summary: String,
    pub findings: String,
    pub pressing: bool,
}

impl News {
    fn from(json: &Value) -> News {
        let text = |key: &str| json[key].as_str().expect("a text").to_string();
        let number = |key: &str| json[key].as_u64().expect("a number");
        News {
            build: number("build"),
            pages: number("pages"),
            summary: text("summary"),
            findings: text("findings"),
            pressing: json["pressing"].as_bool().expect("yes or no"),
        }
    }
}
