//! Whatever stands in a library folder, reading gives findings and the good entries, never a panic.
//! Never asks what the rules say: only what reading cannot understand.

mod laid;

use laid::Laid;
use proptest::prelude::*;
use rungbook::check;
use rungbook::finding::{Finding, Paint, render};
use rungbook::gym::Gym;
use rungbook::library::Library;
use std::fs;

/// One odd file laid beside the tiny library: where, what bytes, and the finding it must give.
struct Odd {
    path: &'static str,
    bytes: Vec<u8>,
    code: &'static str,
    /// A stretch of the headline.
    says: &'static str,
}

fn odd(
    path: &'static str,
    bytes: impl Into<Vec<u8>>,
    code: &'static str,
    says: &'static str,
) -> Odd {
    Odd { path, bytes: bytes.into(), code, says }
}

fn lay(odd: &Odd) -> Library {
    let laid = Laid::on("tiny", "");
    let path = laid.path().join(odd.path);
    fs::create_dir_all(path.parent().expect("a folder")).expect("the folder can be made");
    fs::write(&path, &odd.bytes).expect("the file can be written");
    laid.read()
}

/// The entries of the tiny library, all still there.
fn good_entries_are_read(library: &Library) {
    for id in ["strap-row", "towel-row", "one-arm-row"] {
        let movement = library.movements.get(&id.into());
        assert!(movement.is_some_and(|m| !m.cues.is_empty()), "`{id}` is read");
    }
    assert_eq!(library.ladders.get(&"row".into()).map(|ladder| ladder.rungs.len()), Some(3));
    assert_eq!(library.words.kit.len(), 3);
    assert_eq!(library.club.name, "Thornmere Hall");
}

/// Every place of every finding lies inside its file, on whole letters.
fn places_are_inside(library: &Library, findings: &[Finding]) {
    for finding in findings {
        for place in std::iter::once(&finding.place).chain(&finding.also) {
            let span = place.span;
            let text = library.sources.text(span.file);
            let inside = text.get(span.start as usize..span.end as usize);
            assert!(inside.is_some(), "{finding:?} lies outside `{text}`");
        }
    }
}

/// Reading and checking, with what must hold for any input.
fn check(library: Library) -> Vec<Finding> {
    let gym = Gym::open(library);
    let findings = check::run(&gym);
    places_are_inside(&gym.library, &findings);
    let shown = render(&findings, &gym.library.sources, Paint::Plain);
    assert_eq!(shown.is_empty(), findings.is_empty());
    for finding in &findings {
        assert!(finding.headline.contains(' ') && !finding.help.is_empty(), "{finding:?}");
        assert!(!gym.library.sources.name(finding.place.span.file).is_empty(), "{finding:?}");
    }
    findings
}

const BAR_ROW: &str = "movements/pull-horizontal/bar-row.md";

fn odd_files() -> Vec<Odd> {
    let ladder = "ladders/odd.yaml";
    vec![
        odd(BAR_ROW, "", "empty-file", "nothing is written"),
        odd(ladder, "", "empty-file", "nothing is written"),
        odd(ladder, "\n# only a remark\n", "empty-file", "nothing is written"),
        odd(BAR_ROW, "Lean back and pull.\n", "no-front-matter", "no front matter"),
        odd(BAR_ROW, "---\nname: Bar row\n", "no-front-matter", "never closed"),
        odd(
            ladder,
            "name: Odd\nrungs:\n\t- {movement: strap-row}\n",
            "yaml-syntax",
            "a tab stands",
        ),
        odd(ladder, "name: Odd\r\nrungz: []\r\n", "unknown-key", "`rungz` is not a key"),
        odd(BAR_ROW, "\u{feff}---\nname: Bar row\npattrn: squat\n---\n", "unknown-key", "`pattrn`"),
        odd(ladder, "\u{feff}name: Odd\nrungz: []\n", "unknown-key", "`rungz` is not a key"),
        odd(ladder, b"name: \xff\xfe odd\n", "not-utf8", "not UTF-8"),
        odd(ladder, b"\xffname: odd\n", "not-utf8", "not UTF-8"),
        odd(ladder, "name: odd\n".repeat(500_000), "file-too-big", "over 1 MB"),
        odd(ladder, "[".repeat(5_000), "yaml-syntax", "nested too deep"),
        odd(ladder, format!("{}1{}", "[".repeat(400), "]".repeat(400)), "yaml-syntax", "too deep"),
        odd(ladder, deep_map(300), "yaml-syntax", "too deep"),
        odd(ladder, alias_bomb(), "yaml-syntax", "aliases"),
        odd(ladder, format!("rungs: [{}]", "1,".repeat(30_000)), "yaml-syntax", "too many values"),
        odd(ladder, "name: \"Odd\n", "yaml-syntax", "quote is never closed"),
        odd(ladder, "name: [Odd\n", "yaml-syntax", "bracket is never closed"),
        odd(ladder, "name: Odd: row\n", "yaml-syntax", "a second `: `"),
        odd(ladder, "name: a\n---\nname: b\n", "yaml-syntax", "a second `---`"),
        odd(ladder, "just words\n", "wrong-shape", "not keys and values"),
        odd(ladder, "- a\n- b\n", "wrong-shape", "not keys and values"),
        odd("ladders/Odd Row.yaml", "name: Odd\n", "bad-id", "`Odd Row` cannot be an id"),
        odd("ladders/zieh-übung.yaml", "name: Odd\n", "bad-id", "cannot be an id"),
        odd("ladders/\u{202e}row.yaml", "name: Odd\n", "bad-id", "cannot be an id"),
        odd("ladders/Row.yaml", "name: Odd\n", "duplicate-id", "differ by capital letters only"),
        odd("words/kit.yml", "rope: {name: Rope}\n", "stray-file", "nothing reads `words/kit.yml`"),
    ]
}

