//! Tidy keeps what is said and every remark, is done after one time, and makes of one changed cue one
//! changed line: over every starter file, as it is and spoilt by dice in its layout alone.

use super::dice::Dice;
use rungbook::finding::FileId;
use rungbook::library::keys::{FileKind, kind_of_file};
use rungbook::library::reader;
use rungbook::library::tidy::{Untidy, tidied};
use std::path::{Path, PathBuf};
use walkdir::WalkDir;

fn content() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("content")
}

/// Every entry of the starter library: its path, its kind and its text.
fn starter() -> Vec<(String, &'static FileKind, String)> {
    let files = WalkDir::new(content()).sort_by_file_name().into_iter().flatten();
    let entry = |file: walkdir::DirEntry| {
        let below = file.path().strip_prefix(content()).ok()?;
        let path = below.to_string_lossy().replace('\\', "/");
        let kind = kind_of_file(&path)?;
        Some((path, kind, std::fs::read_to_string(file.path()).ok()?))
    };
    let found: Vec<_> = files.filter_map(entry).collect();
    assert!(found.len() > 150, "{}", found.len());
    found
}

fn tidy(path: &str, kind: &FileKind, text: &str) -> String {
    tidied(text, kind, FileId::default()).unwrap_or_else(|why| panic!("{path}: {why:?}\n{text}"))
}

/// What a YAML text says to a reader that is none of ours; the order of keys apart.
fn said(text: &str) -> serde_json::Value {
    let bare = text.trim_start_matches('\u{feff}');
    let yaml = match bare.starts_with("---") {
        true => bare[3..].split("\n---").next().expect("front matter"),
        false => bare,
    };
    serde_yaml::from_str(yaml).unwrap_or_else(|error| panic!("{text}\n{error}"))
}

/// The library in words, without places.
fn in_words(folder: &Path) -> String {
    let mut library = reader::read_as(folder, "content").expect("it is there");
    library.sources = rungbook::finding::Sources::default();
    let places = ["start: ", "end: ", "in_braces: "];
    let is_place = |line: &&str| {
        let line = line.trim();
        let value = places.iter().find_map(|place| line.strip_prefix(place));
        let value = value.map(|value| value.trim_end_matches(','));
        value.is_some_and(|value| value.parse::<u32>().is_ok() || value.parse::<bool>().is_ok())
    };
    let all = format!("{library:#?}");
    all.lines().filter(|line| !is_place(line)).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_starter_library_says_the_same_when_it_is_tidy() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut changed = 0;
    for (path, kind, text) in starter() {
        let fresh = tidy(&path, kind, &text);
        assert_eq!(tidy(&path, kind, &fresh), fresh, "{path} is tidy after one time");
        let body = |text: &str| text.split_once("\n---\n").map(|(_, body)| body.to_string());
        assert_eq!(body(&fresh), body(&text).filter(|_| path.ends_with(".md")).or(body(&fresh)));
        changed += usize::from(fresh != text);
        let file = folder.path().join(&path);
        std::fs::create_dir_all(file.parent().expect("a folder")).expect("made");
        std::fs::write(file, fresh).expect("written");
    }
    println!("{changed} starter files are not tidy");
    let (old, new) = (in_words(&content()), in_words(folder.path()));
    assert!(old.len() > 1_000_000, "the library is said: {}", old.len());
    if let Some((old, new)) = old.lines().zip(new.lines()).find(|(old, new)| old != new) {
        panic!("{old}\n{new}");
    }
    assert_eq!(old.len(), new.len());
}

