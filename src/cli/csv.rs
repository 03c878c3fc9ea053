//! `rungbook csv`: the simple fields of movements as a table for a spreadsheet, and back.
//! Never takes a field away, adds an entry or writes anything where one row cannot be understood.

use super::exchange::{Change, Writing};
use super::files::is_stdin;
use super::say::{self, LibraryDir, Outcome, Trouble};
use crate::finding::{Severity, did_you_mean};
use crate::library::cells::{self, COLUMNS, Changed, shielded, unshielded};
use crate::library::reader::Texts;
use clap::Subcommand;
use std::collections::BTreeMap;
use std::io::Read;
use std::path::PathBuf;

/// Movements' names, standards and other simple fields as a table (CSV), out and in
#[derive(clap::Args)]
#[command(after_help = "Examples:\n  rungbook csv out > movements.csv\n  \
    rungbook csv in movements.csv --dry-run\n  rungbook csv in movements.csv\n\n\
    Several words in a cell stand between semicolons. An empty cell changes nothing, and so does a row \
    or a column that is left out; the id finds the entry and never changes.")]
pub struct Csv {
    #[command(subcommand)]
    task: Task,
}

#[derive(Subcommand)]
enum Task {
    /// Print the table
    Out(Out),
    /// Write what has changed in a table into the entries
    In(In),
}

#[derive(clap::Args)]
struct Out {
    #[command(flatten)]
    library: LibraryDir,
}

#[derive(clap::Args)]
struct In {
    /// The table; `-` for standard input
    file: PathBuf,
    /// Change nothing: only say what would change
    #[arg(long, short = 'n')]
    dry_run: bool,
    #[command(flatten)]
    library: LibraryDir,
}

/// A table of two thousand movements has half of it.
const BIGGEST: u64 = 4 << 20;

impl Csv {
    pub fn run(self) -> Result<Outcome, Trouble> {
        match self.task {
            Task::Out(out) => out.run(),
            Task::In(table) => table.run(),
        }
    }
}

impl Out {
    fn run(self) -> Result<Outcome, Trouble> {
        let texts = self.library.texts()?;
        let mut table =
            ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(Vec::new());
        let refused = |error: ::csv::Error| {
            Trouble::new(format!("no table can be made: {error}"), "run `rungbook check`")
        };
        table.write_record(COLUMNS).map_err(refused)?;
        let mut unread = Vec::new();
        for (id, path, text) in movements(&texts) {
            match cells::row(&id, text) {
                Some(row) => {
                    table.write_record(row.iter().map(|cell| shielded(cell))).map_err(refused)?
                }
                None => unread.push(path),
            }
        }
        let bytes = table.into_inner().unwrap_or_default();
        say::print(String::from_utf8_lossy(&bytes));
        for path in &unread {
            say::tell(format!(
                "{path} cannot be read and is left out: `rungbook check {path}` says why\n"
            ));
        }
        Ok(if unread.is_empty() { Outcome::Fine } else { Outcome::Findings })
    }
}

/// Every movement: its id, its path below the library, its text.
fn movements(texts: &Texts) -> impl Iterator<Item = (String, String, &str)> {
    texts.files().filter_map(|(parts, text)| {
        let name = parts.last()?.strip_suffix(".md")?;
        let is_one = parts.len() > 1 && parts.first().is_some_and(|first| first == "movements");
        is_one.then(|| (name.to_string(), parts.join("/"), text))
    })
}

impl In {
    fn run(self) -> Result<Outcome, Trouble> {
        let rows = rows(&self.text()?)?;
        let dir = self.library.found();
        self.library.must_exist()?;
        let writing = Writing::begin(&dir)?;
        let read = || Texts::read(&dir, &dir.to_string_lossy()).map_err(say::no_library);
        let texts = read()?;
        let known: BTreeMap<String, (String, &str)> =
            movements(&texts).map(|(id, path, text)| (id, (path, text))).collect();
        let (mut changes, mut said, mut fresh) = (Vec::new(), String::new(), read()?);
        for (line, id, cells) in rows {
            let Some((path, text)) = known.get(&id) else {
                let help = did_you_mean(
                    &id,
                    known.keys().map(String::as_str),
                    "take the row away, or write that entry first with `rungbook add movement`",
                );
                let sentence =
                    format!("line {line}: there is no movement `{id}`; nothing was written");
                return Err(Trouble::new(sentence, help));
            };
            let changed = cells::with_cells(text, &cells);
            let (new, changed) = changed.ok_or_else(|| {
                let sentence =
                    format!("line {line}: `{id}` cannot be changed so; nothing was written");
                Trouble::new(sentence, format!("mend it first: `rungbook check {path}`"))
            })?;
            if changed.is_empty() {
                continue;
            }
            said += &changed.iter().map(|cell| told(path, cell)).collect::<String>();
            let parts: Vec<String> = path.split('/').map(str::to_string).collect();
            fresh = fresh.with_unsaved(&parts, new.clone());
            let old = Some(text.to_string());
            changes.push(Change { path: PathBuf::from(path), old, new: Some(new) });
        }
        refuse_errors(read()?, fresh)?;
        if !self.dry_run {
            writing.make(&changes)?;
        }
        let files = say::counted(changes.len(), "entry");
        let closing = match (changes.is_empty(), self.dry_run) {
            (true, _) => "nothing differs\n".to_string(),
            (_, true) => format!("{files} would change; nothing was written\n"),
            _ => format!("{files} changed\n"),
        };
        say::print(said + &closing);
        Ok(Outcome::Fine)
    }

