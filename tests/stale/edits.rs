//! Edits as coaches, editors and bad disks make them, by dice.
//! Never chooses what is easy: whatever a library is made of may change, break, go and come back.

use super::running::Place;
use std::fs;
use std::path::{Path, PathBuf};
use walkdir::WalkDir;

/// A fixed row of numbers that looks like chance.
pub struct Dice(u64);

impl Dice {
    /// A row of its own for every number.
    pub fn new(number: u64) -> Dice {
        Dice(number.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// The next number below `below`.
    pub fn throw(&mut self, below: usize) -> usize {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % below
    }
}

fn files(place: &Place, below: &str) -> Vec<PathBuf> {
    let walk = WalkDir::new(place.path(below)).sort_by_file_name().into_iter().flatten();
    walk.filter(|entry| entry.file_type().is_file())
        .map(|entry| entry.path().to_path_buf())
        .collect()
}

fn any(place: &Place, below: &str, dice: &mut Dice) -> PathBuf {
    let files = files(place, below);
    assert!(!files.is_empty(), "{below} has no files left");
    files[dice.throw(files.len())].clone()
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).expect("a text")
}

/// Changes the first line that begins with `start`; false where there is none.
fn change(path: &Path, start: &str, to: impl Fn(&str) -> String) -> bool {
    let old = text(path);
    let mut done = false;
    let lines = old.lines().map(|line| {
        if done || !line.trim_start().starts_with(start) {
            return line.to_string();
        }
        done = true;
        to(line)
    });
    let new = lines.collect::<Vec<_>>().join("\n") + "\n";
    fs::write(path, new).expect("written");
    done
}

/// The line with another level of lying on the back, and a reason, so that no pose speaks against it;
/// the traits that poses show stay, since an entry without them is an error.
fn another_trait(line: &str, level: usize) -> String {
    let said = |level: usize| format!(", supine: {{level: {level}, because: Tried here}}");
    let plain = line.replace(", supine: 2", "").replace(&said(1), "").replace(&said(2), "");
    format!("{}{}}}", plain.strip_suffix('}').unwrap_or(&plain), said(level))
}

/// One edit of the library or the theme, in words for whoever reads a failure.
pub fn library(place: &Place, dice: &mut Dice) -> String {
    let number = dice.throw(1000);
    let movement = any(place, "content/movements", dice);
    let ladder = any(place, "content/ladders", dice);
    let cycle = any(place, "content/cycles", dice);
    let what = match dice.throw(27) {
        0 => "nothing".to_string(),
        1 => {
            fs::write(&movement, text(&movement) + &format!("\nWords {number}.\n"))
                .expect("written");
            format!("body of {movement:?}")
        }
        2 => at(&movement, "cues:", |_| format!("cues: [Long neck {number}, Elbows back]")),
        3 => at(&movement, "name:", |line| format!("{line} {}", number % 7)),
        4 => at(&movement, "traits:", |line| another_trait(line, 1 + number % 2)),
        5 => at(&movement, "kit:", |_| {
            ["kit: []", "kit: [band]", "kit: [straps]"][number % 3].into()
        }),
        6 => at(&movement, "standard:", |_| format!("standard: Chest to the edge {number}.")),
        7 => at(&movement, "start:", |line| line.replacen("start: {", "start: { ", 1)),
        8 => at(&movement, "end:", |line| line.replacen("elbow: ", "elbow: 1", 1)),
        9 => at(&movement, "aliases:", |_| format!("aliases: [other name {number}]")),
        10 => at(&movement, "pace:", |_| format!("pace: {} s", 2 + number % 4)),
        11 => turned(&ladder),
        12 => at(&ladder, "goal:", |_| format!("goal: Goal {number}")),
        13 => {
            at(&any(place, "content/sessions", dice), "name:", |_| format!("name: Night {number}"))
        }
        14 => at(&any(place, "content/sessions", dice), "window:", |_| {
            format!("    window: {} min", 20 + number % 9)
        }),
        15 => at(&cycle, "name:", |_| format!("name: Spring {number}")),
        16 => at(&place.path("content/words/cautions.yaml"), "says:", |_| {
            format!("  says: Say {number}.")
        }),
        17 => {
            at(&place.path("content/words/faults.yaml"), "say:", |_| format!("  say: Say {number}"))
        }
        18 => {
            at(&place.path("content/club.yaml"), "name:", |_| format!("name: Thornmere {number}"))
        }
        19 => {
            place.save("look/styles/club.css", &format!("body {{ margin: {number}px }}\n"));
            "a style of the theme".to_string()
        }
        20 => {
            let words = format!("Cues {number}");
            let page = format!(
                "{{% extends \"slate/movement.html\" %}}\n{{% block cues %}}{words}{{% endblock %}}\n"
            );
            place.save("look/templates/movement.html", &page);
            "a template of the theme".to_string()
        }
        21 => aside(place, &any(place, "content", dice), dice),
        _ => back(place),
    };
    format!("{number}: {what}")
}

fn at(path: &Path, start: &str, to: impl Fn(&str) -> String) -> String {
    let done = change(path, start, to);
    format!("{start} of {path:?}{}", if done { "" } else { " (it has none)" })
}

/// Two neighbouring rungs change places.
fn turned(ladder: &Path) -> String {
    let old = text(ladder);
    let mut lines: Vec<&str> = old.lines().collect();
    let rungs: Vec<usize> =
        (0..lines.len()).filter(|at| lines[*at].contains("{movement:")).collect();
    if let [.., a, b] = rungs[..] {
        lines.swap(a, b);
    }
    fs::write(ladder, lines.join("\n") + "\n").expect("written");
    format!("rungs of {ladder:?}")
}

/// Where files go that are deleted, to come back.
const ASIDE: &str = "aside";

/// A file goes, is called otherwise, or moves to another folder.
fn aside(place: &Place, file: &Path, dice: &mut Dice) -> String {
    let below = file.strip_prefix(place.path("content")).expect("below").to_path_buf();
    let kind = below.iter().next().expect("a name").to_string_lossy().into_owned();
    if files(place, &format!("content/{kind}")).len() < 2 {
        return format!("{below:?} stays: it is the last of its kind");
    }
    let kept = place.path(ASIDE).join(&below);
    fs::create_dir_all(kept.parent().expect("a folder")).expect("a folder");
    fs::copy(file, &kept).expect("a copy");
    // Without a word or a ladder nothing builds: such edits are for one turn.
    let to = match dice.throw(3) {
        0 => None,
        1 => Some(file.with_file_name(format!(
            "other-{}",
            file.file_name().expect("a name").to_string_lossy()
        ))),
        _ => Some(
            place.path("content/movements/push-vertical").join(file.file_name().expect("a name")),
        ),
    };
    match &to {
        None => fs::remove_file(file).expect("it goes"),
        Some(to) => {
            fs::create_dir_all(to.parent().expect("a folder")).expect("a folder");
            fs::rename(file, to).expect("it moves");
            // What is moved is taken away when the file comes back.
            let note = place.path(ASIDE).join("moved");
            let before = fs::read_to_string(&note).unwrap_or_default();
            fs::write(&note, format!("{before}{}\n", to.display())).expect("noted");
        }
    }
    format!("{below:?} goes to {to:?}")
}

/// Everything that went comes back as it was.
fn back(place: &Place) -> String {
    let note = place.path(ASIDE).join("moved");
    for moved in fs::read_to_string(&note).unwrap_or_default().lines() {
        let _ = fs::remove_file(moved);
    }
    let _ = fs::remove_file(&note);
    let files = if place.path(ASIDE).exists() { files(place, ASIDE) } else { Vec::new() };
    for file in &files {
        let below = file.strip_prefix(place.path(ASIDE)).expect("below");
        fs::copy(file, place.path("content").join(below)).expect("a copy");
    }
    let _ = fs::remove_dir_all(place.path(ASIDE));
    format!("{} files come back", files.len())
}

/// What builds remember is spoilt, or somebody writes into the site.
pub fn remembered(place: &Place, dice: &mut Dice) -> Option<String> {
    let folder = match dice.throw(5) {
        0 | 1 => ".site.rungbook-kept",
        2 => "site",
        _ => return None,
    };
    if !place.path(folder).exists() {
        return None;
    }
    let file = any(place, folder, dice);
    let mut bytes = fs::read(&file).expect("it reads");
    if file.ends_with(".rungbook") || bytes.is_empty() {
        return None;
    }
    let at = dice.throw(bytes.len());
    let how = match dice.throw(4) {
        0 => {
            fs::remove_file(&file).expect("it goes");
            "gone"
        }
        1 => {
            fs::write(&file, &bytes[..at]).expect("cut");
            "cut short"
        }
        2 => {
            // It may have gone before.
            let _ = fs::remove_dir_all(place.path(".site.rungbook-kept"));
            "with all that is kept gone"
        }
        _ => {
            bytes[at] ^= 1 << dice.throw(8);
            fs::write(&file, bytes).expect("spoilt");
            "spoilt"
        }
    };
    Some(format!("{file:?} {how}"))
}