#[test]
fn one_changed_cue_is_one_changed_line() {
    let mut tried = 0;
    for (path, kind, text) in starter().into_iter().filter(|(path, ..)| path.ends_with(".md")) {
        let tidy_text = tidy(&path, kind, &text);
        let says: Vec<&str> =
            tidy_text.match_indices("say: ").map(|(at, _)| &tidy_text[at..]).collect();
        for (number, found) in says.iter().enumerate() {
            let at = tidy_text.len() - found.len() + "say: ".len();
            let Some(letter) = tidy_text[at..].find(|c: char| c.is_ascii_lowercase()) else {
                continue;
            };
            let mut edited = tidy_text.clone();
            edited.replace_range(at + letter..=at + letter, "x");
            let again = tidy(&path, kind, &edited);
            let lines =
                again.lines().zip(tidy_text.lines()).filter(|(new, old)| new != old).count();
            assert_eq!(
                (lines, again.lines().count()),
                (1, tidy_text.lines().count()),
                "{path} {number}"
            );
            tried += 1;
        }
    }
    assert!(tried > 300, "{tried} cues");
}

/// Where a line is a key of the file itself, or of an entry of its words.
fn is_top(line: &str) -> bool {
    line.starts_with(|c: char| c.is_ascii_lowercase()) && line.contains(':')
}

/// The front matter or file, spoilt in its layout; with the remarks that were put in.
fn spoilt(text: &str, dice: &mut Dice) -> (String, Vec<String>) {
    let (head, yaml, tail) = match text.strip_prefix("---\n") {
        Some(rest) => {
            let end = rest.find("\n---").expect("closed") + 1;
            ("---\n", &rest[..end], &rest[end..])
        }
        None => ("", text, ""),
    };
    let mut lines: Vec<String> = yaml.lines().map(str::to_string).collect();
    let mut remarks = Vec::new();
    for number in 0..1 + dice.roll(5) {
        let at = dice.roll(lines.len());
        let line = lines[at].clone();
        let remark = format!("# remark {number} of {}", dice.roll(1000));
        let quoted = line.contains(['"', '\'', '#', '|', '>']);
        match dice.roll(6) {
            0 if !line.is_empty() => {
                let indent = " ".repeat(line.len() - line.trim_start().len());
                lines.insert(at, format!("{indent}{remark}"));
                remarks.push(remark);
            }
            1 if !quoted && !line.trim().is_empty() => {
                lines[at] = format!("{line}   {remark}");
                remarks.push(remark);
            }
            2 => lines.insert(at, String::new()),
            3 if !quoted && line.contains(", ") => {
                let indent = " ".repeat(line.len() - line.trim_start().len() + 4);
                let comma = line.find(", ").filter(|comma| line[..*comma].contains(['{', '[']));
                if let Some(comma) = comma {
                    lines[at] = format!("{},\n{indent}{}", &line[..comma], &line[comma + 2..]);
                }
            }
            4 if !quoted => {
                lines[at] = line.replace("{", "{ ").replace("}", " }").replace(": [", ":   [")
            }
            _ => shuffle(&mut lines, dice),
        }
    }
    (format!("{head}{}\n{tail}", lines.join("\n")), remarks)
}

/// Two neighbours of the file's own keys change places.
fn shuffle(lines: &mut [String], dice: &mut Dice) {
    let tops: Vec<usize> = (0..lines.len()).filter(|at| is_top(&lines[*at])).collect();
    if tops.len() < 3 {
        return;
    }
    let first = dice.roll(tops.len() - 2);
    lines[tops[first]..tops[first + 2]].rotate_left(tops[first + 1] - tops[first]);
}