    fn text(&self) -> Result<String, Trouble> {
        let shown = say::shown(&self.file);
        let mut bytes = Vec::new();
        let read = match is_stdin(&self.file) {
            true => std::io::stdin().lock().take(BIGGEST + 1).read_to_end(&mut bytes),
            false => std::fs::File::open(&self.file)
                .and_then(|file| file.take(BIGGEST + 1).read_to_end(&mut bytes)),
        };
        read.map_err(|error| {
            let help = "name the table that your spreadsheet saved";
            Trouble::new(format!("`{shown}` could not be read: {error}"), help)
        })?;
        if bytes.len() as u64 > BIGGEST {
            let help = "keep only the rows that you changed";
            return Err(Trouble::new(format!("`{shown}` is over 4 MB"), help));
        }
        String::from_utf8(bytes).map_err(|_| {
            let help = "save it in your spreadsheet as CSV with UTF-8";
            Trouble::new(format!("`{shown}` is not UTF-8 text"), help)
        })
    }
}

/// A row: its line, the id, and each known column with its cell.
type Row = (u64, String, Vec<(&'static str, String)>);

fn rows(text: &str) -> Result<Vec<Row>, Trouble> {
    let text = text.trim_start_matches('\u{feff}');
    let head = text.lines().next().unwrap_or_default();
    // Where a decimal has a comma, spreadsheets put semicolons between cells.
    let between = if head.contains(';') && !head.contains(',') { b';' } else { b',' };
    let mut reader = ::csv::ReaderBuilder::new().delimiter(between).from_reader(text.as_bytes());
    let columns = columns(reader.headers().map_err(|error| odd(&error))?)?;
    let mut rows: Vec<Row> = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|error| odd(&error))?;
        let line = record.position().map_or(0, |place| place.line());
        let cells: Vec<(&'static str, String)> = columns
            .iter()
            .zip(record.iter())
            .map(|(column, cell)| (*column, unshielded(cell).to_string()))
            .collect();
        let id = cells.iter().find(|(column, _)| *column == "id");
        let id = id.map(|(_, id)| id.trim().to_string()).unwrap_or_default();
        if let Some((first, ..)) = rows.iter().find(|(_, known, _)| *known == id) {
            let sentence =
                format!("lines {first} and {line} are both of `{id}`; nothing was written");
            return Err(Trouble::new(sentence, "keep one of the two rows"));
        }
        if !id.is_empty() {
            rows.push((line, id, cells));
        }
    }
    Ok(rows)
}

fn columns(head: &::csv::StringRecord) -> Result<Vec<&'static str>, Trouble> {
    let known = |word: &str| {
        let found = COLUMNS.into_iter().find(|column| *column == word.trim().to_lowercase());
        found.ok_or_else(|| {
            let help = format!("columns are: {}", COLUMNS.join(", "));
            let help = did_you_mean(word.trim(), COLUMNS, &help);
            Trouble::new(format!("no column is called `{}`", word.trim()), help)
        })
    };
    // A file of another kind may hold what is nobody's to read here: nothing of it is shown.
    if !head.iter().any(|word| COLUMNS.contains(&word.trim().to_lowercase().as_str())) {
        return Err(Trouble::new(
            "the first line names no column of such a table",
            "begin with a table from `rungbook csv out`",
        ));
    }
    let columns: Vec<&'static str> = head.iter().map(known).collect::<Result<_, _>>()?;
    match columns.contains(&"id") {
        true => Ok(columns),
        false => Err(Trouble::new(
            "the table has no column `id`, so nobody knows which entry a row is of",
            "begin with a table from `rungbook csv out`",
        )),
    }
}

fn odd(error: &::csv::Error) -> Trouble {
    let line = error.position().map_or(String::new(), |place| format!(" in line {}", place.line()));
    Trouble::new(
        format!(
            "the table cannot be read{line}: that row has more or fewer cells than the first, or a quote is left open"
        ),
        "put quotes round a cell with a comma in it, or save the table anew from your spreadsheet",
    )
}

/// A word that no such field has would be a new error.
fn refuse_errors(before: Texts, after: Texts) -> Result<(), Trouble> {
    let errors = |texts: Texts| {
        let mut library = texts.library();
        library.findings.retain(|finding| finding.severity == Severity::Error);
        library
    };
    let (before, after) = (errors(before), errors(after));
    let is_known = |finding: &&crate::finding::Finding| {
        before
            .findings
            .iter()
            .all(|old| (old.code, &old.headline) != (finding.code, &finding.headline))
    };
    let new: Vec<_> = after.findings.iter().filter(is_known).cloned().collect();
    if new.is_empty() {
        return Ok(());
    }
    say::findings(&new, &after.sources);
    let help = "the places above are as they would be afterwards; mend those cells in the table";
    Err(Trouble::new("the table holds what no entry can have; nothing was written", help))
}

fn told(path: &str, cell: &Changed) -> String {
    let was = if cell.old.is_empty() { "nothing".to_string() } else { format!("`{}`", cell.old) };
    format!("{path}: {}: {was} -> `{}`\n", cell.column, cell.new)
}
