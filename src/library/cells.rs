//! Cells: the simple fields of movements as a table, and changed cells back into an entry's text.
//! Pure: never takes a field away, and never touches what stands in no column.

use super::reader::front_matter;
use super::reader::node::{self, Kind, Node};
use super::rename::{key, spliced};
use super::tidy::words::{in_block, in_brackets};
use crate::finding::FileId;

/// The columns, in order; of the id only to find the entry.
pub const COLUMNS: [&str; 10] =
    ["id", "name", "aliases", "purpose", "counts", "sides", "plane", "pace", "standard", "caution"];

/// What stands between the words of a cell that holds several.
const BETWEEN: &str = "; ";

/// A cell that changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Changed {
    /// Its column.
    pub column: &'static str,
    /// What stood there.
    pub old: String,
    /// What stands there afterwards.
    pub new: String,
}

/// A cell that starts as a formula gets an apostrophe before it: a spreadsheet would reckon it.
pub fn shielded(cell: &str) -> String {
    let formula = cell.starts_with(['=', '+', '-', '@']);
    if formula { format!("'{cell}") } else { cell.to_string() }
}

/// The cell as it was before [`shielded`].
pub fn unshielded(cell: &str) -> &str {
    let bare = cell.strip_prefix('\'').filter(|bare| bare.starts_with(['=', '+', '-', '@']));
    bare.unwrap_or(cell)
}

/// The cells of an entry, in the order of the columns; nothing where it cannot be read.
pub fn row(id: &str, text: &str) -> Option<Vec<String>> {
    let tree = tree(text)?;
    let cell = |column: &&str| match *column {
        "id" => id.to_string(),
        column => key(&tree, column).map_or(String::new(), |(_, value)| said(value)),
    };
    Some(COLUMNS.iter().map(cell).collect())
}

/// The text of an entry with other cells, and which of them change. An empty cell changes nothing.
/// Nothing where the entry cannot be read, or has another shape there than a table can hold.
pub fn with_cells(text: &str, cells: &[(&'static str, String)]) -> Option<(String, Vec<Changed>)> {
    let tree = tree(text)?;
    let (mut splices, mut changed) = (Vec::new(), Vec::new());
    for (column, cell) in cells.iter().filter(|(column, _)| *column != "id") {
        let new = cell.trim();
        let found = key(&tree, column);
        let old = found.map_or(String::new(), |(_, value)| said(value));
        if new.is_empty() || new == old {
            continue;
        }
        let written = match *column {
            "aliases" => {
                let words = new.split(';').map(str::trim).filter(|word| !word.is_empty());
                format!("[{}]", words.map(in_brackets).collect::<Vec<_>>().join(", "))
            }
            _ => in_block(new),
        };
        splices.push(match found {
            Some((name, value)) => {
                let from = name.span.end as usize;
                (from, value.end_in(text).max(from + 1), format!(": {written}"))
            }
            None => {
                let (_, name) = key(&tree, "name")?;
                let after = name.end_in(text);
                let after = after + text[after..].find(['\r', '\n'])?;
                let end = if text.contains("\r\n") { "\r\n" } else { "\n" };
                (after, after, format!("{end}{column}: {written}"))
            }
        });
        changed.push(Changed { column, old, new: new.to_string() });
    }
    let fresh = spliced(text, splices);
    let again = self::tree(&fresh)?;
    // What the table says is what is read, else nothing is changed.
    let holds = |cell: &Changed| {
        let same = |text: &str| text.split(';').map(str::trim).collect::<Vec<_>>().join(BETWEEN);
        key(&again, cell.column).is_some_and(|(_, value)| same(&said(value)) == same(&cell.new))
    };
    changed.iter().all(holds).then_some((fresh, changed))
}

fn tree(text: &str) -> Option<Node> {
    let base = text.len() - text.trim_start_matches('\u{feff}').len();
    let (yaml, _) = front_matter(text)?;
    node::parse(yaml, FileId::default(), base).ok()
}

fn said(node: &Node) -> String {
    match &node.kind {
        Kind::Scalar(text) => text.trim().to_string(),
        Kind::List(items) => items.iter().map(said).collect::<Vec<_>>().join(BETWEEN),
        _ => String::new(),
    }
}
