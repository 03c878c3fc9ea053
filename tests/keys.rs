//! Keys are described once: schemas, reference and readers say the same of every file.
//! The schemas are held to the files by the jsonschema crate, which knows nothing of our readers.
//!
//! `RUNGBOOK_BLESS=1 cargo test --test keys` writes src/library/keys/KEYS.md anew. Read it as a coach would.

mod laid;
#[path = "keys/roster.rs"]
mod roster;
#[path = "keys/spoilt.rs"]
mod spoilt;

use rungbook::library::keys::{FILE_KINDS, FileKind, Key, Shape, Table, schema, tables, told};
use rungbook::mechanics::words::told as pose;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use walkdir::WalkDir;

fn house() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// YAML as editors hand it to a validator.
fn yaml(text: &str) -> Value {
    serde_yaml::from_str(text).unwrap_or_else(|error| panic!("{text}\n{error}"))
}

/// What a schema is held against: the whole of a YAML file, the front matter of a movement.
fn front(path: &Path, text: &str) -> String {
    match path.extension().is_some_and(|ending| ending == "md") {
        true => text.split("---\n").nth(1).expect("front matter").to_string(),
        false => text.to_string(),
    }
}

fn validator(kind: &FileKind) -> jsonschema::Validator {
    jsonschema::draft202012::new(&schema::schema(kind)).expect("a schema")
}

fn is_of(kind: &FileKind, path: &str) -> bool {
    let (folder, ending) = kind.home.split_once('<').unwrap_or((kind.home, ""));
    path.starts_with(folder) && path.ends_with(ending.rsplit('.').next().unwrap_or_default())
}

fn starter_files(kind: &FileKind) -> Vec<PathBuf> {
    let content = house().join("content");
    let files = WalkDir::new(&content).sort_by_file_name().into_iter().flatten();
    let named = files.filter(|entry| entry.file_type().is_file()).filter(|entry| {
        let below = entry.path().strip_prefix(&content).expect("below content");
        is_of(kind, &below.to_string_lossy())
    });
    named.map(|entry| entry.into_path()).collect()
}

#[test]
fn every_starter_file_follows_its_schema() {
    let mut held = 0;
    for kind in &FILE_KINDS {
        let validator = validator(kind);
        let files = starter_files(kind);
        assert!(!files.is_empty(), "the starter library has a file in {}", kind.home);
        for path in files {
            let text = std::fs::read_to_string(&path).expect("it reads");
            let value = yaml(&front(&path, &text));
            let faults: Vec<String> = validator
                .iter_errors(&value)
                .map(|error| format!("{}: {error}", error.instance_path()))
                .collect();
            assert!(faults.is_empty(), "{}\n{}", path.display(), faults.join("\n"));
            held += 1;
        }
    }
    assert!(held > 150, "{held} files");
}

/// The schema of one key alone, with the tables that it leads to.
fn schema_of(key: &Key, table: &Table) -> Value {
    let kind = FILE_KINDS.iter().find(|kind| {
        rungbook::library::keys::tables_of(kind).iter().any(|one| one.name == table.name)
    });
    let mut whole = schema::schema(kind.expect("a kind of file"));
    let one = &whole["$defs"][table.name.replace(' ', "-")]["properties"][key.name];
    let one = one.as_object().expect("the key's schema").clone();
    let mut alone = json!({"$defs": whole["$defs"].take()});
    alone.as_object_mut().expect("an object").extend(one);
    alone
}

#[test]
fn every_example_is_what_its_schema_asks_for() {
    for table in tables() {
        for key in table.keys {
            let value = yaml(&format!("{}: {}", key.name, key.example));
            let validator = jsonschema::draft202012::new(&schema_of(key, table)).expect("a schema");
            let value = &value[key.name];
            assert!(validator.is_valid(value), "{} of {}: {value}", key.name, table.name);
            assert!(key.what.ends_with('.') && key.what.len() > 5, "{}: {}", key.name, key.what);
        }
    }
}

