//! Small tables of `tests/facts/` and poses written as YAML, for the tests beside.
//! Never interprets a number: each test says what it compares.

use rungbook::finding::FileId;
use rungbook::gym::pose_tree;
use rungbook::library::reader::node::parse;
use rungbook::mechanics::node::PoseNode;
use std::collections::BTreeMap;
use std::path::Path;

/// The rows of `tests/facts/<name>.csv` by their headings.
pub fn table(name: &str) -> Vec<BTreeMap<String, String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/facts/{name}.csv"));
    let text = std::fs::read_to_string(path).expect("a table of facts");
    let mut lines = text.lines().map(fields);
    let head = lines.next().expect("headings");
    let rows: Vec<_> = lines.map(|row| head.iter().cloned().zip(row).collect()).collect();
    assert!(!rows.is_empty(), "{name} has no rows");
    rows
}

fn fields(line: &str) -> Vec<String> {
    let mut out = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => out.push(String::new()),
            c => out.last_mut().expect("a field").push(c),
        }
    }
    out
}

/// The number under a heading.
pub fn number(row: &BTreeMap<String, String>, key: &str) -> f64 {
    row[key].parse().unwrap_or_else(|_| panic!("{key}: {}", row[key]))
}

/// A pose as an author writes it.
pub fn pose(text: &str) -> PoseNode {
    match parse(text, FileId(0), 0) {
        Ok(node) => pose_tree(&node),
        Err(finding) => panic!("{text}: {}", finding.headline),
    }
}
