//! Libraries of any size for benchmarks: the starter library as it is, then its movements and ladders
//! over and over. Each copy has ids, names, words and settings of its own, and its links stay within
//! its round.

use std::fs;
use std::path::{Path, PathBuf};

/// Writes a library of `entries` movements (and their ladders) into `dir`; at least the starter
/// library.
pub fn library(dir: &Path, entries: usize) {
    let starter = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    copy(&starter.join("words"), &dir.join("words"));
    fs::copy(starter.join("club.yaml"), dir.join("club.yaml")).expect("club.yaml");
    let models = Models { movements: movements(&starter), ladders: ladders(&starter) };
    let whole = models.movements.len();
    let entries = entries.max(whole);
    for round in 0..entries.div_ceil(whole) {
        models.write(dir, round, (entries - round * whole).min(whole));
    }
    copy(&starter.join("sessions"), &dir.join("sessions"));
    copy(&starter.join("cycles"), &dir.join("cycles"));
}

struct Models {
    /// Folder, id and text.
    movements: Vec<(String, String, String)>,
    /// Id and text.
    ladders: Vec<(String, String)>,
}

impl Models {
    /// The first `many` movements of a round and every ladder on which one of them stands; its other
    /// rungs are the starter's.
    fn write(&self, dir: &Path, round: usize, many: usize) {
        let there = &self.movements[..many];
        let known = |id: &str| there.iter().any(|(_, model, _)| model == id);
        for (number, (folder, id, text)) in there.iter().enumerate() {
            let folder = dir.join("movements").join(folder);
            fs::create_dir_all(&folder).expect("a folder");
            let text = self.varied(text, round, number, &known);
            fs::write(folder.join(format!("{}.md", named(id, round))), text).expect("a movement");
        }
        fs::create_dir_all(dir.join("ladders")).expect("a folder");
        for (id, text) in &self.ladders {
            if !rungs(text).any(&known) {
                continue;
            }
            let text = self.relinked(&renamed(text, round), round, &known);
            fs::write(dir.join(format!("ladders/{}.yaml", named(id, round))), text)
                .expect("a ladder");
        }
    }

    fn varied(
        &self,
        text: &str,
        round: usize,
        number: usize,
        known: &impl Fn(&str) -> bool,
    ) -> String {
        let text = self.relinked(text, round, known);
        if round == 0 {
            return text;
        }
        let mut dice = (round as u64) << 32 | number as u64;
        let mut out = String::new();
        for line in renamed(&text, round).lines() {
            match line.strip_prefix("aliases: [") {
                // Two entries of one alias are no fault, but a library is not made of them.
                Some(rest) => out.push_str(&format!("aliases: [round {round} {rest}")),
                // A pose written otherwise is another pose, though it is drawn alike.
                None if line.trim_start().starts_with("start: {") => {
                    let wider = format!("start: {{{}", " ".repeat(round));
                    out.push_str(&line.replacen("start: {", &wider, 1));
                }
                None => out.push_str(&moved(line, &mut dice)),
            }
            out.push('\n');
        }
        out.push_str(&format!("\n## Notes\n{}.\n", words(&mut dice, 40)));
        out
    }

    /// Links that lead to a model lead to its copy of the round; what is not there is the starter's.
    fn relinked(&self, text: &str, round: usize, known: &impl Fn(&str) -> bool) -> String {
        const BEFORE: [&str; 6] =
            ["{to: ", "{movement: ", "](movements/", "](ladders/", "then: \"", "then: "];
        let mut out = String::new();
        let mut rest = text;
        while let Some((at, before)) = first_of(rest, &BEFORE) {
            let (done, after) = rest.split_at(at + before.len());
            let end = after.find(|c: char| !c.is_ascii_lowercase() && c != '-');
            let (id, after) = after.split_at(end.unwrap_or(after.len()));
            let ladder = self.ladders.iter().find(|(model, _)| model == id);
            let whole = ladder.is_some_and(|(_, text)| rungs(text).any(known));
            let is_here = known(id) || (before == "](ladders/" && whole);
            out.push_str(done);
            out.push_str(&if is_here { named(id, round) } else { id.to_string() });
            rest = after;
        }
        out + rest
    }
}