#[test]
fn any_layout_keeps_its_meaning_and_its_remarks() {
    let mut dice = Dice(2026);
    let files = starter();
    let (mut tried, mut odd, mut put_in) = (0, Vec::new(), 0);
    while tried < 1200 {
        let (path, kind, text) = &files[dice.roll(files.len())];
        let (mut rough, remarks) = spoilt(text, &mut dice);
        let ends = dice.roll(8);
        if ends == 0 {
            rough = rough.replace('\n', "\r\n");
        }
        if ends == 1 {
            rough.insert(0, '\u{feff}');
        }
        tried += 1;
        let fresh = match tidied(&rough, kind, FileId::default()) {
            Ok(fresh) => fresh,
            Err(Untidy::Odd) => {
                odd.push(format!("{path}\n{rough}"));
                continue;
            }
            Err(Untidy::Unread(finding)) => panic!("{path}: {}\n{rough}", finding.headline),
        };
        put_in += remarks.len();
        assert_eq!(said(&fresh), said(&rough), "{path}");
        assert_eq!(
            tidy(path, kind, &fresh),
            fresh,
            "{path} is tidy after one time\n{rough}\n{fresh}"
        );
        for remark in &remarks {
            let lines = |text: &str| {
                text.lines().filter(|line| line.trim_end().ends_with(remark.as_str())).count()
            };
            assert_eq!(lines(&fresh), lines(&rough), "{path}: {remark}\n{fresh}");
        }
        assert_eq!(fresh.contains("\r\n"), ends == 0, "{path}");
        assert_eq!(fresh.starts_with('\u{feff}'), ends == 1, "{path}");
        assert!(!fresh.replace("\r\n", "").contains('\r'));
    }
    println!("{tried} layouts, {put_in} remarks put in, {} left as they are", odd.len());
    assert!(odd.len() * 20 <= tried, "{} of {tried}, such as\n{}", odd.len(), odd.join("\n\n"));
}

#[test]
fn the_order_in_which_keys_were_written_makes_no_difference() {
    let mut dice = Dice(7);
    let mut tried = 0;
    for (path, kind, text) in starter() {
        if text.contains('#') && !path.ends_with(".md") || path.starts_with("words/") {
            continue;
        }
        let start = usize::from(text.starts_with("---")) * 4;
        let end = text.find("\n---\n").filter(|_| start > 0).map_or(text.len(), |end| end + 1);
        let mut lines: Vec<String> = text[start..end].lines().map(str::to_string).collect();
        (0..20).for_each(|_| shuffle(&mut lines, &mut dice));
        let rough = format!("{}{}\n{}", &text[..start], lines.join("\n"), &text[end..]);
        assert_eq!(tidy(&path, kind, &rough), tidy(&path, kind, &text), "{path}");
        tried += usize::from(rough != text);
    }
    assert!(tried > 100, "{tried}");
}

fn ladder(text: &str) -> Result<String, Untidy> {
    tidied(text, kind_of_file("ladders/row.yaml").expect("a kind"), FileId::default())
}

#[test]
fn a_rough_ladder_is_laid_out_as_a_coach_would() {
    let rough = "\
# yaml-language-server: $schema=../.schemas/ladder.schema.json
goal: Five rows     # by spring
rungs: [{changes: share, movement: strap-row, lean: 45 deg}, {movement: bar-row, because: \"a long reason, which is why this line is much too long for anybody to read it\", hands: 60 cm}]
# What we call it.
name: Row
about: |
    From leaning back
    to hanging.
sources: [ common-practice , melrose-2015 ]
";
    let tidy = "\
# yaml-language-server: $schema=../.schemas/ladder.schema.json
# What we call it.
name: Row
goal: Five rows  # by spring
about: |
  From leaning back
  to hanging.
rungs:
  - {movement: strap-row, lean: 45 deg, changes: share}
  - movement: bar-row
    hands: 60 cm
    because: \"a long reason, which is why this line is much too long for anybody to read it\"
sources: [common-practice, melrose-2015]
";
    assert_eq!(ladder(rough).expect("it is read"), tidy);
    assert_eq!(ladder(tidy).expect("it is read"), tidy);
}

#[test]
fn what_cannot_be_laid_out_anew_is_left_and_what_cannot_be_read_is_said() {
    for odd in ["{name: Row, goal: Five}\n", "name: !text Row\n", "? name\n: Row\n"] {
        assert!(matches!(ladder(odd), Err(Untidy::Odd)), "{odd}");
    }
    let broken = ladder("name: Row\ngoal Five\n");
    assert!(
        matches!(&broken, Err(Untidy::Unread(f)) if f.headline.contains("no colon")),
        "{broken:?}"
    );
}