fn deep_map(depth: usize) -> String {
    (0..depth).map(|at| format!("{}a:\n", "  ".repeat(at))).collect()
}

/// Nine levels of nine: a kilobyte that would unfold to a billion values.
fn alias_bomb() -> String {
    let mut text = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n".to_string();
    for at in 1..9 {
        let nine = vec![format!("*a{}", at - 1); 9].join(", ");
        text.push_str(&format!("a{at}: &a{at} [{nine}]\n"));
    }
    text
}

#[test]
fn an_odd_file_gets_a_sentence_and_a_place_and_the_rest_is_read() {
    for odd in odd_files() {
        let library = lay(&odd);
        if odd.path != "ladders/Row.yaml" {
            good_entries_are_read(&library);
        }
        let names: Vec<String> =
            library.sources.ids().map(|file| library.sources.name(file).to_string()).collect();
        let findings = check(library);
        let wanted =
            findings.iter().find(|f| f.code.0 == odd.code && f.headline.contains(odd.says));
        let Some(found) = wanted else {
            let what = String::from_utf8_lossy(&odd.bytes[..odd.bytes.len().min(60)]).into_owned();
            panic!("{} `{what}` should give {}, gave {findings:?}", odd.path, odd.code);
        };
        if odd.path != "ladders/Row.yaml" {
            let file = &names[found.place.span.file.0 as usize];
            // A sign that turns a line is shown as one that cannot be shown.
            assert_eq!(*file, format!("content/{}", odd.path).replace('\u{202e}', "\u{fffd}"));
        }
    }
}

#[test]
fn line_ends_and_a_byte_order_mark_change_nothing() {
    let plain = Laid::on("tiny", "").read();
    let path = "movements/pull-horizontal/strap-row.md";
    let crlf = Laid::on("tiny", "");
    let text = fs::read_to_string(crlf.path().join(path)).expect("the movement");
    let text = format!("\u{feff}{}", text.replace('\n', "\r\n"));
    fs::write(crlf.path().join(path), &text).expect("the movement can be written");
    let crlf = crlf.read();
    assert!(check(crlf.clone()).is_empty());
    let (one, other) =
        (&plain.movements[&"strap-row".into()], &crlf.movements[&"strap-row".into()]);
    assert_eq!(one.standard.as_ref().map(|s| &s.value), other.standard.as_ref().map(|s| &s.value));
    assert_eq!(one.cues.len(), other.cues.len());
    assert_eq!(one.body.markdown, other.body.markdown.replace("\r\n", "\n"));
    let standard = other.standard.as_ref().expect("a standard").span;
    assert_eq!(crlf.sources.words(standard), "Arms straight, then hands to ribs.");
}

#[cfg(unix)]
#[test]
fn links_are_followed_once_and_never_in_circles() {
    let laid = Laid::on(
        "tiny",
        "```link movements/pull-horizontal/round\n../../movements\n```\n\
         ```link ladders/gone.yaml\nnowhere.yaml\n```\n\
         ```link sessions/itself.yaml\nitself.yaml\n```\n",
    );
    let library = laid.read();
    good_entries_are_read(&library);
    let findings = check(library);
    let unreadable = findings.iter().filter(|f| f.code.0 == "unreadable-file").count();
    assert_eq!(unreadable, 3, "{findings:?}");
}

/// The tests may run as a user who can read everything, so that a file without permission proves
/// nothing: a folder with an entry's name stands in for what cannot be read as a file.
#[test]
fn a_folder_named_like_an_entry_hides_nothing() {
    let laid = Laid::on("tiny", "```file ladders/odd.yaml/row.yaml\nname: Odd\n```\n");
    let library = laid.read();
    good_entries_are_read(&library);
    let findings = check(library);
    assert!(
        findings.iter().any(|f| f.headline.contains("ladders/odd.yaml/row.yaml")),
        "{findings:?}"
    );
}

