//! How commands are called: one file, an unsaved text, from a folder below, by a name in words.
//! Through the program itself, as a shell and an editor do.

mod laid;

use laid::Laid;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

const STRAP: &str = "movements/pull-horizontal/strap-row.md";

/// A club's folder with the tiny library in `content`.
struct Club(tempfile::TempDir);

impl Club {
    fn new() -> Club {
        let folder = tempfile::TempDir::new().expect("a folder");
        let laid = Laid::on("tiny", "");
        assert_eq!(laid.read().movements.len(), 3);
        copy(laid.path(), &folder.path().join("content"));
        Club(folder)
    }

    fn spoil(&self, file: &str, old: &str, new: &str) {
        let path = self.0.path().join("content").join(file);
        let text = std::fs::read_to_string(&path).expect("it reads");
        assert!(text.contains(old), "{file} has {old}");
        std::fs::write(&path, text.replacen(old, new, 1)).expect("it can be written");
    }

    fn read(&self, file: &str) -> String {
        std::fs::read_to_string(self.0.path().join("content").join(file)).expect("it reads")
    }

    /// Runs the program in a folder of the club with something on standard input.
    fn run(&self, folder: &str, arguments: &[&str], input: &str) -> (i32, String, String) {
        let mut child = Command::new(env!("CARGO_BIN_EXE_rungbook"))
            .args(arguments)
            .current_dir(self.0.path().join(folder))
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
        (status.code().expect("a code"), text(stdout), text(stderr))
    }
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).expect("a folder");
    for entry in std::fs::read_dir(from).expect("it reads").flatten() {
        let to = to.join(entry.file_name());
        match entry.path().is_dir() {
            true => copy(&entry.path(), &to),
            false => drop(std::fs::copy(entry.path(), to).expect("it copies")),
        }
    }
}

#[test]
fn one_file_is_checked_in_its_library() {
    let club = Club::new();
    club.spoil("ladders/row.yaml", "strap-row, lean: 30", "strap-rwo, lean: 30");
    let path = format!("content/{STRAP}");
    let (code, said, _) = club.run("", &["check", &path], "");
    assert_eq!((code, said.as_str()), (0, &*format!("{STRAP}: nothing to mend\n")));
    let (code, said, _) = club.run("", &["check", "content/ladders/row.yaml"], "");
    assert!(code == 1 && said.contains("there is no movement `strap-rwo`"), "{said}");
    // From the folder of the file, and by its path in the library.
    let (code, said, _) = club.run("content/ladders", &["check", "row.yaml"], "");
    assert!(code == 1 && said.contains("strap-rwo"), "{said}");
    let (code, said, _) = club.run("", &["check", "ladders/row.yaml"], "");
    assert!(code == 1 && said.contains("strap-rwo"), "{said}");
    let (code, _, why) = club.run("", &["check", "ladders/rwo.yaml"], "");
    assert!(code == 2 && why.contains("there is no file `ladders/rwo.yaml`"), "{why}");
    std::fs::write(club.0.path().join("note.txt"), "x").expect("it can be written");
    let (code, _, why) = club.run("", &["check", "note.txt"], "");
    assert!(code == 2 && why.contains("is no file of the library"), "{why}");
}

#[test]
fn an_unsaved_text_is_checked_in_the_place_of_its_file() {
    let club = Club::new();
    let saved = club.read(STRAP);
    let unsaved = saved.replacen("pace: 3 s", "pace: 3", 1);
    for named in [STRAP.to_string(), format!("content/{STRAP}")] {
        let (code, said, _) = club.run("", &["check", "-", "--as", &named], &unsaved);
        assert!(code == 1 && said.contains("`3` has no unit"), "{said}");
        assert!(said.contains(&format!("content/{STRAP}:13:7")), "{said}");
    }
    assert_eq!(club.read(STRAP), saved, "nothing is written");
    let (code, said, _) = club.run("", &["check", "-", "--as", STRAP], &saved);
    assert_eq!(code, 0, "{said}");
    // A file that is not there yet.
    let new = "movements/pull-horizontal/bar-row.md";
    let (code, said, _) = club.run("", &["check", "-", "--as", new], "---\nname: Bar row\n---\n");
    assert!(code == 1 && said.contains("has no `pattern`"), "{said}");
    assert!(!said.contains("strap-row.md:"), "only that file is told: {said}");
    // What is broken on the disk and whole in the editor.
    club.spoil(STRAP, "name: Strap row", "name Strap row");
    let (code, said, _) = club.run("", &["check", "-", "--as", STRAP], &saved);
    assert_eq!(code, 0, "{said}");
    let (code, _, why) = club.run("", &["check", "-"], &saved);
    assert!(code == 2 && why.contains("--as movements/"), "{why}");
}

#[test]
fn what_ends_in_a_failure_can_be_chosen() {
    let club = Club::new();
    let code = |fail: &str| club.run("", &["check", "--fail-on", fail], "").0;
    assert_eq!(["error", "warning", "advice"].map(code), [0, 0, 0]);
    let quiet = |club: &Club| club.run("", &["check", "--quiet"], "");
    assert_eq!(quiet(&club), (0, String::new(), String::new()));
    club.spoil(STRAP, "pace: 3 s\n", "");
    assert_eq!(["error", "warning", "advice"].map(code), [0, 0, 1]);
    assert_eq!(quiet(&club).1, "", "advice is not said");
    club.spoil("cycles/spring.yaml", "focus: [row]", "focus: [row]\nstarts: soon");
    assert_eq!(["error", "warning", "advice"].map(code), [0, 1, 1]);
    assert!(quiet(&club).1.contains("`soon` is not a day"));
    club.spoil("ladders/row.yaml", "strap-row, lean: 30", "strap-rwo, lean: 30");
    assert_eq!(["error", "warning", "advice"].map(code), [1, 1, 1]);
}

