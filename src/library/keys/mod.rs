//! Keys: every key of a library's files, described once. The readers, their hints, `rungbook
//! explain`, the reference for coaches and the schemas for editors all take their words from here.
//! Never reads a file.

mod club;
mod ladder;
mod movement;
mod roster;
pub mod schema;
mod session;
pub mod told;
mod words;

pub use club::*;
pub use ladder::*;
pub use movement::*;
pub use roster::*;
pub use session::*;
pub use words::*;

use super::Unit;

/// The keys of one map, such as those of a ladder.
#[derive(Debug)]
pub struct Table {
    /// Its short name, such as `ladder test`; what `rungbook explain` finds it by.
    pub name: &'static str,
    /// What a finding calls such a map: `a ladder`.
    pub said: &'static str,
    /// The map itself, as a coach would write it in one line.
    pub example: &'static str,
    /// Every key, in the order in which an entry is best written.
    pub keys: &'static [Key],
    /// Keys of which at least one must be there.
    pub needs: &'static [&'static str],
    /// Whether only one of them may be.
    pub only_one: bool,
    /// What stands under other keys, which the coach chooses: the settings of a rung.
    pub others: Option<Others>,
}

/// Keys that the coach chooses.
#[derive(Debug, Clone, Copy)]
pub struct Others {
    /// What they are.
    pub what: &'static str,
    /// What stands under each.
    pub shape: Shape,
}

/// One key.
#[derive(Debug)]
pub struct Key {
    /// As it is written.
    pub name: &'static str,
    /// What may stand behind it.
    pub shape: Shape,
    /// Whether it must be there.
    pub must: bool,
    /// What stands behind it in a good entry.
    pub example: &'static str,
    /// What it is for.
    pub what: &'static str,
    /// Other words that people write for it.
    pub also: &'static [&'static str],
}

