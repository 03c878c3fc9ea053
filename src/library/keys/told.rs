//! Keys in words: what `rungbook explain` says of a key, and the reference of all of them.
//! Never prints; returns text.

use super::{FILE_KINDS, FileKind, Key, ROSTER, Shape, Table, roster_tables, tables, tables_of};
use serde::Serialize;
use std::fmt::Write;

/// What a name says: a key, everywhere that it stands, or a map such as `ladder test`; nothing for a
/// name that no key has.
pub fn explained(name: &str) -> Option<String> {
    let name = name.trim().trim_end_matches(':').to_lowercase();
    let mut said = Vec::new();
    if let Some(table) = all_tables().into_iter().find(|table| table.name == name) {
        said.push(of_table(table));
    }
    for table in all_tables() {
        said.extend(table.key(&name).map(|key| of_key(key, table)));
    }
    (!said.is_empty()).then(|| said.join("\n"))
}

/// A key as a script may read it.
#[derive(Debug, Serialize)]
pub struct Told {
    key: &'static str,
    of: &'static str,
    file: String,
    what: &'static str,
    must: bool,
    write: String,
    example: &'static str,
}

/// The same as `explained` says of a key, for a script.
pub fn told(name: &str) -> Vec<Told> {
    let name = name.trim().trim_end_matches(':').to_lowercase();
    let one = |table: &'static Table| {
        let keys = table.keys.iter().filter(|key| key.name == name || table.name == name);
        keys.map(|key| Told {
            key: key.name,
            of: table.name,
            file: home(table),
            what: key.what,
            must: key.must,
            write: shape(&key.shape),
            example: key.example,
        })
    };
    all_tables().into_iter().flat_map(one).collect()
}

/// Every name that `explained` knows, in order, each once.
pub fn names() -> Vec<&'static str> {
    let tables = all_tables();
    let keys = tables.iter().flat_map(|table| table.keys).map(|key| key.name);
    let mut names: Vec<&str> = tables.iter().map(|table| table.name).chain(keys).collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// Every key with one line, map by map.
pub fn lines() -> String {
    let one = |table: &'static Table| {
        let keys = table.keys.iter().map(|key| format!("  {:14} {}\n", key.name, key.what));
        format!("{} (in {})\n{}\n", table.name, home(table), keys.collect::<String>())
    };
    all_tables().into_iter().map(one).collect()
}

/// The tables of a library's files and of the roster.
fn all_tables() -> Vec<&'static Table> {
    tables().into_iter().chain(roster_tables()).collect()
}

/// Where a map is written: `in a ladder's test, ladders/<id>.yaml`.
fn home(table: &Table) -> String {
    let has = |kind: &&FileKind| tables_of(kind).iter().any(|one| one.name == table.name);
    let homes: Vec<&str> =
        FILE_KINDS.iter().chain([&ROSTER]).filter(has).map(|kind| kind.home).collect();
    homes.join(", ")
}

fn of_key(key: &Key, table: &Table) -> String {
    let must = if key.must { " It must be there." } else { "" };
    format!(
        "{} ({}, in {})\n{}{must}\nWrite {}.\nFor example: {}: {}\n",
        key.name,
        table.name,
        home(table),
        key.what,
        shape(&key.shape),
        key.name,
        key.example,
    )
}

fn of_table(table: &Table) -> String {
    let mut text =
        format!("{} (in {})\nFor example: {}\n\n", table.name, home(table), table.example);
    for key in table.keys {
        let must = if key.must { " (must be there)" } else { "" };
        let _ = writeln!(text, "  {:14} {}{must}", key.name, key.what);
    }
    if let Some(others) = table.others {
        let _ = writeln!(text, "  {:14} {}", "other keys", others.what);
    }
    if !table.needs.is_empty() {
        let _ = writeln!(text, "\n{}", needed(table));
    }
    text
}

/// What may be written, to stand after "Write".
pub fn shape(shape: &Shape) -> String {
    match shape {
        Shape::Text => "one text".into(),
        Shape::Id(what) => format!("the id of a {what}"),
        Shape::Word([only]) => format!("`{only}`"),
        Shape::Word(words) => format!("one of: {}", words.join(", ")),
        Shape::Whole(from, to) if *to <= 2 => format!("a whole number from {from} to {to}"),
        Shape::Whole(..) => "a whole number".into(),
        Shape::Number(from, to) => format!("a number from {from} to {to}"),
        Shape::Truth => "`true` or `false`".into(),
        Shape::Quantity(unit) => format!("a number with its unit ({})", unit.accepted()),
        Shape::OfSetting => "a number in the setting's unit".into(),
        Shape::AnyQuantity => "a number with its unit, such as `45 deg`".into(),
        Shape::Reach => "`up to` or `from` a value, such as `up to 45 cm`".into(),
        Shape::Count(_) => "a number or a span such as `6-10`".into(),
        Shape::DoseInWords => "a dose such as `3 x 6-10` or `2 x 20 s`".into(),
        Shape::Day => "a day such as `2027-01-05`".into(),
        Shape::Address => "an address such as `https://club.example/book/`".into(),
        Shape::Language => "a BCP 47 tag such as `en-GB` or `de`".into(),
        Shape::Colour => "a colour as six hexadecimal digits, such as `#1f4e79`".into(),
        Shape::Pose => "a pose, see `rungbook explain pose`".into(),
        Shape::List(each) => format!("a list, each item {}", self::shape(each)),
        Shape::Map(table) => {
            let keys: Vec<&str> = table.keys.iter().map(|key| key.name).collect();
            let others = table.others.map_or(String::new(), |o| format!(", and {}", o.what));
            format!("keys and values ({}{others})", keys.join(", "))
        }
        Shape::Same(name) => format!("keys and values of a {name}"),
        Shape::Each(what, each) => format!("{what} by name, each with {}", self::shape(each)),
        Shape::Nothing => "nothing, the key alone".into(),
        Shape::Any(shapes) => shapes.iter().map(self::shape).collect::<Vec<_>>().join("; or "),
    }
}

/// The reference of every key, as Markdown.
pub fn reference() -> String {
    let mut text = String::new();
    let mut told: Vec<&str> = Vec::new();
    for kind in FILE_KINDS.iter().chain([&ROSTER]) {
        let _ = write!(text, "\n## {}\n", kind.home);
        for table in tables_of(kind) {
            if told.contains(&table.name) {
                continue;
            }
            told.push(table.name);
            rows(table, &mut text);
        }
    }
    text
}

/// `One of `fault`, `see` must be there.`
fn needed(table: &Table) -> String {
    let keys: Vec<String> = table.needs.iter().map(|key| format!("`{key}`")).collect();
    let how = if table.only_one { "Exactly one of" } else { "At least one of" };
    format!("{how} {} must be there.", keys.join(", "))
}

fn rows(table: &Table, text: &mut String) {
    let _ = write!(
        text,
        "\n**{}**: `{}`\n\n| key | what for | write |\n|---|---|---|\n",
        table.name, table.example
    );
    for key in table.keys {
        let must = if key.must { " It must be there." } else { "" };
        let written = shape(&key.shape).replace('|', "\\|");
        let _ = writeln!(
            text,
            "| `{}` | {}{must} | {written}: `{}: {}` |",
            key.name, key.what, key.name, key.example
        );
    }
    if let Some(others) = table.others {
        let _ = writeln!(text, "| other keys | {} | {} |", others.what, shape(&others.shape));
    }
    if !table.needs.is_empty() {
        let _ = write!(text, "\n{}\n", needed(table));
    }
}