/// The first of `marks` in a text, the longest where two begin there.
fn first_of<'m>(text: &str, marks: &[&'m str]) -> Option<(usize, &'m str)> {
    let found = marks.iter().filter_map(|mark| Some((text.find(mark)?, *mark)));
    found.min_by_key(|(at, mark)| (*at, usize::MAX - mark.len()))
}

/// The movements of a ladder's rungs.
fn rungs(ladder: &str) -> impl Iterator<Item = &str> {
    let named = ladder.lines().filter_map(|line| line.trim_start().strip_prefix("- {movement: "));
    named.map(|rest| rest.split([',', '}']).next().unwrap_or_default().trim())
}

fn named(id: &str, round: usize) -> String {
    if round == 0 { id.to_string() } else { format!("{id}-{round}") }
}

/// The name of a copy; a name in quotes keeps them.
fn renamed(text: &str, round: usize) -> String {
    let Some(line) = text.lines().find(|line| line.starts_with("name:") && round > 0) else {
        return text.to_string();
    };
    let name = match line.strip_suffix('"') {
        Some(open) => format!("{open} {round}\""),
        None => format!("{line} {round}"),
    };
    text.replacen(line, &name, 1)
}

/// A setting's line with another usual value of its range, not far from the model's.
fn moved(line: &str, dice: &mut u64) -> String {
    let value = |key: &str| {
        let rest = line.split_once(key)?.1;
        rest.split(',').next()?.trim().parse::<f64>().ok()
    };
    let (Some(from), Some(to), Some(usual)) = (value("from: "), value("to: "), value("usual: "))
    else {
        return line.to_string();
    };
    let by = (throw(dice) % 5) as f64 - 2.0;
    let other = (usual + by).clamp(from, to);
    // What a lean shows of the body is said beside it, by degrees.
    if usual == 0.0 || line.trim_start().starts_with("lean:") {
        line.to_string()
    } else {
        line.replacen(&format!("usual: {usual}"), &format!("usual: {other}"), 1)
    }
}

/// Some words of a coach in no order.
fn words(dice: &mut u64, many: usize) -> String {
    const WORDS: [&str; 24] = [
        "slow",
        "heels",
        "ribs",
        "breathe",
        "floor",
        "quiet",
        "lean",
        "elbows",
        "steady",
        "tall",
        "hands",
        "count",
        "lower",
        "press",
        "knees",
        "soft",
        "hips",
        "level",
        "reach",
        "hold",
        "shoulders",
        "long",
        "weight",
        "turn",
    ];
    let said: Vec<&str> =
        (0..many).map(|_| WORDS[(throw(dice) % WORDS.len() as u64) as usize]).collect();
    said.join(" ")
}

/// The next number of a fixed row that looks like chance.
fn throw(dice: &mut u64) -> u64 {
    *dice = dice.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
    *dice >> 33
}

fn movements(starter: &Path) -> Vec<(String, String, String)> {
    let mut models = Vec::new();
    for folder in sorted(&starter.join("movements")) {
        for file in sorted(&folder) {
            let text = fs::read_to_string(&file).expect("a movement");
            models.push((name(&folder), name(&file).trim_end_matches(".md").to_string(), text));
        }
    }
    models
}

fn ladders(starter: &Path) -> Vec<(String, String)> {
    let read = |file: PathBuf| {
        let text = fs::read_to_string(&file).expect("a ladder");
        (name(&file).trim_end_matches(".yaml").to_string(), text)
    };
    sorted(&starter.join("ladders")).into_iter().map(read).collect()
}

fn sorted(dir: &Path) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> =
        fs::read_dir(dir).expect("a folder").map(|entry| entry.expect("an entry").path()).collect();
    paths.sort();
    paths
}

fn name(path: &Path) -> String {
    path.file_name().map_or(String::new(), |name| name.to_string_lossy().into_owned())
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for file in sorted(from) {
        fs::copy(&file, to.join(name(&file))).expect("a file");
    }
}