/// What may stand behind a key.
#[derive(Debug, Clone, Copy)]
pub enum Shape {
    /// One text.
    Text,
    /// The id of something written elsewhere: `movement`.
    Id(&'static str),
    /// One of these words.
    Word(&'static [&'static str]),
    /// A whole number between two.
    Whole(u32, u32),
    /// A number between two.
    Number(f64, f64),
    /// `true` or `false`.
    Truth,
    /// A value with its unit written: `3 s`.
    Quantity(Unit),
    /// A number in the setting's own unit, the unit written or not.
    OfSetting,
    /// A value with a unit, of whichever setting the key names.
    AnyQuantity,
    /// `up to 45 cm` or `from 60 deg`.
    Reach,
    /// A number or a span such as `6-10`, perhaps with this unit.
    Count(&'static str),
    /// A dose in words: `3 x 6-10`.
    DoseInWords,
    /// A day: `2027-01-05`.
    Day,
    /// The tag of a language: `en-GB`.
    Language,
    /// The address of a site.
    Address,
    /// A colour: `#1f4e79`.
    Colour,
    /// A pose, see `rungbook explain pose`.
    Pose,
    /// Several of these.
    List(&'static Shape),
    /// Keys and values.
    Map(&'static Table),
    /// Keys and values as in the table of this name, in which this stands.
    Same(&'static str),
    /// Names that the coach chooses or that stand elsewhere, each with its value.
    Each(&'static str, &'static Shape),
    /// Nothing: the key alone.
    Nothing,
    /// Any one of these.
    Any(&'static [Shape]),
}

impl Key {
    const fn may(
        name: &'static str,
        shape: Shape,
        example: &'static str,
        what: &'static str,
    ) -> Key {
        Key { name, shape, must: false, example, what, also: &[] }
    }

    const fn must(
        name: &'static str,
        shape: Shape,
        example: &'static str,
        what: &'static str,
    ) -> Key {
        Key { must: true, ..Key::may(name, shape, example, what) }
    }

    const fn also(mut self, also: &'static [&'static str]) -> Key {
        self.also = also;
        self
    }
}

/// Ids that an entry had before.
const FORMERLY: Key = Key::may(
    "formerly",
    Shape::List(&Shape::Text),
    "[old-id]",
    "Ids that it had before; links to them lead here. `rungbook rename` writes it.",
);

impl Table {
    const fn of(
        name: &'static str,
        said: &'static str,
        example: &'static str,
        keys: &'static [Key],
    ) -> Table {
        Table { name, said, example, keys, needs: &[], only_one: false, others: None }
    }

    const fn and(mut self, what: &'static str, shape: Shape) -> Table {
        self.others = Some(Others { what, shape });
        self
    }

    const fn needing(mut self, needs: &'static [&'static str], only_one: bool) -> Table {
        self.needs = needs;
        self.only_one = only_one;
        self
    }

    /// The key of a name.
    pub fn key(&self, name: &str) -> Option<&Key> {
        self.keys.iter().find(|key| key.name == name)
    }

    /// The key that people mean by another word for it.
    pub fn key_also_called(&self, word: &str) -> Option<&Key> {
        let word = word.to_lowercase().replace(['_', ' '], "-");
        let called = |key: &&Key| key.name == word || key.also.contains(&word.as_str());
        self.keys.iter().find(called)
    }
}

/// A kind of file that a coach writes.
#[derive(Debug)]
pub struct FileKind {
    /// Its name, also that of its schema: `ladder`, `words-kit`.
    pub name: &'static str,
    /// Where such files stand.
    pub home: &'static str,
    /// What the whole file is.
    pub shape: Shape,
}

/// Every kind of file of a library, in reading order.
pub static FILE_KINDS: [FileKind; 14] = [
    FileKind {
        name: "movement",
        home: "movements/<pattern>/<id>.md",
        shape: Shape::Map(&MOVEMENT),
    },
    FileKind { name: "ladder", home: "ladders/<id>.yaml", shape: Shape::Map(&LADDER) },
    FileKind { name: "session", home: "sessions/<id>.yaml", shape: Shape::Map(&SESSION) },
    FileKind { name: "cycle", home: "cycles/<id>.yaml", shape: Shape::Map(&CYCLE) },
    FileKind { name: "club", home: "club.yaml", shape: Shape::Map(&CLUB) },
    FileKind {
        name: "words-kit",
        home: "words/kit.yaml",
        shape: Shape::Each("ids", &Shape::Map(&KIT)),
    },
    FileKind {
        name: "words-traits",
        home: "words/traits.yaml",
        shape: Shape::Each("ids", &Shape::Map(&TRAIT)),
    },
    FileKind {
        name: "words-changes",
        home: "words/changes.yaml",
        shape: Shape::Each("ids", &Shape::Map(&CHANGE)),
    },
    FileKind {
        name: "words-cautions",
        home: "words/cautions.yaml",
        shape: Shape::Each("ids", &Shape::Map(&CAUTION)),
    },
    FileKind {
        name: "words-faults",
        home: "words/faults.yaml",
        shape: Shape::Each("ids", &Shape::Map(&KNOWN_FAULT)),
    },
    FileKind {
        name: "words-patterns",
        home: "words/patterns.yaml",
        shape: Shape::Each("ids", &Shape::Map(&PATTERN)),
    },
    FileKind {
        name: "words-muscles",
        home: "words/muscles.yaml",
        shape: Shape::Each("ids", &Shape::Map(&MUSCLE)),
    },
    FileKind {
        name: "words-sources",
        home: "words/sources.yaml",
        shape: Shape::Each("ids", &Shape::Map(&SOURCE)),
    },
    FileKind { name: "words-synonyms", home: "words/synonyms.yaml", shape: Shape::Map(&SYNONYMS) },
];

/// The kind of the file at a path below the library, such as `ladders/row.yaml`.
pub fn kind_of_file(path: &str) -> Option<&'static FileKind> {
    let name = match path.split('/').collect::<Vec<_>>()[..] {
        ["movements", .., file] if file.ends_with(".md") => "movement".to_string(),
        ["ladders", file] if file.ends_with(".yaml") => "ladder".to_string(),
        ["sessions", file] if file.ends_with(".yaml") => "session".to_string(),
        ["cycles", file] if file.ends_with(".yaml") => "cycle".to_string(),
        ["club.yaml"] => "club".to_string(),
        ["words", file] => format!("words-{}", file.strip_suffix(".yaml")?),
        _ => return None,
    };
    FILE_KINDS.iter().find(|kind| kind.name == name)
}

/// Every table of a kind of file, the outermost first, each once.
pub fn tables_of(kind: &FileKind) -> Vec<&'static Table> {
    let mut found = Vec::new();
    gather(&kind.shape, &mut found);
    found
}

/// Every table of the roster, the outermost first, each once: no part of a library.
pub fn roster_tables() -> Vec<&'static Table> {
    tables_of(&ROSTER)
}

/// Every table of a library's files, each once.
pub fn tables() -> Vec<&'static Table> {
    let mut found = Vec::new();
    FILE_KINDS.iter().for_each(|kind| gather(&kind.shape, &mut found));
    found
}

fn gather(shape: &Shape, found: &mut Vec<&'static Table>) {
    match shape {
        Shape::Map(table) => {
            if found.iter().any(|known| known.name == table.name) {
                return;
            }
            found.push(table);
            table.keys.iter().for_each(|key| gather(&key.shape, found));
        }
        Shape::List(each) | Shape::Each(_, each) => gather(each, found),
        Shape::Any(shapes) => shapes.iter().for_each(|one| gather(one, found)),
        _ => {}
    }
}