#[test]
fn a_library_is_found_from_the_folders_below_its_club() {
    let club = Club::new();
    std::fs::create_dir_all(club.0.path().join("notes/old")).expect("a folder");
    for (folder, shown) in
        [("", "content"), ("content", "."), ("content/words", ".."), ("notes/old", "../../content")]
    {
        let (code, said, why) = club.run(folder, &["check"], "");
        assert_eq!(code, 0, "{folder}: {why}");
        assert!(said.starts_with(&format!("{shown}: 3 movements")), "{folder}: {said}");
    }
    // A folder that is named is the one that is meant.
    let (code, _, why) = club.run("content/words", &["check", "--library", "content2"], "");
    assert!(code == 2 && why.contains("no library folder `content2`"), "{why}");
}

#[test]
fn every_command_takes_an_id_or_a_name_with_or_without_quotes() {
    let club = Club::new();
    let same = |ways: &[&[&str]]| {
        let said: Vec<_> = ways.iter().map(|way| club.run("", way, "")).collect();
        assert!(said[0].0 < 2, "{said:?}");
        assert!(said.iter().all(|one| *one == said[0]), "{said:#?}");
    };
    same(&[&["demand", "strap-row"], &["demand", "strap", "row"], &["demand", "Strap row"]]);
    same(&[&["swap", "strap-row"], &["swap", "body", "row"], &["swap", "Strap Row"]]);
    same(&[
        &["place", "row", "--rung", "2", "--reps", "8"],
        &["place", "Row", "--rung", "2", "--reps", "8"],
    ]);
    same(&[&["plan", "spring"], &["plan", "Spring"]]);
    same(&[&["own", "monday"], &["own", "Monday"]]);
    let (code, _, why) = club.run("", &["place", "Rwo", "--rung", "2", "--reps", "8"], "");
    assert!(
        code == 2 && why.contains("there is no ladder `Rwo`") && why.contains("`row`"),
        "{why}"
    );
}

#[test]
fn what_is_explained_to_a_person_is_explained_to_a_script() {
    let club = Club::new();
    let json = |name: &str| -> serde_json::Value {
        let (code, said, why) = club.run("", &["explain", name, "--format", "json"], "");
        assert_eq!(code, 0, "{why}");
        serde_json::from_str(&said).expect("JSON")
    };
    let key = json("standard");
    assert_eq!(key["keys"][0]["of"], "movement");
    assert_eq!(key["keys"][0]["file"], "movements/<pattern>/<id>.md");
    assert!(key["rule"].is_null());
    let code = json("ladder-loop");
    assert_eq!(
        (&code["rule"]["severity"], code["keys"].as_array().map(Vec::len)),
        (&"error".into(), Some(0))
    );
    assert_eq!(code["text"], club.run("", &["explain", "ladder-loop"], "").1);
    let (code, _, why) = club.run("", &["explain", "standrad"], "");
    assert!(code == 2 && why.contains("did you mean `standard`?"), "{why}");
}

#[test]
fn ids_complete_in_a_shell() {
    let club = Club::new();
    let (code, ids, _) = club.run("", &["completions", "--ids", "movement"], "");
    assert_eq!((code, ids.as_str()), (0, "one-arm-row\nstrap-row\ntowel-row\n"));
    let (_, own, _) = club.run("", &["completions", "--ids", "own"], "");
    assert_eq!(own, "monday\nrow\n");
    let (_, words, _) = club.run("", &["completions", "--ids", "word"], "");
    for word in ["ladder-loop", "standard", "pose", "knee"] {
        assert!(words.lines().any(|line| line == word), "{word}");
    }
    // A shell would take a key of two words for two.
    assert!(words.lines().all(|line| !line.contains(' ')), "{words}");
    let (_, bash, _) = club.run("", &["completions", "bash"], "");
    let program = env!("CARGO_BIN_EXE_rungbook");
    let complete = |words: &str, at: usize| {
        let ask = format!(
            "{bash}\nCOMP_WORDS=({program} {words})\nCOMP_CWORD={at}\n\
             _rungbook_with_ids {program} \"${{COMP_WORDS[{at}]}}\" \"${{COMP_WORDS[{at}-1]}}\"\n\
             echo \"${{COMPREPLY[@]}}\"\n"
        );
        let mut shell = Command::new("bash");
        let out = shell.args(["-c", &ask]).current_dir(club.0.path()).output().expect("bash runs");
        String::from_utf8_lossy(&out.stdout).trim().to_string()
    };
    assert_eq!(complete("swap strap", 2), "strap-row");
    assert_eq!(complete("demand o", 2), "one-arm-row");
    assert_eq!(complete("place r", 2), "row");
    assert_eq!(complete("swap strap-row --kit t", 4), "towel");
    assert_eq!(complete("swap strap-row --avoid w", 4), "weak-grip");
    assert_eq!(complete("explain ladder-lo", 2), "ladder-loop");
    assert_eq!(complete("che", 1), "check");
}