#[test]
fn a_library_without_its_club_says_so_at_the_file_that_is_missing() {
    let laid = Laid::on("tiny", "```remove club.yaml\n```\n");
    let library = laid.read();
    let shown: Vec<Finding> = check::run(&Gym::open(library.clone()));
    let no_club: Vec<&Finding> = shown.iter().filter(|f| f.code.0 == "no-club").collect();
    let [only] = no_club.as_slice() else { panic!("one finding, not {no_club:?}") };
    assert_eq!(library.sources.name(only.place.span.file), "content/club.yaml");

    let broken = Laid::on("tiny", "```file club.yaml\nname: \"Thornmere\n```\n");
    let codes: Vec<&str> = check::run(&Gym::open(broken.read())).iter().map(|f| f.code.0).collect();
    assert!(codes.contains(&"yaml-syntax") && !codes.contains(&"no-club"), "{codes:?}");
}

#[test]
fn every_code_of_a_finding_is_in_the_rule_table() {
    for odd in odd_files() {
        for finding in lay(&odd).findings {
            let rule = check::rules().iter().find(|rule| rule.code == finding.code);
            let rule = rule.unwrap_or_else(|| panic!("no rule explains {}", finding.code));
            assert_eq!(rule.severity, finding.severity, "{}", finding.code);
        }
    }
}

/// Entries of the tiny library, for mutation.
const ENTRIES: [&str; 7] = [
    "movements/pull-horizontal/strap-row.md",
    "ladders/row.yaml",
    "sessions/monday.yaml",
    "cycles/spring.yaml",
    "words/cautions.yaml",
    "words/patterns.yaml",
    "club.yaml",
];

/// Bytes that mean something in YAML and Markdown.
const TELLING: &[u8] = b"{}[]:,-#&*!|>'\"%@`\t\r\n \\?<(\xc3\xff\x00";

fn mutated(mut bytes: Vec<u8>, changes: &[(usize, usize, u8)]) -> Vec<u8> {
    for (at, kind, byte) in changes {
        let at = at % (bytes.len() + 1);
        match kind % 4 {
            0 => bytes.insert(at, TELLING[*byte as usize % TELLING.len()]),
            1 if at < bytes.len() => bytes[at] = TELLING[*byte as usize % TELLING.len()],
            2 if at < bytes.len() => {
                drop(bytes.drain(at..(at + *byte as usize % 30).min(bytes.len())))
            }
            _ => {
                let end = (at + *byte as usize).min(bytes.len());
                let again = bytes[at..end].to_vec();
                bytes.splice(at..at, again);
            }
        }
    }
    bytes
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_bytes_never_panic(
        bytes in prop::collection::vec(any::<u8>(), 0..400),
        entry in 0..ENTRIES.len(),
    ) {
        check(lay(&Odd { path: ENTRIES[entry], bytes, code: "", says: "" }));
    }

    #[test]
    fn a_spoilt_entry_never_panics(
        changes in prop::collection::vec((any::<usize>(), any::<usize>(), any::<u8>()), 1..6),
        entry in 0..ENTRIES.len(),
    ) {
        let laid = Laid::on("tiny", "");
        let path = laid.path().join(ENTRIES[entry]);
        let bytes = fs::read(&path).expect("the entry");
        fs::write(&path, mutated(bytes, &changes)).expect("the entry can be written");
        check(laid.read());
    }
}

/// A library says its form; one that says none is of the first, and a newer one is not half understood.
#[test]
fn a_library_of_a_newer_form_is_said_and_an_older_one_is_read() {
    let of = |form: &str| {
        let laid = Laid::on("tiny", "");
        let club = laid.path().join("club.yaml");
        let text = fs::read_to_string(&club).expect("the club");
        fs::write(&club, format!("{form}{text}")).expect("written");
        check(laid.read())
    };
    assert!(of("").is_empty() && of("format: 1\n").is_empty());
    for form in ["format: 2\n", "format: 0\n"] {
        let findings = of(form);
        let said = findings.iter().find(|finding| finding.headline.contains("this program reads"));
        assert!(said.is_some_and(|one| one.help.contains("--version")), "{form}: {findings:?}");
    }
    assert_eq!(of("format: new\n").len(), 1);
    let version =
        std::process::Command::new(env!("CARGO_BIN_EXE_rungbook")).arg("--version").output();
    let version = String::from_utf8(version.expect("the program runs").stdout).expect("text");
    let form = format!("(format {})\n", rungbook::library::FORMAT);
    assert!(version.ends_with(&form), "{version}");
}
