//! Libraries of any size for benchmarks: the starter library's movements over and over, each copy
//! with ids of its own, one ladder of eight rungs for every eight movements.

use std::fs;
use std::path::{Path, PathBuf};

/// Writes a library of `entries` movements (and their ladders) into `dir`.
pub fn library(dir: &Path, entries: usize) {
    let starter = Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    copy(&starter.join("words"), &dir.join("words"));
    fs::copy(starter.join("club.yaml"), dir.join("club.yaml")).expect("club.yaml");
    let models = movements(&starter);
    let mut made = Vec::new();
    for number in 0..entries {
        let (folder, id, text) = &models[number % models.len()];
        let new_id = format!("{id}-{number}");
        let name_line = text.lines().find(|line| line.starts_with("name:")).expect("a name");
        let text = text
            .replacen(name_line, &format!("{name_line} {number}"), 1)
            .replace("\nbeside:", "\n#beside:")
            .lines()
            .map(without_links)
            .collect::<Vec<_>>()
            .join("\n");
        let folder = dir.join("movements").join(folder);
        fs::create_dir_all(&folder).expect("a folder");
        fs::write(folder.join(format!("{new_id}.md")), text + "\n").expect("a movement");
        made.push(new_id);
    }
    fs::create_dir_all(dir.join("ladders")).expect("a folder");
    for (number, rungs) in made.chunks(8).enumerate() {
        fs::write(dir.join(format!("ladders/ladder-{number}.yaml")), ladder(number, rungs))
            .expect("a ladder");
    }
}

/// A copy's ids are its own, so links to the models go.
fn without_links(line: &str) -> String {
    let line = match (line.trim_start().starts_with("- {see:"), line.find(", then:")) {
        (true, Some(at)) => format!("{}}}", &line[..at]),
        _ => line.to_string(),
    };
    line.replace("](", "] (")
}

fn ladder(number: usize, rungs: &[String]) -> String {
    let rungs: Vec<String> = rungs
        .iter()
        .enumerate()
        .map(|(at, id)| match at {
            0 => format!("  - {{movement: {id}}}"),
            _ => format!("  - {{movement: {id}, changes: skill, because: made up}}"),
        })
        .collect();
    format!(
        "name: Ladder {number}\ngoal: The top\nmoves-up: Two more, twice running\n\
         test: {{rung: 1, count: Repetitions, stop: Two faulty}}\ndose: 3 x 8\nrungs:\n{}\n",
        rungs.join("\n")
    )
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