#[test]
fn a_key_and_a_code_never_share_a_name() {
    for name in told::names() {
        assert!(rungbook::check::explain(name).is_err(), "`{name}` is a key and a code");
    }
}

#[test]
fn other_words_for_a_key_lead_to_one_key() {
    for table in tables() {
        let mut seen = std::collections::BTreeSet::new();
        for key in table.keys {
            for word in std::iter::once(&key.name).chain(key.also) {
                assert!(seen.insert(*word), "`{word}` twice in {}", table.name);
            }
        }
    }
}

/// The page of all keys and of all words of poses.
fn page() -> String {
    format!(
        "# Every key, and every word of a pose\n\n\
         What may be written in the files of a library. `rungbook explain KEY` says the same of one \
         key, `rungbook explain pose` of poses. Nothing reads this file; it is made from what the \
         readers themselves use.\n{}\n## Poses\n\n{}",
        told::reference(),
        pose::reference()
    )
}

#[test]
fn the_page_of_keys_is_what_the_description_says() {
    let path = house().join("src/library/keys/KEYS.md");
    if std::env::var_os("RUNGBOOK_BLESS").is_some() {
        std::fs::write(&path, page()).expect("it can be written");
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(written == page(), "KEYS.md is behind: RUNGBOOK_BLESS=1 cargo test --test keys");
}

#[test]
fn a_shape_is_always_told_in_words() {
    for table in tables() {
        for key in table.keys {
            let words = told::shape(&key.shape);
            assert!(words.contains(' ') || matches!(key.shape, Shape::Word([_])), "{words}");
        }
    }
}

/// A library that `rungbook new` wrote.
fn new(arguments: &[&str]) -> tempfile::TempDir {
    let folder = tempfile::TempDir::new().expect("a folder for the test");
    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_rungbook"));
    let made = command.arg("new").arg(folder.path().join("heron-club")).args(arguments).output();
    assert!(made.expect("it runs").status.success());
    folder
}

#[test]
fn a_new_library_leads_editors_from_every_file_to_its_schema() {
    let folder = new(&[]);
    let content = folder.path().join("heron-club/content");
    let mut led = 0;
    for entry in WalkDir::new(&content).into_iter().flatten() {
        let path = entry.path();
        if path.extension().is_none_or(|ending| ending != "yaml") {
            continue;
        }
        let text = std::fs::read_to_string(path).expect("it reads");
        let first = text.lines().next().expect("a line");
        let schema = first.strip_prefix("# yaml-language-server: $schema=").expect(first);
        let schema = path.parent().expect("a folder").join(schema);
        let schema = std::fs::read_to_string(&schema).expect("the schema is there");
        let schema: Value = serde_json::from_str(&schema).expect("JSON");
        let validator = jsonschema::draft202012::new(&schema).expect("a schema");
        assert!(validator.is_valid(&yaml(&text)), "{}", path.display());
        led += 1;
    }
    assert!(led > 35, "{led} files");
    let library = rungbook::library::reader::read(&content).expect("it is there");
    assert!(library.findings.is_empty(), "{:?}", library.findings);
    assert_eq!(library.club.name, "Heron club", "the folder's name, not the starter's");
    assert!(library.club.about.is_none() && library.club.address.is_none());
}

#[test]
fn an_empty_library_has_the_words_and_nothing_else() {
    let folder = new(&["--empty", "--name", "Wren: \"B\" & co"]);
    let content = folder.path().join("heron-club/content");
    let library = rungbook::library::reader::read(&content).expect("it is there");
    assert!(library.findings.is_empty(), "{:?}", library.findings);
    assert_eq!(library.club.name, "Wren: \"B\" & co");
    assert!(library.movements.is_empty() && library.ladders.is_empty());
    assert!(library.words.kit.len() > 10 && library.words.cautions.len() > 10);
    let gym = rungbook::gym::Gym::open(library);
    let findings = rungbook::check::run(&gym);
    assert!(findings.is_empty(), "nothing is unused where nothing is written yet: {findings:?}");
}
